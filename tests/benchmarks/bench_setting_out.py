# ruff: noqa: T201 - a benchmark prints
"""Time setting-out and offcuts: ``python tests/benchmarks/bench_setting_out.py``.

Prints, for 50 invented bathrooms on one core: medians against the limits; the time of one start in
the search against a loop that cuts every tile with shapely, and against one vectorised shapely
call, at the same starts with the same counts; tiles opened against an exact set partition.
"""

import os
import statistics
import sys
import time
from collections.abc import Callable, Iterable
from functools import partial
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).parents[1] / "geometry"))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import numpy as np
import shapely
from pace import machine
from test_off_cuts import opened_and_least
from tiling_cases import GRID, HALF, MM, THIRD, dice_of, invented_bathroom, laid, room, spec, tile

from sheetcalc.domain.finish import Bond, BondKind, Run, SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Region, Surface
from sheetcalc.geometry.off_cuts.pooling import pool_off_cuts
from sheetcalc.geometry.setting_out.aims import DEFAULT_AIMS
from sheetcalc.geometry.setting_out.candidates import critical_starts
from sheetcalc.geometry.setting_out.choice import Lattice
from sheetcalc.geometry.setting_out.request import lattice_of, request
from sheetcalc.geometry.setting_out.search import best_start, measured
from sheetcalc.geometry.setting_out.slabs import Slabs, slabs_of
from sheetcalc.geometry.setting_out.weighing import weigh

JOB = Job()
ROOMS = 50
SPECK = 1.0


def rooms(*, fixtures: bool) -> list[Region]:
    dice = dice_of(11)
    return [invented_bathroom(dice, fixtures=fixtures) for _ in range(ROOMS)]


def median_ms(work: Iterable[Callable[[], object]]) -> float:
    """Median over rooms of the best of three runs [ms]."""
    times = []
    for one in work:
        best = min(_timed(one) for _ in range(3))
        times.append(best * 1e3)
    return statistics.median(times)


def _timed(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return time.process_time() - start


def whole_setting_out() -> None:
    """Search, cut list, joints, checks, words: everything but offcuts and drawings."""
    plain, fixtures = rooms(fixtures=False), rooms(fixtures=True)
    chips = tile(297, 297, chip_length_mm320=25 * MM, chip_width_mm320=25 * MM)

    def of(
        where: list[Region], face: tuple[int, int], how: SurfaceSpec
    ) -> list[Callable[[], object]]:
        return [lambda r=r: laid(r, tile(*face), how, JOB) for r in where]

    mosaic: list[Callable[[], object]] = [lambda: laid(room(12000, 12000), chips, spec(), JOB)] * 9
    herringbone = spec(Bond(BondKind.HERRINGBONE))
    diagonal = spec(Bond(BondKind.DIAGONAL_GRID))
    cases = [
        ("grid, plain bathroom", 1, of(plain, (600, 300), spec(GRID))),
        ("grid, with fixtures", 5, of(fixtures, (600, 300), spec(GRID))),
        ("1/2 bond, with fixtures", 15, of(fixtures, (600, 300), spec(HALF))),
        ("1/3 bond, with fixtures", 15, of(fixtures, (600, 300), spec(THIRD))),
        ("herringbone, with fixtures", 60, of(fixtures, (600, 150), herringbone)),
        ("45 degrees, with fixtures", 100, of(fixtures, (300, 300), diagonal)),
        ("12 x 12 m in 25 mm mosaic", 20, mosaic),
    ]
    print(f"{'whole setting-out of one surface':34}{'median ms':>10}{'limit':>8}")
    for name, limit, work in cases:
        print(f"{name:34}{median_ms(work):10.2f}{limit:8.0f}")


def search_alone() -> None:
    """Only the search, without cut lists and joints."""
    for name, bond in (("grid", GRID), ("1/3", THIRD)):
        prepared = [_prepared(r, bond) for r in rooms(fixtures=True)]
        took = median_ms([lambda a=a: best_start(a[0], a[1], DEFAULT_AIMS) for a in prepared])
        print(f"{'search alone, ' + name:34}{took:10.2f}")


def _prepared(where: Region, bond: Bond) -> tuple[Slabs, Lattice]:
    how = spec(bond, Run("degrees", 0.0))
    req = request("1", Surface("f", SurfaceKind.FLOOR, where), how, tile(600, 300), JOB)
    lattice = lattice_of(req)
    return slabs_of(where, JOB.perimeter_gap_mm320).scaled(lattice.scale), lattice


def _boxes(field: shapely.Polygon, lattice: Lattice, x: int, y: int) -> np.ndarray:
    """Tiles of a grid that may touch a field, in 1/320 mm."""
    s = lattice.scale
    left, front, right, far = field.bounds
    pitch, rise = lattice.pitch / s, lattice.rise / s
    columns = np.arange((left - x / s) // pitch - 1, (right - x / s) // pitch + 1)
    rows = np.arange((front - y / s) // rise - 1, (far - y / s) // rise + 1)
    x0, y0 = np.meshgrid(x / s + columns * pitch, y / s + rows * rise)
    x0, y0 = x0.reshape(-1), y0.reshape(-1)
    return np.stack([x0, y0, x0 + lattice.length / s, y0 + lattice.width / s])


def per_start() -> None:
    """One start in the search against shapely, at the same starts."""
    ours, loops, calls, checked = [], [], [], 0
    for where in rooms(fixtures=True)[:20]:
        slabs, lattice = _prepared(where, GRID)
        xs = critical_starts(slabs.xs, lattice.length, lattice.part, [lattice.small_length], [0])
        ys = critical_starts(slabs.ys, lattice.width, lattice.rise, [lattice.small_width], [0])
        took = min(_timed(partial(weigh, slabs, lattice, DEFAULT_AIMS, xs, ys)) for _ in range(3))
        ours.append(took / (len(xs) * len(ys)))
        (patch,) = where.patches
        field = shapely.Polygon(patch.shell, patch.holes).buffer(-6 * MM, join_style="mitre")
        full = lattice.length * lattice.width / lattice.scale**2
        dice = dice_of(5)
        for _ in range(4):
            x, y = int(dice.choice(xs)), int(dice.choice(ys))
            boxes = _boxes(field, lattice, x, y)
            begun = time.process_time()
            areas = [field.intersection(shapely.box(*b)).area for b in boxes.T]
            loops.append(time.process_time() - begun)
            begun = time.process_time()
            together = shapely.area(shapely.intersection(field, shapely.box(*boxes)))
            calls.append(time.process_time() - begun)
            found = measured(slabs, lattice, DEFAULT_AIMS, x, y)
            laid_ = sum(a > SPECK for a in areas)
            whole = sum(a > full - SPECK for a in areas)
            same = found.laid == laid_ == int((together > SPECK).sum())
            if not same or found.cut != laid_ - whole:
                print(f"counts differ: {found} against {laid_}, {whole}")
                sys.exit(1)
            checked += 1
    one, loop, call = (statistics.median(t) * 1e6 for t in (ours, loops, calls))
    print(f"\none start: {one:.2f} us; loop over tiles {loop:.0f} us, {loop / one:.0f} x (300);"
          f"\n  one vectorised call {call:.0f} us = {call / one:.0f} x (10);"
          f" counts equal at {checked} starts")  # fmt: skip


def corners_not_tiles() -> None:
    """Cost against the number of tiles, the outline being the same."""
    where = invented_bathroom(dice_of(3))
    print("\ncost and tiles, one room with fixtures")
    for size in (600, 300, 100, 30, 10):
        took = median_ms([lambda s=size: laid(where, tile(s, s), spec(GRID, joint=MM), JOB)] * 5)
        out = laid(where, tile(size, size), spec(GRID, joint=MM), JOB)
        print(f"  {size:4} mm {out.whole + out.cut:8} tiles {took:8.2f} ms")


def off_cuts() -> None:
    """Tiles opened against the optimum, and the time of 48 distinct rooms."""
    results = [opened_and_least(n) for n in range(200)]
    best = sum(a == b for a, b in results)
    print(f"\noffcuts: optimal in {best} of {len(results)} rooms (limit 190), "
          f"at most {max(a - b for a, b in results)} more (limit 1)")  # fmt: skip
    dice = dice_of(8)
    many = [invented_bathroom(dice) for _ in range(48)]
    begun = time.process_time()
    for where in many:
        floor = laid(where, tile(600, 300), spec(THIRD), JOB)
        walls = [laid(room(n, 2400), tile(600, 300), spec(GRID, kind=SurfaceKind.WALL), JOB,
                      kind=SurfaceKind.WALL) for n in (1800, 2100)]  # fmt: skip
        pool_off_cuts([floor, *walls], JOB)
    print(f"48 distinct rooms, floor in 1/3 and two walls, with offcuts: "
          f"{time.process_time() - begun:.2f} s (limit 1 s)")  # fmt: skip


def main() -> None:
    """Run everything."""
    print(machine())
    laid(room(2000, 2000), tile(300, 300), spec(), JOB)  # load the libraries
    whole_setting_out()
    search_alone()
    per_start()
    corners_not_tiles()
    off_cuts()


if __name__ == "__main__":
    main()

"""Cable planner on invented zones: how many are planned, how well, how fast.

Run by hand: ``python tests/benchmarks/bench_cable.py --zones 1000 --seed 1``.
"""

import argparse
import statistics
import sys
import time
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

import shapely
from msgspec import Struct, field

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "geometry"))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from heated_rooms import cable
from invented_zones import WALL, InventedZone, invented_zones
from pace import machine

from sheetcalc.domain.catalogue import Cable
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.geometry.heating.cable_choice import length_m, spacing_for_m, watts_per_m
from sheetcalc.geometry.heating.cable_curve import curve_of
from sheetcalc.geometry.heating.cable_zone import LaidCable, ZonePlan, plan_zone
from sheetcalc.geometry.heating.free_floor import HeatedZone, Obstacle

WATTS_PER_M = 12.0
SHORTEST_M = 4.0
LENGTHS = 12


class Tally(Struct):
    """What was seen."""

    tried: int = 0
    below_shortest: int = 0
    planned: int = 0
    reasons: Counter[str] = field(default_factory=Counter)
    misses_mm: list[float] = field(default_factory=list)
    short_mm: list[float] = field(default_factory=list)
    crossings: int = 0
    cold_shares: list[float] = field(default_factory=list)
    milliseconds: list[float] = field(default_factory=list)
    single: int = 0
    differs: int = 0
    over: list[float] = field(default_factory=list)


def stock(step: float) -> list[Cable]:
    """Twelve lengths, each longer than the last by a step."""
    lengths = [round(SHORTEST_M * step**i, 2) for i in range(LENGTHS)]
    return [
        cable(f"C{i}", metres, metres * WATTS_PER_M, spacing=50) for i, metres in enumerate(lengths)
    ]


def zone_of(invented: InventedZone) -> HeatedZone:
    """An invented zone as the planner takes it."""
    things = tuple(Obstacle("", shape, clear, shape) for shape, clear in invented.things)
    return HeatedZone(
        "zone", "floor", SurfaceKind.FLOOR, "warm", invented.floor, invented.floor, things,
        invented.free, RowRef(""),
    )  # fmt: skip


def measure(zones: Sequence[InventedZone], cables: list[Cable], pitch: float | None) -> Tally:
    """Plan every zone once."""
    job = Job(clearance_wall_mm320=round(WALL * 320))
    tally = Tally()
    for invented in zones:
        zone = zone_of(invented)
        largest = max((g.area for g in shapely.get_parts(zone.free)), default=0.0) / 1e6
        if cables[0].watts > job.highest_density_w_m2 * largest:
            tally.below_shortest += 1
            continue
        tally.tried += 1
        start = time.process_time()
        plan = plan_zone(zone, cables, job, pitch, invented.thermostat)
        tally.milliseconds.append((time.process_time() - start) * 1000)
        if not plan.laid:
            tally.reasons[plan.reasons[0]] += 1
            continue
        tally.planned += 1
        judge(tally, zone, plan)
        compare(tally, zone, plan, cables, job)
    return tally


def judge(tally: Tally, zone: HeatedZone, plan: ZonePlan) -> None:
    """Measure a plan again on its true curve, with true distances."""
    heated = []
    for laid in plan.laid:
        curve = curve_of(laid.plan.path, laid.rules.radius_mm)
        tally.misses_mm.append(abs(curve.length - laid.rules.length_mm))
        shorts = [WALL - zone.floor.boundary.distance(curve)]
        shorts += [o.clearance_mm - o.shape.distance(curve) for o in zone.obstacles]
        tally.short_mm.append(max(0.0, *shorts))
        tally.crossings += not curve.is_simple
        heated.append(curve.buffer(laid.plan.widest_mm / 2, quad_segs=8))
    cold = zone.free.difference(shapely.union_all(heated)).area / zone.free.area
    tally.cold_shares.append(cold)


def compare(tally: Tally, zone: HeatedZone, plan: ZonePlan, cables: list[Cable], job: Job) -> None:
    """Hold the plan's cable against the one that area by spacing picks."""
    if len(plan.laid) > 1 or zone.free_m2 * job.target_density_w_m2 > cables[-1].watts:
        return
    tally.single += 1
    laid: LaidCable = plan.laid[0]
    # the longest that keeps the spacing at which it gives the target density
    fitting = [
        c
        for c in cables
        if spacing_for_m(zone.free_m2, length_m(c)) >= watts_per_m(c) / job.target_density_w_m2
    ]
    tally.differs += not fitting or max(fitting, key=length_m).code != laid.cable.code


def show(name: str, tally: Tally) -> None:
    """Print what was seen."""
    times = sorted(tally.milliseconds)
    print(  # noqa: T201 - a benchmark prints
        f"{name}: {tally.planned} of {tally.tried} planned "
        f"({tally.planned / tally.tried:.1%}; {tally.below_shortest} below the shortest cable), "
        f"miss at most {max(tally.misses_mm):.1f} mm, clearance short by at most "
        f"{max(tally.short_mm):.3f} mm, {tally.crossings} crossings, cold "
        f"{statistics.mean(tally.cold_shares):.1%} on average and "
        f"{max(tally.cold_shares):.0%} at most; {statistics.median(times):.1f} ms at the median, "
        f"{times[int(len(times) * 0.99)]:.1f} ms at 99 %, {times[-1]:.1f} ms at worst; another "
        f"cable than area by spacing picks in {tally.differs / max(1, tally.single):.0%} of "
        f"{tally.single} zones with one cable"
    )
    for reason, count in tally.reasons.most_common():
        print(f"  {count} x {reason}")  # noqa: T201 - a benchmark prints


def main() -> None:
    """Run from the command line."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--zones", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    zones = invented_zones(given.seed, given.zones)
    for step in (1.15, 1.25):
        for pitch in (30.0, None):
            words = "free spacing" if pitch is None else f"knobs of {pitch:.0f} mm"
            show(f"steps of {step - 1:.0%}, {words}", measure(zones, stock(step), pitch))
            print(f"  ({machine()})")  # noqa: T201 - beside the milliseconds


if __name__ == "__main__":
    main()

"""Makers of surfaces, tiles and jobs for the tests of setting-out."""

import random
from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from sheetcalc.domain.catalogue import PricePer, Tile
from sheetcalc.domain.finding import NOWHERE
from sheetcalc.domain.finish import Bond, BondKind, Run, SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Circle, Patch, Point, Region, Ring, Surface
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out import set_out

MM = 320
INCH = 8128
NO_GAP = Job(perimeter_gap_mm320=0)

GRID = Bond()
HALF = Bond(BondKind.OFFSET, 2)
THIRD = Bond(BondKind.OFFSET, 3)


def dice_of(seed: int) -> random.Random:
    """Dice that fall alike every time."""
    return random.Random(seed)  # noqa: S311 - nothing is kept secret with it


def tile(length: float, width: float, unit: int = MM, **more: object) -> Tile:
    """A plain tile; sizes in ``unit``."""
    plain = Tile(
        code="T",
        supplier=None,
        supplier_code=None,
        description="tile",
        material="porcelain",
        edge="rectified",
        length_mm320=round(length * unit),
        width_mm320=round(width * unit),
        thickness_mm320=9 * MM,
        chip_length_mm320=None,
        chip_width_mm320=None,
        size_spread_mm320=None,
        edge_warpage_mm320=None,
        pieces_per_box=6,
        price=None,
        price_per=PricePer.BOX,
        box_weight_kg=None,
        one_batch=False,
        lead_days=None,
        source=NOWHERE,
    )
    return replace(plain, **more)  # type: ignore[arg-type]


def spec(
    bond: Bond = GRID,
    run: Run = Run(),  # noqa: B008 - frozen
    joint: int = 3 * MM,
    kind: SurfaceKind = SurfaceKind.FLOOR,
) -> SurfaceSpec:
    """How a surface is tiled."""
    return SurfaceSpec(
        "F", kind, "T", bond, run, joint, None, None, None, None, None, None, None, None, NOWHERE
    )


def box(left: float, front: float, right: float, far: float, unit: int = MM) -> Ring:
    """Counter-clockwise rectangle."""
    a, b, c, d = (round(v * unit) for v in (left, front, right, far))
    return ((a, b), (c, b), (c, d), (a, d))


def region(shell: Iterable[Point], *holes: Iterable[Point]) -> Region:
    """One patch; holes are given counter-clockwise and turned."""
    return Region((Patch(tuple(shell), tuple(tuple(reversed(tuple(h))) for h in holes)),))


def room(length: float, width: float, unit: int = MM) -> Region:
    """Plain rectangle."""
    return region(box(0, 0, length, width, unit))


def laid(  # noqa: PLR0913 - what a setting-out takes
    where: Region,
    what: Tile,
    how: SurfaceSpec | None = None,
    job: Job = NO_GAP,
    *,
    kind: SurfaceKind = SurfaceKind.FLOOR,
    holes: Sequence[Circle] = (),
    origin: tuple[int | None, int | None] = (None, None),
    degrees: float | None = None,
) -> SettingOut:
    """Set out one surface."""
    surface = Surface("floor", kind, where, tuple(holes))
    return set_out("1", surface, how or spec(kind=kind), what, job, origin=origin, degrees=degrees)


def moved(where: Region, left: int, front: int) -> Region:
    """Translate a region."""
    return _mapped(where, lambda x, y: (x + left, y + front))


def turned_round(where: Region) -> Region:
    """Turn a region by half a turn about its frame's origin."""
    return _mapped(where, lambda x, y: (-x, -y))


def turned_left(where: Region) -> Region:
    """Turn a region by a quarter turn."""
    return _mapped(where, lambda x, y: (-y, x))


def mirrored(where: Region) -> Region:
    """Mirror left and right."""
    flipped = _mapped(where, lambda x, y: (-x, y))
    return Region(
        tuple(
            Patch(tuple(reversed(p.shell)), tuple(tuple(reversed(h)) for h in p.holes))
            for p in flipped.patches
        )
    )


def _mapped(where, point) -> Region:  # type: ignore[no-untyped-def]  # noqa: ANN001
    return Region(
        tuple(
            Patch(
                tuple(point(*q) for q in p.shell),
                tuple(tuple(point(*q) for q in h) for h in p.holes),
            )
            for p in where.patches
        )
    )


def invented_bathroom(rng: random.Random, *, fixtures: bool = True) -> Region:
    """A rectangle or an L, with a corner cabinet or a pier: sizes in whole millimetres."""
    length, width = rng.randint(1200, 3400), rng.randint(1200, 3000)
    if not fixtures or rng.random() < 0.4:
        return room(length, width)
    a, b = rng.randint(700, length - 250), rng.randint(700, width - 250)
    shell = [(0, 0), (length, 0), (length, b), (a, b), (a, width), (0, width)]
    if rng.random() < 0.5:
        x, y = rng.randint(60, 400), rng.randint(60, 400)
        pier = box(x, y, x + rng.randint(60, 200), y + rng.randint(60, 200))
        return region([(x * MM, y * MM) for x, y in shell], pier)
    return region([(x * MM, y * MM) for x, y in shell])

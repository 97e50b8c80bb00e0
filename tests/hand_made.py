"""Small rooms, finishes and catalogues made by hand, for tests of lines."""

from typing import Any

from msgspec.structs import replace

from sheetcalc.domain.catalogue import (
    Bag,
    BagKind,
    Buyable,
    Catalogue,
    PricePer,
    Roll,
    RollKind,
    Sundry,
    Tile,
    WasteFactor,
)
from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.finish import (
    Bond,
    Finish,
    Layer,
    LayerRole,
    Notch,
    NotchShape,
    Run,
    SurfaceKind,
    SurfaceSpec,
)
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import (
    FOOT,
    INCH,
    KILOGRAM,
    PIECE,
    POUND,
    SQUARE_FOOT,
    US_GALLON,
    JobUnits,
)
from sheetcalc.domain.quantity import QuantityLine
from sheetcalc.domain.room import Patch, Region, Room, Span, Surface, Wall
from sheetcalc.domain.room_measures import RoomMeasures
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.lines.line import JobContext, JobLine, Line, LineContext

MM = 320
IN = 8128
METRIC = Job()
US = Job(
    units=JobUnits(
        room_length=FOOT, small_length=INCH, long_length=FOOT, area=SQUARE_FOOT,
        volume=US_GALLON, mass=POUND,
    ),
    skim_mm320=IN // 16,
    bead_joint_width_mm320=IN // 4,
    bead_joint_depth_mm320=IN // 4,
    bead_fillet_mm320=IN // 4,
    upturn_mm320=6 * IN,
)  # fmt: skip


def box(length: int, width: int, left: int = 0, front: int = 0) -> Region:
    """Rectangle [1/320 mm]."""
    right, back = left + length, front + width
    return Region((Patch(((left, front), (right, front), (right, back), (left, back))),))


def square_notch(size_mm320: int) -> Notch:
    return Notch(NotchShape.SQUARE, size_mm320, size_mm320, size_mm320)


def tile(code: str = "T", **changes: object) -> Tile:
    """300 x 300 x 8 mm porcelain, 10 a box."""
    row = Tile(
        code, "S", None, f"Tile {code}", "porcelain", "rectified", 300 * MM, 300 * MM, 8 * MM,
        None, None, None, None, 10, None, PricePer.BOX, None, one_batch=False, lead_days=None,
        source=RowRef("Tiles", 5),
    )  # fmt: skip
    return replace(row, **changes)


def bag(code: str, kind: BagKind, **changes: object) -> Bag:
    """20 kg bag without a yield."""
    row = Bag(
        code, "S", None, f"Bag {code}", kind, 20.0, KILOGRAM, "bag", None, None, None, None,
        None, RowRef("Bags and pails", 5),
    )  # fmt: skip
    return replace(row, **changes)


def roll(code: str, kind: RollKind, **changes: object) -> Roll:
    """1 x 30 m, butted, 3 mm thick, no knobs."""
    row = Roll(
        code, "S", None, f"Roll {code}", kind, 1000 * MM, 30_000 * MM, 3 * MM, 0, None, None,
        one_way=False, package="roll", price=None, weight_kg=None, lead_days=None,
        source=RowRef("Rolls and sheets", 5),
    )  # fmt: skip
    return replace(row, **changes)


def sundry(code: str, basis: str, rate: float = 1.0, **changes: object) -> Sundry:
    """One piece for each of the basis, 100 a box."""
    row = Sundry(
        code, "S", None, f"Sundry {code}", basis, None, rate, None, (), 100.0, PIECE, "box",
        None, None, None, RowRef("Sundries", 5),
    )  # fmt: skip
    return replace(row, **changes)


def catalogue(*items: Buyable, waste: tuple[WasteFactor, ...] = ()) -> Catalogue:
    def of(kind: type) -> dict[str, Any]:
        return {i.code: i for i in items if isinstance(i, kind)}

    return Catalogue(of(Tile), of(Bag), of(Roll), {}, of(Sundry), waste, (), {}, {})


def spec(kind: SurfaceKind = SurfaceKind.FLOOR, **changes: object) -> SurfaceSpec:
    """Tile T in grid, joint 3 mm, 10 mm square notch at the Job's angle and skim."""
    row = SurfaceSpec(
        "F", kind, "T", Bond(), Run(), 3 * MM, square_notch(10 * MM), None, None, "M", "G", "S",
        None, None, RowRef("Finishes", 5),
    )  # fmt: skip
    return replace(row, **changes)


def layer(
    role: LayerRole, item: str | None, kind: SurfaceKind = SurfaceKind.FLOOR, **changes: object
) -> Layer:
    row = Layer("F", kind, 1, role, item, None, None, None, None, None, "", RowRef("Build-up", 5))
    return replace(row, **changes)


def finish(*specs: SurfaceSpec, layers: tuple[Layer, ...] = ()) -> Finish:
    kinds = dict.fromkeys(x.surface for x in layers)
    return Finish(
        "F",
        {s.surface: s for s in specs},
        {k: tuple(x for x in layers if x.surface is k) for k in kinds},
    )


MEASURES = RoomMeasures(
    outline_perimeter_m=10.0,
    doorway_m=0.8,
    inside_corners=4,
    outside_corners=0,
    change_of_plane_m={},
    wet_inside_corners=0,
    wet_outside_corners=0,
    wet_change_of_plane_m=0.0,
    fixture_edge_m=0.0,
    round_fixture_m=0.0,
)


def floor(length_mm: int = 3000, width_mm: int = 2000, **changes: object) -> Surface:
    return replace(
        Surface("floor", SurfaceKind.FLOOR, box(length_mm * MM, width_mm * MM)), **changes
    )


def room(*surfaces: Surface, measures: RoomMeasures = MEASURES, **changes: object) -> Room:
    """3 x 2 m, one door of 0.8 m in the near wall."""
    near = (0, 0), (3000 * MM, 0)
    row = Room(
        "101", "P1", 2, ("101", "102"), "F", None, None, handed=False, note="",
        source=RowRef("Rooms", 5), shape="shape", outline=box(3000 * MM, 2000 * MM),
        walls=(Wall("near", *near),), surfaces=surfaces or (floor(),), fixtures=(),
        doorways=(Span("door", "near", (0, 0), (800 * MM, 0), RowRef("Floor pieces", 9)),),
        thermostats=(), measures=measures,
    )  # fmt: skip
    return replace(row, **changes)


def setting_out(surface: Surface, **changes: object) -> SettingOut:
    """48 whole and 22 cut tiles."""
    out = SettingOut(
        "101", surface.key, surface.kind, "T", Bond(), "along the long side", 3 * MM,
        surface.region, (0, 0), (303 * MM, 303 * MM), 48, 22, 1, 70, (), 150 * MM, 0, 66,
        surface.region.area_m2, 0.118, 39.4, 54,
    )  # fmt: skip
    return replace(out, **changes)


def context(  # noqa: PLR0913 - each named where it matters
    *items: Buyable,
    specs: tuple[SurfaceSpec, ...] = (),
    layers: tuple[Layer, ...] = (),
    in_room: Room | None = None,
    outs: tuple[SettingOut, ...] = (),
    job: Job = METRIC,
    waste: tuple[WasteFactor, ...] = (),
    **changes: object,
) -> LineContext:
    work = RoomWork(in_room or room(), {o.surface: o for o in outs})
    ctx = LineContext(
        job, finish(*specs, layers=layers), catalogue(*items, waste=waste), work, **changes
    )
    return replace(ctx, finishes={"F": ctx.finish})


def quantities(line: Line | JobLine, ctx: LineContext | JobContext) -> list[QuantityLine]:
    return [o for o in line.work(ctx) if isinstance(o, QuantityLine)]


def only(line: Line | JobLine, ctx: LineContext | JobContext) -> QuantityLine:
    """Return the one quantity of a line, which has no findings."""
    (outcome,) = line.work(ctx)
    assert isinstance(outcome, QuantityLine), outcome
    return outcome


def findings(line: Line | JobLine, ctx: LineContext | JobContext) -> list[Finding]:
    return [o for o in line.work(ctx) if isinstance(o, Finding)]


def codes(line: Line | JobLine, ctx: LineContext | JobContext) -> list[str]:
    return [f.code for f in findings(line, ctx)]

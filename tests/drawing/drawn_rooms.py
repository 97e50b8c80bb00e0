"""A bathroom set out by hand for the tests of drawings and cards."""

from geometry.tiling_cases import THIRD, spec, tile
from msgspec.structs import replace

from sheetcalc.domain.cable import CablePlan, CableRow
from sheetcalc.domain.finding import NOWHERE
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import (
    Circle,
    Fixture,
    Patch,
    PieceKind,
    Region,
    Room,
    Span,
    Surface,
    Wall,
)
from sheetcalc.domain.room_measures import RoomMeasures
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.drawing.words import Legend
from sheetcalc.geometry.setting_out import set_out

MM = 320
M = 1000 * MM
JOB = Job()
LEGEND = Legend(JOB)


def box(left: int, front: int, right: int, far: int) -> Region:
    """Rectangle [1/320 mm]."""
    return Region((Patch(((left, front), (right, front), (right, far), (left, far))),))


OUTLINE = box(0, 0, 2400 * MM, 1800 * MM)
VANITY = box(1800 * MM, 600 * MM, 2400 * MM, 1200 * MM)
OUTLET = Circle((600 * MM, 1500 * MM), 110 * MM)
FLOOR = Region(
    (
        Patch(
            (
                (0, 0), (2400 * MM, 0), (2400 * MM, 600 * MM), (1800 * MM, 600 * MM),
                (1800 * MM, 1200 * MM), (2400 * MM, 1200 * MM), (2400 * MM, 1800 * MM),
                (0, 1800 * MM),
            )
        ),
    )
)  # fmt: skip


def measures() -> RoomMeasures:
    """Of the rectangle of 2.4 by 1.8 m with a door of 0.8 m."""
    return RoomMeasures(
        outline_perimeter_m=8.4,
        doorway_m=0.8,
        inside_corners=4,
        outside_corners=0,
        change_of_plane_m={},
        wet_inside_corners=0,
        wet_outside_corners=0,
        wet_change_of_plane_m=0.0,
        fixture_edge_m=1.8,
        round_fixture_m=0.0,
    )


def room(**changes: object) -> Room:
    """A room of 2.4 by 1.8 m: door near, vanity at the right wall, outlet far left."""
    corners = OUTLINE.patches[0].shell
    names = ("near", "right", "far", "left")
    walls = [Wall(name, corners[at], corners[(at + 1) % 4]) for at, name in enumerate(names)]
    made = Room(
        name="1.01",
        phase="Floor 1",
        count=2,
        copies=("1.01", "1.02"),
        finish="Bath",
        take_up=None,
        take_up_thickness_mm320=None,
        handed=False,
        note="",
        source=NOWHERE,
        shape="plain",
        outline=OUTLINE,
        walls=tuple(walls),
        surfaces=(
            Surface("floor", SurfaceKind.FLOOR, FLOOR, (OUTLET,)),
            Surface("wall far", SurfaceKind.WALL, box(0, 0, 2400 * MM, 2100 * MM)),
        ),
        fixtures=(
            Fixture("Vanity", PieceKind.CABINET, VANITY, None, None, NOWHERE),
            Fixture("WC outlet", PieceKind.TOILET_OUTLET, None, OUTLET, None, NOWHERE),
        ),
        doorways=(Span("Door", "near", (400 * MM, 0), (1200 * MM, 0), NOWHERE),),
        thermostats=(Span("Thermostat", "near", (1500 * MM, 0), (1500 * MM, 0), NOWHERE),),
        measures=measures(),
    )
    return replace(made, **changes)  # type: ignore[arg-type]


def cable() -> CablePlan:
    """Three rows of 1.5 m, 0.1 m apart, beginning and ending at the right."""
    path = ((1.6, 0.2), (0.1, 0.2), (0.1, 0.3), (1.6, 0.3), (1.6, 0.4), (0.1, 0.4))
    return CablePlan(
        room="1.01", copies=("1.01", "1.02"), phase="Floor 1", zone="main floor", surface="floor",
        cable="H-0047", watts=56.0, volts=230.0, length_m=4.7, spacing_m=0.1, rows=3,
        planned_m=4.7, free_area_m2=0.47, density_w_m2=119.0, amperes=0.24,
        resistance_ohm=944.6, resistance_low_ohm=897.4, resistance_high_ohm=1039.1,
        circuit="H1", circuit_amperes=10.0, thermostat="Thermostat",
        basis="", path=path, rows_along="length", leads="one end", sensor=(1.2, 0.25),
        rows_list=(
            CableRow(1, 0.2, 1.6, 1.6, 3, 0.1),
            CableRow(2, 0.3, 1.6, 3.2, 3, 0.1),
            CableRow(3, 0.4, 1.5, 4.7),
        ),
        check_lengths_m=((1, 1.6), (2, 3.2)), spacing_words="3 knobs (100 mm)",
    )  # fmt: skip


def strips() -> tuple[Strip, ...]:
    """Two strips of underlay side by side, 1 m and 0.8 m wide."""
    common = {"item": "U-1", "phase": "Floor 1", "room": "1.01", "surface": "floor"}
    return (
        Strip(
            **common, piece="underlay, strip 1 of 2", length_mm320=2400 * MM, width_mm320=1000 * MM
        ),
        Strip(
            **common, piece="underlay, strip 2 of 2", length_mm320=2400 * MM,
            width_mm320=800 * MM, front_mm320=1000 * MM,
        ),
    )  # fmt: skip


def work(**changes: object) -> RoomWork:
    """The room with its floor in 600 x 300 thirds, its far wall in a grid, a cable, strips."""
    made = room(**changes)
    floor = set_out("1.01", made.surfaces[0], spec(THIRD), tile(597, 297), JOB)
    wall = set_out("1.01", made.surfaces[1], spec(kind=SurfaceKind.WALL), tile(397, 197), JOB)
    return RoomWork(made, {"floor": floor, "wall far": wall}, strips(), (cable(),))

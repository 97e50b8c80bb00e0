"""A heated room and its cables, short to write in a test: sizes in mm."""

from room_rows import piece, resolve, room_row

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.catalogue import Cable, Catalogue, Roll, RollKind
from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.finish import Bond, Finish, Layer, LayerRole, Run, SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import FloorPiece, Room
from sheetcalc.geometry.heating.room_heating import plan_heating

HERE = RowRef("Finishes", 5)
NOT_ONE_WAY = False


def heated(*kinds: SurfaceKind, underlay: bool = True) -> Finish:
    """Finish that heats these surfaces from the range ``warm``."""
    return Finish(
        "F",
        {
            k: SurfaceSpec(
                "F", k, "T", Bond(), Run(), 960, None, None, None, None, None, None, None, "warm",
                HERE,
            )
            for k in kinds
        },
        {
            k: (
                Layer(
                    "F", k, 1, LayerRole.UNDERLAY, "U", None, None, None, None, None, "", HERE
                ),
            )
            for k in kinds
            if underlay
        },
    )  # fmt: skip


def cable(  # noqa: PLR0913 - a row has so many cells
    code: str,
    metres: float,
    watts: float,
    *,
    volts: float = 230,
    ohms: float | None = -1,
    lead_m: float | None = 10,
    spacing: float | None = 50,
    radius: float | None = 25,
    leads: str = "both ends",
) -> Cable:
    """Cable of the range ``warm``; its resistance is V²/P unless one is given."""
    return Cable(
        code, None, None, code, "warm", round(metres * 320_000), 0.02, watts, volts,
        volts**2 / watts if ohms == -1 else ohms, None, leads,
        None if lead_m is None else round(lead_m * 320_000),
        None if spacing is None else round(spacing * 320),
        None if radius is None else round(radius * 320),
        None, None, RowRef("Heating cables", 5),
    )  # fmt: skip


def stock(*, volts: float = 230, watts_per_m: float = 12.0) -> list[Cable]:
    """Twelve lengths from 4 m in steps of 20 %, 12 W/m."""
    return [
        cable(f"C{i}", 4 * 1.2**i, round(4 * 1.2**i * watts_per_m), volts=volts) for i in range(12)
    ]


def catalogue(*cables: Cable, pitch: float | None = 30) -> Catalogue:
    """Catalogue with these cables and an underlay ``U`` of this knob pitch."""
    roll = Roll(
        "U", None, None, "underlay", RollKind.UNDERLAY_ROLL, 320_000, 3_200_000, None, 0,
        None if pitch is None else round(pitch * 320), None, NOT_ONE_WAY, "roll", None, None, None,
        RowRef("Rolls and sheets", 5),
    )  # fmt: skip
    return Catalogue({}, {}, {"U": roll}, {c.code: c for c in cables}, {}, (), (), {}, {})


FLOOR = heated(SurfaceKind.FLOOR)
BOTH = heated(SurfaceKind.FLOOR, SurfaceKind.SHOWER_FLOOR)
DOOR = piece("Door", "doorway", 900, None, 800, wall="near")
STAT = piece("T", "thermostat", 700, None, wall="near")
NARROW = piece("Door", "doorway", 100, None, 500, wall="near")


def bathroom(*pieces: FloorPiece, length: float = 3000, width: float = 2400) -> Room:
    """Resolved room of this length and width with these pieces."""
    (room,), _ = resolve(room_row(*pieces, length=length, width=width))
    return room


def planned(
    room: Room,
    *cables: Cable,
    finish: Finish = FLOOR,
    job: Job | None = None,
    pitch: float | None = 30,
) -> tuple[tuple[CablePlan, ...], tuple[Finding, ...]]:
    """Cables and findings of a room, from these cables or the usual stock."""
    return plan_heating(room, finish, catalogue(*(cables or stock()), pitch=pitch), job or Job())


def said(findings: tuple[Finding, ...]) -> list[str]:
    """Codes of findings, in order."""
    return [f.code for f in findings]

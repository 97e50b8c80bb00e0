"""Rows of a room, short to write in a test: sizes in mm."""

from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.finish import Bond, Finish, Run, SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import (
    FloorPiece,
    PartKind,
    PieceKind,
    Room,
    RoomDescription,
    Surface,
    WallFace,
    WallLeg,
)
from sheetcalc.geometry.rooms.outline import resolve_rooms


def mm(value: float | None) -> int | None:
    return None if value is None else round(value * 320)


def size(value: float) -> int:
    return round(value * 320)


_KINDS = {k.value: k for k in PieceKind}
_PARTS = {k.value: k for k in PartKind}


def piece(  # noqa: PLR0913, PLR0917 - a row has so many cells
    name: str,
    kind: str,
    left: float | None = None,
    front: float | None = None,
    length: float | None = None,
    width: float | None = None,
    *,
    diameter: float | None = None,
    height: float | None = None,
    wall: str | None = None,
) -> FloorPiece:
    return FloorPiece(
        "R", name, _KINDS[kind], wall, mm(left), mm(front), mm(length), mm(width),
        mm(diameter), mm(height), "", RowRef("Floor pieces", 5),
    )  # fmt: skip


def face(  # noqa: PLR0913 - a row has so many cells
    wall: str,
    length: float,
    height: float,
    *,
    part: str = "face",
    left: float = 0,
    bottom: float = 0,
    depth: float | None = None,
) -> WallFace:
    return WallFace(
        "R", wall, _PARTS[part], size(left), size(bottom), size(length), size(height),
        mm(depth), "", RowRef("Wall faces", 5),
    )  # fmt: skip


def leg(name: str, turn: float, length: float) -> WallLeg:
    return WallLeg("R", name, turn, size(length), "", RowRef("Wall legs", 5))


def room_row(  # noqa: PLR0913 - a row has so many cells
    *parts: FloorPiece | WallFace | WallLeg,
    length: float | None = None,
    width: float | None = None,
    name: str = "R",
    same_as: str | None = None,
    handed: bool = False,
    count: int = 1,
    copies: tuple[str, ...] = (),
    finish: str = "F",
) -> RoomDescription:
    return RoomDescription(
        name, None, count, copies, mm(length), mm(width), same_as, handed, finish, None, None, "",
        tuple(p for p in parts if isinstance(p, FloorPiece)),
        tuple(p for p in parts if isinstance(p, WallLeg)),
        tuple(p for p in parts if isinstance(p, WallFace)),
        RowRef("Rooms", 5),
    )  # fmt: skip


def finish_of(*kinds: SurfaceKind, name: str = "F") -> Finish:
    return Finish(
        name,
        {
            kind: SurfaceSpec(
                name, kind, "T", Bond(), Run(), 960, None, None, None, None, None, None, None,
                None, RowRef("Finishes", 5),
            )
            for kind in kinds
        },
        {},
    )  # fmt: skip


EVERYTHING = finish_of(*SurfaceKind)


def resolve(
    *rows: RoomDescription, finish: Finish = EVERYTHING, job: Job | None = None
) -> tuple[tuple[Room, ...], tuple[Finding, ...]]:
    return resolve_rooms(rows, {finish.name: finish}, job or Job())


def one_room(
    *parts: FloorPiece | WallFace | WallLeg, job: Job | None = None, **sizes: float
) -> Room:
    """The one room of some rows; nothing is found but faces that go on over doors and baths."""
    (room,), findings = resolve(room_row(*parts, **sizes), job=job)  # type: ignore[arg-type]
    assert {f.code for f in findings} <= {"FACE-OVER-DOORWAY", "FACE-BEHIND-BATH"}
    return room


def codes(*parts: FloorPiece | WallFace | WallLeg, **sizes: float) -> list[str]:
    """Codes of the findings of one room."""
    _, findings = resolve(room_row(*parts, **sizes))  # type: ignore[arg-type]
    return [f.code for f in findings]


def surface(room: Room, key: str) -> Surface:
    return next(s for s in room.surfaces if s.key == key)

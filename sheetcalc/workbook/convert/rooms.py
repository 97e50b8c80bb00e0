"""Rooms, Floor pieces, Wall legs and Wall faces to descriptions of rooms."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from math import inf

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.room import (
    FloorPiece,
    PartKind,
    PieceKind,
    RoomDescription,
    WallFace,
    WallLeg,
)
from sheetcalc.workbook.convert.references import key_of
from sheetcalc.workbook.convert.rows import Desk, RowReader, given
from sheetcalc.workbook.inputs.rooms import FLOOR_PIECES, ROOMS, WALL_FACES, WALL_LEGS


def read_rooms(desk: Desk, usable_finishes: Mapping[str, object]) -> tuple[RoomDescription, ...]:
    """Read the rooms whose rows, pieces, legs, faces and finish are all without errors."""
    faulty: set[str] = set()
    pieces = _by_room(_pieces(desk, faulty))
    legs = _by_room(_legs(desk, faulty))
    faces = _by_room(_faces(desk, faulty))
    described: list[RoomDescription] = []
    rows: dict[str, RowReader] = {}
    for row in desk.rows(ROOMS):
        room = _room(row, pieces, legs, faces)
        rows.setdefault(key_of(row.room), row)
        if room is None:
            faulty.add(key_of(row.room))
        else:
            described.append(room)
    known = set(desk.names.known("Finishes.Finish").values())
    for room in described:
        if room.finish in known and room.finish not in usable_finishes:
            faulty.add(key_of(room.name))
    # a room that is in no row is unknown, whatever is wrong with pieces that name it
    rows.pop("", None)
    faulty &= rows.keys()
    in_circles = _tell_circles(rows, faulty)
    return tuple(_without_faulty(desk, described, faulty, in_circles))


def _tell_circles(rows: Mapping[str, RowReader], faulty: set[str]) -> set[str]:
    """Tell rooms whose Same as leads into a circle past a faulty row; give their keys.

    Geometry tells other circles, but never sees a faulty row: its circle would come to light only
    when the row is corrected.
    """
    told: set[str] = set()
    for key, row in rows.items() if faulty else ():
        passed = {key: row.shown("Room")}
        following = key_of(row.shown("Same as"))
        while following and following in rows and following not in passed:
            passed[following] = rows[following].shown("Room")
            following = key_of(rows[following].shown("Same as"))
        if following in passed and not faulty.isdisjoint(passed):
            told.add(key)
            chain = " → ".join((*passed.values(), passed[following]))
            row.error("SAME-AS-CIRCULAR", "Same as", chain=chain)
    return told


def _without_faulty(
    desk: Desk, described: Sequence[RoomDescription], faulty: set[str], told: set[str]
) -> Iterator[RoomDescription]:
    """Leave out faulty rooms, and those that take their description from one.

    The latter are told, unless they were ``told`` of as parts of a circle.
    """
    by_name = {key_of(room.name): room for room in described}
    for room in described:
        if key_of(room.name) in told:
            continue
        here: RoomDescription | None = room
        passed: set[str] = set()
        while here is not None and key_of(here.name) not in passed:
            passed.add(key_of(here.name))
            following = key_of(here.same_as) if here.same_as else ""
            if following and following in faulty and key_of(room.name) not in faulty:
                facts = {"same_as": here.same_as or "", "found": f'"{here.same_as}"'}
                desk.findings.append(
                    Finding("SAME-AS-FAULTY", room.source, "Same as", facts, room.name)
                )
                break
            here = by_name.get(following)
        else:
            if key_of(room.name) not in faulty:
                yield room


def _by_room(
    records: Iterator[FloorPiece] | Iterator[WallLeg] | Iterator[WallFace],
) -> dict[str, list[object]]:
    by_room: dict[str, list[object]] = defaultdict(list)
    for record in records:
        by_room[key_of(record.room)].append(record)
    return by_room


def _named(row: RowReader) -> None:
    """Say that findings of the row are about its room, in the spelling of the Rooms tab."""
    row.room = row.name_shown("Room")


def _room(
    row: RowReader,
    pieces: Mapping[str, list[object]],
    legs: Mapping[str, list[object]],
    faces: Mapping[str, list[object]],
) -> RoomDescription | None:
    row.room = row.shown("Room")
    name = row.code("Room")
    copies = row.copies("Copies")
    count = row.count("Count")
    if count is None:
        _check_counted(row, copies)
    take_up = row.text("Take up") or None
    thickness = row.length("Take up thickness")
    if take_up and thickness is None and row.is_empty("Take up thickness"):
        row.error("TAKE-UP-WITHOUT-THICKNESS", "Take up thickness", take_up=take_up)
    phase, same_as, finish = row.name("Phase"), row.name("Same as"), row.name("Finish")
    length, width = row.length("Length"), row.length("Width")
    handed, note = row.yes_no("Handed"), row.text("Note")
    if row.faulty:
        return None
    key = key_of(given(name))
    return RoomDescription(
        name=given(name),
        phase=phase,
        count=count if count is not None else len(copies) or 1,
        copies=copies,
        length_mm320=length,
        width_mm320=width,
        same_as=same_as,
        handed=bool(handed),
        finish=given(finish),
        take_up=take_up,
        take_up_thickness_mm320=thickness,
        note=note,
        pieces=tuple(p for p in pieces.get(key, ()) if isinstance(p, FloorPiece)),
        legs=tuple(x for x in legs.get(key, ()) if isinstance(x, WallLeg)),
        faces=tuple(f for f in faces.get(key, ()) if isinstance(f, WallFace)),
        source=row.source,
    )


def _check_counted(row: RowReader, copies: tuple[str, ...]) -> None:
    """Ask about names that are counted because Count is empty: one, or very many."""
    most = ROOMS.by_header["Count"].usual_high or inf
    if len(copies) == 1:
        row.remark("COPIES-NAME-ONE", "Copies")
    elif len(copies) > most:
        found = f"{len(copies)} rooms"
        row.remark("NUMBER-UNUSUAL", "Copies", found=found, low="1", high=f"{most:g}")


def _pieces(desk: Desk, faulty: set[str]) -> Iterator[FloorPiece]:
    for row in desk.rows(FLOOR_PIECES):
        _named(row)
        room, name, kind = row.name("Room"), row.code("Piece"), row.choice("Kind")
        wall = row.text("Wall") or None
        left, front = row.length("Left"), row.length("Front")
        length, width = row.length("Length"), row.length("Width")
        diameter, height = row.length("Diameter"), row.length("Height")
        through, note = row.name("Through to"), row.text("Note")
        if through and kind and kind != PieceKind.DOORWAY.value:
            row.error("THROUGH-NEEDS-DOORWAY", "Through to", kind=kind, other=through)
        if row.faulty:
            faulty.add(key_of(row.room))
            continue
        yield FloorPiece(
            room=given(room),
            name=given(name),
            kind=PieceKind(given(kind)),
            wall=wall,
            left_mm320=left,
            front_mm320=front,
            length_mm320=length,
            width_mm320=width,
            diameter_mm320=diameter,
            height_mm320=height,
            note=note,
            source=row.source,
            through_to=through or "",
        )


def _legs(desk: Desk, faulty: set[str]) -> Iterator[WallLeg]:
    for row in desk.rows(WALL_LEGS):
        _named(row)
        room, leg, turn = row.name("Room"), row.code("Leg"), row.turn("Turn")
        length, note = row.length("Length"), row.text("Note")
        if row.faulty:
            faulty.add(key_of(row.room))
            continue
        yield WallLeg(given(room), given(leg), given(turn), given(length), note, row.source)


def _faces(desk: Desk, faulty: set[str]) -> Iterator[WallFace]:
    for row in desk.rows(WALL_FACES):
        _named(row)
        row.surface = f"wall {row.shown('Wall')}" if row.shown("Wall") else ""
        room, wall, part = row.name("Room"), row.text("Wall"), row.choice("Part")
        left, bottom = row.length("Left"), row.length("Bottom")
        length, height = row.length("Length"), row.length("Height")
        depth, note = row.length("Depth"), row.text("Note")
        if row.faulty:
            faulty.add(key_of(row.room))
            continue
        yield WallFace(
            room=given(room),
            wall=wall,
            part=PartKind(given(part)),
            left_mm320=left or 0,
            bottom_mm320=bottom or 0,
            length_mm320=given(length),
            height_mm320=given(height),
            depth_mm320=depth,
            note=note,
            source=row.source,
        )

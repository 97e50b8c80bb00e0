"""Wrong workbooks for the findings on rooms: outlines, pieces, legs, faces."""

from gallery import Edit, Said, Wrong, cell, record
from gallery import wrong as entry


def wrong(code: str, place: str, *edits: Edit) -> Wrong:
    """Make an entry whose finding comes with the rooms being measured."""
    return entry(code, place, *edits, calculated=True)


def piece(name: str, kind: str, **values: object) -> Edit:
    """Add a floor piece."""
    return record("Floor pieces", Room="Cloakroom", Piece=name, Kind=kind, **values)


def face(wall: str, part: str, **values: object) -> Edit:
    """Add a wall face or a part of one."""
    return record("Wall faces", Room="Cloakroom", Wall=wall, Part=part, **values)


def walk(*legs: tuple[str, float]) -> tuple[Edit, ...]:
    """Walk round the room instead of giving its length and width."""
    rows = (
        record("Wall legs", Room="Cloakroom", Leg=str(number), Turn=turn, Length=length)
        for number, (turn, length) in enumerate(legs, 1)
    )
    return (*NO_SIZE, *rows)


NO_SIZE = (cell("Rooms", "Length", None), cell("Rooms", "Width", None))
WALL_TILED = record("Finishes", Finish="Plain", Surface="wall", Tile="T-3030", Joint=3)
SECOND = {"Room": "Second", "Finish": "Plain"}

ROOMS: tuple[Wrong, ...] = (
    entry(
        "THROUGH-NEEDS-DOORWAY",
        "Floor pieces!K5",
        record("Rooms", Room="Hall", Length=2, Width=1.5, Finish="Plain"),
        piece("Bath", "bath", Left=0, Front=0, Length=0.5, Width=1, Through_to="Hall"),
    ),
    wrong(
        "THROUGH-NOT-POSSIBLE",
        "Floor pieces!K5",
        record("Rooms", Room="Hall", Length=2, Width=1.5, Finish="Plain"),
        piece("Door", "doorway", Wall="near", Left=0.5, Length=0.8, Through_to="Hall"),
        record(
            "Floor pieces",
            Room="Hall",
            Piece="Door",
            Kind="doorway",
            Wall="near",
            Left=0.5,
            Length=0.9,
        ),
    ),
    wrong(
        "ROOM-NAME-TWICE",
        "Rooms!A6",
        record("Rooms", Room="Cloakroom", Length=2, Width=1, Finish="Plain"),
    ),
    wrong(
        "COPIES-DISAGREE", "Rooms!D5", cell("Rooms", "Copies", "A, B"), cell("Rooms", "Count", 3)
    ),
    wrong(
        "ROOM-IN-TWO-ROWS",
        "Rooms!D6",
        record("Rooms", **SECOND, Length=2, Width=1, Copies="Third, Cloakroom"),
    ),
    wrong("SAME-AS-UNKNOWN", "Rooms!G6", record("Rooms", **SECOND, Same_as="Cloakrom")),
    wrong(
        "SAME-AS-CIRCULAR",
        "Rooms!G6",
        record("Rooms", **SECOND, Same_as="Third"),
        record("Rooms", Room="Third", Finish="Plain", Same_as="Second"),
    ),
    wrong(
        "SAME-AS-WITH-OWN-PARTS",
        "Rooms!E6",
        record("Rooms", **SECOND, Same_as="Cloakroom", Length=2),
    ),
    wrong(
        "SAME-AS-FAULTY",
        "Rooms!G6",
        cell("Rooms", "Length", "wide"),
        record("Rooms", **SECOND, Same_as="Cloakroom"),
    ),
    wrong(
        "SAME-AS-HANDED",
        "Rooms!G6",
        cell("Rooms", "Handed", "yes"),
        record("Rooms", **SECOND, Same_as="Cloakroom"),
    ),
    wrong("ROOM-WITHOUT-OUTLINE", "Rooms!E5", *NO_SIZE),
    wrong("ROOM-SIZE-INCOMPLETE", "Rooms!F5", cell("Rooms", "Width", None)),
    wrong(
        "OUTLINES-DISAGREE",
        "Rooms!E5",
        *walk(("straight", 2), ("left", 1), ("left", 2), ("left", 1))[2:],
    ),
    wrong(
        "FLOOR-PIECE-OVERLAPS",
        "Floor pieces!E5",
        piece("Alcove", "floor", Left=1, Front=0, Length=2, Width=1),
    ),
    wrong(
        "ROOM-IN-TWO-PARTS",
        "Rooms!A5",
        *NO_SIZE,
        piece("West", "floor", Left=0, Front=0, Length=1, Width=1),
        piece("East", "floor", Left=2, Front=0, Length=1, Width=1),
    ),
    wrong(
        "ROOM-WITHOUT-FLOOR",
        "Rooms!A5",
        piece("Duct", "void", Left=0, Front=0, Length=1.8, Width=1.2),
    ),
)

LEGS: tuple[Wrong, ...] = (
    wrong("LEGS-TOO-FEW", "Wall legs!A5", *walk(("straight", 2), ("left", 1))),
    wrong(
        "LEG-NAME-TWICE",
        "Wall legs!B6",
        *walk(("straight", 2), ("left", 1), ("left", 2), ("left", 1)),
        cell("Wall legs", "Leg", "1", 6),
    ),
    wrong(
        "LEGS-OUT-OF-ORDER",
        "Wall legs!B7",
        *walk(("straight", 2), ("left", 1), ("left", 2), ("left", 1)),
        cell("Wall legs", "Leg", "10", 6),
    ),
    wrong(
        "LEGS-TURNS-OFF",
        "Wall legs!C5",
        *walk(("left", 2), ("left", 1), ("left", 2), ("straight", 1)),
    ),
    wrong(
        "LEGS-DO-NOT-CLOSE",
        "Wall legs!D8",
        *walk(("straight", 2), ("left", 1), ("left", 2.2), ("left", 1)),
    ),
    wrong(
        "LEGS-CLOSED",
        "Wall legs!A5",
        *walk(("straight", 2), ("left", 1), ("left", 2.01), ("left", 1)),
    ),
    wrong(
        "LEGS-CROSS",
        "Wall legs!A8",
        *walk(
            ("straight", 4), ("left", 2), ("left", 1), ("left", 2), ("right", 2), ("right", 2),
            ("left", 1), ("left", 2),
        ),
    ),
)  # fmt: skip

PIECES: tuple[Wrong, ...] = (
    wrong(
        "PIECE-NAME-TWICE",
        "Floor pieces!B6",
        piece("Duct", "void", Left=0, Front=0, Length=0.2, Width=0.2),
        piece("Duct", "void", Left=1, Front=0, Length=0.2, Width=0.2),
    ),
    wrong(
        "PIECE-SIZE-MISSING",
        "Floor pieces!H5",
        piece("Basin", "cabinet", Left=0, Front=0, Length=0.5),
    ),
    wrong(
        "PIECE-SHAPE-UNCLEAR",
        "Floor pieces!I5",
        piece("Basin", "cabinet", Left=0, Front=0, Length=0.5, Width=0.4, Diameter=300),
    ),
    wrong(
        "PIECE-PLACE-MISSING", "Floor pieces!E5", piece("Door", "doorway", Wall="near", Length=0.8)
    ),
    wrong(
        "PIECE-OUTSIDE-OUTLINE",
        "Floor pieces!E5",
        piece("Bath", "bath", Left=1, Front=0.5, Length=1.7, Width=0.7),
    ),
    wrong(
        "PIECES-OVERLAP",
        "Floor pieces!E6",
        piece("Bath", "bath", Left=0, Front=0.5, Length=1.2, Width=0.7),
        piece("Basin", "cabinet", Left=1, Front=0.8, Length=0.5, Width=0.4),
    ),
    wrong(
        "PIECES-MEET",
        "Floor pieces!E5",
        piece("Pier", "column", Left=0.5, Front=0.8, Length=0.3, Width=0.4),
        piece("Duct", "void", Left=0.6, Front=0.8, Length=0.5, Width=0.4),
    ),
    wrong(
        "SHOWER-WITHOUT-DRAIN",
        "Floor pieces!B5",
        piece("Shower", "shower floor", Left=0.9, Front=0.3, Length=0.9, Width=0.9),
    ),
    wrong(
        "DOORWAY-NOT-ON-OUTLINE",
        "Floor pieces!E5",
        piece("Door", "doorway", Left=0.5, Front=0.5, Length=0.8),
    ),
    wrong(
        "DOORWAYS-OVERLAP",
        "Floor pieces!E6",
        piece("Door", "doorway", Wall="near", Left=0.1, Length=0.8),
        piece("Hatch", "doorway", Wall="near", Left=0.5, Length=0.8),
    ),
    wrong(
        "THERMOSTAT-NOT-ON-OUTLINE",
        "Floor pieces!E5",
        piece("Stat", "thermostat", Left=0.5, Front=0.5),
    ),
    wrong(
        "WALL-UNKNOWN",
        "Floor pieces!D5",
        piece("Door", "doorway", Wall="north", Left=0.1, Length=0.8),
    ),
)

FACES: tuple[Wrong, ...] = (
    wrong("FACE-LONGER-THAN-WALL", "Wall faces!F5", face("far", "face", Length=2.4, Height=2)),
    wrong(
        "PART-LARGER-THAN-WALL",
        "Wall faces!F6",
        face("far", "face", Length=1.8, Height=2),
        face("far", "opening", Left=0, Bottom=1, Length=1.9, Height=0.5),
    ),
    wrong(
        "PART-OUTSIDE-FACE",
        "Wall faces!D6",
        face("far", "face", Length=1.8, Height=2),
        face("far", "opening", Left=1.5, Bottom=1, Length=0.6, Height=0.5),
    ),
    wrong(
        "WALL-PARTS-OVERLAP",
        "Wall faces!D7",
        face("far", "face", Length=1.8, Height=2),
        face("far", "opening", Left=0.2, Bottom=1, Length=0.6, Height=0.5),
        face("far", "niche", Left=0.5, Bottom=1, Length=0.6, Height=0.4, Depth=90),
    ),
    wrong(
        "NICHE-WITHOUT-DEPTH",
        "Wall faces!H6",
        face("far", "face", Length=1.8, Height=2),
        face("far", "niche", Left=0.5, Bottom=1, Length=0.6, Height=0.4),
    ),
    wrong(
        "SHOWER-WALL-LEFT-DRY",
        "Rooms!A5",
        piece("Tray", "shower tray", Left=0, Front=0.4, Length=0.8, Width=0.8),
        face("left", "face", Length=1.2, Height=2),
        WALL_TILED,
    ),
    wrong(
        "FACE-OVER-DOORWAY",
        "Wall faces!C5",
        piece("Door", "doorway", Wall="near", Left=0.5, Length=0.8),
        face("near", "face", Length=1.8, Height=2),
        WALL_TILED,
    ),
    wrong(
        "FACE-BEHIND-BATH",
        "Wall faces!E5",
        piece("Bath", "bath", Left=0.1, Front=0.5, Length=1.7, Width=0.7),
        face("far", "face", Length=1.8, Height=2),
        WALL_TILED,
    ),
    wrong(
        "WET-AREA-WITHOUT-FINISH",
        "Wall faces!C6",
        face("far", "face", Length=1.8, Height=2),
        face("far", "wet area", Left=0, Bottom=0, Length=0.9, Height=2),
    ),
    wrong("SURFACE-NOT-TILED", "Wall faces!C5", face("far", "face", Length=1.8, Height=2)),
)

UNREACHED: tuple[Said, ...] = (
    # the bounds of the columns refuse such a size before; rooms made by a program may have it
    Said("SIZE-NOT-POSITIVE", {"size": "Length 0 m"}),
)

ENTRIES: tuple[Wrong | Said, ...] = (*ROOMS, *LEGS, *PIECES, *FACES, *UNREACHED)

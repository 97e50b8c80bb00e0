"""Rooms, Floor pieces, Wall legs, Wall faces: what is measured on site."""

from sheetcalc.workbook.columns import Column, Kind, Tab
from sheetcalc.workbook.inputs import words

ROOMS = Tab(
    key="Rooms",
    table="InRooms",
    record="a bathroom, or several alike",
    purpose="One bathroom a row, or several alike: give Length and Width, or draw the outline in "
    "Floor pieces or Wall legs.",
    needed=True,
    columns=(
        Column(
            "Room", Kind.CODE, "Name or number of the room; each name once.",
            "2.07", "Hall bath", required=True, width=16,
        ),
        Column(
            "Phase", Kind.CODE, "Stage of the block, from Phases. Empty: no phase.",
            "Floor 2", list_of="Phases.Phase", default="no phase", width=12,
        ),
        Column(
            "Count", Kind.COUNT,
            "How many rooms are alike and done together. Empty: 1, or as many as Copies names.",
            "8", low=1, high=10_000, usual_high=500, default="1", width=8,
        ),
        Column(
            "Copies", Kind.CODE,
            "Names of the rooms that this row stands for: 101-108, or 101, 103, 105. "
            "Must agree with Count. Empty: the room's own name.",
            "201-208", default="the room's own name", width=16,
        ),
        Column(
            "Length", Kind.ROOM_LENGTH,
            "Standing in the doorway: size from left to right. Empty when Floor pieces, "
            "Wall legs or Same as give the outline.",
            "2.40", "8' 0\"", low=300, high=30_000, usual_low=800, usual_high=8_000,
            default="the outline comes from Floor pieces, Wall legs or Same as", width=13,
        ),
        Column(
            "Width", Kind.ROOM_LENGTH,
            "Standing in the doorway: size from the near wall to the far wall. Empty as Length.",
            "1.80", "5' 6\"", low=300, high=30_000, usual_low=800, usual_high=8_000,
            default="the outline comes from Floor pieces, Wall legs or Same as", width=13,
        ),
        Column(
            "Same as", Kind.CODE,
            "Another row's Room: takes its outline, pieces, legs and faces; leave Length and "
            "Width empty then.",
            "2.01", "Hall bath", list_of="Rooms.Room", default="measured for itself", width=14,
        ),
        Column(
            "Handed", Kind.YES_NO, "yes mirrors left and right. Empty: no.",
            "yes", choices=("yes", "no"), default="no", width=9,
        ),
        Column(
            "Finish", Kind.CODE, "Name of the finish, from Finishes.",
            "Standard", "Stone", required=True, list_of="Finishes.Finish", width=16,
        ),
        Column(
            "Take up", Kind.TEXT, "What is taken up first. Empty: nothing.",
            "tile and bed", choices=words.TAKE_UPS, default="nothing is taken up", width=18,
        ),
        Column(
            "Take up thickness", Kind.SMALL_LENGTH,
            "How thick it is, for the volume of waste; needed with Take up.",
            "40", "1 1/2", low=1, high=500, usual_low=2, usual_high=150,
            default="nothing is taken up", width=14,
        ),
        Column("Note", Kind.TEXT, "Anything to remember; printed on the room's card.", width=30),
    ),
)  # fmt: skip

FLOOR_PIECES = Tab(
    key="Floor pieces",
    table="InFloorPieces",
    record="a part of one room's floor",
    purpose="Parts of a room's floor. Standing in the doorway, Left is measured to the right from "
    "the near left corner, Front away from you.",
    columns=(
        Column(
            "Room", Kind.CODE, "The room that it belongs to, from Rooms.",
            "2.07", "Hall bath", required=True, list_of="Rooms.Room", width=16,
        ),
        Column(
            "Piece", Kind.CODE, "Name of the piece; each name once in a room.",
            "Shower", required=True, width=16,
        ),
        Column(
            "Kind", Kind.CHOICE,
            "What it is. 'floor' adds to the outline, 'void' is taken out of it.",
            "shower floor", required=True, choices=words.PIECE_KINDS, width=15,
        ),
        Column(
            "Wall", Kind.TEXT,
            "Doorway or thermostat: the wall it is on (near, right, far, left, or a leg); then "
            "only Left or Front is needed. Empty: given by Left and Front.",
            "near", choices=words.WALLS, default="given by Left and Front", width=10,
        ),
        Column(
            "Left", Kind.ROOM_LENGTH,
            "From the near left corner to the right, to the piece's left edge (round: its "
            "centre). On the left or right wall: leave empty. Empty: 0.",
            "1.50", "5' 0\"", low=-30_000, high=30_000, default="0", width=11,
        ),
        Column(
            "Front", Kind.ROOM_LENGTH,
            "From the near wall away from the door, to the piece's near edge (round: its "
            "centre). On the near or far wall: leave empty. Empty: 0.",
            "0.90", "3' 0\"", low=-30_000, high=30_000, default="0", width=11,
        ),
        Column(
            "Length", Kind.ROOM_LENGTH,
            "Size along Left (from left to right); for a doorway its width.",
            "0.90", "36 in", low=10, high=30_000, default="round, or a point", width=11,
        ),
        Column(
            "Width", Kind.ROOM_LENGTH, "Size along Front (away from the door).",
            "0.90", "36 in", low=10, high=30_000, default="round, or a point", width=11,
        ),
        Column(
            "Diameter", Kind.SMALL_LENGTH, "Of a round outlet, pipe, drain or column.",
            "110", "4", low=5, high=3_000, usual_low=10, usual_high=600,
            default="rectangular", width=12,
        ),
        Column(
            "Height", Kind.SMALL_LENGTH, "Of a curb, above the floor beside it; needed for a curb.",
            "100", "4 1/2", low=10, high=3_000, usual_low=20, usual_high=250,
            default="flat on the floor", width=12,
        ),
        Column(
            "Through to", Kind.CODE,
            "Doorway: the room beyond it that the floor tile runs on into on the same joint "
            "lines. Both floors need the same tile, bond and joint; draw the floor in the opening "
            "as a floor piece. Empty: each room has a start of its own.",
            "2.08", "Dressing room", list_of="Rooms.Room",
            default="a start of its own", width=14,
        ),
        Column("Note", Kind.TEXT, "Anything to remember.", width=26),
    ),
)  # fmt: skip

WALL_LEGS = Tab(
    key="Wall legs",
    table="InWallLegs",
    record="one wall on a walk round the room",
    purpose="For rooms that are not made of rectangles: walk once round the room, wall by wall; "
    "leg 1 runs along the near wall.",
    columns=(
        Column(
            "Room", Kind.CODE, "The room, from Rooms.",
            "2.07", "Hall bath", required=True, list_of="Rooms.Room", width=16,
        ),
        Column(
            "Leg", Kind.CODE, "Name of the wall; each name once in a room, in walking order.",
            "1", required=True, width=10,
        ),
        Column(
            "Turn", Kind.TURN,
            "Turn from the leg before: left, right, straight, or degrees to the left (45); to "
            "the right with a minus (-45). For leg 1: straight.",
            "left", required=True, choices=words.TURNS, width=12,
        ),
        Column(
            "Length", Kind.ROOM_LENGTH, "Length of this wall.",
            "2.40", "8' 0\"", required=True, low=10, high=30_000, width=13,
        ),
        Column("Note", Kind.TEXT, "Anything to remember.", width=36),
    ),
)  # fmt: skip

WALL_FACES = Tab(
    key="Wall faces",
    table="InWallFaces",
    record="a tiled wall, or a part of it",
    purpose="Tiled walls and what is in them. Left and Bottom are measured on the wall, seen from "
    "inside the room.",
    columns=(
        Column(
            "Room", Kind.CODE, "The room, from Rooms.",
            "2.07", "Hall bath", required=True, list_of="Rooms.Room", width=16,
        ),
        Column(
            "Wall", Kind.TEXT, "near, right, far, left, or the name of a leg.",
            "far", required=True, choices=words.WALLS, width=10,
        ),
        Column(
            "Part", Kind.CHOICE,
            "face is the tiled area; opening, niche, wet area and inset lie within a face of the "
            "same wall.",
            "face", required=True, choices=words.WALL_PARTS, width=12,
        ),
        Column(
            "Left", Kind.ROOM_LENGTH, "From the wall's left end, seen from inside. Empty: 0.",
            "0", low=-1_000, high=30_000, default="0", width=11,
        ),
        Column(
            "Bottom", Kind.ROOM_LENGTH, "Height of its lower edge above the floor. Empty: 0.",
            "0", low=-1_000, high=10_000, default="0", width=12,
        ),
        Column(
            "Length", Kind.ROOM_LENGTH, "Size along the wall.",
            "2.40", "8' 0\"", required=True, low=10, high=30_000, width=12,
        ),
        Column(
            "Height", Kind.ROOM_LENGTH, "Size upwards.",
            "2.10", "7' 0\"", required=True, low=10, high=10_000, usual_high=4_000, width=12,
        ),
        Column(
            "Depth", Kind.SMALL_LENGTH,
            "Of a niche: required. Of an opening: gives it tiled reveals. Empty: no reveals.",
            "90", "3 1/2", low=5, high=1_000, usual_low=40, usual_high=400,
            default="no reveals", width=12,
        ),
        Column("Note", Kind.TEXT, "Anything to remember.", width=30),
    ),
)  # fmt: skip

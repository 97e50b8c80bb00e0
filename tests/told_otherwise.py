"""One job, and the same job told in other words: turned, mirrored, in parts, in feet.

A wet bathroom with an alcove and a cloakroom with a base course, all invented.
"""

import random
from collections.abc import Sequence
from typing import Final, TypeAlias

from samples.rows import records

from sheetcalc.workbook.columns import LENGTH_KINDS, Kind
from sheetcalc.workbook.lists import tab_of
from sheetcalc.workbook.settings import SETTINGS

Row: TypeAlias = dict[str, str | float]
Told: TypeAlias = dict[str, list[Row]]
"""Tab -> its rows."""

_ROOMS = """
Room|Length|Width|Finish|Take up|Take up thickness
A|2.4|1.9|Wet|tile and bed|40
B|1.2|1.6|Dry||
"""
_PIECES = """
Room|Piece|Kind|Wall|Left|Front|Length|Width|Diameter|Height
A|Alcove|floor||2.4|0.6|0.5|0.7||
A|Duct|void||2.1|1.6|0.3|0.3||
A|Door|doorway|near|1.2||0.8|||
A|Shower|shower floor||0|1|0.9|0.9||
A|Drain|drain||0.45|1.45|||110|
A|Curb near|curb||0|0.9|1|0.1||100
A|Curb side|curb||0.9|1|0.1|0.9||100
A|Vanity|cabinet||2.5|0.6|0.4|0.7||
A|WC|toilet outlet||1.5|1.6|||110|
B|Door|doorway|near|0.2||0.8|||
B|Basin|cabinet||0|0.5|0.3|0.45||
"""
_FACES = """
Room|Wall|Part|Left|Bottom|Length|Height|Depth
A|left|face|0|0|1.9|2.1|
A|left|wet area|1|0|0.9|2.1|
A|far|face|0|0|2.1|2.1|
A|far|wet area|0|0|0.9|2.1|
A|far|niche|0.3|1.1|0.3|0.4|90
A|far|opening|1.2|1.2|0.5|0.6|120
"""
_FINISHES = """
Finish|Surface|Tile|Bond|Joint|Trowel notch|Trowel angle|Skim|Sealer
Wet|floor|T|offset 1/3|4|square 10 x 10 x 10 mm|60|1|X
Wet|shower floor|M|grid|3|square 6 x 6 x 6 mm|60|1|X
Wet|curb|M|grid|3|square 6 x 6 x 6 mm|60|1|
Wet|wall|W|grid|3|square 8 x 8 x 8 mm|60|0|
Wet|wet area|W|grid|3|square 8 x 8 x 8 mm|60|1|
Wet|niche|W|grid|3|square 6 x 6 x 6 mm|60|1|
Dry|floor|T|grid|3|V 6 x 6 x 6 mm|45|0|
Dry|base|B|grid|3|square 6 x 6 x 6 mm|60|1|
"""
_LAYERS = """
Finish|Surface|Order|Role|Item|Bed mortar|Trowel notch|Mean depth|Coats|Up walls
Wet|floor|1|primer|P||||2|
Wet|floor|2|levelling compound|L|||6||
Wet|floor|3|underlay|U|C|square 6 x 6 x 6 mm|||
Wet|shower floor|1|waterproofing|Q|C|square 6 x 6 x 6 mm|||150
Wet|shower floor|2|band|N|C|square 6 x 6 x 6 mm|||
Wet|curb|1|waterproofing|Q-LIQ||||2|
Wet|niche|1|waterproofing|Q-LIQ||||2|
Wet|wet area|1|waterproofing|Q-LIQ||||2|
Dry|floor|1|backer board|K|C|square 6 x 6 x 6 mm|||
"""
_TILES = """
Code|Supplier|Description|Length|Width|Thickness|Chip length|Chip width|Pieces per box|Price
T|One|Floor tile|597|297|9|||6|32.4
W|One|Wall tile|298|198|7|||18|18.9
M|One|Mosaic|300|300|6|47|47|10|58
B|One|Base tile|597|97|9|||15|41
"""
_BAGS = """
Code|Supplier|Description|Kind|Pack size|Pack unit|Package|Yield|Coverage|Pack price
C|Two|Mortar|mortar|20|kg|bag|14.8||18.9
G|Two|Grout|grout|5|kg|bag|||9.8
S|Two|Silicone|sealant|310|mL|cartridge|||6.9
P|Two|Primer|primer|5|L|pail||50|31
L|Two|Levelling compound|levelling compound|25|kg|bag|15.6||21.4
Q-LIQ|Two|Liquid|liquid waterproofing|7|kg|pail||7|58
X|Two|Sealer|sealer|1|L|can||15|24
"""
_ROLLS = """
Code|Supplier|Description|Kind|Width|Length|Thickness|Overlap|Knob pitch|Fill|Package|Price
Q|Two|Sheet|waterproofing sheet|1|10|0.5|50|||roll|112
N|Two|Band|band|0.125|30|0.5|50|||roll|54
K|Two|Board|backer board|0.6|1.25|12||||sheet|16.9
U|Two|Underlay|underlay roll|1|12.5|5.5||30|3.2|roll|189
"""
_SUNDRIES = """
Code|Supplier|Description|Basis|Rate|Surface|Pack size|Pack unit|Package|Pack price
CL|Two|Clips|per tile edge|2|floor|250|piece|bag|19.9
SP|Two|Spacers|per joint crossing|1||500|piece|bag|6.4
TR|Two|Trim|per m of open tile edge|1||2.5|m|piece|23.5
TH|Two|Threshold|per m of doorway|1||0.9|m|piece|18.8
CO|Two|Corner|per inside corner|1||2|piece|package|9.6
BR|Two|Rod|per m of perimeter|1||50|m|roll|11
SB|Two|Site box|per job|1||1|piece|piece|75
"""
_TABS: Final = {
    "Rooms": _ROOMS, "Floor pieces": _PIECES, "Wall faces": _FACES, "Finishes": _FINISHES,
    "Build-up": _LAYERS, "Tiles": _TILES, "Bags and pails": _BAGS, "Rolls and sheets": _ROLLS,
    "Sundries": _SUNDRIES,
}  # fmt: skip
_MIXES: Final = {"Mortar": "C", "Grout": "G", "Sealant": "S"}


def as_told() -> Told:
    """The job's rows, each with the cells that are filled."""
    told: Told = {
        tab: [{h: v for h, v in row.items() if v is not None} for row in records(tab, text)]
        for tab, text in _TABS.items()
    }
    return {**told, "Finishes": [{**row, **_MIXES} for row in told["Finishes"]]}


def shuffled(told: Told, seed: int) -> Told:
    """The same rows in another order."""
    dice = random.Random(seed)  # noqa: S311 - rows to shuffle, no secret
    return {tab: dice.sample(rows, len(rows)) for tab, rows in told.items()}


def in_parts(told: Told) -> Told:
    """Rooms drawn as two rectangles side by side."""
    rooms: list[Row] = []
    parts: list[Row] = []
    for room in told["Rooms"]:
        length, width = float(room["Length"]), float(room["Width"])
        first = round(0.37 * length, 3)
        for name, left, size in (("One", 0.0, first), ("Other", first, round(length - first, 3))):
            parts.append(_rectangle(room["Room"], name, left, 0.0, size, width))
        rooms.append({h: v for h, v in room.items() if h not in {"Length", "Width"}})
    return {**told, "Rooms": rooms, "Floor pieces": [*told["Floor pieces"], *parts]}


def _rectangle(  # noqa: PLR0913, PLR0917 - a row has so many cells
    room: str | float, name: str, left: float, front: float, length: float, width: float
) -> Row:
    return {
        "Room": room, "Piece": name, "Kind": "floor", "Left": left, "Front": front,
        "Length": length, "Width": width,
    }  # fmt: skip


_TURNED: Final = {"near": "left", "left": "far", "far": "right", "right": "near"}
_MIRRORED: Final = {"near": "near", "far": "far", "left": "right", "right": "left"}


def turned(told: Told) -> Told:
    """Rooms turned by a quarter, clockwise from above: what lay along Left lies along Front."""
    made = {**told, "Floor pieces": [], "Rooms": []}
    sizes = {room["Room"]: _reach(told, room) for room in told["Rooms"]}
    for room in told["Rooms"]:
        main = _rectangle(
            room["Room"], "Main", 0.0, 0.0, float(room["Length"]), float(room["Width"])
        )
        made["Rooms"].append({h: v for h, v in room.items() if h not in {"Length", "Width"}})
        for piece in [main, *(p for p in told["Floor pieces"] if p["Room"] == room["Room"])]:
            made["Floor pieces"].append(_turned(piece, sizes[room["Room"]][0]))
    made["Wall faces"] = [
        {**face, "Wall": _TURNED[str(face["Wall"])]} for face in told["Wall faces"]
    ]
    return made


def _turned(piece: Row, reach: float) -> Row:
    left, length = float(piece["Left"]), float(piece.get("Length", 0.0))
    front = round(reach - left - length, 6)
    row = {**piece, "Front": front}
    if piece.get("Wall"):  # a door in the near wall, told by its distance along it
        del row["Left"], row["Length"]
        return {**row, "Wall": _TURNED[str(piece["Wall"])], "Width": length}
    row["Left"] = piece["Front"]
    if length:
        row |= {"Length": piece["Width"], "Width": length}
    return row


def mirrored(told: Told) -> Told:
    """Rooms with left and right changed, drawn so."""
    made = {**told, "Floor pieces": [], "Rooms": [], "Wall faces": []}
    for room in told["Rooms"]:
        name, (reach, depth) = room["Room"], _reach(told, room)
        main = _rectangle(name, "Main", 0.0, 0.0, float(room["Length"]), float(room["Width"]))
        made["Rooms"].append({h: v for h, v in room.items() if h not in {"Length", "Width"}})
        for piece in [main, *(p for p in told["Floor pieces"] if p["Room"] == name)]:
            size = float(piece.get("Length", 0.0))
            left = round(reach - float(piece["Left"]) - size, 6)
            made["Floor pieces"].append({**piece, "Left": left})
        for face in (f for f in told["Wall faces"] if f["Room"] == name):
            # the far wall ends at the duct, from which the mirrored one is measured
            wall = 2.1 if face["Wall"] == "far" else depth
            left = round(wall - float(face["Left"]) - float(face["Length"]), 6)
            made["Wall faces"].append({**face, "Wall": _MIRRORED[str(face["Wall"])], "Left": left})
    return made


def _reach(told: Told, room: Row) -> tuple[float, float]:
    """How far a room's outline reaches along Left and Front."""
    floors = [p for p in told["Floor pieces"] if (p["Room"], p["Kind"]) == (room["Room"], "floor")]
    return (
        max([float(room["Length"]), *(float(p["Left"]) + float(p["Length"]) for p in floors)]),
        float(room["Width"]),
    )


_FEET: Final = {
    Kind.AREA: 0.09290304,
    Kind.VOLUME: 3.785411784,
    Kind.FILL: 3.785411784 / 0.09290304,
}
"""Square metres in a square foot, litres in a US gallon: exact by definition."""


_LB_FT3: Final = 0.45359237 / 0.3048**3
"""Kilograms in a cubic metre, for a pound in a cubic foot."""


def in_feet(told: Told) -> Told:
    """The same real sizes, typed with their units into a job in feet, inches and gallons."""
    made = {tab: [_in_feet(tab, row) for row in rows] for tab, rows in told.items()}
    return {**made, "Job": [*told.get("Job", ()), *_us_settings()]}


def _in_feet(tab: str, row: Row) -> Row:
    kinds = {header: column.kind for header, column in tab_of(tab).by_header.items()}
    made: Row = {}
    for header, value in row.items():
        kind = kinds[header]
        if kind in LENGTH_KINDS:
            made[header] = f"{value} {'mm' if kind is Kind.SMALL_LENGTH else 'm'}"
        else:
            made[header] = value / _FEET[kind] if kind in _FEET else value
    return made


def _us_settings() -> list[Row]:
    """Units of a US job, and the settings that differ by default, as a metric job has them."""
    units = ("ft", "in", "ft", "ft²", "US gal", "lb")
    named = [s for s in SETTINGS if s.key.startswith("units.")]
    rows: list[Row] = [
        {"Setting": s.label, "Value": unit} for s, unit in zip(named, units, strict=True)
    ]
    for setting in SETTINGS:
        if setting.kind in LENGTH_KINDS and isinstance(setting.metric_default, int | float):
            unit = "mm" if setting.kind is Kind.SMALL_LENGTH else "m"
            rows.append({"Setting": setting.label, "Value": f"{setting.metric_default} {unit}"})
    densities = {"Dry grout in a filled joint": 1600, "Wet density of mortar": 1650}
    rows += [{"Setting": label, "Value": x / _LB_FT3} for label, x in densities.items()]
    return rows


def copied(told: Told, letters: Sequence[str]) -> Told:
    """Every room described anew for each letter."""
    described = ("Rooms", "Floor pieces", "Wall faces")
    return told | {
        tab: [{**row, "Room": f"{row['Room']}{x}"} for x in letters for row in told[tab]]
        for tab in described
    }


def priced(told: Told, factor: int) -> Told:
    """Every price some times as high."""
    return {
        tab: [
            {h: v * factor if h in {"Price", "Pack price"} else v for h, v in row.items()}
            for row in rows
        ]
        for tab, rows in told.items()
    }

"""Larch Court: 48 bathrooms of 6 types on 4 floors, 5 suppliers, metric."""

from datetime import date

from sheetcalc.workbook.blank import filled_book
from sheetcalc.workbook.sheet import BookModel
from sheetcalc.workbook.template_data import Record, template_records

from .rows import records

_FLOORS = 4
_TYPES = 6
_HANDED_TYPES = frozenset({2, 4})
_STARTS = (date(2027, 3, 1), date(2027, 3, 22), date(2027, 4, 12), date(2027, 5, 3))

_SIZES: dict[int, tuple[float, float, str]] = {
    1: (2.1, 1.7, "Bath"),
    2: (2.4, 1.9, "Shower"),
    3: (2.6, 1.8, "Shower"),
    4: (3.2, 2.4, "Large"),
    5: (1.5, 1.8, "Wet room"),
    6: (1.2, 1.6, "Cloak"),
}
"""Type -> size from left to right, size away from the door, finish [m]."""

_PIECES = """
Room|Piece|Kind|Wall|Left|Front|Length|Width|Diameter|Height|Note
1.01|Door|doorway|near|0.80||0.80||||
1.01|Bath|bath||0|1.00|1.70|0.70|||
1.01|Vanity|cabinet||1.65|0.35|0.45|0.60|||
1.01|WC outlet|toilet outlet||0.30|0.55|||110||
1.01|Thermostat|thermostat|near|1.75||||||
1.02|Door|doorway|near|0.30||0.80||||
1.02|Shower|shower floor||0|1.00|0.90|0.90|||
1.02|Drain|drain||0.45|1.45|||110||
1.02|Curb near|curb||0|0.90|1.00|0.10||100|
1.02|Curb side|curb||0.90|1.00|0.10|0.90||100|
1.02|Vanity|cabinet||1.95|0.60|0.45|0.80|||
1.02|WC outlet|toilet outlet||1.50|1.60|||110||
1.02|Thermostat|thermostat|near|1.30||||||
1.03|Alcove|floor||2.60|0.60|0.50|1.20|||makes the room L-shaped
1.03|Door|doorway|near|1.00||0.80||||
1.03|Tray|shower tray||0|1.00|0.80|0.80|||
1.03|Vanity|cabinet||2.60|0.60|0.50|0.50|||
1.03|WC outlet|toilet outlet||1.40|1.50|||110||
1.03|Thermostat|thermostat|near|2.00||||||
1.04|Door|doorway|near|1.00||0.90||||
1.04|Shower|shower floor||0|1.40|1.00|1.00|||
1.04|Drain|drain||0.50|1.90|||110||
1.04|Curb near|curb||0|1.30|1.10|0.10||100|
1.04|Curb side|curb||1.00|1.40|0.10|1.00||100|
1.04|Bath|bath||1.50|1.70|1.70|0.70|||
1.04|Column|column||2.90|0|0.30|0.30|||in the near right corner
1.04|Vanity|cabinet||0|0.10|0.50|1.00|||
1.04|WC outlet|toilet outlet||2.85|1.20|||110||
1.04|Thermostat|thermostat|near|2.10||||||
1.05|Door|doorway|near|0.35||0.80||||
1.05|Wet floor|shower floor||0|0|1.50|1.80|||the whole floor falls to the drain
1.05|Drain|drain||0.75|1.35|||110||
1.05|Thermostat|thermostat|near|1.30||||||
1.06|Door|doorway|near|0.20||0.80||||
1.06|Duct|void||0.95|1.35|0.25|0.25|||
1.06|Vanity|cabinet||0|0.50|0.30|0.45|||
1.06|WC outlet|toilet outlet||0.55|1.25|||110||
"""
_FACES = """
Room|Wall|Part|Left|Bottom|Length|Height|Depth|Note
1.01|far|face|0|0.55|1.70|1.55||from the rim of the bath
1.01|far|face|1.70|0|0.40|2.10||
1.01|far|wet area|0|0.55|1.70|1.55||over the bath
1.01|left|face|0|0|1.00|2.10||
1.01|left|face|1.00|0.55|0.70|1.55||from the rim of the bath
1.01|left|wet area|1.00|0.55|0.70|1.55||
1.02|left|face|0|0|1.90|2.10||
1.02|left|wet area|1.00|0|0.90|2.10||
1.02|far|face|0|0|2.40|2.10||
1.02|far|wet area|0|0|0.90|2.10||
1.02|far|niche|0.30|1.10|0.30|0.40|90|
1.03|left|face|0|0|1.80|2.10||
1.03|left|wet area|1.00|0|0.80|2.10||
1.03|far|face|0|0|3.10|2.10||
1.03|far|wet area|0|0|0.80|2.10||
1.03|far|opening|1.60|1.20|0.60|0.80|120|window
1.04|left|face|0|0|2.40|2.10||
1.04|left|wet area|1.40|0|1.00|2.10||
1.04|far|face|0|0|1.50|2.10||
1.04|far|face|1.50|0.55|1.70|1.55||from the rim of the bath
1.04|far|wet area|0|0|1.00|2.10||
1.04|far|wet area|1.50|0.55|1.70|1.55||over the bath
1.04|far|niche|0.35|1.10|0.30|0.40|90|
1.04|right|face|0|0.55|0.70|1.55||from the rim of the bath
1.04|right|face|0.70|0|1.70|2.10||
1.04|right|wet area|0|0.55|0.70|1.55||over the bath
1.05|left|face|0|0|1.80|2.10||
1.05|left|wet area|0|0|1.80|2.10||
1.05|far|face|0|0|1.50|2.10||
1.05|far|wet area|0|0|1.50|2.10||
1.05|right|face|0|0|1.80|2.10||
1.05|right|wet area|0|0|1.80|2.10||
"""
_FINISH_HEADERS = "Finish|Surface|Tile|Bond|Run|Joint|Trowel notch|Trowel angle|Skim|Heating"
_FINISHES = f"""
{_FINISH_HEADERS}
Bath|floor|T-6030|offset 1/3|along the long side|4|square 10 x 10 x 10 mm|60|1|Ember 12
Bath|wall|W-3020|grid||3|square 8 x 8 x 8 mm|60|0|
Bath|wet area|W-3020|grid||3|square 8 x 8 x 8 mm|60|1|
Shower|floor|T-6030|offset 1/3|along the long side|4|square 10 x 10 x 10 mm|60|1|Ember 12
Shower|shower floor|M-0505|grid||3|square 6 x 6 x 6 mm|60|1|Ember 12
Shower|curb|M-0505|grid||3|square 8 x 8 x 8 mm|60|1|
Shower|wall|W-3020|grid||3|square 8 x 8 x 8 mm|60|0|
Shower|wet area|W-3020|grid||3|square 8 x 8 x 8 mm|60|1|
Shower|niche|W-2010|grid||2|square 6 x 6 x 6 mm|60|1|
Large|floor|T-6060|grid||4|square 12 x 12 x 12 mm|60|1|Ember 12
Large|shower floor|M-0505|grid||3|square 6 x 6 x 6 mm|60|1|Ember 12
Large|curb|M-0505|grid||3|square 8 x 8 x 8 mm|60|1|
Large|wall|W-3020|offset 1/2||3|square 8 x 8 x 8 mm|60|0|
Large|wet area|W-3020|offset 1/2||3|square 8 x 8 x 8 mm|60|1|
Large|niche|W-2010|grid||2|square 6 x 6 x 6 mm|60|1|
Wet room|shower floor|M-0505|grid||3|square 6 x 6 x 6 mm|60|1|Ember 12
Wet room|wall|W-3020|grid||3|square 8 x 8 x 8 mm|60|1|
Wet room|wet area|W-3020|grid||3|square 8 x 8 x 8 mm|60|1|
Cloak|floor|T-3030|grid||3|square 8 x 8 x 8 mm|60|0|
Cloak|base|B-6010|grid||3|square 6 x 6 x 6 mm|60|1|
"""
_MIXES = {"Mortar": "C-FLEX", "Grout": "G-GREY", "Sealant": "S-GREY"}
_LAYER_HEADERS = "Surface|Order|Role|Item|Bed mortar|Trowel notch|Mean depth|Coats|Up walls"
_FLOOR_LAYERS = """
floor|1|primer|P-PRIM||||1|
floor|2|levelling compound|L-FLOW|||6||
floor|3|underlay|U-KNOB|C-FLEX|square 6 x 6 x 6 mm|||
"""
_SHOWER_LAYERS = """
shower floor|1|tray former|Z-FORM|||||
shower floor|2|underlay|U-KNOB|C-FLEX|square 6 x 6 x 6 mm|||
shower floor|3|waterproofing|Q-SHEET|C-FLEX|square 6 x 6 x 6 mm|||150
shower floor|4|band|Q-BAND|||||
shower floor|5|corner|Z-INCO|||||
shower floor|6|corner|Z-OUTC|||||
shower floor|7|collar|Z-COLL|||||
curb|1|waterproofing|Q-LIQ||||2|
niche|1|waterproofing|Q-LIQ||||2|
"""
_WET_LAYERS = """
wet area|1|waterproofing|Q-LIQ||||2|
wet area|2|band|Q-BAND|||||
"""
_CLOAK_LAYERS = """
floor|1|primer|P-PRIM||||1|
floor|2|levelling compound|L-FLOW|||20||
"""
_FORMERS = """
Code|Supplier code|Description|Pack price|Pack weight
Z-FORM10|TM-801|Tray former with falls 1000 x 1000|112|8
Z-FORM18|TM-806|Tray former with falls 1800 x 1500|238|21
"""
_LAYERS = {
    "Bath": _FLOOR_LAYERS + _WET_LAYERS,
    "Shower": _FLOOR_LAYERS + _SHOWER_LAYERS + _WET_LAYERS,
    "Large": _FLOOR_LAYERS + _SHOWER_LAYERS.replace("Z-FORM", "Z-FORM10") + _WET_LAYERS,
    "Wet room": _SHOWER_LAYERS.replace("curb|", "#")
    .replace("niche|", "#")
    .replace("Z-FORM", "Z-FORM18")
    + _WET_LAYERS,
    "Cloak": _CLOAK_LAYERS,
}


def larch_court() -> BookModel:
    """Return the inputs of the block."""
    office = template_records("metric")
    own: dict[str, list[Record]] = {
        "Phases": [
            {"Phase": f"Floor {n}", "Start": start, "Deliver to": f"Larch Court, lift {n}"}
            for n, start in enumerate(_STARTS, 1)
        ],
        "Rooms": _rooms(),
        "Floor pieces": records("Floor pieces", _PIECES),
        "Wall faces": records("Wall faces", _FACES),
        "Finishes": [{**row, **_MIXES} for row in records("Finishes", _FINISHES)],
        "Build-up": _layers(),
        "Sundries": _sundries(),
        "Decisions": [
            {
                "Code": "ASBESTOS-PRESUMED",
                "Decision": "accepted",
                "By": "A. Estimator",
                "Date": date(2027, 1, 20),
                "Reason": "survey of December 2026: none found",
            },
            {
                "Code": "THERMOSTAT-BY-WATER",
                "Decision": "accepted",
                "By": "A. Estimator",
                "Date": date(2027, 1, 20),
                "Reason": "wet rooms: hangs in the corridor, on the other face of the wall; "
                "shower rooms: the shower head is on the far wall, 2.1 m away",
            },
        ],
        "Holidays": [
            {"Date": date(2027, 3, 26), "Note": "Spring holiday"},
            {"Date": date(2027, 3, 29), "Note": "Spring holiday"},
        ],
    }
    settings = {
        "name": "Larch Court",
        "client": "Larch Court Residents",
        "site_address": "Larch Court, Mill Lane, Harbourstead",
        "buyer": "Wharf Street Tiling",
        "order_prefix": "LC",
        "quote_date": date(2027, 2, 1),
        "tax": 0.2,
        "year_built": 1974,
    }
    return filled_book("metric", office | own, settings, title="sheetcalc sample: Larch Court")


def _rooms() -> list[Record]:
    """Return two rooms of each type on each floor; types 2 and 4 are a pair of mirrored rooms."""
    rows: list[Record] = []
    for floor in range(1, _FLOORS + 1):
        for kind in range(1, _TYPES + 1):
            length, width, finish = _SIZES[kind]
            first, second = f"{floor}.{kind:02}", f"{floor}.{kind + _TYPES:02}"
            row: dict[str, str | float | None] = {
                "Room": first,
                "Phase": f"Floor {floor}",
                "Finish": finish,
                "Take up": "tile and bed",
                "Take up thickness": 40,
            }
            if floor == 1:
                row |= {"Length": length, "Width": width}
            else:
                row["Same as"] = f"1.{kind:02}"
            if kind in _HANDED_TYPES:
                mirrored = {k: v for k, v in row.items() if k not in {"Length", "Width"}}
                mirrored |= {"Room": second, "Same as": f"1.{kind:02}", "Handed": "yes"}
                rows += [row, mirrored]
            else:
                rows.append(row | {"Count": 2, "Copies": f"{first}, {second}"})
    return rows


def _sundries() -> list[Record]:
    """Return the office's sundries and the tray formers of the larger showers."""
    rows = template_records("metric")["Sundries"]
    small = next(row for row in rows if row["Code"] == "Z-FORM")
    return [*rows, *({**small, **row} for row in records("Sundries", _FORMERS))]


def _layers() -> list[Record]:
    """Return the layers of every finish; lines taken out are marked with #."""
    rows: list[Record] = []
    for finish, lines in _LAYERS.items():
        kept = "\n".join(x for x in lines.split("\n") if x and not x.startswith("#"))
        found = records("Build-up", f"{_LAYER_HEADERS}\n{kept}")
        rows += [{"Finish": finish, **row} for row in found]
    return rows

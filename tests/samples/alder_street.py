"""One bathroom in US units: about 180 square feet of 18 x 18 in stone in a third offset."""

from sheetcalc.workbook.blank import filled_book
from sheetcalc.workbook.sheet import BookModel
from sheetcalc.workbook.template_data import template_records

from .rows import records

_ROOMS = """
Room|Length|Width|Finish|Take up|Take up thickness|Note
Primary bath|16' 0"|13' 0"|Stone|tile and bed|1.5|stone floor, separate cable in the shower
"""
_PIECES = """
Room|Piece|Kind|Wall|Left|Front|Length|Width|Diameter|Height
Primary bath|Door|doorway|near|6' 0"||32 in|||
Primary bath|Shower|shower floor||0|8' 0"|3' 0"|5' 0"||
Primary bath|Drain|drain||1' 6"|10' 6"|||4|
Primary bath|Curb near|curb||0|7' 8"|3' 4"|4 in||4.5
Primary bath|Curb side|curb||3' 0"|8' 0"|4 in|5' 0"||4.5
Primary bath|Vanity|cabinet||6' 0"|11' 3"|6' 0"|21 in||
Primary bath|Toilet|toilet outlet||14' 6"|12' 0"|||4|
Primary bath|Thermostat|thermostat|near|3' 0"|||||
"""
_FACES = """
Room|Wall|Part|Left|Bottom|Length|Height|Depth|Note
Primary bath|left|face|8' 0"|0|5' 0"|7' 0"||shower only
Primary bath|left|wet area|8' 0"|0|5' 0"|7' 0"||
Primary bath|left|niche|10' 0"|3' 8"|12 in|16 in|3.5|
Primary bath|far|face|0|0|3' 0"|7' 0"||shower only
Primary bath|far|wet area|0|0|3' 0"|7' 0"||
"""
_FINISHES = """
Finish|Surface|Tile|Bond|Joint|Trowel notch|Trowel angle|Skim|Sealer|Heating
Stone|floor|T-1818|offset 1/3|0.25|square 1/2 x 1/2 x 1/2 in|90|0.125|X-SEAL|Ember 240
Stone|shower floor|M-0202|grid|0.125|square 1/4 x 1/4 x 1/4 in|90|0.0625|X-SEAL|Ember 240
Stone|curb|M-0202|grid|0.125|square 1/4 x 3/8 x 1/4 in|60|0.0625||
Stone|wall|W-0412|grid|0.125|square 1/4 x 3/8 x 1/4 in|60|0.0625||
Stone|wet area|W-0412|grid|0.125|square 1/4 x 3/8 x 1/4 in|60|0.0625||
Stone|niche|W-0306|grid|0.125|square 1/4 x 1/4 x 1/4 in|60|0.0625||
"""
_MIXES = {"Mortar": "C-FLEX", "Grout": "G-SAND", "Sealant": "S-SAND"}
_LAYERS = """
Finish|Surface|Order|Role|Item|Bed mortar|Trowel notch|Mean depth|Coats|Up walls
Stone|floor|1|primer|P-PRIM||||1|
Stone|floor|2|levelling compound|L-FLOW|||0.25||
Stone|floor|3|underlay|U-KNOB|C-FLEX|square 1/4 x 1/4 x 1/4 in|||
Stone|shower floor|1|tray former|Z-FORM|||||
Stone|shower floor|2|underlay|U-KNOB|C-FLEX|square 1/4 x 1/4 x 1/4 in|||
Stone|shower floor|3|waterproofing|Q-SHEET|C-FLEX|square 1/4 x 1/4 x 1/4 in|||6
Stone|shower floor|4|band|Q-BAND|||||
Stone|shower floor|5|corner|Z-INCO|||||
Stone|shower floor|6|corner|Z-OUTC|||||
Stone|shower floor|7|collar|Z-COLL|||||
Stone|wet area|1|waterproofing|Q-LIQ||||2|
Stone|curb|1|waterproofing|Q-LIQ||||2|
Stone|niche|1|waterproofing|Q-LIQ||||2|
"""


def alder_street() -> BookModel:
    """Return the inputs: 16 x 13 ft, less shower, curbs and vanity, is about 180 square feet."""
    office = template_records("us")
    own = {
        "Rooms": records("Rooms", _ROOMS),
        "Floor pieces": records("Floor pieces", _PIECES),
        "Wall faces": records("Wall faces", _FACES),
        "Finishes": [{**row, **_MIXES} for row in records("Finishes", _FINISHES)],
        "Build-up": records("Build-up", _LAYERS),
    }
    settings = {
        "name": "Alder Street",
        "client": "A. Householder",
        "site_address": "52 Alder Street, Port Alder",
        "buyer": "Wharf Street Tile",
        "order_prefix": "AS",
        "year_built": 1974,
        "supply_volts": 240,
        "tax": 0.0825,
    }
    return filled_book("us", office | own, settings, title="sheetcalc sample: Alder Street")

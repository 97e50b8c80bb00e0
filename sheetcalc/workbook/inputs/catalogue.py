"""Tiles, Bags and pails, Rolls and sheets, Heating cables, Sundries: what can be bought."""

from sheetcalc.workbook.columns import Column, Kind, Tab
from sheetcalc.workbook.inputs import words


def _identity(
    code_help: str, code: str, description: str, code_us: str | None = None
) -> tuple[Column, ...]:
    """Return the four columns that every catalogue tab begins with."""
    return (
        Column("Code", Kind.CODE, code_help, code, code_us, required=True, width=12, live=True),
        Column(
            "Supplier", Kind.CODE,
            "Who it is ordered from, from Suppliers. The same code again with another supplier "
            "is an alternative source. Empty: ordered and flagged.",
            "Kiln & Quarry", list_of="Suppliers.Supplier", default="no supplier, flagged",
            width=18, live=True,
        ),
        Column(
            "Supplier code", Kind.CODE, "The supplier's own number for it, for the order.",
            "KQ-10442", default="none", width=12,
        ),
        Column(
            "Description", Kind.TEXT, "As it should read on the order.",
            description, required=True, width=34,
        ),
    )  # fmt: skip


def _ordering() -> tuple[Column, ...]:
    """Return the columns about ordering that every catalogue tab ends with."""
    return (
        Column(
            "Lead days", Kind.COUNT,
            "Working days from order to delivery. Empty: the supplier's.",
            "10", low=0, high=365, usual_high=90, default="the supplier's lead days", width=7,
            live=True,
        ),
        Column(
            "Minimum packs", Kind.COUNT,
            "Fewest packs that are sold at a time. Empty: 1.",
            "4", low=1, high=100_000, usual_high=500, default="1", width=10.5, live=True,
        ),
        Column(
            "Returnable", Kind.YES_NO,
            "yes: unopened packs are taken back; said where more was ordered than is needed. "
            "Empty: no.",
            "yes", choices=("yes", "no"), default="no", width=11,
        ),
    )  # fmt: skip


def _money(header: str, help_text: str, example: str) -> Column:
    return Column(
        header, Kind.MONEY, f"{help_text} Empty: ordered without a price, flagged.", example,
        low=0, high=1_000_000, default="no price, flagged", width=10, live=True,
    )  # fmt: skip


def _package(example: str, usual: str = "") -> Column:
    empty = usual or example
    return Column(
        "Package", Kind.CHOICE, f"What one pack is called on the order. Empty: {empty}.", example,
        choices=words.PACKAGES, default=empty, width=10.5,
    )  # fmt: skip


_BY_WEIGHT = "the Pack size where that is a weight, else not known"


def _mass(
    header: str, help_text: str, example: str, example_us: str, default: str = "weight not known"
) -> Column:
    return Column(
        header, Kind.MASS, help_text, example, example_us, low=0, high=5_000, usual_high=1_500,
        default=default, width=9.5, live=True,
    )  # fmt: skip


TILES = Tab(
    key="Tiles",
    table="InTiles",
    record="a tile that can be bought",
    purpose="Tiles that can be bought; sizes are of the tile's face without joint. "
    "Mosaic: the sheet here, the chip in Chip length and Chip width.",
    needed=True,
    columns=(
        *_identity(
            "Your code for the tile, as used in Finishes.", "T-3060", "Floor tile 300 x 600 grey",
            "T-1818",
        ),
        Column(
            "Material", Kind.CHOICE,
            "Stone is sealed and fully bedded. Empty: ceramic.",
            "porcelain", "natural stone", choices=words.MATERIALS, default="ceramic", width=13.5,
        ),
        Column(
            "Edge", Kind.CHOICE,
            "Sets the narrowest joint. Empty: calibrated, the wider of the two rules.",
            "rectified", choices=words.EDGES, default="calibrated", width=11,
        ),
        Column(
            "Length", Kind.SMALL_LENGTH, "Long side of the face, as measured, without joint.",
            "600", "18", required=True, low=5, high=4_000, usual_low=20, usual_high=3_200,
            width=9,
        ),
        Column(
            "Width", Kind.SMALL_LENGTH, "Short side of the face, as measured, without joint.",
            "300", "18", required=True, low=5, high=4_000, usual_low=20, usual_high=1_600,
            width=8.5,
        ),
        Column(
            "Thickness", Kind.SMALL_LENGTH, "Thickness of the tile.",
            "9", "3/8", required=True, low=1, high=100, usual_low=3, usual_high=30, width=11,
        ),
        Column(
            "Chip length", Kind.SMALL_LENGTH,
            "Mosaic: long side of one chip. Empty: not a mosaic.",
            "48", "2", low=3, high=500, default="not a mosaic", width=9,
        ),
        Column(
            "Chip width", Kind.SMALL_LENGTH,
            "Mosaic: short side of one chip. Empty: not a mosaic.",
            "48", "2", low=3, high=500, default="not a mosaic", width=8.5,
        ),
        Column(
            "Size spread", Kind.SMALL_LENGTH,
            "Largest less smallest face size in the delivery. Empty: not checked.",
            "0.8", "1/32", low=0, high=20, usual_high=3, default="not checked", width=9,
        ),
        Column(
            "Edge warpage", Kind.SMALL_LENGTH,
            "Warpage on the longest edge. Empty: not checked.",
            "1", "1/32", low=0, high=20, usual_high=3, default="not checked", width=10,
        ),
        Column(
            "Pieces per box", Kind.COUNT, "Tiles, or mosaic sheets, in a box.",
            "8", "4", required=True, low=1, high=10_000, usual_high=200, width=8.5, live=True,
        ),
        _money("Price", "Price for what the next column says.", "31.50"),
        Column(
            "Price per", Kind.CHOICE,
            "Whether the price is for a box, a piece, or the Job's unit of area. Empty: box.",
            "box", choices=words.PRICES_PER, default="box", width=9, live=True,
        ),
        _mass("Box weight", "Weight of a full box, for the lift and the delivery.", "28", "62"),
        Column(
            "One batch", Kind.YES_NO,
            "yes: ordered once for the whole job, so that shades agree. Empty: no.",
            "yes", choices=("yes", "no"), default="no", width=8,
        ),
        *_ordering(),
    ),
)  # fmt: skip

BAGS = Tab(
    key="Bags and pails",
    table="InBags",
    record="something mixed, poured or spread",
    purpose="What is mixed, poured or spread: mortar, grout, sealant, primer, levelling compound, "
    "liquid waterproofing, sealer.",
    columns=(
        *_identity(
            "Your code, as used in Finishes and Build-up.", "M-FLEX", "Flexible tile mortar, grey",
        ),
        Column(
            "Kind", Kind.CHOICE, "What it is used as.",
            "mortar", required=True, choices=words.BAG_KINDS, width=17,
        ),
        Column(
            "Pack size", Kind.NUMBER, "How much is in a pack, in the Pack unit.",
            "20", "50", required=True, low=0.001, high=10_000, width=8, live=True,
        ),
        Column(
            "Pack unit", Kind.CHOICE, "Unit of Pack size.",
            "kg", "lb", required=True, choices=words.PACK_UNITS, width=8,
        ),
        _package("bag", "by Kind: a cartridge of sealant, a pail of what is wet, else a bag"),
        Column(
            "Yield", Kind.VOLUME,
            "Volume that a pack gives as mixed. Empty: worked out from the Job's density and "
            "water for mortar and grout, the pack's own volume for what is sold by volume.",
            "14.8", "4.4", low=0.00001, high=5,
            default="worked out from the Job's densities, or the pack's volume", width=9,
            live=True,
        ),
        Column(
            "Coverage", Kind.AREA,
            "Area that a pack covers in one coat; needed for what is brushed or rolled on.",
            "40", "430", low=0.01, high=10_000, default="by volume", width=10.5, live=True,
        ),
        _money("Pack price", "Price of a pack.", "18.90"),
        _mass("Pack weight", "Weight of a pack, for the delivery.", "20", "50", _BY_WEIGHT),
        *_ordering(),
    ),
)  # fmt: skip

ROLLS = Tab(
    key="Rolls and sheets",
    table="InRolls",
    record="a roll, a mat, a band, a board",
    purpose="What comes by the roll or the sheet: underlay, waterproofing sheet, band, boards.",
    columns=(
        *_identity(
            "Your code, as used in Build-up.", "U-KNOB", "Knobbed underlay for heating cable",
        ),
        Column(
            "Kind", Kind.CHOICE, "What it is used as.",
            "underlay roll", required=True, choices=words.ROLL_KINDS, width=19,
        ),
        Column(
            "Width", Kind.LONG_LENGTH, "Across the roll, or the short side of a board.",
            "1.00", "3.25", required=True, low=10, high=6_000, usual_low=50, usual_high=2_500,
            width=8.5,
        ),
        Column(
            "Length", Kind.LONG_LENGTH, "Of a whole roll, or the long side of a board.",
            "12.5", "41", required=True, low=100, high=500_000, usual_low=400,
            usual_high=60_000, width=9,
        ),
        Column(
            "Thickness", Kind.SMALL_LENGTH, "For the finished height. Empty: counts as nothing.",
            "5.5", "7/32", low=0.1, high=200, default="counts as nothing in the height", width=11,
        ),
        Column(
            "Overlap", Kind.SMALL_LENGTH, "Of neighbouring strips. Empty: butted.",
            "50", "2", low=0, high=500, usual_high=150, default="0", width=9.5,
        ),
        Column(
            "Knob pitch", Kind.SMALL_LENGTH,
            "Centre to centre of the knobs that hold a cable. Empty: no knobs.",
            "30", "1 3/16", low=5, high=200, usual_low=15, usual_high=60, default="no knobs",
            width=9,
        ),
        Column(
            "Fill", Kind.FILL,
            "Mortar to fill the knobs level, volume for an area; needed for a knobbed underlay.",
            "3.2", "0.08", low=0, high=0.05, usual_low=0.0003, usual_high=0.01,
            default="nothing to fill", width=11,
        ),
        Column(
            "One way", Kind.YES_NO,
            "yes: every strip of a roll runs the same way and knobs or print line up. Empty: no.",
            "no", choices=("yes", "no"), default="no", width=8,
        ),
        _package("roll", "by Kind: a sheet of a mat or board, else a roll"),
        _money("Price", "Price of a roll or a sheet.", "168.00"),
        _mass("Weight", "Weight of a roll or a sheet, for the delivery.", "12", "26"),
        *_ordering(),
    ),
)  # fmt: skip

CABLES = Tab(
    key="Heating cables",
    table="InCables",
    record="one fixed-length cable",
    purpose="Fixed-length heating cables; a cable is never cut, so each length of a range is a "
    "row.",
    columns=(
        *_identity("Your code for the cable.", "H-0500", "Heating cable 41.7 m, 500 W"),
        Column(
            "Range", Kind.CODE, "Name of the range that it belongs to, as used in Finishes.",
            "Warm 12", required=True, width=13,
        ),
        Column(
            "Length", Kind.LONG_LENGTH, "Heated length, without cold leads.",
            "41.7", "137", required=True, low=1_000, high=500_000, usual_low=2_000,
            usual_high=250_000, width=9,
        ),
        Column(
            "Length tolerance", Kind.PERCENT, "As its data sheet says. Empty: none stated.",
            "2 %", low=0, high=0.2, usual_high=0.05, default="none stated", width=11,
        ),
        Column(
            "Watts", Kind.NUMBER, "Power of the whole cable at its voltage.",
            "500", "500", required=True, low=5, high=20_000, usual_low=30, usual_high=5_000,
            unit="W", width=9,
        ),
        Column(
            "Volts", Kind.NUMBER, "Voltage that it is made for.",
            "230", "120", required=True, low=12, high=480, unit="V", width=8,
        ),
        Column(
            "Resistance", Kind.NUMBER,
            "At 20 °C (68 °F), as its label says. Empty: volts squared over watts.",
            "105.8", "28.8", low=0.1, high=100_000, default="volts squared over watts", unit="Ω",
            width=12,
        ),
        Column(
            "Temperature coefficient", Kind.NUMBER,
            "Of the resistance, for each kelvin (1 °C, 1.8 °F). Empty: readings are not corrected "
            "for temperature.",
            "0.0004", low=-0.001, high=0.007, default="not corrected for temperature", unit="1/K",
            width=13,
        ),
        Column(
            "Leads", Kind.CHOICE,
            "Whether the cold lead is at one end, or there is one at both ends. Empty: one end.",
            "one end", choices=words.LEADS, default="one end", width=10.5,
        ),
        Column(
            "Cold lead", Kind.LONG_LENGTH,
            "Length of a cold lead. Empty: its reach is not checked.",
            "2.5", "10", low=100, high=50_000, default="reach not checked", width=9,
        ),
        Column(
            "Smallest spacing", Kind.SMALL_LENGTH,
            "Between neighbouring runs, centre to centre. Empty: 50 mm (2 in).",
            "60", "2 1/2", low=10, high=500, usual_low=30, usual_high=150, default="50 mm",
            width=10,
        ),
        Column(
            "Bend radius", Kind.SMALL_LENGTH,
            "Smallest, to the cable's centre line. Empty: half the smallest spacing.",
            "25", "1", low=3, high=250, default="half the smallest spacing", width=9,
        ),
        _money("Price", "Price of the cable.", "214.00"),
        *_ordering(),
    ),
)  # fmt: skip

SUNDRIES = Tab(
    key="Sundries",
    table="InSundries",
    record="anything bought by a rule",
    purpose="Anything else that is bought by a rule: spacers, clips, thresholds, trim, tape, "
    "sensors. Needed = Basis x Rate.",
    columns=(
        *_identity("Your code.", "Z-CLIP", "Levelling clips 3 mm"),
        Column(
            "Basis", Kind.CHOICE, "What one Rate is for.",
            "per joint crossing", required=True, choices=words.BASES, width=22,
        ),
        Column(
            "Of", Kind.CODE, "With 'per kg of another item': that item's code.",
            "M-FLEX", default="no other item", width=10,
        ),
        Column(
            "Rate", Kind.NUMBER,
            "How many Pack units for one of the Basis; areas count in the Job's unit of area.",
            "1", required=True, low=0, high=100_000, width=8, live=True,
        ),
        Column(
            "Finish", Kind.CODE, "Only for this finish. Empty: all.",
            "Standard", "Stone", list_of="Finishes.Finish", default="all finishes", width=12,
        ),
        Column(
            "Surface", Kind.CHOICES, "Only for these surfaces, with commas. Empty: all.",
            "wall, wet area", choices=words.SURFACES, default="all surfaces", width=12,
        ),
        Column(
            "Pack size", Kind.NUMBER, "How much is in a pack, in the Pack unit.",
            "250", required=True, low=0.001, high=1_000_000, width=8, live=True,
        ),
        Column(
            "Pack unit", Kind.CHOICE, "Unit of Pack size and Rate. Empty: piece.",
            "piece", choices=words.PACK_UNITS, default="piece", width=8,
        ),
        _package("box"),
        _money("Pack price", "Price of a pack.", "22.40"),
        _mass("Pack weight", "Weight of a pack, for the delivery.", "0.9", "2", _BY_WEIGHT),
        *_ordering(),
    ),
)  # fmt: skip

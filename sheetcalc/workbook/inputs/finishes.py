"""Finishes and Build-up: which tile lies where, how it is laid, and what is under it."""

from sheetcalc.workbook.columns import Column, Kind, Tab
from sheetcalc.workbook.inputs import words

_NOTCH_HELP = (
    "The trowel: shape, then width x depth x spacing of its notches. Empty: {empty}. "
    "Shapes are square, U and V."
)

FINISHES = Tab(
    key="Finishes",
    table="InFinishes",
    record="one tiled surface of a finish",
    purpose="What is laid on each surface; a surface without a row is not tiled. "
    "A finish is named once and used by many rooms.",
    needed=True,
    columns=(
        Column(
            "Finish", Kind.CODE, "Name of the finish, as used in Rooms.",
            "Standard", "Stone", required=True, width=14,
        ),
        Column(
            "Surface", Kind.CHOICE,
            "Which surface of the room. 'base' is a course along the walls, as high as the tile "
            "is wide.",
            "floor", required=True, choices=words.SURFACES, width=13,
        ),
        Column(
            "Tile", Kind.CODE,
            "Code of the tile, from Tiles. Empty: layers only, waterproofed behind a bath for "
            "example.",
            "T-3060", "T-1818", list_of="Tiles.Code", default="layered only, not tiled", width=11,
        ),
        Column(
            "Bond", Kind.BOND,
            "Pattern: grid, offset 1/2, offset 1/3 (any 1/n, with 'alternate' for back and "
            "forth), diagonal grid, herringbone, double herringbone, basket weave. Empty: grid.",
            "offset 1/3", choices=words.BONDS, default="grid", width=17,
        ),
        Column(
            "Run", Kind.RUN,
            "Direction of the tile's long side: along the long side, along the short side, degrees "
            "or with the floor (its joint lines run on). Empty: along the long side.",
            "along the long side", choices=words.RUNS, default="along the long side", width=17,
        ),
        Column(
            "Joint", Kind.SMALL_LENGTH, "Width of the joints; needed where there is a tile.",
            "3", "1/8", low=0, high=30, usual_low=1.5, usual_high=12,
            default="needed with a tile", width=8,
        ),
        Column(
            "Trowel notch", Kind.NOTCH,
            _NOTCH_HELP.format(empty="no mortar is worked out, with a warning"),
            "square 10 x 10 x 10 mm", "square 1/2 x 1/2 x 1/2 in",
            choices=words.NOTCHES_METRIC, default="no mortar is worked out, with a warning",
            width=22,
        ),
        Column(
            "Trowel angle", Kind.NUMBER,
            "Angle of the trowel to the surface. Empty: the Job's trowel angle.",
            "60", low=20, high=90, usual_low=40, default="the Job's trowel angle",
            unit="°", width=8,
        ),
        Column(
            "Skim", Kind.SMALL_LENGTH,
            "Mortar spread on the tile's back (back-buttering); 0 for none. "
            "Empty: the Job's skim.",
            "1", "1/16", low=0, high=20, usual_high=5, default="the Job's skim", width=8,
        ),
        Column(
            "Mortar", Kind.CODE,
            "Code, from Bags and pails. Empty: the only mortar there, with a warning.",
            "M-FLEX", list_of="Bags and pails.Code", default="the only mortar of the catalogue",
            width=11,
        ),
        Column(
            "Grout", Kind.CODE,
            "Code, from Bags and pails. Empty: the only grout there, with a warning.",
            "G-GREY", list_of="Bags and pails.Code", default="the only grout of the catalogue",
            width=11,
        ),
        Column(
            "Sealant", Kind.CODE,
            "Code, from Bags and pails. Empty: the only sealant there, with a warning.",
            "S-GREY", list_of="Bags and pails.Code", default="the only sealant of the catalogue",
            width=11,
        ),
        Column(
            "Sealer", Kind.CODE,
            "Code, from Bags and pails. Empty: not sealed.",
            "X-SEAL", list_of="Bags and pails.Code", default="not sealed", width=11,
        ),
        Column(
            "Heating", Kind.CODE,
            "Range, from Heating cables, of a floor, inset or shower floor. Empty: not heated; an "
            "inset: heated with the floor. An inset with a range is a zone with a cable of its "
            "own.",
            "Warm 12", list_of="Heating cables.Range", default="not heated", width=12,
        ),
    ),
)  # fmt: skip

BUILD_UP = Tab(
    key="Build-up",
    table="InBuildUp",
    record="one layer under or behind a surface",
    purpose="Layers under or behind the tile, in order from the base up; leave empty when tile "
    "goes straight on the base.",
    columns=(
        Column(
            "Finish", Kind.CODE, "Name of the finish, from Finishes.",
            "Standard", "Stone", required=True, list_of="Finishes.Finish", width=16,
        ),
        Column(
            "Surface", Kind.CHOICE, "Which surface it lies under.",
            "floor", required=True, choices=words.SURFACES, width=14,
        ),
        Column(
            "Order", Kind.COUNT, "1 lies on the base, 2 on it, and so on.",
            "1", required=True, low=1, high=50, width=9,
        ),
        Column(
            "Role", Kind.CHOICE, "What the layer does.",
            "underlay", required=True, choices=words.LAYER_ROLES, width=20,
        ),
        Column(
            "Item", Kind.CODE,
            "Code from Bags and pails, Rolls and sheets or Sundries. Several codes of rolls, mats "
            "or boards with ; between them: the cheapest for the phase is planned, rolls that "
            "differ in length alone mixed.",
            "U-KNOB", required=True, width=14,
        ),
        Column(
            "Bed mortar", Kind.CODE,
            "Code of the mortar that beds it, from Bags and pails. Empty: laid loose or "
            "self-adhesive.",
            "M-FLEX", list_of="Bags and pails.Code", default="no bed", width=13,
        ),
        Column(
            "Trowel notch", Kind.NOTCH,
            _NOTCH_HELP.format(empty="needed with a bed mortar"),
            "square 6 x 6 x 6 mm", "square 1/4 x 1/4 x 1/4 in",
            choices=words.NOTCHES_METRIC, default="needed with a bed mortar", width=22,
        ),
        Column(
            "Mean depth", Kind.SMALL_LENGTH,
            "Of a levelling compound or a screed; needed for these.",
            "8", "3/8", low=0.5, high=300, usual_low=1, usual_high=100,
            default="needed where it is poured", width=12,
        ),
        Column(
            "Coats", Kind.COUNT, "Number of coats of what is brushed or rolled on. Empty: 1.",
            "2", low=1, high=10, usual_high=4, default="1", width=9,
        ),
        Column(
            "Up walls", Kind.SMALL_LENGTH,
            "How far waterproofing goes up the walls beside the surface. "
            "Empty: the Job's upturn.",
            "150", "6", low=0, high=3_000, default="the Job's upturn", width=12,
        ),
        Column("Note", Kind.TEXT, "Anything to remember.", width=26),
    ),
)  # fmt: skip

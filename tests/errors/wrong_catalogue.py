"""Wrong workbooks for the findings on names, settings, decisions and the catalogue."""

from gallery import Said, Wrong, cell, record, setting, wrong
from typed_books import TypedBook


def _one_setting_less(book: TypedBook) -> None:
    for row in book["Job"].iter_rows(min_row=5):
        if row[0].value == "Saw kerf":
            for one in row:
                one.value = None


_FLOOR_TILE = {
    "Description": "Floor tile 300 x 300 slate grey",
    "Length": 298,
    "Width": 298,
    "Thickness": 8,
    "Pieces_per_box": 11,
}

NAMES: tuple[Wrong, ...] = (
    wrong("NAME-UNKNOWN", "Rooms!I5", cell("Rooms", "Finish", "Plian")),
    wrong(
        "NAME-TWICE",
        "Suppliers!A6",
        record("Suppliers", Supplier="kiln & quarry"),
    ),
    wrong(
        "SURFACE-TWICE",
        "Finishes!A6",
        record("Finishes", Finish="Plain", Surface="floor", Tile="T-3030", Joint=2),
    ),
    wrong(
        "LAYER-TWICE",
        "Build-up!A6",
        record("Build-up", Finish="Plain", Surface="floor", Order=1, Role="primer", Item="C-FLEX"),
        record("Build-up", Finish="Plain", Surface="floor", Order=1, Role="primer", Item="G-GREY"),
    ),
    wrong(
        "CODE-TWICE",
        "Tiles!A6",
        record("Tiles", Code="T-3030", Supplier="Kiln & Quarry", **_FLOOR_TILE),
    ),
    wrong(
        "ALTERNATIVE-DIFFERS",
        "Tiles!G6",
        record("Suppliers", Supplier="Harbour Tiles"),
        record("Tiles", Code="T-3030", Supplier="Harbour Tiles", **(_FLOOR_TILE | {"Length": 300})),
    ),
    wrong(
        "ITEM-IN-TWO-TABS",
        "Build-up!E5",
        record(
            "Rolls and sheets",
            Code="C-FLEX",
            Description="Roll of the same code",
            Kind="underlay roll",
            Width=1,
            Length=10,
        ),
        record(
            "Build-up", Finish="Plain", Surface="floor", Order=1, Role="underlay", Item="C-FLEX"
        ),
    ),
    wrong(
        "SUPPLIER-IN-TWO-SPELLINGS",
        "Suppliers!A6",
        record("Suppliers", Supplier="Kiln and Quarry"),
    ),
)

SETTINGS: tuple[Wrong, ...] = (
    wrong("SETTING-UNKNOWN", "Job!A27", setting("Saw kerf", "Saw curve", "Setting")),
    wrong("SETTING-TWICE", "Job!A27", setting("Saw kerf", "Perimeter gap", "Setting")),
    wrong("SETTINGS-NOT-THERE", "Job", _one_setting_less),
    wrong("UNIT-UNKNOWN", "Job!C27", setting("Saw kerf", "thou", "Unit")),
)

DECISIONS: tuple[Wrong, ...] = (
    wrong(
        "DECISION-ON-UNKNOWN-CODE",
        "Decisions!A5",
        record("Decisions", Code="LENGTH-UNUSAL", Decision="accepted", By="A. Estimator"),
    ),
    wrong(
        "DECISION-ON-ERROR",
        "Decisions!A5",
        record("Decisions", Code="LENGTH-COMMA", Decision="accepted", By="A. Estimator"),
    ),
)

PRODUCTS: tuple[Wrong, ...] = (
    wrong("TILE-WITHOUT-JOINT", "Finishes!F5", cell("Finishes", "Joint", None)),
    wrong(
        "TILE-THICKER-THAN-LONG", "Tiles!I5", cell("Tiles", "Length", 5), cell("Tiles", "Width", 5)
    ),
    wrong("TILE-WIDER-THAN-LONG", "Tiles!G5", cell("Tiles", "Length", 200)),
    wrong("CHIP-SIZE-MISSING", "Tiles!K5", cell("Tiles", "Chip length", 48)),
    wrong("YIELD-UNUSUAL", "Bags and pails!I5", cell("Bags and pails", "Yield", 0.0148)),
    wrong(
        "CHIP-LARGER-THAN-SHEET",
        "Tiles!J5",
        cell("Tiles", "Chip length", 320),
        cell("Tiles", "Chip width", 48),
    ),
    wrong(
        "OVERLAP-OVER-WIDTH",
        "Rolls and sheets!I5",
        record(
            "Rolls and sheets",
            Code="U-1",
            Description="Underlay",
            Kind="underlay roll",
            Width="400 mm",
            Length=10,
            Overlap=400,
        ),
    ),
)

ENTRIES: tuple[Wrong | Said, ...] = (*NAMES, *SETTINGS, *DECISIONS, *PRODUCTS)

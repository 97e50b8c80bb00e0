"""The Guide tab: five steps, the legend, contents with links, cautions, the schema version."""

from collections.abc import Iterable
from typing import NamedTuple

from sheetcalc.workbook.inputs import GUIDE_NAME, INPUT_TABS, LISTS_NAME, SCHEMA
from sheetcalc.workbook.results_tabs import RESULT_TABS
from sheetcalc.workbook.sheet import Cell, SheetModel

_WIDTHS = {1: 7.0, 2: 24.0, 3: 104.0}


class Step(NamedTuple):
    """One step: tab to go to, what to do."""

    tab: str
    text: str


def steps(system: str) -> tuple[Step, ...]:
    """Five steps that fill in one bathroom."""
    us = system == "us"
    tile = "18 x 18" if us else "600 x 300"
    joint = "1/8" if us else "3"
    notch = "square 1/2 x 1/2 x 1/2 in" if us else "square 10 x 10 x 10 mm"
    lengths = "8' 0\" or 8" if us else "2.40 or 2400 mm"
    tile_unit, room_unit = ("inches", "feet") if us else ("millimetres", "metres")
    return (
        Step(
            "Job",
            "Type the Job name. Every other setting has a default that you can leave. Plain "
            f"numbers are {room_unit} in rooms and {tile_unit} for tiles and joints, as the "
            "headers say; a typed unit always wins.",
        ),
        Step(
            "Tiles",
            "One row for the tile: a Code of your own, a Description for the order, its Length, "
            f"Width ({tile}) and Thickness in {tile_unit}, and Pieces per box. Supplier, Price "
            "and the rest can wait.",
        ),
        Step(
            "Finishes",
            "One row: a Finish name of your own, Surface 'floor', the Tile's code from step 2, "
            f"the Joint ({joint}) and the Trowel notch ({notch}). An empty Bond is a plain grid.",
        ),
        Step(
            "Rooms",
            "One row: the Room's name and the Finish from step 3. Stand in the doorway: Length is "
            "the size from left to right, Width the size away from you "
            f"({lengths}).",
        ),
        Step(
            "Findings",
            "Save and close this workbook, then run  sheetcalc takeoff  and the name of this file. "
            "Open it again: Findings says what is wrong or to decide, Takeoff shows the "
            "quantities, and each supplier has a tab of orders.",
        ),
    )


_LEGEND = (
    ("header", "Dark header", "A column that must be filled in."),
    ("header_optional", "Light header", "A column that may stay empty; see its help."),
    ("input", "Bordered cell", "A cell to fill in. Select it to read its help."),
    ("error", "error", "Stops the takeoff until it is put right."),
    ("warning", "warning", "Asks: put it right, or accept it on the tab Decisions."),
    ("note", "note", "Says something worth knowing."),
    ("ok", "OK", "No check found an error, or a warning that nobody has accepted."),
)  # fmt: skip

_CAUTIONS = (
    (
        "Figures",
        (
            "A figure marked 'common practice' or 'from memory' has no source that was read. "
            "Check it "
            "against the standard, the data sheet and the rules of the place. Nothing here says "
            "that "
            "work complies or is safe; it says what was checked against which rule."
        ),
    ),
    (
        "Dust",
        (
            "Cut and grind wet: respirable silica is limited to 50 µg/m³ over 8 hours (29 CFR "
            "1926.1153, read second-hand)."
        ),
    ),
    (
        "Asbestos",
        (
            "Resilient flooring, its mastic and backing in buildings up to 1980 are presumed to "
            "hold "
            "asbestos; sanding is prohibited (29 CFR 1926.1101, read second-hand; OSHA letter of "
            "18 "
            "May 2005)."
        ),
    ),
    (
        "Heating cable",
        (
            "Never cut it, never cross it. A licensed electrician connects and tests it, and it is "
            "inspected before it is covered (NEC 424.46, 2017 numbering, read second-hand)."
        ),
    ),
    (
        "Movement joints",
        "Where they go is the designer's decision (TCNA EJ171, as quoted in the NTCA manual).",
    ),
    (
        "Lifting",
        (
            "A box above 23 kg (51 lb) is for two people (load constant of the NIOSH lifting "
            "equation, CCOHS)."
        ),
    ),
    (
        "Floor",
        (
            "The weight of the tiling belongs in the floor's dead load; a designer says whether "
            "the "
            "floor is stiff enough (structuremag.org; TileLetter Feb 2019)."
        ),
    ),
)

_ALSO_CALLED = (
    ("Setting-out", "Layout: where the first tile goes, and which tiles are cut."),
    ("Take up", "Tear out, demolition."),
    ("Skip", "Dumpster."),
    ("Levelling compound", "Self-leveling underlayment."),
    ("Screed", "Mud bed."),
    ("Underlay", "Membrane or mat under the tile."),
    ("Tray former", "Sloped shower base."),
    ("Band, collar", "Seam tape; seal round a drain or a pipe."),
    ("Sealant", "Caulk."),
)
"""Words of these tabs, and what they are called in US trade: common practice, no source."""


def guide_sheet(system: str) -> SheetModel:
    """Return the Guide.

    Parameters
    ----------
    system
        ``metric`` or ``us``: which examples the steps show, and whether words are explained.
    """
    loose: dict[tuple[int, int], Cell] = {}
    row = 4
    row = _section(loose, row, "One bathroom in five steps")
    for number, step in enumerate(steps(system), 1):
        loose[(row, 1)] = Cell(number, "step")
        loose[(row, 2)] = _link(step.tab) if step.tab != "Findings" else Cell("Run", "strong")
        loose[(row, 3)] = Cell(step.text, "wrapped")
        row += 1
    row = _note(
        loose,
        row,
        "Doors, showers, baths and outlets go on Floor pieces; tiled walls on Wall faces; mortar, "
        "grout and sealant on Bags and pails; heating on Heating cables; prices and suppliers "
        "where you buy. An example with all of it: sheetcalc blank EXAMPLE.xlsx --example",
    )
    row = _section(loose, row + 1, "Legend")
    for style, word, text in _LEGEND:
        loose[(row, 2)] = Cell(word, style)
        loose[(row, 3)] = Cell(text, "wrapped")
        row += 1
    row = _section(loose, row + 1, "What is where")
    for tab in INPUT_TABS:
        loose[(row, 2)] = _link(tab.key)
        must = " Must be filled in." if tab.needed else ""
        loose[(row, 3)] = Cell(f"One row is {tab.record}. {tab.purpose}{must}", "wrapped")
        row += 1
    loose[(row, 2)] = _link(LISTS_NAME)
    loose[(row, 3)] = Cell("The choices of the drop-downs.", "wrapped")
    second_page = row + 2
    row = _section(loose, second_page, "What the program writes, after your tabs")
    for tab in RESULT_TABS:
        loose[(row, 2)] = Cell("Order, one a supplier" if tab.key == "Order" else tab.key, "strong")
        loose[(row, 3)] = Cell(tab.purpose, "wrapped")
        row += 1
    if system == "us":
        row = _explained(loose, row + 1, "Words that you may know by others", _ALSO_CALLED)
    row = _explained(loose, row + 1, "Cautions", _CAUTIONS)
    loose[(row + 1, 2)] = Cell(f"sheetcalc, schema {SCHEMA}", "hint")
    return SheetModel(
        key=GUIDE_NAME,
        name=GUIDE_NAME,
        title="Bathrooms: takeoff and orders",
        purpose="Fill in the tabs with the sand-coloured cells, run sheetcalc, and find the "
        "quantities and the orders in this same workbook.",
        loose=loose,
        widths=_WIDTHS,
        heights={},
        freeze=None,
        landscape=False,
        repeat_row=None,
        row_breaks=(second_page - 1,),
        tab_style="guide",
    )


def _section(loose: dict[tuple[int, int], Cell], row: int, words: str) -> int:
    for column in (1, 2, 3):
        loose[(row, column)] = Cell(words if column == 1 else None, "section")
    return row + 1


def _explained(
    loose: dict[tuple[int, int], Cell], row: int, title: str, rows: Iterable[tuple[str, str]]
) -> int:
    row = _section(loose, row, title)
    for word, text in rows:
        loose[(row, 2)] = Cell(word, "strong")
        loose[(row, 3)] = Cell(text, "wrapped")
        row += 1
    return row


def _note(loose: dict[tuple[int, int], Cell], row: int, words: str) -> int:
    loose[(row, 3)] = Cell(words, "wrapped")
    return row + 1


def _link(tab: str) -> Cell:
    return Cell(tab, "link", link=f"internal:'{tab}'!A1")

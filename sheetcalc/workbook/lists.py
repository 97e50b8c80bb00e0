"""The Lists tab, and the defined names that drop-downs and bounds look at."""

import re
from collections.abc import Mapping

from sheetcalc.workbook.columns import Column, Tab
from sheetcalc.workbook.inputs import INPUT_TABS, LISTS_NAME, words
from sheetcalc.workbook.settings import SETTINGS
from sheetcalc.workbook.sheet import Cell, SheetColumn, SheetModel, TableModel

FIRST_ROW = 5
"""Sheet row of the first record of every table."""

LAST_ROW = 2004
"""Last sheet row that references and validations look at; the reader looks further."""

_UNIT_FACTORS: Mapping[str, tuple[str, tuple[str, ...], tuple[str, ...]]] = {
    "room_mm": ("Unit of room lengths", ("m", "mm", "in", "ft"), ("1000", "1", "25.4", "304.8")),
    "small_mm": ("Unit of small lengths", ("mm", "in"), ("1", "25.4")),
    "long_mm": ("Unit of long lengths", ("m", "ft"), ("1000", "304.8")),
    "area_m2": ("Unit of area", ("m²", "ft²"), ("1", "0.09290304")),
    "volume_m3": (
        "Unit of volume", ("L", "m³", "US gal", "ft³"),
        ("0.001", "1", "0.003785411784", "0.028316846592"),
    ),
    "mass_kg": ("Unit of mass", ("kg", "lb"), ("1", "0.45359237")),
}  # fmt: skip


def notches(system: str) -> tuple[str, ...]:
    """Trowel notches that a drop-down suggests in a unit system."""
    return words.NOTCHES_US if system == "us" else words.NOTCHES_METRIC


def choices_of(column: Column, system: str) -> tuple[str, ...]:
    """Words of a column's drop-down in a unit system; () for none."""
    return notches(system) if column.choices == words.NOTCHES_METRIC else column.choices


def collected_lists(system: str) -> dict[tuple[str, ...], str]:
    """Every list of words in use -> its title, each once, in order of first use."""
    lists: dict[tuple[str, ...], str] = {}
    for tab in INPUT_TABS:
        for column in tab.columns:
            choices = choices_of(column, system)
            if choices and choices not in lists:
                lists[choices] = f"{column.header} ({tab.key})"
    for setting in SETTINGS:
        if setting.choices and setting.choices not in lists:
            lists[setting.choices] = setting.label
    return lists


def slug(text: str) -> str:
    """Plain lower-case words joined by underscores, for a defined name."""
    return re.sub(r"[^a-z0-9]+", "_", text.lower()).strip("_")


def list_name(choices: tuple[str, ...], system: str) -> str:
    """Return the defined name of a list of words."""
    return f"sheetcalc_list_{slug(collected_lists(system)[choices])}"


def reference_name(list_of: str) -> str:
    """Return the defined name of a column that others refer to, such as ``Tiles.Code``."""
    return f"sheetcalc_ref_{slug(list_of)}"


def factor_name(unit: str) -> str:
    """Return the defined name of what one plain number is, such as ``room_mm``."""
    return f"sheetcalc_{unit}"


def lists_sheet(system: str) -> SheetModel:
    """Return the Lists tab: one word a row, with the list that it belongs to."""
    rows = tuple(
        (Cell(title, "result"), Cell(word, "result"))
        for choices, title in collected_lists(system).items()
        for word in choices
    )
    table = TableModel(
        name="InLists",
        row=FIRST_ROW - 1,
        column=1,
        columns=(SheetColumn("List", 36, "result"), SheetColumn("Choice", 40, "result")),
        rows=rows,
    )
    return SheetModel(
        key=LISTS_NAME,
        name=LISTS_NAME,
        title=LISTS_NAME,
        purpose="The choices of the drop-downs. Nothing is filled in here.",
        tables=(table,),
        landscape=False,
        tab_style="guide",
    )


def defined_names(system: str) -> dict[str, str]:
    """Names for lists, for references between tabs, and for the Job's units."""
    names: dict[str, str] = {}
    row = FIRST_ROW
    for choices in collected_lists(system):
        last = row + len(choices) - 1
        names[list_name(choices, system)] = f"{LISTS_NAME}!$B${row}:$B${last}"
        row = last + 1
    for tab in INPUT_TABS:
        for column in tab.columns:
            if column.list_of:
                names[reference_name(column.list_of)] = _used_part(column.list_of)
    for unit, (label, symbols, factors) in _UNIT_FACTORS.items():
        names[factor_name(unit)] = _factor_formula(label, symbols, factors)
    return names


def _factor_formula(label: str, symbols: tuple[str, ...], factors: tuple[str, ...]) -> str:
    """Return what one plain number is, from the unit chosen on the Job tab."""
    last = FIRST_ROW + len(SETTINGS) + 20
    value = f'INDEX(Job!$B${FIRST_ROW}:$B${last},MATCH("{label}",Job!$A${FIRST_ROW}:$A${last},0))'
    quoted = ",".join(f'"{symbol}"' for symbol in symbols)
    chosen = f"MATCH({value},{{{quoted}}},0)"
    return f"IFERROR(CHOOSE({chosen},{','.join(factors)}),{factors[0]})"


def _used_part(list_of: str) -> str:
    """Return the used rows of a column, so that a drop-down does not end in blanks."""
    key, header = list_of.split(".", 1)
    tab = tab_of(key)
    letter = letters(next(n for n, c in enumerate(tab.columns, 1) if c.header == header))
    sheet = f"'{key}'" if " " in key else key
    cells = f"{sheet}!${letter}${FIRST_ROW}:${letter}${LAST_ROW}"
    return f"{sheet}!${letter}${FIRST_ROW}:INDEX({cells},MAX(1,COUNTA({cells})))"


def tab_of(key: str) -> Tab:
    """Input tab by its key."""
    return next(tab for tab in INPUT_TABS if tab.key == key)


def letters(column: int) -> str:
    """Letters of a column, 1-based.

    Examples
    --------
    >>> letters(1), letters(27)
    ('A', 'AA')
    """
    text = ""
    while column:
        column, rest = divmod(column - 1, 26)
        text = chr(ord("A") + rest) + text
    return text

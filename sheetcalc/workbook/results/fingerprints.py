"""Counts and totals of the inputs of a run, stored beside live ones that show what changed.

Columns that results look up live (waste, prices, what a pack holds) are left out of the totals,
for changing them updates the results in place.
"""

from collections.abc import Collection, Iterator, Mapping
from functools import partial
from typing import Final

from sheetcalc.domain.job import Job
from sheetcalc.domain.words import Words
from sheetcalc.workbook.columns import Column, Kind, Tab
from sheetcalc.workbook.formulas import InputTable, text_literal, this_row
from sheetcalc.workbook.input_prints import ALL_LIVE, TabPrint, tab_prints
from sheetcalc.workbook.raw import RawBook, RawCell
from sheetcalc.workbook.results.frame import Frame, text
from sheetcalc.workbook.results.record_sums import LiveRows, Sum, record_sum, serial
from sheetcalc.workbook.results_tabs import RESULT_TABS
from sheetcalc.workbook.settings import SETTING_BY_KEY
from sheetcalc.workbook.sheet import Cell, SheetColumn, TableModel

TABLE: Final = "OutInputs"
STATE: Final = "State"
SAME: Final = "same"
FOLLOWED: Final = "followed"
"""What is looked up live has changed: amounts follow, but not on what is carried away in print."""
CHANGED: Final = "CHANGED"
PRINT: Final = "Fingerprint"
WHOLE: Final = "Fingerprint with live columns"
STOPPED: Final = "stopped by errors"
"""Stands for the fingerprints where a run made no results; read back, so never in other words."""

LIVE_COLUMNS: Final = frozenset(
    {
        ("Waste factors", "Waste %"),
        ("Tiles", "Pieces per box"),
        ("Bags and pails", "Pack size"),
        ("Bags and pails", "Yield"),
        ("Bags and pails", "Coverage"),
        ("Sundries", "Pack size"),
        ("Labour", "Hours per unit"),
        ("Labour", "Hourly rate"),
    }
)
"""Plain numbers that result formulas look up by key."""

_AMOUNT_COLUMNS: Final = frozenset(c for c in LIVE_COLUMNS if c[0] != "Labour")
"""Those of them that change how much of something is needed."""

PRICE_COLUMNS: Final = frozenset(
    {
        ("Tiles", "Price"),
        ("Bags and pails", "Pack price"),
        ("Rolls and sheets", "Price"),
        ("Heating cables", "Price"),
        ("Sundries", "Pack price"),
    }
)
"""Live too, unless a price decides what is ordered: where the Job chooses the cheapest source, or
Build-up names several rolls that are priced against each other."""

LIVE_SETTINGS: Final = frozenset(
    {"overhead", "profit", "contingency", "heating_hours", "heating_duty", "energy_price"}
)
"""Settings of the Job that results look up by their names, and nothing else depends on."""

_WITHOUT_EFFECT: Final = frozenset({"Note", "Guidance", "Source"})
_NOT_COMPARED: Final = frozenset({"Guide", "Lists", "Received"})
"""Received is read live, every cell of it."""

_TAB: Final = Tab(
    key="Inputs",
    table=TABLE,
    purpose="",
    columns=(
        Column("Input tab", Kind.RESULT, "Tab.", width=17),
        Column("Rows", Kind.RESULT, "Records at the run.", width=8),
        Column("Rows now", Kind.RESULT, "Records now.", width=8),
        Column("Total", Kind.RESULT, "Weighted sum of its numbers at the run.", width=14),
        Column("Total now", Kind.RESULT, "The same now.", width=14),
        Column(
            "Records", Kind.RESULT, "Check sum of its records, in any order, at the run.", width=14
        ),
        Column("Records now", Kind.RESULT, "The same now.", width=14),
        Column("Amounts", Kind.RESULT, "The same with what amounts look up live.", width=14),
        Column("Amounts now", Kind.RESULT, "The same now.", width=14),
        Column(STATE, Kind.RESULT, "Whether they agree.", width=11),
        Column(PRINT, Kind.RESULT, "SHA-256 of what results are calculated from.", width=24),
        Column(WHOLE, Kind.RESULT, "The same with the columns that are looked up.", width=24),
    ),
)

PRINTS_TAB: Final = Tab(
    key="Fingerprints of the last run",
    table=TABLE,
    purpose="",
    columns=tuple(c for c in _TAB.columns if c.header in {"Input tab", PRINT, WHOLE}),
    result=True,
)
"""What is read back, to tell whether results are of the inputs that the book now holds."""


def fingerprint_table(
    frame: Frame, job: Job, *, row: int, column: int, stopped: bool = False
) -> TableModel:
    """Table of counts, totals and exact fingerprints, one row an input tab.

    Parameters
    ----------
    frame
        Has the workbook of the run.
    job
        Tells whether prices decide on the supplier.
    row, column
        Sheet row of the header and sheet column of its first cell, 1-based.
    stopped
        Errors stopped the run: its other result tabs are of an earlier one.
    """
    raw = frame.raw
    live = live_columns(raw, job)
    prints = prints_of(raw, job)
    says = states(frame.words)
    rows = tuple(
        (*_row(table, live, raw, says), *_prints(prints.get(table.raw.tab), stopped=stopped))
        for table in _compared(frame)
    )
    if rows:
        rows += tuple(
            _live_row(tab, prints[tab], says, stopped=stopped) for tab in sorted(ALL_LIVE)
        )
    columns = tuple(SheetColumn(c.header, c.width, "result") for c in _TAB.columns)
    empty = (text("no input tabs"), *(Cell(None, "result") for _ in columns[1:]))
    return TableModel(TABLE, row, column, columns, rows or (empty,), read_back=True)


def states(words: Words) -> dict[str, str]:
    """Whether inputs agree with the run, as the office says it."""
    return words.apart(SAME, FOLLOWED, CHANGED)


def live_columns(raw: RawBook, job: Job) -> frozenset[tuple[str, str]]:
    """Tab and header of the columns that results look up: changing them needs no new run."""
    prices = frozenset() if job.source_choice == "cheapest" else PRICE_COLUMNS
    return LIVE_COLUMNS | (prices - _prices_that_choose(raw))


def prints_of(raw: RawBook, job: Job) -> dict[str, TabPrint]:
    """Exact fingerprints of the inputs as they are."""
    settings = {SETTING_BY_KEY[key].label.casefold() for key in LIVE_SETTINGS}
    return tab_prints(raw, live_columns(raw, job), settings)


def _prints(prints: TabPrint | None, *, stopped: bool) -> tuple[Cell, Cell]:
    if stopped or prints is None:
        return text(STOPPED if stopped else ""), text("")
    return text(prints.inputs), text(prints.whole)


def _live_row(
    tab: str, prints: TabPrint, says: Mapping[str, str], *, stopped: bool
) -> tuple[Cell, ...]:
    """Row of a tab that results look up whole: nothing of it can be out of date."""
    blank = [Cell(None, "result")] * 8
    return (text(tab), *blank, Cell(says[SAME], "result"), *_prints(prints, stopped=stopped))


def _prices_that_choose(raw: RawBook) -> frozenset[tuple[str, str]]:
    """Prices that decide what is ordered: of rolls, where a layer names several items."""
    table = raw.tables.get("Build-up")
    cells = (row.cells.get("Item") for row in table.rows) if table else ()
    several = any(cell is not None and ";" in str(cell.value) for cell in cells)
    return frozenset({("Rolls and sheets", "Price")}) if several else frozenset()


def _compared(frame: Frame) -> Iterator[InputTable]:
    results = {tab.key for tab in RESULT_TABS}
    for key, table in frame.inputs.items():
        if key not in results | _NOT_COMPARED and not key.startswith("Order") and table.raw.headers:
            yield table


def _row(
    table: InputTable, live: frozenset[tuple[str, str]], raw: RawBook, says: Mapping[str, str]
) -> tuple[Cell, ...]:
    rows = _count(table)
    texts = [h for h in table.raw.headers if h not in _WITHOUT_EFFECT]
    still = [h for h in texts if (table.raw.tab, h) not in live]
    amounts = [h for h in texts if (table.raw.tab, h) in _AMOUNT_COLUMNS & live]
    looked_up, date_1904 = _live_settings(table), raw.date_1904
    total = _total(table, still, looked_up, date_1904=date_1904)
    records = record_sum(table, texts, still, date_1904=date_1904, live=looked_up)
    with_amounts = Sum(0, "0")
    if amounts:
        with_amounts = record_sum(table, texts, [*still, *amounts], date_1904=date_1904)
    agree = ",".join((_agree("Rows"), _agree("Total"), _squares_agree("Records")))
    same, followed, changed = (text_literal(says[state]) for state in (SAME, FOLLOWED, CHANGED))
    kept = f"IF({_squares_agree('Amounts')},{same},{followed})"
    return (
        text(table.raw.tab),
        *_pair(rows, "result_count"),
        *_pair(total, "result_general"),
        *_pair(records, "result_general"),
        *_pair(with_amounts, "result_general"),
        Cell(says[SAME], "result", f"IFERROR(IF(AND({agree}),{kept},{changed}),{changed})"),
    )


def _agree(what: str, share: str = "1E-11", least: str = "1") -> str:
    """Make the formula that tells whether a sum is what it was at the run, but for a share of it.

    ``least`` is what a smaller sum's share is taken of.
    """
    then, now = this_row(TABLE, what), this_row(TABLE, f"{what} now")
    return f"ABS({now}-{then})<={share}*MAX({least},ABS({then}))"


_squares_agree = partial(_agree, share="1E-10", least="1E12")
"""The same of a sum of records.  Numbers that are not whole, such as the time of a day, come out of
MOD with the rounding of what went in, a millionth of the prime at most; squared, with as much of
its square, which is a million millions."""


def _pair(value: Sum, style: str) -> tuple[Cell, Cell]:
    return Cell(value.value, style), Cell(value.value, style, value.formula)


def _cells(table: InputTable, header: str) -> list[RawCell]:
    return [row.cells[header] for row in table.raw.rows if header in row.cells]


def _count(table: InputTable) -> Sum:
    """Count the records in the first column."""
    header = next(iter(table.raw.headers))
    cells = _cells(table, header)
    filled = [c for c in cells if c.value is not None and str(c.value).strip(" ")]
    if any(cell.error for cell in cells):
        return Sum(len(cells), str(len(cells)))
    return Sum(len(filled), f"SUMPRODUCT((LEN(TRIM({table.column(header)}))>0)*1)")


def _total(
    table: InputTable, counts: Collection[str], looked_up: LiveRows | None, *, date_1904: bool
) -> Sum:
    """Sum of the numbers of each column, weighted so that they cannot be exchanged unseen."""
    value = 0.0
    terms: list[str] = []
    for weight, header in enumerate(table.raw.headers, start=1):
        cells = _cells(table, header)
        if header not in counts or any(
            cell.error or isinstance(cell.value, bool) for cell in cells
        ):
            continue  # not all programs count a truth value
        numbers = [n for cell in cells if (n := serial(cell, date_1904=date_1904)) is not None]
        total = f"SUM({table.column(header)})"
        if looked_up is not None and header == looked_up.header:
            numbers += [-number for number in looked_up.numbers(table)]
            total = f"({total}-SUMPRODUCT(({looked_up.found(table)})*1,{table.column(header)}))"
        value += weight * sum(numbers)
        terms.append(f"{weight}*{total}")
    return Sum(value, "+".join(terms) or "0")


def _live_settings(table: InputTable) -> LiveRows | None:
    """Tell which settings, as the Job names them, are looked up by their names."""
    if table.raw.tab != "Job":
        return None
    labels = {SETTING_BY_KEY[key].label.casefold() for key in LIVE_SETTINGS}
    names = []
    for row in table.raw.rows:
        name = row.cells["Setting"].value if "Setting" in row.cells else None
        if isinstance(name, str) and name.strip().casefold() in labels:
            names.append((name, table.number(row.row, "Value")))
    told = [name for name, _ in names]
    once = tuple(n for n, number in names if number is not None and told.count(n) == 1)
    return LiveRows("Value", "Setting", once) if once else None

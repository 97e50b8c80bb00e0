"""Read the rows of a tab: typed values for what is right, findings for what is not."""

from collections.abc import Callable, Iterator
from datetime import date
from decimal import Decimal
from typing import TypeVar

from msgspec import Struct, field

from sheetcalc.domain.finding import Fact, Finding, RowRef
from sheetcalc.domain.finish import Bond, Notch, Run
from sheetcalc.domain.measure import MM320_PER_MM, JobUnits
from sheetcalc.workbook.columns import Column, Tab
from sheetcalc.workbook.convert import cells, patterns
from sheetcalc.workbook.convert.problem import CellProblem
from sheetcalc.workbook.convert.references import Names
from sheetcalc.workbook.headers import job_unit
from sheetcalc.workbook.raw import RawBook, RawCell, RawRow, RawTable
from sheetcalc.workbook.shown import displayed, found_text

T = TypeVar("T")


class Desk(Struct):
    """What converting works with.

    Attributes
    ----------
    raw, units, names
        The book, the job's units, and the names that tabs take from each other.
    findings
        So far.
    faulty_rows
        Rows that other checks found wrong: no records are made of them.
    """

    raw: RawBook
    units: JobUnits
    names: Names
    findings: list[Finding] = field(default_factory=list)
    faulty_rows: set[RowRef] = field(default_factory=set)

    def rows(self, tab: Tab) -> Iterator["RowReader"]:
        """Yield a reader for each record of a tab; nothing where the tab is absent."""
        table = self.raw.tables.get(tab.key)
        if table is not None:
            for row in table.rows:
                yield RowReader(self, tab, table, row)


class RowReader:
    """One row: each getter gives the value of a cell, or None and a finding.

    Attributes
    ----------
    faulty
        Whether any cell was refused: no record is made of the row then.
    room, surface
        What findings of this row are about; set by the converter of the tab.
    """

    __slots__ = ("_desk", "_row", "_tab", "_table", "faulty", "room", "source", "surface")

    def __init__(self, desk: Desk, tab: Tab, table: RawTable, row: RawRow) -> None:
        self._desk, self._tab, self._table, self._row = desk, tab, table, row
        self.room = ""
        self.surface = ""
        self.source = RowRef(tab.key, row.row)
        self.faulty = self.source in desk.faulty_rows

    # --- findings -------------------------------------------------------------------------------

    def error(self, code: str, header: str | None = None, /, **facts: Fact) -> None:
        """Note a finding that keeps the row from becoming a record."""
        self.faulty = True
        self._desk.faulty_rows.add(self.source)
        self.remark(code, header, **facts)

    def remark(self, code: str, header: str | None = None, /, **facts: Fact) -> None:
        """Note a finding about the row or one of its cells."""
        if header is not None and "found" not in facts:
            cell = self._row.cells.get(header)
            facts["found"] = found_text(cell) if cell is not None else "nothing"
        self._desk.findings.append(
            Finding(code, self.source, header, facts, self.room, self.surface)
        )

    # --- cells ----------------------------------------------------------------------------------

    def shown(self, header: str) -> str:
        """Return the displayed text of a cell, whatever it holds; "" where empty."""
        cell = self._row.cells.get(header)
        return displayed(cell) if cell is not None else ""

    def name_shown(self, header: str) -> str:
        """Return a name that stands in another tab, in its spelling there, whatever it is."""
        list_of = self._tab.by_header[header].list_of
        return self._desk.names.canonical(list_of, self.shown(header)) or ""

    def plain_number(self, header: str) -> float | None:
        """Return the number of a cell without any check or finding; None where it holds none."""
        cell = self._row.cells.get(header)
        value = cell.value if cell is not None else None
        plain = isinstance(value, int | float) and not isinstance(value, bool)
        return float(value) if plain and value is not None else None  # type: ignore[arg-type]

    def plain_day(self, header: str) -> date | None:
        """Date of a cell without any finding; None where it holds none."""
        cell = self._row.cells.get(header)
        try:
            return cells.day(cell) if cell is not None else None
        except CellProblem:
            return None

    def is_empty(self, header: str) -> bool:
        """Whether a cell is empty."""
        return header not in self._row.cells

    def _read(self, header: str, parse: Callable[[RawCell, Column], T]) -> T | None:
        column = self._tab.by_header[header]
        cell = self._row.cells.get(header)
        if cell is None:
            if column.required:
                self.faulty = True
                self._desk.faulty_rows.add(self.source)
                # a missing column is one finding of its own
                if header not in self._table.missing:
                    self.remark("CELL-EMPTY", header, record=self._tab.record)
            return None
        try:
            cells.check_readable(cell)
            return parse(cell, column)
        except CellProblem as problem:
            self.error(problem.code, header, **problem.facts)
            return None

    def text(self, header: str) -> str:
        """Text; "" where empty."""
        return self._read(header, lambda cell, _: cells.text(cell)) or ""

    def code(self, header: str) -> str | None:
        """Name or code."""
        return self._read(header, lambda cell, _: cells.code(cell))

    def name(self, header: str) -> str | None:
        """Name that stands in another tab, in the spelling that it has there."""
        list_of = self._tab.by_header[header].list_of
        return self._desk.names.canonical(list_of, self.code(header))

    def length(self, header: str) -> int | None:
        """Length [1/320 mm]."""
        found = self._read(header, lambda c, column: cells.length(c, column, self._desk.units))
        if found is not None and self._unusual(header, found / MM320_PER_MM):
            column = self._usual(header)
            plain = job_unit(column.kind, self._desk.units)
            if plain is not None:
                cell = self._row.cells[header]
                self.remark("LENGTH-UNUSUAL", header, **cells.length_range(cell, column, plain))
        return found

    def quantity(self, header: str) -> float | None:
        """Area, volume or mass [SI]."""
        found = self._read(header, lambda c, column: cells.quantity(c, column, self._desk.units))
        if found is not None and self._unusual(header, found):
            column = self._usual(header)
            plain = job_unit(column.kind, self._desk.units)
            if plain is not None:
                self.remark("NUMBER-UNUSUAL", header, **cells.quantity_range(column, plain))
        return found

    def fill(self, header: str) -> float | None:
        """Volume per area [m3/m2]."""
        return self._read(header, lambda c, column: cells.fill(c, column, self._desk.units))

    def number(self, header: str) -> float | None:
        """Plain number."""
        return self._usually(header, self._read(header, cells.number))

    def count(self, header: str) -> int | None:
        """Whole number."""
        return self._usually(header, self._read(header, cells.count))

    def money(self, header: str) -> Decimal | None:
        """Amount of money."""
        return self._read(header, cells.money)

    def percent(self, header: str) -> float | None:
        """Share."""
        found = self._read(header, cells.percent)
        if found is not None and self._unusual(header, found):
            self.remark("NUMBER-UNUSUAL", header, **cells.percent_range(self._usual(header)))
        return found

    def choice(self, header: str) -> str | None:
        """One of the column's words."""
        return self._read(header, lambda cell, column: cells.choice(cell, column.choices))

    def choices(self, header: str) -> tuple[str, ...]:
        """Several of the column's words, separated by commas."""
        found = self._read(header, lambda c, column: cells.choices_in_order(c, column.choices))
        return found or ()

    def yes_no(self, header: str) -> bool | None:
        """Yes or no."""
        return self._read(header, lambda cell, _: cells.yes_no(cell))

    def day(self, header: str) -> date | None:
        """Date."""
        return self._read(header, lambda cell, _: cells.day(cell))

    def notch(self, header: str) -> Notch | None:
        """Notch of a trowel."""
        return self._read(header, lambda c, _: patterns.notch(cells.code(c), self._desk.units))

    def bond(self, header: str) -> Bond | None:
        """Tile pattern."""
        return self._read(header, lambda cell, _: patterns.bond(cells.code(cell)))

    def run(self, header: str) -> Run | None:
        """Direction of the tile's long side."""
        return self._read(header, lambda cell, _: patterns.run(cells.code(cell)))

    def turn(self, header: str) -> float | None:
        """Turn in degrees, to the left positive."""
        return self._read(header, lambda cell, _: patterns.turn(cells.code(cell)))

    def copies(self, header: str) -> tuple[str, ...]:
        """Names of alike rooms."""
        return self._read(header, lambda cell, _: patterns.copies(cells.code(cell))) or ()

    # --- usual ranges ---------------------------------------------------------------------------

    def _unusual(self, header: str, value: float) -> bool:
        column = self._tab.by_header[header]
        return (column.usual_low is not None and value < column.usual_low) or (
            column.usual_high is not None and value > column.usual_high
        )

    def _usual(self, header: str) -> Column:
        """Return the column with its usual range as its bounds."""
        column = self._tab.by_header[header]
        return Column(
            column.header,
            column.kind,
            column.help,
            low=column.usual_low if column.usual_low is not None else column.low,
            high=column.usual_high if column.usual_high is not None else column.high,
            unit=column.unit,
        )

    def _usually(self, header: str, found: T | None) -> T | None:
        if isinstance(found, int | float) and self._unusual(header, found):
            self.remark("NUMBER-UNUSUAL", header, **cells.number_range(self._usual(header)))
        return found


def given(value: T | None) -> T:
    """Return a value that a row without faults has; its column is required."""
    if value is None:
        message = "a required value is missing from a row without findings"
        raise ValueError(message)
    return value

"""The cells of a sheet, written straight into a worksheet part.

A takeoff of a large block has a million cells.  The writing library would take each of them
through objects, shared strings and a part that then had to be taken apart again for the user's
book; so it makes the frame of each sheet, and the cells are put into it from here, in the book's
terms at once.  A test holds both ways to the same cells.
"""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import chain
from typing import Final, TypeAlias

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.excel.generating.cell_text import BookTerms, CellWriter
from sheetcalc.excel.generating.layout import row_height
from sheetcalc.excel.generating.table_columns import Column, columns_of
from sheetcalc.excel.opc.formula_text import column_letters
from sheetcalc.excel.tabs.tab_content import BETWEEN, CheckFigure, bare_header
from sheetcalc.workbook.house_style import HouseStyle
from sheetcalc.workbook.sheet import Cell, SheetModel, TableModel

TITLE_HEIGHTS: Final[Mapping[int, float]] = {1: 26.0, 2: 18.0}
"""Heights of the title's and the purpose's rows [points]."""

DEFAULT_WIDTH: Final = 8.43
_SIGNATURE_ROW: Final = 3
ROWS_A_BLOCK: Final = 2_000
"""Rows that are written and compressed at once; a sheet of fewer is, as a whole."""

Row: TypeAlias = Sequence[tuple[int, Cell]]
"""Cells of a sheet row with their columns (1-based), in order."""


class WrittenCells(Struct, frozen=True):
    """The cells of a sheet, or the part of them that one process has, written.

    Attributes
    ----------
    head
        Text within ``sheetData``, all of a sheet that is not long; of a long one down to the
        header of its table, and what follows was put elsewhere.
    links
        Text within ``hyperlinks``.
    span
        The cells that it spans, such as ``A1:N4711``, records before these among them.
    figure
        Check figure of these rows.
    """

    head: bytes
    links: str
    span: str
    figure: CheckFigure


class SheetCells(Struct, frozen=True, dict=True):
    """The cells of one sheet, to be written when the book's terms are known.

    Attributes
    ----------
    sheet, style
        The sheet and how it looks.
    before
        Records of the sheet's only table, in other hands, that come before those here; None where
        all are here.  Whoever has the first ones writes what is not in the table.
    """

    sheet: SheetModel
    style: HouseStyle
    before: int | None = None

    def among(self, loose: Mapping[tuple[int, int], Cell]) -> "SheetCells":
        """Put the same records among other loose cells, which make no row higher than it was."""
        other = replace(self, sheet=replace(self.sheet, loose=loose))
        vars(other).update(columns=self.columns, heights=self.heights)
        return other

    @cached_property
    def columns(self) -> Sequence[Sequence[Column]]:
        """Columns of each table's records."""
        return [columns_of(table) for table in self.sheet.tables]

    def styles(self) -> list[str]:
        """Keys of the styles in use, in the order of the house style.

        Those of cells that another one takes the place of are among them.

        Raises
        ------
        KeyError
            For a style that the house style has not.
        """
        records = (column.different.values() for columns in self.columns for column in columns)
        other_rows = (cells for parts in self._bodies(()).values() for _, cells in parts)
        loose = (cells.values() for cells in self._loose().values())
        used = {cell.style for cells in chain(records, other_rows, loose) for cell in cells}
        for key in used:
            self.style[key]
        return [key for key in self.style.styles if key in used]

    def size(self) -> int:
        """About how many cells there are to write."""
        tables = sum(len(table.rows) * len(table.columns) for table in self.sheet.tables)
        return tables + len(self.sheet.loose or {})

    def rows(self) -> Iterator[tuple[int, Row]]:
        """Rows with their cells: heading, tables, loose cells; of two in one place the later.

        Rows that have a height and no cell are there too: drawings stand on them.
        """
        return self._rows(self.sheet.tables)

    def _rows(self, tables: Sequence[TableModel]) -> Iterator[tuple[int, Row]]:
        """Rows as ``rows`` gives them, with the records of some tables only."""
        loose = self._loose()
        bodies = self._bodies(tables)
        for number in sorted(bodies.keys() | loose.keys() | (self.sheet.heights or {}).keys()):
            parts, others = bodies.get(number, []), loose.get(number)
            if len(parts) == 1 and not others:
                yield number, list(enumerate(parts[0][1], parts[0][0]))
                continue
            merged: dict[int, Cell] = {}
            for left, cells in parts:
                merged.update(enumerate(cells, left))
            yield number, sorted((merged | (others or {})).items(), key=lambda pair: pair[0])

    def _loose(self) -> dict[int, dict[int, Cell]]:
        sheet = self.sheet
        loose = {1: {1: Cell(sheet.title, "title")}, 2: {1: Cell(sheet.purpose, "purpose")}}
        if sheet.signature:
            loose[_SIGNATURE_ROW] = {1: Cell(sheet.signature, "hint")}
        for (number, column), cell in (sheet.loose or {}).items():
            loose.setdefault(number, {})[column] = cell
        return loose

    def _bodies(self, tables: Sequence[TableModel]) -> dict[int, list[tuple[int, Sequence[Cell]]]]:
        """Rows of tables: sheet row -> first column and cells of each table that has it.

        Every table's header and empty rows are there, and the records of the tables given.
        """
        bodies: dict[int, list[tuple[int, Sequence[Cell]]]] = {}
        for table in self.sheet.tables:
            header = [Cell(column.header, column.header_style) for column in table.columns]
            bodies.setdefault(table.row, []).append((table.column, header))
            if any(table is wanted for wanted in tables):
                for number, cells in enumerate(table.rows, table.row + 1):
                    bodies.setdefault(number, []).append((table.column, cells))
            empty = [Cell(None, column.style) for column in table.columns]
            below = table.row + 1 + len(table.rows)
            for number in range(below, table.row + 1 + table.records):
                bodies.setdefault(number, []).append((table.column, empty))
        return bodies

    @cached_property
    def heights(self) -> Mapping[int, float]:
        """Heights of rows that are not as high as others [points]."""
        sheet, style = self.sheet, self.style
        heights = dict(TITLE_HEIGHTS)
        widths = dict(sheet.widths or {})
        wrapped = {key: found.size for key, found in style.styles.items() if found.wrap}

        def grow(number: int, height: float) -> None:
            if height > heights.get(number, 0.0):
                heights[number] = height

        for table, columns in zip(sheet.tables, self.columns, strict=True):
            # the drop-down buttons take some of each column's width
            heights[table.row] = max(
                row_height(c.header, c.width - 1.5, style[c.header_style].size * 1.06)
                for c in table.columns
            )
            first = table.row + 1 + (self.before or 0)
            for number, height in enumerate(_heights_of(table, columns, wrapped), first):
                grow(number, height)
        for (number, at), cell in (sheet.loose or {}).items():
            if cell.style in wrapped:
                width = widths.get(at, DEFAULT_WIDTH)
                grow(number, row_height(cell.value, width, wrapped[cell.style]))
        return heights | dict(sheet.heights or {})

    def write(
        self, terms: BookTerms, typed: Collection[str], put: Callable[[bytes], object]
    ) -> WrittenCells:
        """Write the cells.

        Parameters
        ----------
        terms
            What the book calls things.
        typed
            Headers of the columns that people fill in; the check figure leaves them out.
        put
            Takes the rows below the head of a long sheet, a block at once, as they come.

        Raises
        ------
        NotWrittenError
            For what a cell can't hold.
        """
        writer, figure = CellWriter(terms), CheckFigure(_SIGNATURE_ROW)
        head: list[bytes] = []
        block: list[bytes] = []
        is_long = self.before is not None
        number = 1
        for number, text, held in self._written(writer, self._free(typed)):
            figure.add(number, held)
            if number <= _SIGNATURE_ROW + 1:
                head.append(text)
                continue
            if len(block) == ROWS_A_BLOCK:
                is_long = True
                put(b"".join(block))
                block.clear()
            block.append(text)
        if is_long:
            put(b"".join(block))
        else:
            head += block
        span = f"A1:{column_letters(self._widest())}{number}"
        return WrittenCells(b"".join(head), "".join(writer.links), span, figure)

    def _written(
        self, writer: CellWriter, free: Collection[int]
    ) -> Iterator[tuple[int, bytes, bytes]]:
        """Yield the number of each row, the row as XML, and what it holds for the check figure."""
        heights = self.heights
        if self.before:
            [table], [columns] = self.sheet.tables, self.columns
            first = table.row + 1 + self.before
            records = writer.records(first, table.column, columns, heights, free)
            yield from ((number, *row) for number, row in enumerate(records, first))
            return
        apart = {
            table.row: (table, columns)
            for table, columns in zip(self.sheet.tables, self.columns, strict=True)
            if self._has_rows_alone(table)
        }
        others = [table for table in self.sheet.tables if table.row not in apart]
        for number, row in self._rows(others):
            below = number > _SIGNATURE_ROW + 1
            text, held = writer.row(number, row, heights.get(number), free if below else ())
            # the signature holds the figure, and is left out of it
            counted = held if number != _SIGNATURE_ROW else held[2:]
            yield number, text.encode(), BETWEEN.join(counted).encode()
            if number in apart:
                table, columns = apart[number]
                records = writer.records(number + 1, table.column, columns, heights, free)
                for at, (line, holds) in enumerate(records, number + 1):
                    yield at, line, holds

    def _has_rows_alone(self, table: TableModel) -> bool:
        """Whether nothing else stands in the rows of a table, its header's aside."""
        mine = range(table.row + 1, table.row + 1 + table.records)
        tables = (t for t in self.sheet.tables if t is not table)
        tables_rows = (range(t.row, t.row + 1 + t.records) for t in tables)
        loose = (row for row, _ in self.sheet.loose or {})
        return not any(row in mine for row in chain(loose, self.sheet.heights or ())) and not any(
            rows.start < mine.stop and mine.start < rows.stop for rows in tables_rows
        )

    def _widest(self) -> int:
        """Last column that holds a cell; the title stands in the first."""
        tables = (table.column + len(table.columns) - 1 for table in self.sheet.tables)
        loose = (column for _, column in self.sheet.loose or {})
        return max(chain((1,), tables, loose))

    def _free(self, typed: Collection[str]) -> frozenset[int]:
        """Columns that people fill in: those whose headers are named."""
        wanted = {bare_header(header) for header in typed}
        return frozenset(
            at
            for table in self.sheet.tables
            if table.row == _SIGNATURE_ROW + 1
            for at, column in enumerate(table.columns, table.column)
            if bare_header(column.header) in wanted
        )


def _heights_of(
    table: TableModel, columns: Sequence[Column], wrapped: Mapping[str, float]
) -> Iterator[float]:
    """Heights of a table's records [points]; 0 for those that need no more than most.

    Parameters
    ----------
    table, columns
        The table, and its records turned.
    wrapped
        Styles that wrap their text, with the size of their font [points].
    """

    def needed(cell: Cell, width: float) -> float:
        if cell.style not in wrapped or not cell.value:
            return 0.0
        return row_height(cell.value, width, wrapped[cell.style])

    of_cells = []
    for shown, column in zip(table.columns, columns, strict=False):
        known = {key: needed(cell, shown.width) for key, cell in column.different.items()}
        if any(known.values()):
            of_cells.append(map(known.__getitem__, column.keys))
    return map(max, zip(*of_cells, strict=True))

"""The cells of a sheet, written straight into a worksheet part.

A takeoff of a large block has a million cells.  The writing library would take each of them
through objects, shared strings and a part that then had to be taken apart again for the user's
book; so it makes the frame of each sheet, and the cells are put into it from here, in the book's
terms at once.  A test holds both ways to the same cells.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Final, TypeAlias

from msgspec import Struct

from sheetcalc.excel.generating.cell_text import BookTerms, CellWriter, escaped
from sheetcalc.excel.generating.layout import row_height
from sheetcalc.excel.opc.formula_text import column_letters
from sheetcalc.excel.tabs.tab_content import CheckFigure, bare_header
from sheetcalc.workbook.house_style import HouseStyle
from sheetcalc.workbook.sheet import Cell, SheetModel

TITLE_HEIGHTS: Final[Mapping[int, float]] = {1: 26.0, 2: 18.0}
"""Heights of the title's and the purpose's rows [points]."""

DEFAULT_WIDTH: Final = 8.43
_SIGNATURE_ROW: Final = 3
_ROWS_A_BLOCK: Final = 500

Row: TypeAlias = Sequence[tuple[int, Cell]]
"""Cells of a sheet row with their columns (1-based), in order."""


class WrittenCells(Struct, frozen=True):
    """The cells of a sheet, written.

    Attributes
    ----------
    blocks
        Text within ``sheetData``, in pieces.
    links
        Text within ``hyperlinks``.
    span
        The cells that it spans, such as ``A1:N4711``.
    figure
        Check figure; it stands behind the signature already.  Empty on a sheet without one.
    """

    blocks: list[bytes]
    links: str
    span: str
    figure: str


class FreshBook(Struct, frozen=True):
    """Sheets to be carried over into a book.

    Attributes
    ----------
    package
        A workbook with the frame of each sheet: everything but the cells.
    cells
        Cells of each sheet, by its name in the package.
    formats
        Style key -> number of its cell format in the package.
    """

    package: bytes
    cells: Mapping[str, "SheetCells"]
    formats: Mapping[str, int]


class SheetCells(Struct, frozen=True):
    """The cells of one sheet, to be written when the book's terms are known."""

    sheet: SheetModel
    style: HouseStyle

    def styles(self) -> list[str]:
        """Keys of the styles in use, in the order of the house style.

        Those of cells that another one takes the place of are among them.

        Raises
        ------
        KeyError
            For a style that the house style has not.
        """
        bodies, loose = self._bodies().values(), self._loose().values()
        used = {cell.style for parts in bodies for _, cells in parts for cell in cells}
        used |= {cell.style for cells in loose for cell in cells.values()}
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
        loose = self._loose()
        bodies = self._bodies()
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

    def _bodies(self) -> dict[int, list[tuple[int, Sequence[Cell]]]]:
        """Rows of tables: sheet row -> first column and cells of each table that has it."""
        bodies: dict[int, list[tuple[int, Sequence[Cell]]]] = {}
        for table in self.sheet.tables:
            header = [Cell(column.header, column.header_style) for column in table.columns]
            empty = [Cell(None, column.style) for column in table.columns]
            spare = max(1, len(table.rows) + table.empty_rows) - len(table.rows)
            for number, cells in enumerate((header, *table.rows, *[empty] * spare), table.row):
                bodies.setdefault(number, []).append((table.column, cells))
        return bodies

    def heights(self) -> dict[int, float]:
        """Heights of rows that are not as high as others [points]."""
        sheet, style = self.sheet, self.style
        heights = dict(TITLE_HEIGHTS)
        widths = dict(sheet.widths or {})
        wrapped = {key: found.size for key, found in style.styles.items() if found.wrap}
        known: dict[tuple[object, float, str], float] = {}

        def grow(number: int, cell: Cell, width: float) -> None:
            key = (cell.value, width, cell.style)
            height = known.get(key)
            if height is None:
                height = known[key] = row_height(cell.value, width, wrapped[cell.style])
            if height > heights.get(number, 0.0):
                heights[number] = height

        for table in sheet.tables:
            # the drop-down buttons take some of each column's width
            heights[table.row] = max(
                row_height(c.header, c.width - 1.5, style[c.header_style].size * 1.06)
                for c in table.columns
            )
            columns = [column.width for column in table.columns]
            for number, row in enumerate(table.rows, table.row + 1):
                for width, cell in zip(columns, row, strict=False):
                    if cell.style in wrapped and cell.value:
                        grow(number, cell, width)
        for (number, column), cell in (sheet.loose or {}).items():
            if cell.style in wrapped:
                grow(number, cell, widths.get(column, DEFAULT_WIDTH))
        return heights | dict(sheet.heights or {})

    def write(self, terms: BookTerms, typed: Collection[str] = ()) -> WrittenCells:
        """Write the cells, with the check figure behind the signature.

        Parameters
        ----------
        terms
            What the book calls things.
        typed
            Headers of the columns that people fill in; the check figure leaves them out.

        Raises
        ------
        NotWrittenError
            For what a cell can't hold.
        """
        heights, free = self.heights(), self._free(typed)
        writer, figure = CellWriter(terms), CheckFigure(_SIGNATURE_ROW)
        head: list[str] = []
        waiting: list[str] = []
        blocks: list[bytes] = [b""]
        number, widest = 1, 1
        for number, row in self.rows():
            below = number > _SIGNATURE_ROW + 1
            text, held = writer.row(number, row, heights.get(number), free if below else ())
            # the signature holds the figure, and is left out of it
            figure.add(number, held if number != _SIGNATURE_ROW else held[2:])
            widest = max(widest, row[-1][0] if row else 1)
            if number <= _SIGNATURE_ROW:
                head.append(text)
                continue
            waiting.append(text)
            if len(waiting) == _ROWS_A_BLOCK:
                blocks.append("".join(waiting).encode())
                waiting.clear()
        blocks.append("".join(waiting).encode())
        top, plain = "".join(head), escaped(self.sheet.signature)
        sign = str(figure) if plain else ""
        blocks[0] = (top.replace(plain, f"{plain} · check {sign}", 1) if sign else top).encode()
        span = f"A1:{column_letters(widest)}{number}"
        return WrittenCells(blocks, "".join(writer.links), span, sign)

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

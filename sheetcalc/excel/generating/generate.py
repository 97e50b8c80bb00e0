"""Write sheets described as data to a new workbook.  The only importer of the writing library."""

import io
import warnings
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any, Final

from xlsxwriter.workbook import Workbook
from xlsxwriter.worksheet import Worksheet

from sheetcalc.excel.generating.cells import NotWrittenError, done, leaves_the_book, write_cell
from sheetcalc.excel.generating.elsewhere import CellsElsewhere, Elsewhere
from sheetcalc.excel.generating.formats import Formats, with_named_styles
from sheetcalc.excel.generating.fresh_book import FreshBook
from sheetcalc.excel.generating.sheet import ExactSheet
from sheetcalc.excel.generating.sheet_cells import SheetCells
from sheetcalc.excel.generating.tables import frame_table, write_validation
from sheetcalc.excel.generating.unpacked import UnpackedWorkbook
from sheetcalc.excel.opc.package import MadePackage
from sheetcalc.excel.tabs.names import unique_sheet_names
from sheetcalc.workbook.house_style import HouseStyle
from sheetcalc.workbook.sheet import BookModel, SheetModel

CREATED: Final = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)
"""Stands in every file's properties, so that equal content is equal bytes."""

_A4, _LETTER = 9, 1
_MARGINS: Final = (0.4, 0.4, 0.5, 0.6)
"""Left, right, top, bottom [in]."""


def write_book(book: BookModel, style: HouseStyle, *, named_styles: bool = False) -> bytes:
    """Write a workbook.

    Parameters
    ----------
    book
        Sheets and defined names.
    style
        The house style.
    named_styles
        Add the house style's cell styles to the file, for a workbook that stands alone; sheets
        that are carried over into another workbook bring their formats only.

    Returns
    -------
    bytes
        The file, the same for the same book.

    Raises
    ------
    NotWrittenError
        Where the library would drop or change something.
    """
    cells = [SheetCells(sheet, style) for sheet in book.sheets]
    out = io.BytesIO()
    workbook = Workbook(out, {"in_memory": True, **_options(style)})
    formats = _write(workbook, book, style, cells, frames=False)
    package = out.getvalue()
    return with_named_styles(package, formats.indices(), style) if named_styles else package


def write_frames(
    book: BookModel, style: HouseStyle, elsewhere: Elsewhere | None = None
) -> FreshBook:
    """Write sheets that are to be carried over into a workbook: their frames, the cells apart.

    Parameters
    ----------
    book
        Sheets and defined names.
    style
        The house style.
    elsewhere
        Has the records of some of the sheets, which have empty rows in their place here.

    Raises
    ------
    NotWrittenError
        Where the library would drop or change something.
    """
    others = elsewhere.sheets if elsewhere else {}
    cells = [others.get(sheet.key) or SheetCells(sheet, style) for sheet in book.sheets]
    workbook = UnpackedWorkbook(_options(style))
    formats = _write(workbook, book, style, cells, frames=True)
    names = unique_sheet_names(sheet.name for sheet in book.sheets)
    by_name = dict(zip(names, cells, strict=True))
    return FreshBook(MadePackage(workbook.parts), by_name, formats.claimed, elsewhere)


def _options(style: HouseStyle) -> dict[str, Any]:
    return {
        "strings_to_formulas": False,
        "strings_to_urls": False,
        "strings_to_numbers": False,
        "default_format_properties": {"font_name": style.font, "font_size": style.size},
    }


def _write(
    workbook: Workbook,
    book: BookModel,
    style: HouseStyle,
    cells: Sequence[SheetCells | CellsElsewhere],
    *,
    frames: bool,
) -> Formats:
    """Write a workbook, or the frames of its sheets without their cells, and close it."""
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        workbook.set_properties({"title": book.title, "created": CREATED, "author": ""})
        workbook.set_calc_mode("auto")
        formats = Formats(workbook, style)
        names = unique_sheet_names(sheet.name for sheet in book.sheets)
        try:
            for of_sheet, name in zip(cells, names, strict=True):
                target = workbook.add_worksheet(name, ExactSheet)
                if isinstance(of_sheet, SheetCells) and not frames:
                    _write_cells(target, of_sheet, formats)
                else:
                    _write_outer_links(target, of_sheet, formats)
                    formats.claim(of_sheet.styles())
                _write_frame(target, of_sheet.sheet, formats, style, book.paper)
            for name, formula in sorted(book.names.items()):
                done(workbook.define_name(name, f"={formula}"), name)
            workbook.close()
        except UserWarning as refusal:
            raise NotWrittenError(str(refusal)) from refusal
    return formats


def _write_cells(target: Worksheet, cells: SheetCells, formats: Formats) -> None:
    """Write the cells of a sheet one by one.

    The library would store 0 in every cell of a table column with a formula, and give header
    cells no format of ours.
    """
    for number, row in cells.rows():
        for column, cell in row:
            write_cell(target, number - 1, column - 1, cell, formats)
    for number, height in cells.heights.items():
        target.set_row(number - 1, height)


def _write_outer_links(
    target: Worksheet, cells: SheetCells | CellsElsewhere, formats: Formats
) -> None:
    """Let the library note the links that leave the book, for the relationships of the frame."""
    placed = [*(cells.sheet.loose or {}).items()]
    if isinstance(cells, SheetCells):
        for table, columns in zip(cells.sheet.tables, cells.columns, strict=True):
            linked = [
                ((number, at), cell)
                for at, column in enumerate(columns, table.column)
                if any(map(leaves_the_book, column.different.values()))
                for number, cell in enumerate(column.cells, table.row + 1)
            ]
            placed += sorted(linked, key=lambda place: place[0])
    for (row, at), cell in placed:
        if leaves_the_book(cell):
            write_cell(target, row - 1, at - 1, cell, formats)


def _write_frame(
    target: Worksheet, sheet: SheetModel, formats: Formats, style: HouseStyle, paper: str
) -> None:
    """Write what is no cell: columns, tables, validations, pictures, print set-up."""
    target.set_tab_color(style.tabs[sheet.tab_style])
    for column, width in (sheet.widths or {}).items():
        target.set_column(column - 1, column - 1, width)
    for table in sheet.tables:
        frame_table(target, table, formats)
    for row, column, validation in sheet.cell_validations:
        write_validation(target, (row - 1, row - 1), column - 1, validation)
    for rule in sheet.conditional:
        target.conditional_format(
            rule.cells,
            {
                "type": "formula",
                "criteria": f"={rule.formula}",
                "format": formats.conditional(rule.style),
            },
        )
    if sheet.pictures:
        # where a picture lies is reckoned from the rows above it
        for row, height in SheetCells(sheet, style).heights.items():
            target.set_row(row - 1, height)
    for number, picture in enumerate(sheet.pictures, 1):
        done(
            target.insert_image(
                picture.row - 1,
                picture.column - 1,
                f"picture{number}.png",
                {
                    "image_data": io.BytesIO(picture.png),
                    "description": picture.description,
                    "x_scale": picture.scale,
                    "y_scale": picture.scale,
                    "x_offset": picture.x_offset,
                    "y_offset": picture.y_offset,
                    "object_position": 2,
                },
            ),
            f"picture {number}",
        )
    _set_up_print(target, sheet, paper)


def _set_up_print(target: Worksheet, sheet: SheetModel, paper: str) -> None:
    """Panes, paper, one page wide, repeated header, page numbers."""
    if sheet.freeze:
        target.freeze_panes(sheet.freeze[0] - 1, sheet.freeze[1] - 1)
    if sheet.landscape:
        target.set_landscape()
    target.set_paper(_LETTER if paper == "letter" else _A4)
    target.set_margins(*(sheet.margins or _MARGINS))
    if sheet.fit_one_page_wide:
        target.fit_to_pages(1, 0)
    if sheet.repeat_row:
        target.repeat_rows(sheet.repeat_row - 1)
    if sheet.printed_columns:
        last = sheet.printed_rows or _last_row(sheet, sheet.printed_columns)
        done(target.print_area(0, 0, last - 1, sheet.printed_columns - 1), "print area")
    if sheet.row_breaks:
        target.set_h_pagebreaks(list(sheet.row_breaks))
    target.set_footer("&L&9&A&R&9&P / &N")


def _last_row(sheet: SheetModel, columns: int) -> int:
    """Last row with anything in the first columns."""
    tables = [table.row + table.records for table in sheet.tables if table.column <= columns]
    return max([*tables, *(row for row, column in sheet.loose or {} if column <= columns)])

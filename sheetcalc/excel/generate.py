"""Write sheets described as data to a new workbook.  The only importer of the writing library."""

import io
import warnings
from datetime import UTC, datetime
from typing import Final

from xlsxwriter.workbook import Workbook
from xlsxwriter.worksheet import Worksheet

from sheetcalc.excel.generate_cells import NotWrittenError, done, write_cell
from sheetcalc.excel.generate_formats import Formats, with_named_styles
from sheetcalc.excel.generate_layout import legal_sheet_names, row_height
from sheetcalc.excel.generate_tables import write_table, write_validation
from sheetcalc.workbook.house_style import HouseStyle
from sheetcalc.workbook.sheet import BookModel, Cell, SheetModel

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
    out = io.BytesIO()
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        workbook = Workbook(
            out,
            {
                "in_memory": True,
                "strings_to_formulas": False,
                "strings_to_urls": False,
                "strings_to_numbers": False,
                "default_format_properties": {"font_name": style.font, "font_size": style.size},
            },
        )
        workbook.set_properties({"title": book.title, "created": CREATED, "author": ""})
        workbook.set_calc_mode("auto")
        formats = Formats(workbook, style)
        names = legal_sheet_names([sheet.name for sheet in book.sheets])
        try:
            for sheet, name in zip(book.sheets, names, strict=True):
                _write_sheet(workbook.add_worksheet(name), sheet, formats, style, book.paper)
            for name, formula in sorted(book.names.items()):
                done(workbook.define_name(name, f"={formula}"), name)
            workbook.close()
        except UserWarning as refusal:
            raise NotWrittenError(str(refusal)) from refusal
    package = out.getvalue()
    return with_named_styles(package, formats.indices(), style) if named_styles else package


def _write_sheet(
    target: Worksheet, sheet: SheetModel, formats: Formats, style: HouseStyle, paper: str
) -> None:
    """Write one sheet: heading, tables, loose cells, pictures, print set-up."""
    target.set_tab_color(style.tabs[sheet.tab_style])
    for column, width in (sheet.widths or {}).items():
        target.set_column(column - 1, column - 1, width)
    target.set_row(0, 26)
    target.set_row(1, 18)
    write_cell(target, 0, 0, Cell(sheet.title, "title"), formats)
    write_cell(target, 1, 0, Cell(sheet.purpose, "purpose"), formats)
    if sheet.signature:
        write_cell(target, 2, 0, Cell(sheet.signature, "hint"), formats)
    heights: dict[int, float] = {}
    widths = dict(sheet.widths or {})
    for table in sheet.tables:
        heights |= write_table(target, table, formats, style)
    for (row, column), cell in (sheet.loose or {}).items():
        write_cell(target, row - 1, column - 1, cell, formats)
        if style[cell.style].wrap:
            needed = row_height(cell.value, widths.get(column, 8.43), style[cell.style].size)
            heights[row] = max(needed, heights.get(row, 0.0))
    for row, height in (heights | dict(sheet.heights or {})).items():
        target.set_row(row - 1, height)
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
        tables = max(t.row + max(1, len(t.rows) + t.empty_rows) for t in sheet.tables)
        last = sheet.printed_rows or tables
        done(target.print_area(0, 0, last - 1, sheet.printed_columns - 1), "print area")
    if sheet.row_breaks:
        target.set_h_pagebreaks(list(sheet.row_breaks))
    target.set_footer("&L&9&A&R&9&P / &N")

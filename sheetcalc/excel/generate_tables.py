"""Tables with their headers, records, empty rows for input, and validations."""

from datetime import date
from typing import Any, Final

from xlsxwriter.worksheet import Worksheet

from sheetcalc.excel.generate_cells import NotWrittenError, write_cell
from sheetcalc.excel.generate_formats import Formats
from sheetcalc.excel.generate_layout import row_height
from sheetcalc.workbook.house_style import HouseStyle
from sheetcalc.workbook.sheet import Cell, TableModel, Validation

_LONGEST_TITLE: Final = 32
_LONGEST_MESSAGE: Final = 255


def write_table(
    target: Worksheet, table: TableModel, formats: Formats, style: HouseStyle
) -> dict[int, float]:
    """Write a table and its validations.

    Cells are written one by one: the library would store 0 in every cell of a column with a
    formula, and give header cells no format of ours.

    Returns
    -------
    dict
        Heights that rows with wrapped text need, by 1-based row [points].
    """
    top, left = table.row - 1, table.column - 1
    records = len(table.rows) + table.empty_rows
    headers = [column.header for column in table.columns]
    for at, column in enumerate(table.columns):
        target.set_column(left + at, left + at, column.width, formats.column(column.style))
    target.add_table(
        top,
        left,
        top + max(1, records),
        left + len(headers) - 1,
        {
            "name": table.name,
            "style": None,
            "columns": [{"header": header} for header in headers],
        },
    )
    heights = {table.row: _header_height(table, style)}
    for at, column in enumerate(table.columns):
        write_cell(target, top, left + at, Cell(column.header, column.header_style), formats)
    for number, row in enumerate(table.rows, 1):
        for at, cell in enumerate(row):
            write_cell(target, top + number, left + at, cell, formats)
            if style[cell.style].wrap and cell.value:
                needed = row_height(cell.value, table.columns[at].width, style[cell.style].size)
                heights[table.row + number] = max(needed, heights.get(table.row + number, 0.0))
    for number in range(len(table.rows) + 1, max(1, records) + 1):
        for at, column in enumerate(table.columns):
            write_cell(target, top + number, left + at, Cell(None, column.style), formats)
    last = top + max(1, records, table.validated_rows)
    for at, column in enumerate(table.columns):
        if column.validation is not None:
            write_validation(target, (top + 1, last), left + at, column.validation)
    return heights


def _header_height(table: TableModel, style: HouseStyle) -> float:
    """Height of the header row; the drop-down buttons take some of each column's width."""
    return max(
        row_height(c.header, c.width - 1.5, style[c.header_style].size * 1.06)
        for c in table.columns
    )


def write_validation(
    target: Worksheet, rows: tuple[int, int], column: int, validation: Validation
) -> None:
    """Put a validation on rows of a column (0-based)."""
    options: dict[str, Any] = {
        "validate": validation.kind,
        "ignore_blank": True,
        "error_type": validation.alert,
        "show_error": validation.enforce,
    }
    if validation.title:
        options["input_title"] = validation.title[:_LONGEST_TITLE]
    if validation.message:
        options["input_message"] = validation.message
    if validation.error:
        options["error_title"] = "Please check"
        options["error_message"] = validation.error[:_LONGEST_MESSAGE]
    if validation.kind == "list":
        options["source"] = validation.source or list(validation.words)
    elif validation.kind == "custom":
        options["value"] = f"={validation.source}"
    elif validation.kind != "any":
        options |= _between(validation)
    code = target.data_validation(rows[0], column, rows[1], column, options)
    if code:
        message = f"a validation of column {column + 1} was refused with {code}"
        raise NotWrittenError(message)


def _between(validation: Validation) -> dict[str, Any]:
    """Bounds as the library takes them."""
    low, high = _bound(validation.low), _bound(validation.high)
    if low is not None and high is not None:
        return {"criteria": "between", "minimum": low, "maximum": high}
    if low is not None:
        return {"criteria": ">=", "value": low}
    if high is not None:
        return {"criteria": "<=", "value": high}
    return {"criteria": ">=", "value": -1e300}


def _bound(bound: float | date | None) -> Any:  # noqa: ANN401 - a number or a date
    return bound

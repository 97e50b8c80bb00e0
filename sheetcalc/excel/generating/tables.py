"""Tables with their columns and validations; cells come apart."""

from datetime import date
from typing import Any, Final

from xlsxwriter.worksheet import Worksheet

from sheetcalc.excel.generating.cells import NotWrittenError
from sheetcalc.excel.generating.formats import Formats
from sheetcalc.workbook.sheet import TableModel, Validation

_LONGEST_TITLE: Final = 32
_LONGEST_MESSAGE: Final = 255


def frame_table(target: Worksheet, table: TableModel, formats: Formats) -> None:
    """Write a table but for its cells: its columns, its definition, its validations."""
    top, left = table.row - 1, table.column - 1
    records = table.records
    for at, column in enumerate(table.columns, left):
        target.set_column(at, at, column.width, formats.column(column.style))
    target.add_table(
        top,
        left,
        top + records,
        left + len(table.columns) - 1,
        {
            "name": table.name,
            "style": None,
            "columns": [
                {"header": c.header, "header_format": formats.cell(c.header_style)}
                for c in table.columns
            ],
        },
    )
    last = top + max(records, table.validated_rows)
    for at, column in enumerate(table.columns, left):
        if column.validation is not None:
            write_validation(target, (top + 1, last), at, column.validation)


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
        options["error_title"] = validation.error_title[:_LONGEST_TITLE]
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

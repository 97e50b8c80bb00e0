"""The input workbook: blank, with an invented example, or filled from records."""

from collections.abc import Mapping
from pathlib import Path
from typing import Literal, TypeAlias

from sheetcalc.domain.measure import INCH, METRE, JobUnits
from sheetcalc.workbook.columns import HEADER_ROW, Column, Kind, Tab
from sheetcalc.workbook.guide import guide_sheet
from sheetcalc.workbook.headers import job_unit, shown_header, units_of
from sheetcalc.workbook.inputs import GUIDE_NAME, INPUT_TABS, LISTS_NAME
from sheetcalc.workbook.lists import LAST_ROW, defined_names, letters, lists_sheet
from sheetcalc.workbook.settings import SETTINGS, Setting
from sheetcalc.workbook.sheet import (
    BookModel,
    Cell,
    CellValue,
    SheetColumn,
    SheetModel,
    TableModel,
    Validation,
)
from sheetcalc.workbook.template_data import (
    ALLOWANCES,
    Record,
    Records,
    Value,
    own_tabs,
    template_records,
    typed,
)
from sheetcalc.workbook.validations import column_validation, setting_validation

System: TypeAlias = Literal["metric", "us"]

_EMPTY_ROWS = {
    "Rooms": 20,
    "Floor pieces": 24,
    "Wall legs": 12,
    "Wall faces": 16,
    "Waste factors": 6,
}
_OTHER_EMPTY_ROWS = 12
_WORDY = frozenset({"Note", "Description", "Address", "Reason", "Guidance", "Source"})
_STYLES = {
    Kind.CHOICES: "input_wrapped",
    Kind.CODE: "input_code",
    Kind.NUMBER: "input_number",
    Kind.TEMPERATURE: "input_number",
    Kind.COUNT: "input_count",
    Kind.MONEY: "input_money",
    Kind.PERCENT: "input_percent",
    Kind.DATE: "input_date",
    Kind.AREA: "input_number",
    Kind.VOLUME: "input_number",
    Kind.MASS: "input_number",
    Kind.FILL: "input_number",
    Kind.BOND: "input_code",
    Kind.NOTCH: "input_code",
    Kind.NUMBERS: "input_code",
}


def blank_book(
    system: System, *, example: bool = False, folder: Path | None = None, buyer: str = ""
) -> BookModel:
    """Return the input workbook that an estimator starts from.

    Parameters
    ----------
    system
        Units, defaults and allowances: ``metric`` or ``us``.
    example
        Fill in an invented bathroom that shows the features.
    folder
        An office's own templates; None for the program's.  Its allowances, labour and price
        lists stand in the workbook; the example goes with the price lists that it was made for.
    buyer
        The office's name.
    """
    own: dict[str, CellValue] = {"buyer": buyer} if buyer else {}
    if not example:
        wanted = own_tabs(system, folder) | frozenset(ALLOWANCES)
        office = template_records(system, folder)
        return filled_book(system, {key: office[key] for key in office if key in wanted}, own)
    if folder is not None and not (folder / system / "example").is_dir():
        folder = None
    office = template_records(system, folder)
    shown = template_records(system, folder, subfolder="example")
    typed_values = {str(r["Setting"]): str(r.get("Value") or "") for r in shown.pop("Job", [])}
    settings = {
        s.key: typed(typed_values[s.label], s.kind) for s in SETTINGS if s.label in typed_values
    }
    return filled_book(system, office | shown, {**settings, **own}, title="sheetcalc example")


def filled_book(
    system: System,
    records: Records,
    settings: Mapping[str, CellValue] | None = None,
    *,
    title: str = "sheetcalc workbook",
) -> BookModel:
    """Return an input workbook with records in it.

    Parameters
    ----------
    system
        Units and defaults: ``metric`` or ``us``.
    records
        Tab -> records, each declared header -> what stands in the cell.
    settings
        Key of a setting -> its Value, where it is not the default.
    title
        For the document's properties.
    """
    units = units_of(system)
    sheets = [guide_sheet(system)]
    for tab in INPUT_TABS:
        if tab.key == "Job":
            sheets.append(_job_sheet(tab, system, settings or {}))
        else:
            sheets.append(_tab_sheet(tab, system, units, tuple(records.get(tab.key, ()))))
    sheets.append(lists_sheet(system))
    return BookModel(
        sheets=tuple(sheets),
        names=defined_names(system),
        paper="letter" if system == "us" else "A4",
        title=title,
    )


def input_style(column_kind: Kind, header: str, units: JobUnits) -> str:
    """Style of the cells of a column or a setting."""
    unit = job_unit(column_kind, units)
    if column_kind in {Kind.ROOM_LENGTH, Kind.SMALL_LENGTH, Kind.LONG_LENGTH} and unit is not None:
        if unit == INCH:
            return "input_fraction"
        return "input_metres" if unit == METRE else "input_number"
    if column_kind in _STYLES:
        return _STYLES[column_kind]
    return "input_wrapped" if header in _WORDY else "input"


def _tab_sheet(
    tab: Tab, system: System, units: JobUnits, records: tuple[Record, ...]
) -> SheetModel:
    """One input tab with its table, empty rows below the records, and validations."""
    columns = tuple(
        SheetColumn(
            header=shown_header(column, units),
            width=column.width,
            style=input_style(column.kind, column.header, units),
            validation=column_validation(column, f"{letters(at)}{HEADER_ROW + 1}", system),
            header_style="header" if column.required else "header_optional",
        )
        for at, column in enumerate(tab.columns, 1)
    )
    rows = tuple(
        tuple(
            _input_cell(record.get(column.header), shape.style)
            for column, shape in zip(tab.columns, columns, strict=True)
        )
        for record in records
    )
    table = TableModel(
        name=tab.table,
        row=HEADER_ROW,
        column=1,
        columns=columns,
        rows=rows,
        empty_rows=_EMPTY_ROWS.get(tab.key, _OTHER_EMPTY_ROWS),
        validated_rows=LAST_ROW - HEADER_ROW,
    )
    return SheetModel(
        key=tab.key,
        name=tab.key,
        title=tab.key,
        purpose=tab.purpose,
        tables=(table,),
        loose=_third_row(_hint(tab.columns)),
        freeze=(HEADER_ROW + 1, 2),
        tab_style="input",
    )


def _input_cell(value: Value, style: str) -> Cell:
    """Cell of a record; one that is given as a cell keeps its own looks."""
    return value if isinstance(value, Cell) else Cell(value, style)


def _third_row(words: str) -> dict[tuple[int, int], Cell]:
    """Third row: the way back to the Guide, and what must be filled in."""
    return {
        (3, 1): Cell("to the Guide", "hint_link", link=f"internal:'{GUIDE_NAME}'!A1"),
        (3, 2): Cell(words, "hint"),
    }


def _hint(columns: tuple[Column, ...]) -> str:
    """Which columns must be filled in."""
    required = ", ".join(column.header for column in columns if column.required)
    return f"Must be filled in: {required}. The other columns may stay empty."


def _job_sheet(tab: Tab, system: System, values: Mapping[str, CellValue]) -> SheetModel:
    """Return the Job tab: one setting a row."""
    units = units_of(system)
    columns = tuple(
        SheetColumn(
            header=column.header,
            width=column.width,
            style="input" if column.header == "Value" else "wrapped",
            header_style="header" if column.header in {"Setting", "Value"} else "header_optional",
        )
        for column in tab.columns
    )
    rows = tuple(_setting_row(setting, system, units, values) for setting in SETTINGS)
    table = TableModel(tab.table, HEADER_ROW, 1, columns, rows)
    return SheetModel(
        key=tab.key,
        name=tab.key,
        title=tab.key,
        purpose=tab.purpose,
        tables=(table,),
        loose=_third_row("Every setting has a default that you can leave."),
        freeze=(HEADER_ROW + 1, 2),
        tab_style="input",
        cell_validations=tuple(
            (row, 2, validation)
            for row, setting in enumerate(SETTINGS, HEADER_ROW + 1)
            if (validation := _setting_rule(setting, row, system)) is not None
        ),
    )


def _setting_rule(setting: Setting, row: int, system: System) -> Validation | None:
    return setting_validation(setting, f"B{row}", system)


def _setting_row(
    setting: Setting, system: System, units: JobUnits, values: Mapping[str, CellValue]
) -> tuple[Cell, ...]:
    """Return the cells of a setting: Setting, Value, Unit, Guidance, Source."""
    value = values.get(setting.key, setting.default(system))
    style = input_style(setting.kind, "", units)
    if setting.kind in {Kind.TEXT, Kind.CHOICES}:
        style = "input_wrapped"
    return (
        Cell(setting.label, "result_bold"),
        Cell(value, style),
        Cell(setting_unit(setting, system), "result"),
        Cell(setting.guidance, "result_wrapped"),
        Cell(setting.source, "result_wrapped"),
    )


def setting_unit(setting: Setting, system: System) -> str:
    """Return what stands in a setting's Unit cell in a blank workbook."""
    unit = job_unit(setting.kind, units_of(system))
    if unit is not None:
        return unit.symbol
    if setting.kind is Kind.PERCENT:
        return "%"
    offered = tuple(setting.units)
    return (offered[-1] if system == "us" else offered[0]) if offered else ""


__all__ = ["GUIDE_NAME", "LISTS_NAME", "blank_book", "filled_book"]

"""The Job tab's rows to the domain's Job: by label, with units and defaults."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any, Final, TypeAlias

from sheetcalc.domain.finding import Fact, Finding, RowRef
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_MM, UNITS, Dimension, JobUnits, Unit
from sheetcalc.workbook.columns import LENGTH_KINDS, Column, Kind
from sheetcalc.workbook.convert import cells
from sheetcalc.workbook.convert.currencies import as_code
from sheetcalc.workbook.convert.nearest import did_you_mean
from sheetcalc.workbook.convert.problem import CellProblem
from sheetcalc.workbook.convert.references import key_of
from sheetcalc.workbook.convert.temperature import temperature_c, unusual_temperature
from sheetcalc.workbook.headers import job_unit, units_of
from sheetcalc.workbook.raw import RawBook, RawCell, RawRow
from sheetcalc.workbook.settings import SETTINGS, Setting
from sheetcalc.workbook.shown import displayed, found_text

_TAB: Final = "Job"
_VALUE: Final = "Value"


def read_job(raw: RawBook) -> tuple[Job, list[Finding]]:
    """Read every setting; one that is empty or absent has the default of the unit system.

    Returns
    -------
    tuple
        The job, with defaults where a value was refused, so that everything else of the workbook
        can be read in the same run; and the findings.
    """
    findings: list[Finding] = []
    rows = dict(_rows_by_key(raw, findings))
    units = _units(rows, findings)
    values: dict[str, Any] = {"units": units}
    typed = set(Job.__struct_fields__)
    for setting in SETTINGS:
        if setting.key in typed:
            values[setting.key] = _value(setting, rows.get(setting.key), units, findings)
    values["currency"] = as_code(values["currency"])
    absent = [s.label for s in SETTINGS if s.key not in rows]
    if absent and _TAB in raw.tables and raw.tables[_TAB].rows:
        findings.append(
            Finding(
                "SETTINGS-NOT-THERE",
                RowRef(_TAB),
                facts={"count": len(absent), "settings": ", ".join(absent)},
            )
        )
    return Job(**values), findings


def _rows_by_key(raw: RawBook, findings: list[Finding]) -> Iterator[tuple[str, RawRow]]:
    """Yield the rows by the setting's key; labels are compared without case."""
    by_label = {key_of(setting.label): setting for setting in SETTINGS}
    seen: dict[str, int] = {}
    table = raw.tables.get(_TAB)
    for row in table.rows if table else ():
        source = RowRef(_TAB, row.row)
        cell = row.cells.get("Setting")
        label = displayed(cell) if cell is not None else ""
        setting = by_label.get(key_of(label))
        if setting is None:
            if label or _VALUE in row.cells:
                labels = [s.label for s in SETTINGS]
                facts = {
                    "found": f'"{label}"' if label else "nothing",
                    "hint": did_you_mean(label, labels) or "see the README for the settings",
                }
                findings.append(Finding("SETTING-UNKNOWN", source, "Setting", facts))
        elif setting.key in seen:
            twice: dict[str, Fact] = {"found": f'"{label}"', "row": seen[setting.key]}
            findings.append(Finding("SETTING-TWICE", source, "Setting", twice))
        else:
            seen[setting.key] = row.row
            yield setting.key, row


def _units(rows: Mapping[str, RawRow], findings: list[Finding]) -> JobUnits:
    """Read the six units first: everything else is counted in them."""
    chosen: dict[str, Unit] = {}
    for setting in SETTINGS:
        group, _, name = setting.key.partition(".")
        if group != "units":
            continue
        row = rows.get(setting.key)
        cell = row.cells.get(_VALUE) if row else None
        if row is None or cell is None:
            continue
        try:
            cells.check_readable(cell)
            word = cells.choice(RawCell(_unit_typed(cell), cell.address), setting.choices)
        except CellProblem as problem:
            findings.append(_finding(problem, row, cell))
        else:
            chosen[name] = UNITS[word]
    defaults = units_of(JobUnits(**chosen).system)
    return JobUnits(
        **{name: chosen.get(name, getattr(defaults, name)) for name in JobUnits.__struct_fields__}
    )


def _unit_typed(cell: RawCell) -> str:
    """Word of a unit; m2 is taken for m², as it is often typed."""
    return displayed(cell).replace("2", "²").replace("3", "³")


def _finding(problem: CellProblem, row: RawRow, cell: RawCell, header: str = _VALUE) -> Finding:
    facts = {"found": found_text(cell), **problem.facts}
    return Finding(problem.code, RowRef(_TAB, row.row), header, facts)


def _value(
    setting: Setting,
    row: RawRow | None,
    units: JobUnits,
    findings: list[Finding],
) -> object:
    """Value of one setting for the domain's Job; the default where none, or a wrong one."""
    cell = row.cells.get(_VALUE) if row else None
    if row is not None and cell is not None:
        try:
            cells.check_readable(cell)
            unit = _unit_beside(setting, row, units)
            value = _typed(setting, cell, unit, units)
        except _UnitProblem as problem:
            findings.append(_finding(problem, row, row.cells["Unit"], "Unit"))
        except CellProblem as problem:
            findings.append(_finding(problem, row, cell))
        else:
            if unusual := _unusual(setting, value, cell, unit):
                findings.append(_finding(unusual, row, cell))
            return value
    return _default(setting, units.system)


def _unusual(setting: Setting, value: object, cell: RawCell, unit: str) -> CellProblem | None:
    """Ask about a value out of its usual range: it may be a slip of the unit."""
    if setting.kind is Kind.TEMPERATURE and isinstance(value, float):
        return unusual_temperature(cell, setting, value, unit)
    low, high = setting.usual
    column = Column(setting.label, setting.kind, "", low=low, high=high)
    if (
        setting.kind is Kind.PERCENT
        and isinstance(value, int | float)
        and not setting.is_usual(value)
    ):
        return CellProblem(code="NUMBER-UNUSUAL", **cells.percent_range(column))
    if setting.kind not in LENGTH_KINDS or not isinstance(value, int):
        return None
    if setting.is_usual(value / MM320_PER_MM):
        return None
    return CellProblem(code="LENGTH-UNUSUAL", **cells.length_range(cell, column, UNITS[unit]))


class _UnitProblem(CellProblem):
    """The word in the Unit column is none of the setting's."""


def _unit_beside(setting: Setting, row: RawRow, units: JobUnits) -> str:
    """Word of the Unit column that a plain number of the setting is counted in."""
    cell = row.cells.get("Unit")
    if setting.kind in LENGTH_KINDS:
        own = job_unit(setting.kind, units)
        allowed = [u.symbol for u in UNITS.values() if u.dimension is Dimension.LENGTH]
        if cell is None:
            return own.symbol if own else "mm"
    elif setting.units:
        allowed = list(setting.units)
        if cell is None:
            return allowed[-1] if units.system == "us" else allowed[0]
    else:
        return ""
    word = key_of(_unit_typed(cell))
    for known in allowed:
        if known.casefold() == word:
            return known
    raise _UnitProblem(code="UNIT-UNKNOWN", units=", ".join(allowed))


def _typed(setting: Setting, cell: RawCell, unit: str, units: JobUnits) -> object:
    column = Column(
        setting.label,
        setting.kind,
        "",
        low=setting.low,
        high=setting.high,
        unit=unit if setting.units else "",
    )
    if setting.kind in LENGTH_KINDS:
        plain = UNITS[unit]
        counted = JobUnits(room_length=plain, small_length=plain, long_length=plain)
        return cells.length(cell, column, counted, feet_job=units.is_feet_job)
    if setting.kind is Kind.TEMPERATURE:
        return temperature_c(cell, setting, unit)
    if setting.kind is Kind.NUMBER:
        return _scaled_number(cell, column, setting.units.get(unit, 1.0))
    parser = _PARSERS.get(setting.kind)
    return parser(cell, column, setting) if parser else cells.text(cell)


_Parser: TypeAlias = Callable[[RawCell, Column, Setting], object]
_PARSERS: Final[Mapping[Kind, _Parser]] = {
    Kind.COUNT: lambda cell, column, _: cells.count(cell, column),
    Kind.PERCENT: lambda cell, column, _: cells.percent(cell, column),
    Kind.YES_NO: lambda cell, _, __: cells.yes_no(cell),
    Kind.DATE: lambda cell, _, __: cells.day(cell),
    Kind.CHOICE: lambda cell, _, setting: cells.choice(cell, setting.choices),
    Kind.CHOICES: lambda cell, _, setting: ", ".join(cells.choices_in_order(cell, setting.choices)),
    Kind.NUMBERS: lambda cell, column, _: cells.numbers(cell, column),
}


def _scaled_number(cell: RawCell, column: Column, factor: float) -> float:
    """Read a number in the unit of the Job's field; bounds are in that unit too."""
    scaled = Column(
        column.header,
        column.kind,
        "",
        low=None if column.low is None else round(column.low / factor, 4),
        high=None if column.high is None else round(column.high / factor, 4),
        unit=column.unit,
    )
    return cells.number(cell, scaled) * factor


def _default(setting: Setting, system: str) -> object:
    """Stated default, read as if it had been typed in a blank workbook of the system."""
    value = setting.default(system)
    if value is None:
        return "" if setting.kind in (Kind.TEXT, Kind.CODE) else None
    units = units_of(system)
    own = job_unit(setting.kind, units)
    words = list(setting.units)
    unit = own.symbol if own else (words[-1 if system == "us" else 0] if words else "")
    return _typed(setting, RawCell(value, ""), unit, units)

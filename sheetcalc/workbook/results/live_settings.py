"""Settings of the Job in live formulas: looked up by their names, or the number of the run."""

from sheetcalc.domain.temperature import CELSIUS, SCALES, TemperatureScale
from sheetcalc.workbook.formulas import looked_up, number_literal
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.settings import SETTING_BY_KEY


def setting_term(frame: Frame, key: str, value: float) -> str:
    """Part of a formula that stands for a setting.

    Parameters
    ----------
    frame
        The workbook as found.
    key
        Field of the Job.
    value
        What the run used.

    Returns
    -------
    str
        A look-up of the setting by its name, where its cell holds that very number; else, as for
        a setting that is left to its default, the number.
    """
    return _look_up(frame, key, value) or number_literal(value)


def rise_term(frame: Frame, key: str, value_c: float, standard_c: float) -> str:
    """Part of a formula that stands for how far a setting is above a temperature, in kelvin.

    Parameters
    ----------
    frame
        The workbook as found.
    key
        Field of the Job that is a temperature.
    value_c
        What the run used [°C].
    standard_c
        The temperature that it is counted from [°C].

    Returns
    -------
    str
        ``(look-up-20)``, or ``(look-up-68)/1.8`` where °F stands beside the setting; with the
        number of the run where nothing can be looked up.
    """
    for scale in SCALES.values():
        if found := _look_up(frame, key, value_c, scale):
            return _rise(found, standard_c, scale)
    return _rise(number_literal(value_c), standard_c, CELSIUS)


def _rise(term: str, standard_c: float, scale: TemperatureScale) -> str:
    difference = f"({term}-{number_literal(scale.of_c(standard_c))})"
    degrees = scale.of_k(1.0)
    return difference if degrees == 1 else f"{difference}/{number_literal(degrees)}"


def _look_up(frame: Frame, key: str, value: float, scale: TemperatureScale = CELSIUS) -> str | None:
    """Look a setting up by its name; None unless its cell holds that value, on that scale."""
    table = frame.inputs.get("Job")
    values = table.column("Value") if table else None
    if table is None or values is None:
        return None
    label = SETTING_BY_KEY[key].label.casefold()
    mine = [
        row.row
        for row in table.raw.rows
        if "Setting" in row.cells and str(row.cells["Setting"].value).strip().casefold() == label
    ]
    number = table.number(mine[0], "Value") if len(mine) == 1 else None
    if number is None or scale.to_c(number) != value:
        return None
    keys = table.keys(mine[0], ("Setting",))
    return looked_up(keys, values) if keys else None

"""Settings of the Job in live formulas: looked up by their names, or the number of the run."""

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
    table = frame.inputs.get("Job")
    values = table.column("Value") if table else None
    if table is None or values is None:
        return number_literal(value)
    label = SETTING_BY_KEY[key].label.casefold()
    mine = [
        row.row
        for row in table.raw.rows
        if "Setting" in row.cells and str(row.cells["Setting"].value).strip().casefold() == label
    ]
    if len(mine) != 1 or table.number(mine[0], "Value") != value:
        return number_literal(value)
    keys = table.keys(mine[0], ("Setting",))
    return looked_up(keys, values) if keys else number_literal(value)

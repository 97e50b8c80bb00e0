"""A temperature of the Job tab, on the scale that stands beside it in Unit."""

from typing import Final

from sheetcalc.domain.temperature import SCALES, TemperatureScale
from sheetcalc.workbook.columns import Column
from sheetcalc.workbook.convert import cells
from sheetcalc.workbook.convert.problem import CellProblem
from sheetcalc.workbook.raw import RawCell
from sheetcalc.workbook.setting import Setting
from sheetcalc.workbook.shown import plain_number

_PLACES: Final = 4


def temperature_c(cell: RawCell, setting: Setting, unit: str) -> float:
    """Temperature within the setting's bounds [°C].

    Parameters
    ----------
    cell
        Its Value: a plain number.
    setting
        With bounds in °C.
    unit
        Symbol of the scale that the number is on.
    """
    if isinstance(cell.value, str):
        hint = f"type the number alone, and {' or '.join(SCALES)} beside it in Unit"
        raise CellProblem(code="NUMBER-AS-TEXT", hint=hint)
    scale = SCALES[unit]
    low, high = _on(scale, setting.low, setting.high)
    column = Column(setting.label, setting.kind, "", low=low, high=high, unit=unit)
    return scale.to_c(cells.number(cell, column))


def unusual_temperature(
    cell: RawCell, setting: Setting, value_c: float, unit: str
) -> CellProblem | None:
    """Ask about a temperature out of its usual range: it may be meant on the other scale.

    The usual ranges of both scales have no number in common, so that a number beside the wrong
    one is always asked about.
    """
    low, high = setting.usual
    if low is None or high is None or low <= value_c <= high:
        return None
    scale = SCALES[unit]
    usual = [scale.shown(end) for end in (low, high)]
    other = next(symbol for symbol in SCALES if symbol != unit)
    number = plain_number(
        cell.value if isinstance(cell.value, int | float) else scale.of_c(value_c)
    )
    return CellProblem(
        code="TEMPERATURE-UNUSUAL", low=usual[0], high=usual[1], unit=unit, number=number,
        other=other,
    )  # fmt: skip


def _on(scale: TemperatureScale, *ends_c: float | None) -> list[float | None]:
    """Bounds on a scale, without the noise of the last binary places."""
    return [None if end is None else round(scale.of_c(end), _PLACES) for end in ends_c]

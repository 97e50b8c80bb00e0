"""Headers as shown: the declared header, with the unit of plain numbers in brackets."""

from collections.abc import Callable, Mapping
from operator import attrgetter
from typing import Final

from sheetcalc.domain.measure import FOOT, INCH, POUND, SQUARE_FOOT, US_GALLON, JobUnits, Unit
from sheetcalc.workbook.columns import Column, Kind

METRIC = JobUnits()
US = JobUnits(
    room_length=FOOT,
    small_length=INCH,
    long_length=FOOT,
    area=SQUARE_FOOT,
    volume=US_GALLON,
    mass=POUND,
)


def units_of(system: str) -> JobUnits:
    """Units of plain numbers that a blank workbook starts with.

    Parameters
    ----------
    system
        ``metric`` or ``us``.
    """
    return US if system == "us" else METRIC


_UNITS_OF_JOB: Final[Mapping[Kind, Callable[[JobUnits], Unit]]] = {
    Kind.ROOM_LENGTH: attrgetter("room_length"),
    Kind.SMALL_LENGTH: attrgetter("small_length"),
    Kind.LONG_LENGTH: attrgetter("long_length"),
    Kind.AREA: attrgetter("area"),
    Kind.VOLUME: attrgetter("volume"),
    Kind.MASS: attrgetter("mass"),
}


def job_unit(kind: Kind, units: JobUnits) -> Unit | None:
    """Return the unit of plain numbers of a kind, or None where the Job sets none."""
    unit = _UNITS_OF_JOB.get(kind)
    return unit(units) if unit else None


def unit_words(kind: Kind, units: JobUnits, fixed: str = "") -> str:
    """Return what stands in brackets after a header; "" for nothing.

    Parameters
    ----------
    kind
        Kind of the column.
    units
        Units of the job.
    fixed
        The column's own unit, where it has one.
    """
    if kind is Kind.FILL:
        return f"{units.volume.symbol}/{units.area.symbol}"
    unit = job_unit(kind, units)
    return unit.symbol if unit else fixed


def shown_header(column: Column, units: JobUnits) -> str:
    """Header of a column as it stands in the sheet, such as ``Length (m)``."""
    words = unit_words(column.kind, units, column.unit)
    return f"{column.header} ({words})" if words else column.header

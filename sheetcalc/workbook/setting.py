"""What a setting of the Job tab is."""

from collections.abc import Mapping
from typing import TypeAlias

from msgspec import Struct, field

from sheetcalc.workbook.columns import Kind

SettingValue: TypeAlias = str | int | float | None
"""As it stands in the cell: a length's number in the unit beside it, a percent as a share."""

PRACTICE = "common practice, no source"
OFFICE = "the office's own choice"


class Setting(Struct, frozen=True):
    """One row of the Job tab.

    Attributes
    ----------
    key
        Field of ``domain.job.Job``; ``units.…`` for those of ``JobUnits``.
    label
        Words in the Setting column, by which the row is found.
    kind
        Kind of its value.
    metric_default, us_default
        What stands in the blank workbook: lengths as plain numbers in the unit of their kind in
        that system, percents as shares, None for an empty cell.
    guidance
        What it does; the default is in the cell, and is repeated by ``default_words``.
    source
        Where the default comes from.
    low, high
        Bounds, in mm for lengths, shares for percents, °C for temperatures, else in the unit of
        ``units``' first entry.
    usual
        What a length, a percent or a temperature usually lies between, as common practice has it
        and no source: in mm, as shares, in °C; None for no bound.  0 of the first two is usual
        where it is allowed: it is for none.
    choices
        Allowed words of a CHOICE or CHOICES.
    units
        For a NUMBER with a unit and a TEMPERATURE: word in the Unit column -> what one of it is,
        in the unit of the Job's field; the first is the metric workbook's, the second the US
        workbook's.
    group
        Part of the Job that it belongs to.
    live
        Result formulas read it, so that changing it updates results in place.
    """

    key: str
    label: str
    kind: Kind
    metric_default: SettingValue
    us_default: SettingValue
    guidance: str
    source: str
    low: float | None = None
    high: float | None = None
    choices: tuple[str, ...] = ()
    units: Mapping[str, float] = field(default_factory=dict)
    group: str = ""
    live: bool = False
    required: bool = False
    usual: tuple[float | None, float | None] = (None, None)

    def is_usual(self, value: float) -> bool:
        """Whether a value lies in the usual range."""
        low, high = self.usual
        return value == 0 or ((low is None or value >= low) and (high is None or value <= high))

    def default(self, system: str) -> SettingValue:
        """Return the default of a unit system, ``metric`` or ``us``."""
        return self.us_default if system == "us" else self.metric_default

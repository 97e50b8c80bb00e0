"""Working days: Monday to Friday less the holidays of the job."""

from datetime import date, timedelta
from typing import Final

_FRIDAY: Final = 4
_ONE_DAY: Final = timedelta(days=1)


def working_days_before(day: date, working_days: int, holidays: frozenset[date]) -> date:
    """Day that lies a number of working days before another.

    With 0 it is the day itself, or the last working day before it.  Common practice, no source;
    equal to ``WORKDAY(day+1,-1-n,holidays)`` in a sheet.

    Examples
    --------
    Three working days before Monday 7 June 2027 is the Wednesday of the week before:

    >>> working_days_before(date(2027, 6, 7), 3, frozenset()).isoformat()
    '2027-06-02'
    """
    at = day
    left = working_days
    while True:
        if _is_working(at, holidays):
            if left == 0:
                return at
            left -= 1
        at -= _ONE_DAY


def working_day(start: date, number: int, holidays: frozenset[date]) -> date:
    """Give a working day of a stage by its number, 1 for the first on or after the start.

    Common practice, no source; equal to ``WORKDAY(start-1,number,holidays)`` in a sheet.

    Parameters
    ----------
    start
        First day of the stage, a working day or not.
    number
        1 or more.
    holidays
        Days that are not worked besides Saturdays and Sundays.

    Examples
    --------
    The fourth working day of a stage that starts on Thursday 3 June 2027 is the Tuesday after:

    >>> working_day(date(2027, 6, 3), 4, frozenset()).isoformat()
    '2027-06-08'
    """
    at = start
    left = number
    while True:
        if _is_working(at, holidays):
            left -= 1
            if left <= 0:
                return at
        at += _ONE_DAY


def _is_working(day: date, holidays: frozenset[date]) -> bool:
    return day.weekday() <= _FRIDAY and day not in holidays

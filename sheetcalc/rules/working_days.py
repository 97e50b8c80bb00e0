"""Working days: Monday to Friday less the holidays of the job."""

from datetime import date, timedelta
from typing import Final

_FRIDAY: Final = 4


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
        if at.weekday() <= _FRIDAY and at not in holidays:
            if left == 0:
                return at
            left -= 1
        at -= timedelta(days=1)

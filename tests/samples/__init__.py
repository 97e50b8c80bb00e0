"""Inputs of the sample workbooks; ``python -m tests.samples`` writes them.

All names, codes and prices are invented.
"""

from collections.abc import Callable, Mapping

from sheetcalc.workbook.sheet import BookModel

from .alder_street import alder_street
from .larch_court import larch_court
from .mistakes import mistakes
from .small_room import small_room

SAMPLES: Mapping[str, Callable[[], BookModel]] = {
    "alder-street-us.xlsx": alder_street,
    "larch-court.xlsx": larch_court,
    "small-room.xlsx": small_room,
    "mistakes.xlsx": mistakes,
}
"""File name -> its inputs."""

"""How small lengths of a cable's plan are told; sixteenths by hand."""

import pytest

from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import INCH, JobUnits
from sheetcalc.geometry.heating.cable_record import small_words


@pytest.mark.parametrize(
    ("length_mm", "inches", "millimetres"),
    [
        (90.4875, "3 9/16 in", "90.5 mm"),  # 57/16 in, three knobs of 1 3/16 in
        (120.65, "4 3/4 in", "121 mm"),
        (50.8, "2 in", "50.8 mm"),
        (14.2875, "9/16 in", "14.3 mm"),
        (30, "1 3/16 in", "30 mm"),  # 18.9 sixteenths
        (0, "0 in", "0 mm"),
    ],
)
def test_inches_stand_as_a_tape_has_them(length_mm: float, inches: str, millimetres: str) -> None:
    assert small_words(Job(units=JobUnits(small_length=INCH)), length_mm) == inches
    assert small_words(Job(), length_mm) == millimetres

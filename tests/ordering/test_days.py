"""The day on which goods are needed: that of the first task that uses them."""

from datetime import date

import pytest
from msgspec.structs import replace
from result_books import FIRST, catalogue, inputs, line, tile

from sheetcalc.domain.catalogue import LabourTask
from sheetcalc.domain.finding import RowRef
from sheetcalc.ordering.days import Days, kind_of
from sheetcalc.rules.working_days import working_day


def task(day: int | None, *uses: str, surface: str | None = None, row: int = 5) -> LabourTask:
    return LabourTask(
        f"task {row}", "per room", None, surface, 1.0, None, day, None, "",
        RowRef("Labour", row), uses,
    )  # fmt: skip


def day_of(lines: list[object], *tasks: LabourTask) -> int:
    given = inputs(catalogue(tile("T1", FIRST), labour=tasks))
    return Days(given).day_of(lines)[0]  # type: ignore[arg-type]


FLOOR, WALL = line("T1", 1), line("T1", 1, surface="wall far")


def test_goods_that_no_task_uses_are_needed_on_the_first_day() -> None:
    assert day_of([FLOOR], task(4, "grout")) == 1


def test_a_task_without_a_day_is_on_the_first() -> None:
    assert day_of([FLOOR], task(None, "tile")) == 1


def test_the_earliest_task_decides() -> None:
    assert day_of([FLOOR], task(5, "tile"), task(4, "tile", "mortar", row=6)) == 4


def test_a_task_of_another_surface_does_not_count() -> None:
    tasks = task(4, "tile", surface="floor"), task(6, "tile", surface="wall", row=6)
    assert day_of([WALL], *tasks) == 6
    assert day_of([FLOOR, WALL], *tasks) == 4


def test_a_surface_that_no_task_names_follows_the_first_task_of_its_line() -> None:
    curb = line("T1", 1, surface="curb C1 top")
    tasks = task(4, "tile", surface="floor"), task(6, "tile", surface="wall", row=6)
    assert day_of([curb], *tasks) == 4


def test_spare_tiles_come_with_the_tile() -> None:
    assert day_of([FLOOR, line("T1", 1, line="spare tiles")], task(4, "tile")) == 4


@pytest.mark.parametrize(
    ("surface", "kind"),
    [("shower floor S1", "shower floor"), ("floor", "floor"), ("niche", "niche"), ("job", ""),
     ("", ""), ("flooring", "")],
)  # fmt: skip
def test_the_kind_of_a_surface_is_read_from_its_key(surface: str, kind: str) -> None:
    assert kind_of(surface) == kind


@pytest.mark.parametrize(
    ("start", "number", "expected"),
    [
        (date(2027, 6, 5), 1, date(2027, 6, 7)),  # a Saturday begins on Monday
        (date(2027, 6, 7), 1, date(2027, 6, 7)),
        (date(2027, 6, 7), 5, date(2027, 6, 14)),  # Thursday 10 is off: 7, 8, 9, 11, 14
    ],
)
def test_working_days_are_counted_from_the_start(start: date, number: int, expected: date) -> None:
    assert working_day(start, number, frozenset({date(2027, 6, 10)})) == expected


def test_the_day_of_a_finish_is_its_own() -> None:
    # without rooms in the inputs a line's finish is not known, and a task of any finish counts
    stone = replace(task(9, "tile"), finish="Stone")
    assert day_of([FLOOR], stone) == 9

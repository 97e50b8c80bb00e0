"""Exact fingerprints of the inputs: what they see, and what they don't mind."""

from datetime import date

import pytest
from workbook.raw_books import PLAIN_ROOM, PLAIN_TILE, Values, book

from sheetcalc.domain.job import Job
from sheetcalc.workbook.input_prints import changed_tabs
from sheetcalc.workbook.raw import RawBook, RawCell
from sheetcalc.workbook.results.fingerprints import prints_of

OTHER_ROOM: Values = PLAIN_ROOM | {"Room": "2", "Length": 3.1}
SOURCE_A: Values = PLAIN_TILE | {"Supplier": "Adobe"}
SOURCE_B: Values = PLAIN_TILE | {"Supplier": "Bisque"}


def changed(then: RawBook, now: RawBook, job: Job | None = None) -> tuple[str, str]:
    inputs, live = changed_tabs(prints_of(then, job or Job()), prints_of(now, job or Job()))
    return ", ".join(inputs), ", ".join(live)


def test_the_order_of_rows_does_not_matter() -> None:
    assert changed(book(Rooms=[PLAIN_ROOM, OTHER_ROOM]), book(Rooms=[OTHER_ROOM, PLAIN_ROOM])) == (
        "",
        "",
    )


def test_of_two_sources_the_first_is_ordered_so_their_order_does_matter() -> None:
    then, now = book(Tiles=[SOURCE_A, SOURCE_B]), book(Tiles=[SOURCE_B, SOURCE_A])
    assert changed(then, now) == ("Tiles", "")


@pytest.mark.parametrize(
    ("value", "other"),
    [
        (2.4, 2.41),
        (2.4, "2.4"),
        (101, "101"),
        (1, True),
        (date(2026, 1, 31), "2026-01-31"),
        ("a", "A"),
        (RawCell(None, "A5", error="#REF!"), RawCell(None, "A5", error="#N/A")),
        (RawCell(None, "A5", formula="=1+1", has_value=False), None),
    ],
)
def test_values_that_differ_in_value_or_kind_are_told_apart(value: object, other: object) -> None:
    one, two = ({**PLAIN_ROOM, "Length": v} for v in (value, other))
    assert changed(book(Rooms=[one]), book(Rooms=[two])) == ("Rooms", "")


@pytest.mark.parametrize(
    ("value", "same"),
    [
        (2.4, RawCell(2.4, "C5", formula="=2.4")),
        (0.1 + 0.2, 0.3),
        (" Larch ", "Larch"),
        (3, 3.0),
        (None, RawCell(None, "C5")),
    ],
)
def test_what_programs_do_to_a_value_on_saving_is_no_change(value: object, same: object) -> None:
    one, two = ({**PLAIN_ROOM, "Length": v} for v in (value, same))
    assert changed(book(Rooms=[one]), book(Rooms=[two])) == ("", "")


def test_exchanging_two_values_is_seen() -> None:
    swapped = [PLAIN_ROOM | {"Length": 3.1}, OTHER_ROOM | {"Length": 2.4}]
    assert changed(book(Rooms=[PLAIN_ROOM, OTHER_ROOM]), book(Rooms=swapped)) == ("Rooms", "")


def test_a_price_is_followed_unless_it_decides_what_is_ordered() -> None:
    then, now = (book(Tiles=[PLAIN_TILE | {"Price": price}]) for price in (48.5, 50))
    assert changed(then, now) == ("", "Tiles")
    assert changed(then, now, Job(source_choice="cheapest")) == ("Tiles", "")


def test_shares_of_the_quote_are_followed_and_other_settings_are_not() -> None:
    def job_of(**settings: object) -> RawBook:
        rows = [{"Setting": k.replace("_", " "), "Value": v} for k, v in settings.items()]
        return book(Job=rows)

    assert changed(job_of(Overhead=0.1), job_of(Overhead=0.2)) == ("", "Job")
    assert changed(job_of(Job_name="A"), job_of(Job_name="B")) == ("Job", "")


def test_deliveries_that_came_are_followed() -> None:
    row: Values = {"Phase": "P", "Supplier": "S", "Code": "T-1", "Received": 4}
    assert changed(book(), book(Received=[row])) == ("", "Received")


def test_an_empty_tab_is_as_one_that_is_not_there() -> None:
    assert changed(book(), book(Phases=[])) == ("", "")
    assert changed(book(), book(Phases=[{"Phase": "Ground floor"}])) == ("Phases", "")


def test_guidance_of_a_setting_may_change() -> None:
    one, two = ([{"Setting": "Job name", "Value": "A", "Guidance": g}] for g in ("x", "y"))
    assert changed(book(Job=one), book(Job=two)) == ("", "")

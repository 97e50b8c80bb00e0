"""Two revisions of an order compared: lines by code, numbers as numbers."""

from another_language import CAPITALS
from msgspec.structs import replace

from sheetcalc.domain.order_record import OrderRecord
from sheetcalc.ordering.changes import (
    asks_less,
    asks_more,
    changes,
    line_changes,
    removed_lines,
)
from sheetcalc.workbook.order_csv import HEAD, LINE


def line(code: str, **more: str) -> dict[str, str]:
    return {
        "Line": "1", "Our code": code, "Description": f"tile {code}", "Packs": "5",
        "Package": "box", "Pack price": "48.50", **more,
    }  # fmt: skip


OLD = OrderRecord(
    "PO-1", 0, "2027-02-03", "Job", {"Deliver to": "Gate 1", "Currency": "EUR"},
    (line("A"), line("B")),
)  # fmt: skip


def test_the_same_order_has_no_changes() -> None:
    assert changes(OLD, replace(OLD, revision=3, issued="2028-01-01")) == ()


def test_a_number_is_the_same_in_fewer_digits() -> None:
    resaved = replace(OLD, lines=(line("A", **{"Pack price": "48.5"}), line("B")))
    assert changes(resaved, OLD) == ()


def test_the_number_of_a_line_alone_is_no_change() -> None:
    assert changes(OLD, replace(OLD, lines=(OLD.lines[1], line("A", Line="2")))) == ()


def test_lines_added_removed_and_changed_are_told_with_what_they_were() -> None:
    new = replace(OLD, lines=(line("A", Packs="6"), line("C", Packs="1")))
    assert changes(OLD, new) == (
        "A tile A: Packs 6, was 5",
        "C tile C: added, 1 box",
        "B tile B: removed, was 5 boxes",
    )
    assert line_changes(OLD, new) == {0: "Packs was 5", 1: "added"}
    assert removed_lines(OLD, new) == [line("B")]


def test_the_head_is_told_after_the_lines() -> None:
    new = replace(OLD, head={"Deliver to": "", "Currency": "EUR"})
    assert changes(OLD, new) == ("Deliver to: none, was Gate 1",)


def test_a_code_that_stands_twice_is_told_by_its_turn() -> None:
    twice = replace(OLD, lines=(line("A"), line("A", Packs="7")))
    assert changes(twice, replace(twice, lines=(line("A"), line("A", Packs="8")))) == (
        "A tile A: Packs 8, was 7",
    )


def test_the_apostrophe_that_keeps_text_from_being_a_formula_is_not_told() -> None:
    new = replace(OLD, head={"Deliver to": "'=A1", "Currency": "EUR"})
    assert changes(OLD, new) == ("Deliver to: =A1, was Gate 1",)


def test_an_order_asks_less_where_a_line_is_smaller_or_gone() -> None:
    smaller = replace(OLD, lines=(line("A", Packs="4"), line("B", Packs="9")))
    gone = replace(OLD, lines=(line("A"),))
    more = replace(OLD, lines=(line("A", Packs="10"), line("B"), line("C")))
    assert [asks_less(OLD, new) for new in (smaller, gone, more, OLD)] == [True, True, False, False]
    assert [asks_more(OLD, new) for new in (smaller, gone, more, OLD)] == [True, False, True, False]


def test_changes_are_told_in_the_offices_words_and_what_was_typed_is_not() -> None:
    head = {"Deliver to": "", "Currency": "EUR", "Note": "to be agreed"}
    new = replace(OLD, lines=(line("A", Package="bag"), line("C")), head=head)
    assert changes(OLD, new, CAPITALS) == (
        "A tile A: PACKAGE BAG, WAS BOX",
        "C tile C: ADDED, 5 BOXES",
        "B tile B: REMOVED, WAS 5 BOXES",
        "DELIVER TO: NONE, WAS Gate 1",
        "NOTE: TO BE AGREED, WAS NONE",
    )


def test_every_field_of_an_order_is_in_the_file_of_words() -> None:
    assert {header for header in (*HEAD, *LINE) if CAPITALS.say(header) == header} == set()

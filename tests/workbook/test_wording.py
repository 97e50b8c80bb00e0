"""Findings in words: cells, units, decisions, explanations."""

import re
from datetime import date
from string import Formatter

import pytest
from raw_books import PLAIN_ROOM, book

from sheetcalc.domain.finding import Finding, RowRef, Severity
from sheetcalc.domain.inputs import Decision
from sheetcalc.domain.measure import FOOT, INCH, JobUnits, Length
from sheetcalc.domain.words import Words
from sheetcalc.workbook.settings import SETTINGS
from sheetcalc.workbook.wording import WORDINGS, as_json, as_text, severity_of, word, word_all
from sheetcalc.workbook.wording.explain import explain, known_names, nearest_to

METRIC = JobUnits()
US = JobUnits(room_length=FOOT, small_length=INCH)

TOO_LONG = Finding(
    "LENGTH-OUT-OF-RANGE",
    RowRef("Rooms", 5),
    "Length",
    {
        "found": "3500",
        "low": Length(300 * 320, small=False),
        "high": Length(30_000 * 320, small=False),
        "hint": "type 3500 mm",
    },
    room="2.07",
)
UNUSUAL = Finding(
    "NUMBER-UNUSUAL",
    RowRef("Rooms", 5),
    "Count",
    {"found": "600", "low": "1", "high": "500"},
    room="2.07",
)


def decision(code: str, room: str = "", surface: str = "") -> Decision:
    return Decision(
        code,
        room,
        surface,
        "accepted",
        "A. Estimator",
        date(2027, 2, 11),
        "",
        RowRef("Decisions", 5),
    )


def test_a_message_names_the_cell_and_what_it_is() -> None:
    raw = book(Rooms=[{**PLAIN_ROOM, "Room": "2.07"}])
    assert as_text(word(TOO_LONG, METRIC, raw), "larch-court.xlsx") == (
        'error LENGTH-OUT-OF-RANGE  larch-court.xlsx  Rooms!E5   (Length of room "2.07")\n'
        "  found      3500\n"
        "  expected   a length from 0.3 m to 30 m\n"
        "  what to do type 3500 mm"
    )


def test_no_part_of_a_message_is_lost_where_a_language_calls_two_of_them_alike() -> None:
    words = Words(said={"found": "ist", "expected": "ist", "what to do": "tun"})
    assert as_text(word(TOO_LONG, METRIC), words=words).splitlines()[1:] == [
        "  ist 3500",
        "  ist a length from 0.3 m to 30 m",
        "  tun type 3500 mm",
    ]


def test_lengths_are_shown_in_the_units_of_the_job() -> None:
    # 300 mm is 11.811 in, 30 m is 98' 5.1024"
    feet = "a length from about 0' 11 13/16\" to about 98' 5 1/8\""
    assert word(TOO_LONG, US).expected == feet


def test_a_row_without_a_name_is_told_by_its_column_and_cell() -> None:
    raw = book(Rooms=[{"Length": 2.4, "Width": 1.8, "Finish": "Plain"}])
    heading = as_text(word(TOO_LONG, METRIC, raw), "book.xlsx").splitlines()[0]
    assert heading == "error LENGTH-OUT-OF-RANGE  book.xlsx  Rooms!E5   (Length; room 2.07)"


def test_errors_come_first_and_then_the_order_of_the_workbook() -> None:
    later = Finding("CELL-EMPTY", RowRef("Tiles", 5), "Code", {"record": "a tile"})
    worded = word_all([UNUSUAL, later, TOO_LONG, TOO_LONG], book(), METRIC)
    assert [w.code for w in worded] == ["LENGTH-OUT-OF-RANGE", "CELL-EMPTY", "NUMBER-UNUSUAL"]


@pytest.mark.parametrize(
    ("decided", "status"),
    [
        (decision("NUMBER-UNUSUAL"), "accepted"),
        (decision("number-unusual", "2.07"), "accepted"),
        (decision("NUMBER-UNUSUAL", "2.08"), "warning"),
        (decision("NUMBER-UNUSUAL", "2.07", "floor"), "warning"),
        (decision("LENGTH-UNUSUAL"), "warning"),
    ],
)
def test_a_decision_accepts_a_warning_and_it_stays_listed(decided: Decision, status: str) -> None:
    (worded,) = word_all([UNUSUAL], book(), METRIC, [decided])
    assert worded.status == status
    assert as_text(worded).startswith(f"{status} NUMBER-UNUSUAL")


def test_an_error_is_never_accepted() -> None:
    (worded,) = word_all([TOO_LONG], book(), METRIC, [decision("LENGTH-OUT-OF-RANGE")])
    assert worded.status == "error"


def test_plain_data_carries_every_part() -> None:
    data = as_json(word(TOO_LONG, METRIC, book()))
    assert (data["severity"], data["cell"], data["room"]) == ("error", "E5", "2.07")
    assert set(data) >= {"found", "expected", "what_to_do", "code", "tab", "status", "surface"}


def test_every_wording_has_its_words_and_its_source() -> None:
    for code, wording in WORDINGS.items():
        assert re.fullmatch(r"[A-Z]+(-[A-Z]+)*", code), code
        assert all((wording.found, wording.expected, wording.what_to_do, wording.explain)), code
        assert wording.source, code
        assert isinstance(wording.severity, Severity)
        for part in (wording.found, wording.expected, wording.what_to_do):
            list(Formatter().parse(part))
            assert not re.search(r"[a-z]{4}\.$", part), (
                f"{code}: the parts of a message are no sentences"
            )


def test_every_code_and_setting_can_be_explained() -> None:
    for code in WORDINGS:
        text = explain(code.lower())
        assert text is not None
        assert "Source: " in text
    for setting in SETTINGS:
        assert explain(setting.label) is not None
    assert explain("no such thing") is None
    assert explain("Grout", {"grout": "Volume of joints."}) == "Volume of joints."
    assert "LENGTH-COMMA" in known_names()
    assert nearest_to("LENGHT-COMA")[0] == "LENGTH-COMMA"


def test_an_unknown_code_is_a_mistake_of_ours() -> None:
    with pytest.raises(KeyError):
        severity_of("NO-SUCH-CODE")

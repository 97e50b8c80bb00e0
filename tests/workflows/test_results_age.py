"""``check`` says exactly whether the results in a workbook are of its inputs."""

import re
from pathlib import Path

import pytest
from whole_program import ages, example, find, rows_of, run
from xml_edits import Edits

from sheetcalc import workflows
from sheetcalc.workbook.results.fingerprints import PRINT, WHOLE


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return example(tmp_path / "example.xlsx")


def edit(book: Path, sheet: str, header: str, value: float | str | None, row: int = 0) -> None:
    address = find(book, sheet, header, row)
    with Edits(book) as edits:
        edits.type(sheet, address, value)


def said(book: Path) -> str:
    (finding,) = [
        f for f in workflows.check(book, lambda *_: None).findings if f.code.startswith("RESULTS-")
    ]
    return f"{finding.code}: {finding.found}"


def test_results_of_the_inputs_are_current(book: Path) -> None:
    assert ages(book) == ["RESULTS-CURRENT"]


def test_a_workbook_without_results_says_nothing(tmp_path: Path) -> None:
    assert ages(example(tmp_path / "new.xlsx", taken_off=False)) == []


@pytest.mark.parametrize(
    ("sheet", "header", "value"),
    [
        ("Rooms", "Length", 2.3456),
        ("Rooms", "Note", "by the stairs"),
        ("Tiles", "Description", "another"),
        ("Rolls and sheets", "Length", 31.0),
        ("Suppliers", "Terms", None),
        ("Decisions", "Reason", "because"),
    ],
)
def test_a_changed_input_makes_them_out_of_date(
    book: Path, sheet: str, header: str, value: float | str | None
) -> None:
    edit(book, sheet, header, value)
    assert said(book).startswith("RESULTS-OUT-OF-DATE")
    assert said(book).endswith(f"in: {sheet}")


@pytest.mark.parametrize(
    ("sheet", "header"),
    [
        ("Waste factors", "Waste %"),
        ("Tiles", "Price"),
        ("Tiles", "Pieces per box"),
        ("Bags and pails", "Pack size"),
        ("Labour", "Hours per unit"),
    ],
)
def test_a_changed_price_waste_or_pack_size_is_followed(
    book: Path, sheet: str, header: str
) -> None:
    edit(book, sheet, header, 0.25)
    assert said(book).startswith("RESULTS-FOLLOW")
    assert said(book).endswith(f"in: {sheet}")


def test_sorted_rows_change_nothing_and_neither_does_a_second_run(book: Path) -> None:
    with Edits(book) as edits:
        edits.turn_over("Rooms", 5, 7)
        edits.turn_over("Suppliers", 5, 8)
    assert ages(book) == ["RESULTS-CURRENT"]
    once = run(book)
    prints = fingerprints(book)
    assert once.written == book
    again = book.read_bytes()
    run(book)
    assert book.read_bytes() == again
    assert fingerprints(book) == prints


def fingerprints(book: Path) -> dict[str, tuple[str, str]]:
    """As they stand on the Findings tab, for everybody to see."""
    headers, *rows = rows_of(book, "Findings")[3:]
    columns = [headers.index(name) for name in ("Input tab", PRINT, WHOLE)]
    found = ([row[at] for at in columns] for row in rows if len(row) > max(columns))
    return {str(tab): (str(inputs), str(whole)) for tab, inputs, whole in found if tab}


def test_the_fingerprints_stand_visibly_on_findings(book: Path) -> None:
    found = fingerprints(book)
    assert {"Job", "Rooms", "Tiles", "Received"} <= set(found)
    assert all(re.fullmatch(r"[0-9a-f]{64}", part) for pair in found.values() for part in pair)


def test_a_run_that_errors_stopped_leaves_results_of_nobody_knows_what(book: Path) -> None:
    edit(book, "Rooms", "Finish", "no such finish")
    assert workflows.takeoff(book, lambda *_: None).exit_code == 1
    assert ages(book) == ["RESULTS-OF-NO-RUN"]
    assert said(book).startswith("RESULTS-OF-NO-RUN")

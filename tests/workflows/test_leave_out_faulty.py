"""``--leave-out-faulty``: the sound rooms are taken off, and everything says what is missing."""

import shutil
from pathlib import Path

import pytest
import recalc
from whole_program import example, find, quiet, rows_of, tabs
from xml_edits import Edits

from sheetcalc import workflows
from sheetcalc.workflows import BookReport, result_tabs

PLAIN = {
    "Finish": "Plain", "Surface": "floor", "Tile": "T-6060", "Joint": 3.0, "Mortar": "C-FAST",
    "Trowel notch": "square 10 x 10 x 10 mm", "Grout": "G-GREY", "Sealant": "S-GREY",
}  # fmt: skip
ROOM = {"Room": "2.01", "Phase": "Floor 1", "Length": 2.0, "Width": 1.5, "Finish": "Plain"}


def put(book: Path, sheet: str, row: int, **values: object) -> None:
    """Type values into a record, by their headers with _ for a space."""
    named = {header.replace("_", " "): value for header, value in values.items()}
    places = {find(book, sheet, header, row): value for header, value in named.items()}
    with Edits(book) as edits:
        for address, value in places.items():
            edits.type(sheet, address, value)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def three_rooms(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example with a third room of a finish of its own."""
    path = example(tmp_path_factory.mktemp("three") / "example.xlsx", taken_off=False)
    put(path, "Finishes", 6, **PLAIN)
    put(path, "Rooms", 2, **ROOM)
    return path


@pytest.fixture
def book(three_rooms: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(three_rooms, tmp_path))


def take_off(book: Path, *, cards: bool = False) -> BookReport:
    return workflows.takeoff(book, quiet, leave_out_faulty=True, cards=cards)


def statuses(book: Path, names: tuple[str, ...]) -> dict[str, str]:
    """Status in row 1 of each result tab."""
    found = {}
    for sheet in tabs(book):
        if sheet not in names:
            first_row, *_ = rows_of(book, sheet)
            text = [str(value) for value in first_row[1:] if value is not None]
            found[sheet] = text[0] if text else ""
    return found


def test_every_result_says_incomplete_and_names_the_rooms(book: Path) -> None:
    inputs = tuple(tabs(book))
    put(book, "Rooms", 2, Width="wide")
    report = take_off(book, cards=True)
    assert report.exit_code == 1
    assert report.left_out == ("2.01",)
    assert "INCOMPLETE, left out: 2.01" in report.summary
    found = statuses(book, inputs)
    assert {"Findings", "Takeoff", "Quote", "Room cards"} <= set(found)
    assert sum(name.startswith("Order - ") for name in found) > 3
    assert {s.partition(";")[0] for s in found.values()} == {
        "INCOMPLETE: left out because of errors: 2.01"
    }
    rooms = {row[1] for row in rows_of(book, "Takeoff")[4:] if len(row) > 1}
    assert "2.01" not in rooms
    assert {"1.01", "1.02"} <= rooms


def test_tabs_that_copies_make_say_which_rooms_were_left_out(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """They are begun before the status is known."""
    put(book, "Rooms", 2, Width="wide")
    monkeypatch.setattr(result_tabs, "FEWEST_CELLS", 1)
    made = []
    for cores in (1, 2):
        (folder := tmp_path / str(cores)).mkdir()
        copy = Path(shutil.copy(book, folder))
        workflows.takeoff(copy, quiet, leave_out_faulty=True, cards=False, cores=cores)
        made.append(copy.read_bytes())
    assert made[0] == made[1]


def test_a_faulty_row_without_a_name_is_left_out_by_its_number(book: Path) -> None:
    put(book, "Rooms", 2, Room=None)
    report = take_off(book)
    assert report.left_out == ("Rooms row 7",)
    assert "INCOMPLETE, left out: Rooms row 7" in report.summary


def test_without_it_errors_write_the_findings_and_nothing_else(book: Path) -> None:
    put(book, "Rooms", 2, Width="wide")
    inputs = tabs(book)
    report = workflows.takeoff(book, quiet)
    assert report.exit_code == 1
    assert tabs(book) == [*inputs, "Findings"]


@pytest.mark.parametrize(
    ("sheet", "row", "header", "value", "left_out"),
    [
        ("Rooms", 2, "Length", -1.0, "2.01"),
        ("Rooms", 0, "Length", "long", "1.01, 1.02"),  # 1.02 is the same as 1.01
        ("Floor pieces", 2, "Length", "long", "1.01, 1.02"),
        ("Floor pieces", 2, "Left", 40.0, "1.01, 1.02"),  # found by the geometry
        ("Wall faces", 0, "Height", None, "1.01, 1.02"),
        ("Finishes", 6, "Joint", "x", "2.01"),
        ("Finishes", 0, "Joint", None, "1.01, 1.02"),
        ("Build-up", 0, "Order", "first", "1.01, 1.02"),
        ("Tiles", 1, "Length", "long", "2.01"),
        ("Tiles", 0, "Pieces per box", "six", "1.01, 1.02"),
        ("Bags and pails", 1, "Yield", "some", "2.01"),
        ("Rolls and sheets", 0, "Width", "wide", "1.01, 1.02"),
        ("Heating cables", 0, "Watts", "hot", "1.01, 1.02"),
    ],
)
def test_the_rooms_that_an_error_concerns_are_left_out(  # noqa: PLR0913, PLR0917 - one case a row
    book: Path, sheet: str, row: int, header: str, value: object, left_out: str
) -> None:
    put(book, sheet, row, **{header: value})
    report = take_off(book)
    assert ", ".join(report.left_out) == left_out
    assert report.exit_code == 1


@pytest.mark.parametrize(
    ("sheet", "row", "header", "value"),
    [
        ("Job", 0, "Value", "furlong"),
        ("Sundries", 0, "Rate", "one"),
        ("Suppliers", 0, "Tax", "some"),
        ("Floor pieces", 1, "Room", "1.O1"),  # may belong to any room
    ],
)
def test_an_error_that_concerns_the_whole_job_stops_the_run(
    book: Path, sheet: str, row: int, header: str, value: object
) -> None:
    put(book, sheet, row, **{header: value})
    report = take_off(book)
    assert report.exit_code == 1
    assert report.left_out == ()
    assert "stopped by errors" in report.summary


def test_an_error_that_concerns_no_room_leaves_none_out(book: Path) -> None:
    put(book, "Tiles", 2, Length="long")  # no finish names it
    report = take_off(book)
    assert report.left_out == ()
    assert report.exit_code == 1
    assert "1 error: see Findings" in statuses(book, ())["Takeoff"]


def test_leaving_out_every_room_is_no_takeoff(book: Path) -> None:
    for row in range(3):
        put(book, "Rooms", row, Finish="no such finish")
    assert "stopped by errors" in take_off(book).summary


def test_the_quote_for_the_client_says_incomplete_too(book: Path, tmp_path: Path) -> None:
    put(book, "Rooms", 2, Width="wide")
    report = workflows.quote(book, quiet, to=tmp_path / "quotes", leave_out_faulty=True)
    assert report.written is not None
    texts = [str(value) for value in recalc.cells(report.written).values()]
    assert any(text.startswith("INCOMPLETE") for text in texts)
    assert any("Rooms left out: 2.01." in text for text in texts)


def test_a_run_without_faults_says_complete_again(book: Path) -> None:
    put(book, "Rooms", 2, Width="wide")
    take_off(book)
    put(book, "Rooms", 2, Width=1.5)
    report = take_off(book)
    assert (report.exit_code, report.left_out) == (0, ())
    assert not any("INCOMPLETE" in status for status in statuses(book, ()).values())

"""Heated rooms from workbook to result tabs: readings typed, runs again, a part of a block."""

from collections.abc import Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest
from edited_books import add, edited, put
from openpyxl import load_workbook
from typed_books import TypedBook

from sheetcalc import workflows

LOG = "Resistance log"


pytestmark = pytest.mark.usefixtures("no_child_left")


def quiet(_stage: str, _done: int, _of: int) -> None:
    """Nobody listens."""


def cable(book: TypedBook, code: str, metres: float, watts: float, **more: object) -> None:
    values: dict[str, object] = {
        "Code": code, "Description": code, "Range": "Warm", "Length": metres, "Watts": watts,
        "Volts": 230, "Resistance": round(230**2 / watts, 2), "Cold_lead": 5,
        "Smallest_spacing": 60, "Bend_radius": 25,
    }  # fmt: skip
    add(book, "Heating cables", **(values | more))


def heat(book: TypedBook, **more: object) -> None:
    """Heat the small room: 1.9 x 1.2 m."""
    put(book, "Finishes", "Heating", "Warm")
    for metres in (7, 9, 11.5, 15, 19):
        cable(book, f"H-{metres * 12:.0f}", metres, metres * 12, **more)
    add(book, "Floor pieces", Room="Cloakroom", Piece="Stat", Kind="thermostat", Wall="left",
        Front=0.6)  # fmt: skip


def records(path: Path, tab: str) -> list[dict[str, Any]]:
    """Records of a result tab by header, units aside."""
    rows = list(load_workbook(path)[tab].iter_rows(min_row=4, values_only=True))
    heads = [str(h).partition(" (")[0] for h in rows[0]]
    return [dict(zip(heads, row, strict=True)) for row in rows[1:] if row[0] is not None]


def type_in(path: Path, *typed: tuple[int, str, object]) -> None:
    """Type into the log: record from 0, header, value."""
    book = load_workbook(path)
    for record, header, value in typed:
        put(book, LOG, header, value, 5 + record)
    book.save(path)


def codes(findings: Sequence[Any]) -> list[str]:
    return [f.code for f in findings if f.code.startswith(("RES", "INS", "READ", "CABLE"))]


def test_readings_are_kept_and_judged_at_the_next_run(tmp_path: Path) -> None:
    path = edited(tmp_path / "heated.xlsx", heat)
    assert workflows.takeoff(path, quiet).exit_code == 0
    before = records(path, LOG)
    assert [r["Stage"] for r in before] == ["as delivered", "after laying", "after covering"]
    ohms = before[0]["Resistance"]
    assert {r["Reading"] for r in before} == {None}
    type_in(
        path,
        (0, "Reading", ohms), (0, "By", "A. Fitter"), (0, "Date", date(2027, 5, 3)),
        (0, "Insulation reading", ">999"),
        (1, "Reading", round(ohms * 1.07, 1)), (1, "Insulation reading", 0.4),
        (2, "Reading", "OL"), (2, "Date", "Tuesday"),
    )  # fmt: skip
    report = workflows.takeoff(path, quiet)
    assert report.exit_code == 0
    assert sorted(codes(report.findings)) == [
        "INSULATION-TOO-LOW", "RESISTANCE-DRIFTS", "RESISTANCE-OUT-OF-BAND",
    ]  # fmt: skip
    after = records(path, LOG)
    assert [r["Reading"] for r in after] == [ohms, round(ohms * 1.07, 1), "OL"]
    assert [r["Insulation reading"] for r in after] == [">999", 0.4, None]
    assert after[0]["By"] == "A. Fitter"
    assert after[0]["Date"] in {date(2027, 5, 3), datetime(2027, 5, 3)}  # noqa: DTZ001 - a cell
    assert after[2]["Date"] == "Tuesday"
    # a cell stands beside each finding, in the log itself
    assert {f.tab for f in report.findings if f.code in codes(report.findings)} == {LOG}
    said = [r["Code"] for r in records(path, "Findings")]
    assert "RESISTANCE-DRIFTS" in said
    # and once more: nothing lost, nothing changed
    content = path.read_bytes()
    workflows.takeoff(path, quiet)
    assert path.read_bytes() == content


def test_a_reading_out_of_band_is_found_where_a_cable_is_changed_too(tmp_path: Path) -> None:
    path = edited(tmp_path / "heated.xlsx", heat)
    workflows.takeoff(path, quiet)
    cable_then = records(path, LOG)[0]["Cable"]
    type_in(path, (0, "Reading", 1.0))
    report = workflows.takeoff(path, quiet)
    assert codes(report.findings) == ["RESISTANCE-OUT-OF-BAND"]
    # the cable goes out of the range: another one is planned, the reading stays in a row of its own
    book = load_workbook(path)
    row = next(r for r in book["Heating cables"].iter_rows(min_row=5) if r[0].value == cable_then)
    for cell in row:
        cell.value = None
    book.save(path)
    report = workflows.takeoff(path, quiet)
    assert codes(report.findings) == ["READING-WITHOUT-CABLE"]
    kept = [r for r in records(path, LOG) if r["Reading"] == 1.0]
    assert [r["Cable"] for r in kept] == [cable_then]
    assert kept[0]["Verdict"] == "no such cable in this run"


def test_a_catalogue_row_is_found_once_and_without_a_room(tmp_path: Path) -> None:
    def edit(book: TypedBook) -> None:
        heat(book, Resistance=None)
        add(book, "Rooms", Room="Other", Length=2.4, Width=1.2, Finish="Plain")
        add(book, "Floor pieces", Room="Other", Piece="T", Kind="thermostat", Wall="left",
            Front=0.6)  # fmt: skip
        add(book, "Rooms", Room="Third", Same_as="Other", Finish="Plain")

    report = workflows.check(edited(tmp_path / "heated.xlsx", edit), quiet)
    missing = [f for f in report.findings if f.code == "CABLE-RESISTANCE-MISSING"]
    assert missing
    assert {f.room for f in missing} == {""}
    places = [f.place for f in missing]
    assert len(places) == len(set(places))


def test_the_bands_follow_the_jobs_temperature(tmp_path: Path) -> None:
    def edit(book: TypedBook) -> None:
        heat(book, Temperature_coefficient=0.004)
        for row in book["Job"].iter_rows(min_row=5):
            if row[0].value == "Temperature at readings":
                row[1].value = 10

    path = edited(tmp_path / "heated.xlsx", edit)
    workflows.takeoff(path, quiet)
    row = records(path, LOG)[0]
    # 1 + 0.004 · (10 - 20) = 0.96
    values = load_workbook(path, data_only=True)[LOG]
    heads = [str(c.value).partition(" (")[0] for c in values[4]]
    low = values.cell(5, heads.index("Expected low") + 1).value
    assert low == pytest.approx(row["Resistance"] * 0.95 * 0.96)

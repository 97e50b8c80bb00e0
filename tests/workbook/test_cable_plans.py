"""A page for each heated room: its cables drawn large, and every row with what is laid by then."""

import io
from collections.abc import Sequence

import pytest
from drawing.drawn_rooms import cable, work
from msgspec.structs import replace
from PIL import Image
from result_books import catalogue, inputs, raw_book

from sheetcalc.cards import Space, begin_drawings
from sheetcalc.domain.cable import CableRow
from sheetcalc.domain.card import CARD_WIDTH_MM
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import FOOT, INCH, JobUnits
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.results.cable_plans import cable_plans_sheets, plan_cable_pages
from sheetcalc.workbook.results.card_content import LARGE
from sheetcalc.workbook.results.card_lines import text_width_mm
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.results.printed_pages import PAGE_POINTS, Row
from sheetcalc.workbook.sheet import Cell, SheetModel

FRAME = Frame(raw_book({}), JobUnits(), Cell("OK", "status"))


def run(*works: RoomWork, job: Job | None = None) -> Run:
    return Run(inputs(catalogue(), job=job), works, (), (), (), (), (), ())


def sheet_of(done: Run) -> SheetModel:
    pages = plan_cable_pages(done)
    heights = {page.room: page.drawing_mm for page in pages}
    drawn = begin_drawings(done, Space({}, heights))().cable_plans
    (sheet,) = cable_plans_sheets(pages, drawn, FRAME)
    return sheet


def listed(rows: Sequence[Row]) -> list[list[object]]:
    return [[cell.value for cell in cells.values() if cell.value is not None] for _, cells in rows]


def test_every_row_has_its_place_what_is_laid_by_its_end_and_the_knobs_to_the_next() -> None:
    (page,) = plan_cable_pages(run(work()))
    rows = listed(page.rows)
    # three rows in three blocks side by side
    heads = ["Row", "Front (mm)", "Laid (m)", "Knobs"]
    assert heads * 3 in rows
    assert ["1 check", 200, 1.6, 3, "2 check", 300, 3.2, 3, "3", 400, 4.7] in rows
    words = " ".join(str(v) for row in rows for v in row)
    assert "Check 1.60 m at the end of row 1. Check 3.20 m at the end of row 2." in words
    assert "Sensor: 1.20 m from the left, 0.25 m from the front" in words
    assert "licensed electrician" in words
    assert "897.4 to 1039.1 Ω at 20 °C" in words


def test_a_us_page_places_the_sensor_by_the_tape_and_gives_the_labels_degrees_in_both() -> None:
    units = JobUnits(room_length=FOOT, small_length=INCH, long_length=FOOT)
    (page,) = plan_cable_pages(run(work(), job=Job(units=units)))
    words = " ".join(str(v) for row in listed(page.rows) for v in row)
    # 1.20 m are 47.24 in, 0.25 m are 9.84 in
    assert "Sensor: 3' 11 1/4\" from the left, 0' 9 13/16\" from the front" in words
    assert "897.4 to 1039.1 Ω at 20 °C (68 °F)" in words


def test_a_long_list_is_read_down_each_block_and_every_row_stands_once() -> None:
    rows = tuple(CableRow(n, n / 10, 1.5, 1.5 * n, 3, 0.1) for n in range(1, 32))
    made = replace(cable(), rows_list=rows, rows=31, tolerance_rows=(30, 31))
    (page,) = plan_cable_pages(run(replace(work(), cables=(made,))))
    numbers = [
        [int(str(cell.value).split()[0]) for at, cell in sorted(cells.items()) if at % 5 == 1]
        for _, cells in page.rows
        if 2 in cells and isinstance(cells[2].value, int)
    ]
    # 31 in three blocks of 11, the last 9 deep
    assert numbers[0] == [1, 12, 23]
    assert numbers[-1] == [11, 22]
    assert sorted(n for line in numbers for n in line) == list(range(1, 32))
    assert {"30 adjust", "31 adjust"} <= {
        cell.value for _, cells in page.rows for cell in cells.values()
    }


def test_a_job_in_inches_reads_places_off_a_tape() -> None:
    units = JobUnits(room_length=FOOT, small_length=INCH, long_length=FOOT)
    units = JobUnits(room_length=FOOT, small_length=INCH, long_length=FOOT)
    (page,) = plan_cable_pages(run(work(), job=Job(units=units)))
    # 200 mm is 7.874 in, to the nearest sixteenth 7 7/8; 1.6 m are 5.249 ft
    assert any(row[:4] == ["1 check", '7 7/8"', 5.2, 3] for row in listed(page.rows))


def test_freely_spaced_rows_have_a_distance_to_the_next_and_no_knobs() -> None:
    rows = tuple(replace(row, skip=0) for row in cable().rows_list)
    made = replace(cable(), rows_list=rows)
    (page,) = plan_cable_pages(run(replace(work(), cables=(made,))))
    assert ["Row", "Front (mm)", "Laid (m)", "Next (mm)"] * 3 in listed(page.rows)
    assert any(row[:4] == ["1 check", 200, 1.6, 100] for row in listed(page.rows))


def test_rooms_whose_cables_lie_alike_share_a_page_and_others_do_not() -> None:
    same = work(name="2.01", copies=("2.01",), count=1)
    other = replace(
        work(name="3.01", copies=("3.01",), count=1), cables=(replace(cable(), cable="H-9"),)
    )
    cold = replace(work(name="4.01"), cables=())
    pages = plan_cable_pages(run(work(), same, other, cold))
    assert [page.names for page in pages] == [("1.01", "1.02", "2.01"), ("3.01",)]
    # alike rooms are on circuits of their own, which Cable schedule tells
    assert ["circuit" in str(page.rows[0][1][1].value) for page in pages] == [False, True]
    sheet = sheet_of(run(work(), same, other, cold))
    assert len(sheet.row_breaks) == len(sheet.pictures) == 2
    assert [row[-1].value for row in sheet.tables[0].rows] == ["1.01", "3.01"]


def test_rooms_counted_without_names_share_a_page_that_is_for_all_of_them() -> None:
    (page,) = plan_cable_pages(run(work(copies=("1.01",), count=3)))
    assert page.names == ("1.01 (1)", "1.01 (2)", "1.01 (3)")
    said = [cell.value for _, cells in page.heading for cell in cells.values()]
    assert said == ["Cables of room 1.01 (1)", "also for 1.01 (2), 1.01 (3)"]


def test_the_list_of_a_cable_is_not_torn_apart_by_the_end_of_a_page() -> None:
    """Five cables of 40 rows: more than a page, so it turns once, before a cable's heading."""
    rows = tuple(CableRow(n, n / 10, 1.5, 1.5 * n, 3, 0.1) for n in range(1, 41))
    five = tuple(replace(cable(), rows_list=rows, rows=40) for _ in range(5))
    sheet = sheet_of(run(replace(work(), cables=five)))
    begins, turns = sheet.row_breaks
    heads = [at for (at, _), cell in sorted(sheet.loose.items()) if "Cable " in str(cell.value)]
    assert turns + 1 in heads
    assert sheet.heights is not None
    before = sum(sheet.heights.get(at, 0) for at in range(begins + 1, turns + 1))
    assert before <= PAGE_POINTS["A4"]
    # the drawing takes what the cables on its page leave
    block = sum(sheet.heights[at] for at in range(heads[0], heads[1]))
    assert PAGE_POINTS["A4"] - before < block


def test_the_drawing_is_as_wide_as_the_page_and_told_in_words() -> None:
    sheet = sheet_of(run(work()))
    (picture,) = sheet.pictures
    width, height = Image.open(io.BytesIO(picture.png)).size
    assert width / 200 * 25.4 == pytest.approx(CARD_WIDTH_MM, abs=0.2)
    # a room of 2.4 x 1.8 m is drawn larger than 1 : 17, so 60 mm between runs are 3.5 mm on paper
    assert height / 200 * 25.4 > 1800 / 17
    assert "numbered from the start" in picture.description


def test_the_status_takes_as_many_of_the_narrow_columns_as_ten_warnings_need() -> None:
    sheet = sheet_of(run(work()))
    (at,) = (column for row, column in sheet.loose if row == 1)
    told = {rule.cells for rule in sheet.conditional}
    assert len(told) == 1
    first, last = (ord(cell[1]) - ord("A") + 1 for cell in told.pop().split(":"))
    widths = sheet.widths
    assert first == at
    assert sum(widths[n] for n in range(1, first)) >= 2 * len("Cable plans")
    assert sum(widths[n] for n in range(first, last + 1)) >= len("10 warnings") + 3
    assert not any((1, n) in sheet.loose for n in range(first + 1, last + 1))


def test_a_job_without_heating_has_no_such_tab() -> None:
    assert cable_plans_sheets(plan_cable_pages(run(replace(work(), cables=()))), {}, FRAME) == ()


def test_its_lines_fit_the_page_and_its_styles_are_in_the_house_style() -> None:
    sheet = sheet_of(run(work()))
    assert {cell.style for cell in sheet.loose.values()} <= set(load_house_style().styles)
    for cell in sheet.loose.values():
        if cell.style in {"card", "card_line"}:
            assert text_width_mm(str(cell.value), LARGE.size) <= CARD_WIDTH_MM

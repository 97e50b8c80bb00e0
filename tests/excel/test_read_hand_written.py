"""Sheets as the format allows them and libraries rarely write them; LibreOffice is asked too.

What stands in a cell is read, or the tab and the cell are named: nothing is left out unseen.
"""

import csv
from datetime import date
from pathlib import Path

import pytest
from hand_written_books import DATE_STYLE, write_by_hand
from recalc import convert_all

from sheetcalc.excel.opc.errors import Refused
from sheetcalc.excel.reading import read
from sheetcalc.excel.reading.price_list import read_price_list

pytestmark = pytest.mark.usefixtures("no_child_left")


def cells(*placed: tuple[str, object]) -> str:
    return "".join(f'<c r="{place}"><v>{value}</v></c>' for place, value in placed)


RUNS = '<r><t>Ba</t></r><r><t>th</t></r><rPh sb="0" eb="1"><t>no</t></rPh>'
"""A text in two runs, with a reading aid that is none of its text."""
TEXTS = ("<t>plain</t>", f'{RUNS}<phoneticPr fontId="0"/>')
LEGAL: dict[str, tuple[str, list[list[object]]]] = {
    "rows out of order": (
        f'<row r="3">{cells(("A3", 3))}</row><row r="1">{cells(("A1", 1), ("B1", 2))}</row>',
        [[1, 2], [], [3]],
    ),
    "cells out of order": (
        f'<row r="1">{cells(("C1", 3), ("A1", 1), ("B1", 2))}</row>',
        [[1, 2, 3]],
    ),
    "a row in two pieces": (
        f'<row r="1">{cells(("A1", 1))}</row><row r="1">{cells(("B1", 2))}</row>',
        [[1, 2]],
    ),
    "rows and cells without places": (
        "<row><c><v>1</v></c><c/><c><v>3</v></c></row><row/><row><c><v>5</v></c></row>",
        [[1, None, 3], [], [5]],
    ),
    "rows without places": (
        f"<row>{cells(('A1', 1))}</row><row>{cells(('B2', 2), ('C2', 3))}</row>",
        [[1], [None, 2, 3]],
    ),
    "wrong spans": (f'<row r="1" spans="1:1">{cells(("A1", 1), ("C1", 3))}</row>', [[1, None, 3]]),
    "numbers with exponents and spaces": (
        f'<row r="1">{cells(("A1", "1.2E3"), ("B1", " 1.5 "), ("C1", "25e-1"))}</row>',
        [[1200, 1.5, 2.5]],
    ),
    "yes and no": (
        '<row r="1"><c r="A1" t="b"><v>1</v></c><c r="B1" t="b"><v>0</v></c></row>',
        [[True, False]],
    ),
    "texts in the cell, in runs and with a reading aid": (
        f'<row><c t="inlineStr"><is><t> so </t></is></c><c t="inlineStr"><is>{RUNS}</is></c></row>',
        [[" so ", "Bath"]],
    ),
    "shared texts in runs and with a reading aid": (
        '<row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1" t="s"><v>0</v></c></row>',
        [["Bath", "plain"]],
    ),
    "texts that are numbers": (
        '<row r="1"><c r="A1" t="str"><v>1.80</v></c><c r="B1"><v>1.8</v></c></row>',
        [["1.80", 1.8]],
    ),
}


def as_shown(value: object) -> str:
    """A value as LibreOffice writes it among values parted by commas."""
    if isinstance(value, bool):
        return str(value).upper()
    return "" if value is None else str(value)


def grid(path: Path) -> list[list[object]]:
    (read_grid,) = read_price_list(path)
    return [list(row) for row in read_grid.rows]


@pytest.mark.parametrize("case", LEGAL)
def test_a_sheet_in_a_rare_form_is_read_as_it_is_meant(tmp_path: Path, case: str) -> None:
    rows, expected = LEGAL[case]
    small = '<dimension ref="A1"/>'  # it says less than there is, and is not believed
    path = write_by_hand(tmp_path / "book.xlsx", rows, texts=TEXTS, before=small)
    assert grid(path) == expected


@pytest.mark.libreoffice
def test_libreoffice_reads_the_rare_forms_alike(tmp_path: Path) -> None:
    paths = [
        write_by_hand(tmp_path / f"{number}.xlsx", rows, texts=TEXTS)
        for number, (rows, _) in enumerate(LEGAL.values())
    ]
    made = convert_all(paths, "csv", tmp_path / "made")
    for path, (case, (_, expected)) in zip(paths, LEGAL.items(), strict=True):
        with made[path.stem].open(encoding="utf-8", newline="") as file:
            shown = list(csv.reader(file))
        width = max(map(len, expected))
        wanted = [[as_shown(v) for v in row] + [""] * (width - len(row)) for row in expected]
        padded = [row + [""] * (width - len(row)) for row in shown]
        assert padded == wanted, case


@pytest.mark.parametrize(
    ("rows", "why"),
    [
        (f'<row r="5">{cells(("A5", 1), ("B5", 2), ("A5", 3))}</row>', "A5"),
        (f'<row r="5">{cells(("A5", 1))}</row><row r="5">{cells(("A5", 3))}</row>', "A5"),
        (f'<row r="5">{cells(("A5", 1), ("A6", 2))}</row>', "A6 stands in row 5"),
        ('<row><c r="B7"><v>1</v></c><c><v>2</v></c></row>', "B7 stands in row 1"),
        ('<row r="0"><c><v>1</v></c></row>', "A0"),
        (f'<row r="1">{cells(("$A$1", 1))}</row>', r"\$A\$1"),
        ('<row r="1"><c r="B1" t="s"><v>2</v></c></row>', "B1.* shared text 2 of 2"),
        ('<row r="1"><c r="B1" t="s"><v>-1</v></c></row>', "B1.* shared text -1 of 2"),
        ('<row r="1"><c r="B1" t="b"><v>true</v></c></row>', "B1 .*'true'"),
        ('<row r="1"><c r="B1"><is><t>text</t></is></c></row>', "B1 "),
        ('<row r="1"><c r="B1" t="inlineStr"><v>text</v></c></row>', "B1 "),
        ('<row r="1"><c r="B1" t="text"><v>text</v></c></row>', "B1 .*'text'"),
        ('<row r="1"><c r="B1" s="9"><v>1</v></c></row>', "B1.* style 9, .* has 2"),
        ('<row r="1"><c r="B1" s="-1"><v>1</v></c></row>', "B1.* style -1, .* has 2"),
    ],
)
def test_a_cell_that_contradicts_itself_is_refused_by_name(
    tmp_path: Path, rows: str, why: str
) -> None:
    path = write_by_hand(tmp_path / "book.xlsx", rows, texts=TEXTS)
    with pytest.raises(Refused, match=why) as refused:
        read_price_list(path)
    assert (refused.value.code, refused.value.facts["part"]) == ("XML-BROKEN", "Rooms")


HEAD = "".join(
    f'<c t="inlineStr"><is><t>{header}</t></is></c>' for header in ("Room", "Finish", "Length")
)


def length(path: Path, cell: str, *, date_1904: bool = False) -> object:
    """Read the Length of the only room."""
    text = '<c t="inlineStr"><is><t>R</t></is></c>'
    rows = f"<row>{HEAD}</row><row>{text}{text}{cell}</row>"
    write_by_hand(path, rows, date_1904=date_1904)
    (row,) = read.start_reading(path).result().tables["Rooms"].rows
    return row.cells["Length"]


@pytest.mark.parametrize(
    ("cell", "formula", "has_value"),
    [
        ('<c t="str"><f>"2"&amp;" m"</f></c>', '="2"&" m"', False),
        ('<c t="str"><f>"2"&amp;" m"</f><v>2 m</v></c>', '="2"&" m"', True),
        ("<c><f>1+1</f></c>", "=1+1", False),
        ("<c><f>1+1</f><v></v></c>", "=1+1", False),
    ],
)
def test_a_formula_that_nobody_has_calculated_says_so(
    tmp_path: Path, cell: str, formula: str, *, has_value: bool
) -> None:
    found = length(tmp_path / "book.xlsx", cell)
    assert (found.formula, found.has_value) == (formula, has_value)  # type: ignore[attr-defined]


def test_a_formula_that_shows_nothing_is_an_empty_cell_and_a_row_of_them_is_blank(
    tmp_path: Path,
) -> None:
    """As where =IF(A9="","",2) is filled in downwards, beyond the rooms that there are."""
    text = '<c t="inlineStr"><is><t>R</t></is></c>'
    nothing = '<c t="str"><f>IF(A3="","",2)</f><v></v></c>'
    rows = f"<row>{HEAD}</row><row>{text}{text}{nothing}</row><row><c/><c/>{nothing}</row>"
    path = write_by_hand(tmp_path / "book.xlsx", rows)
    (row,) = read.start_reading(path).result().tables["Rooms"].rows
    assert sorted(row.cells) == ["Finish", "Room"]


def test_a_list_shows_errors_and_formulas_that_nobody_has_calculated(tmp_path: Path) -> None:
    rows = (
        '<row><c t="e"><v>#DIV/0!</v></c><c><f>A1*2</f></c><c><f>1+1</f><v>2</v></c>'
        '<c t="str"><f>""</f><v></v></c><c><f>A1*3</f></c></row><row/>'
        "<row><c/><c><f>A1</f></c></row>"
    )
    path = write_by_hand(tmp_path / "list.xlsx", rows)
    assert grid(path) == [["#DIV/0!", "=A1*2", 2, None, "=A1*3"], [], [None, "=A1"]]


@pytest.mark.parametrize("stored", ["1_000", "1,5", "1 000", "NaN", "0x10"])
def test_a_number_that_other_programs_do_not_read_is_an_error_value(
    tmp_path: Path, stored: str
) -> None:
    found = length(tmp_path / "book.xlsx", f"<c><v>{stored}</v></c>")
    assert (found.value, found.error) == (None, "#NUM!")  # type: ignore[attr-defined]


@pytest.mark.parametrize("date_1904", [False, True])
def test_a_date_is_read_in_the_books_epoch_and_in_words(tmp_path: Path, *, date_1904: bool) -> None:
    # 46450 days from the end of 1899 to 4 March 2027 by the calendar, 1462 fewer from 1904 on
    days = (date(2027, 3, 4) - date(1904, 1, 1)).days if date_1904 else 46450
    number = f'<c s="{DATE_STYLE}"><v>{days}</v></c>'
    for cell in (number, '<c t="d"><v>2027-03-04</v></c>'):
        found = length(tmp_path / "book.xlsx", cell, date_1904=date_1904)
        assert found.value == date(2027, 3, 4)  # type: ignore[attr-defined]


def test_a_date_beside_a_number_that_is_none_is_still_a_date(tmp_path: Path) -> None:
    path = tmp_path / "book.xlsx"
    rows = '<row><c t="d"><v>2027-03-04</v></c><c t="d"><v>soon</v></c><c><v>NaN</v></c></row>'
    assert grid(write_by_hand(path, rows)) == [["2027-03-04", "#NUM!", "#NUM!"]]


@pytest.mark.parametrize(
    "text", ['<c t="inlineStr"><is><t>{}</t></is></c>', '<c t="str"><v>{}</v></c>']
)
def test_signs_that_xml_can_not_carry_are_read_in_texts_of_cells_too(
    tmp_path: Path, text: str
) -> None:
    # ECMA-376 part 1, 22.9.2.19
    stored = ["two_x000D__x000a_lines", "_x005F_x0041_", "bell_x0007_"]
    rows = "<row>" + "".join(text.format(s) for s in stored) + "</row>"
    shown = ["two\r\nlines", "_x0041_", "bell_x0007_"]
    assert grid(write_by_hand(tmp_path / "book.xlsx", rows)) == [shown]


def test_a_row_hidden_out_of_order_is_counted(tmp_path: Path) -> None:
    text = '<c t="inlineStr"><is><t>R</t></is></c>'
    rows = (
        f'<row r="3" hidden="1">{text * 2}</row><row r="2">{text * 2}</row><row r="1">{HEAD}</row>'
    )
    path = write_by_hand(tmp_path / "book.xlsx", rows)
    table = read.start_reading(path).result().tables["Rooms"]
    assert ([row.row for row in table.rows], table.filtered) == ([2, 3], 1)

"""Values into a user's cells: those cells change, and nothing else does."""

import re
from datetime import date
from pathlib import Path

import edited_books
import grafting
import pytest
from openpyxl import load_workbook
from openpyxl.workbook import Workbook

from sheetcalc.excel.opc.errors import InUse, SaveFailed
from sheetcalc.excel.saving import safe_save
from sheetcalc.excel.saving.cell_edits import CellEdit, edit_cells, edited

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"


def sheet(rows: str, prefix: str = "") -> bytes:
    """A sheet part with these rows."""
    mark = f":{prefix}" if prefix else ""
    name = f"{prefix}:" if prefix else ""
    return (
        f'<{name}worksheet xmlns{mark}="{MAIN}"><{name}sheetData>{rows}</{name}sheetData>'
        f"</{name}worksheet>"
    ).encode()


def cells(content: bytes) -> str:
    """What stands between the tags of the rows."""
    found = re.search(rb"sheetData>(.*)</", content, re.DOTALL)
    assert found is not None
    return found[1].decode()


def one(rows: str, cell: str, value: str | float | date, *, empty: bool = False) -> str:
    return cells(edited(sheet(rows), [CellEdit("S", cell, value, empty)], "part"))


def test_a_number_takes_the_place_of_a_number_and_keeps_its_format() -> None:
    made = one('<row r="5"><c r="A5" s="7"><v>1</v></c><c r="B5"><v>2</v></c></row>', "A5", 3.5)
    assert '<c r="A5" s="7"><v>3.5</v></c><c r="B5"><v>2</v></c>' in made


def test_text_takes_the_place_of_a_shared_text_and_never_becomes_a_formula() -> None:
    made = one('<row r="5"><c r="A5" t="s"><v>12</v></c></row>', "A5", "=1+1")
    assert '<c r="A5" t="inlineStr"><is><t>=1+1</t></is></c>' in made
    assert "<f>" not in made


@pytest.mark.parametrize(
    "rows",
    [
        '<row r="5"><c r="C5"><v>3</v></c><c r="A5"><v>1</v></c></row>',
        '<row r="5"><c r="C5"><v>3</v></c></row><row r="5"><c r="A5"><v>1</v></c></row>',
        '<row r="9"><c r="A9"><v>3</v></c></row><row r="5"><c r="A5"><v>1</v></c></row>',
        '<row><c r="A5"><v>1</v></c></row><row><c><v>3</v></c></row>',
    ],
)
def test_a_cell_is_found_in_whatever_order_its_row_is_stored(rows: str) -> None:
    assert one(rows, "A5", 2).replace("<v>2</v>", "<v>1</v>").startswith(rows)


def test_a_cell_is_put_into_a_row_that_is_stored_out_of_order() -> None:
    made = one('<row r="5"><c r="D5"><v>4</v></c><c r="A5"><v>1</v></c></row>', "B5", 2)
    assert '<c r="D5"><v>4</v></c><c r="A5"><v>1</v></c><c r="B5"><v>2</v></c></row>' in made


def test_a_cell_that_was_not_there_is_put_in_its_place_with_the_format_above() -> None:
    rows = (
        '<row r="4"><c r="B4" s="9"/></row><row r="5"><c r="A5"><v>1</v></c>'
        '<c r="C5"><v>3</v></c></row>'
    )
    made = one(rows, "B5", 2)
    assert '<c r="A5"><v>1</v></c><c r="B5" s="9"><v>2</v></c><c r="C5"><v>3</v></c>' in made


def test_a_row_that_was_not_there_is_put_in_its_place() -> None:
    made = one('<row r="2"/><row r="9"/>', "A5", 1)
    assert made.index('r="2"') < made.index('r="5"') < made.index('r="9"')


def test_rows_and_cells_without_numbers_are_counted() -> None:
    made = one("<row><c><v>1</v></c></row><row><c><v>2</v></c><c><v>3</v></c></row>", "B2", 4)
    assert "<row><c><v>2</v></c><c><v>4</v></c></row>" in made


def test_a_part_with_a_prefix_keeps_it() -> None:
    rows = '<x:row r="1"><x:c r="A1"><x:v>1</x:v></x:c></x:row>'
    made = cells(edited(sheet(rows, "x"), [CellEdit("S", "A1", "two")], "part"))
    assert "<x:is><x:t>two</x:t></x:is>" in made


def test_what_xml_cannot_hold_is_left_out_and_escapes_stay_text() -> None:
    made = one('<row r="1"/>', "A1", "a\x01b_x0041_")
    assert "<t>ab_x005F_x0041_</t>" in made


def test_a_date_counts_from_the_books_own_epoch() -> None:
    edits = [CellEdit("S", "A1", date(2027, 3, 1))]
    assert "<v>46447</v>" in cells(edited(sheet('<row r="1"/>'), edits, "part"))
    assert "<v>44985</v>" in cells(edited(sheet('<row r="1"/>'), edits, "part", date_1904=True))


def test_a_formula_is_never_overwritten() -> None:
    with pytest.raises(SaveFailed, match="formula"):
        one('<row r="1"><c r="A1"><f>B1*2</f><v>2</v></c></row>', "A1", 3)


def test_a_cell_that_should_be_empty_and_is_not_stops_everything() -> None:
    with pytest.raises(SaveFailed, match="not empty"):
        one('<row r="1"><c r="A1"><v>2</v></c></row>', "A1", 3, empty=True)


# --- in a file ----------------------------------------------------------------------------------


def book(path: Path) -> Path:
    return edited_books.edited(path, lambda _book: None)


def test_only_the_edited_sheets_part_changes_and_a_backup_is_kept(tmp_path: Path) -> None:
    path = book(tmp_path / "book.xlsx")
    before, content = grafting.parts(path), path.read_bytes()
    saved = edit_cells(
        path, [CellEdit("Tiles", "D5", "Another tile")], expected=safe_save.fingerprint(path)
    )
    after = grafting.parts(path)
    assert after.keys() == before.keys()
    changed = {name for name in after if after[name] != before[name]}
    assert changed <= {"xl/workbook.xml", tiles_part(path)}
    assert saved.backup is not None
    assert saved.backup.read_bytes() == content
    assert b'fullCalcOnLoad="1"' in after["xl/workbook.xml"]
    values = load_workbook(path)["Tiles"]
    assert values["D5"].value == "Another tile"


def tiles_part(path: Path) -> str:
    names = load_workbook(path, read_only=True).sheetnames
    return f"xl/worksheets/sheet{names.index('Tiles') + 1}.xml"


def test_every_other_cell_of_the_sheet_is_as_it_was(tmp_path: Path) -> None:
    path = book(tmp_path / "book.xlsx")
    before = shown(path)
    edit_cells(path, [CellEdit("Tiles", "O5", 99)], expected=safe_save.fingerprint(path))
    after = shown(path)
    places = before.keys() | after.keys()
    changed = {place for place in places if before.get(place) != after.get(place)}
    assert changed == {("Tiles", "O5")}


def shown(path: Path) -> dict[tuple[str, str], tuple[object, object]]:
    """Value and format of every cell."""
    return {
        (sheet.title, cell.coordinate): (cell.value, cell.style_id)
        for sheet in load_workbook(path).worksheets
        for row in sheet.iter_rows()
        for cell in row
    }


def test_a_file_that_changed_meanwhile_is_left_alone(tmp_path: Path) -> None:
    path = book(tmp_path / "book.xlsx")
    read = safe_save.fingerprint(path)
    edited_books.edited(path, lambda b: edited_books.put(b, "Tiles", "Price", 1))
    before = path.read_bytes()
    with pytest.raises(InUse):
        edit_cells(path, [CellEdit("Tiles", "O5", 99)], expected=read)
    assert path.read_bytes() == before


def test_a_tab_that_is_not_there_stops_everything(tmp_path: Path) -> None:
    path = tmp_path / "plain.xlsx"
    Workbook().save(path)
    before = path.read_bytes()
    with pytest.raises(SaveFailed, match="no tab"):
        edit_cells(path, [CellEdit("Tiles", "A1", 1)], expected=safe_save.fingerprint(path))
    assert path.read_bytes() == before

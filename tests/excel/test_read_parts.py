"""Our tabs are read from parts in the forms that other programs write."""

import re
from pathlib import Path

import pytest
from books_read import read_book, replace_in_sheet, rewritten, rooms, values
from edited_books import small_room_bytes

from sheetcalc.excel.reading.strings import SharedStrings

pytestmark = pytest.mark.usefixtures("no_child_left")


@pytest.mark.parametrize(
    ("stored", "value", "has_value"),
    [
        (b"<f>0.9*2</f><v>1.8</v>", 1.8, True),
        (b"<f>0.9*2</f><v/>", None, False),
        (b"<f>0.9*2</f>", None, False),
    ],
)
def test_a_formula_gives_its_stored_value_or_says_that_it_has_none(
    path: Path, stored: bytes, value: float | None, *, has_value: bool
) -> None:
    path.write_bytes(small_room_bytes())
    replace_in_sheet(path, b"<v>1.8</v>", stored)
    cell = rooms(path).rows[0].cells["Length"]
    assert (cell.value, cell.formula, cell.has_value) == (value, "=0.9*2", has_value)


@pytest.mark.parametrize("number", [b"NaN", b"INF", b"1.8.1", b"1e999"])
def test_a_number_that_is_none_is_an_error_value(path: Path, number: bytes) -> None:
    path.write_bytes(small_room_bytes())
    replace_in_sheet(path, b"<v>1.8</v>", b"<v>" + number + b"</v>")
    cell = rooms(path).rows[0].cells["Length"]
    assert (cell.value, cell.error) == (None, "#NUM!")


STRICT = {
    b"http://schemas.openxmlformats.org/spreadsheetml/2006/main": (
        b"http://purl.oclc.org/ooxml/spreadsheetml/main"
    ),
    b"http://schemas.openxmlformats.org/officeDocument/2006/relationships": (
        b"http://purl.oclc.org/ooxml/officeDocument/relationships"
    ),
}


def test_the_strict_variant_is_read_as_well(path: Path) -> None:
    path.write_bytes(small_room_bytes())

    def strict(_: str, xml: bytes) -> bytes:
        for loose, tight in STRICT.items():
            xml = xml.replace(loose, tight)
        return xml

    rewritten(path, strict)
    assert values(rooms(path), "Length") == [1.8]


def test_prefixed_namespaces_are_read_as_well(path: Path) -> None:
    path.write_bytes(small_room_bytes())

    def prefixed(name: str, xml: bytes) -> bytes:
        if not re.match(r"xl/(worksheets/sheet\d+|sharedStrings|workbook|styles)\.xml", name):
            return xml
        xml = xml.replace(b'xmlns="', b'xmlns:x="')
        return re.sub(rb"<(/?)(?!\?|x:|[a-z0-9]+:)", rb"<\1x:", xml)

    rewritten(path, prefixed)
    table = rooms(path)
    assert values(table, "Room") == ["Cloakroom"]
    assert values(table, "Length") == [1.8]


def test_a_tab_in_utf_16_is_read_as_well(path: Path) -> None:
    path.write_bytes(small_room_bytes())

    def wide(name: str, xml: bytes) -> bytes:
        if not name.startswith("xl/worksheets/sheet"):
            return xml
        return xml.decode().replace('encoding="UTF-8"', 'encoding="UTF-16"').encode("utf-16")

    rewritten(path, wide)
    assert values(rooms(path), "Length") == [1.8]


@pytest.mark.parametrize("encoding", ["UTF-8", "UTF-16"])
def test_merged_cells_are_seen_in_every_encoding(path: Path, encoding: str) -> None:
    path.write_bytes(small_room_bytes())
    merged = '</sheetData><mergeCells count="1"><mergeCell ref="A5:B5"/></mergeCells>'

    def with_merge(name: str, xml: bytes) -> bytes:
        if not name.startswith("xl/worksheets/sheet"):
            return xml
        text = xml.decode().replace("</sheetData>", merged)
        return text.replace('encoding="UTF-8"', f'encoding="{encoding}"').encode(encoding)

    rewritten(path, with_merge)
    ((_, row, cells),) = rooms(path).merged
    assert (row, cells) == (5, "A5:B5")


@pytest.mark.parametrize(
    ("stored", "text"),
    [
        ("_x005F_x0041_", "_x0041_"),
        ("two_x000D_\nlines", "two\r\nlines"),
        ("_x0041", "_x0041"),
        ("_xD83D_", "_xD83D_"),
    ],
)
def test_signs_that_xml_can_not_carry_are_read_as_they_were_typed(stored: str, text: str) -> None:
    plain = f"<sst><si><t>{stored}</t></si></sst>".encode()
    runs = f"<sst><si><r><t>{stored}</t></r></si></sst>".encode()
    assert SharedStrings(plain)[0] == SharedStrings(runs)[0] == text


def test_cells_that_do_not_say_where_they_are_stand_after_those_before_them(path: Path) -> None:
    path.write_bytes(small_room_bytes())
    placed = read_book(path)

    def unplaced(name: str, xml: bytes) -> bytes:
        filled = rb'<c r="[A-Z]+\d+"(?=[^<>]*[^/]>)'
        return re.sub(filled, b"<c", xml) if "worksheets/sheet" in name else xml

    rewritten(path, unplaced)
    assert read_book(path) == placed


def test_a_text_that_looks_like_an_empty_cell_is_a_text(path: Path) -> None:
    path.write_bytes(small_room_bytes())
    cell = re.compile(rb'<c (r="[A-Z]+\d+")[^>]*><v>1\.8</v></c>')

    def told(name: str, xml: bytes) -> bytes:
        text = b'<c \\1 t="inlineStr"><is><t><![CDATA[<c r="B2" s="1"/>]]></t></is></c>'
        return cell.sub(text, xml) if "worksheets/sheet" in name else xml

    rewritten(path, told)
    assert values(rooms(path), "Length") == ['<c r="B2" s="1"/>']

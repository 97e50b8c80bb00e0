"""What a graft adds to a book: names, styles, dates, order, and nothing that is not needed."""

import zipfile
from pathlib import Path

import openpyxl
import pytest
from grafting import fresh_book, graft_into, parts
from lxml import etree
from odd_packages import Features, write_book
from odd_parts import MAIN, STRICT_MAIN

from sheetcalc.excel.grafting import graft

WORKBOOK, STYLES = "xl/workbook.xml", "xl/styles.xml"


def made(tmp_path: Path, **features: object) -> Path:
    return write_book(tmp_path / "book.xlsx", Features(**features))  # type: ignore[arg-type]


def find(content: bytes, path: str, space: str = MAIN) -> list[etree._Element]:
    return etree.fromstring(content).findall(path, {"m": space})


def test_names_that_are_taken_are_respected_and_formulas_follow(tmp_path: Path) -> None:
    book = made(tmp_path, sheet_names=("TAKEOFF",), tables=("outtakeoff", "OutFindings_2"))
    report = graft_into(book)
    assert report.sheet_names == {"findings": "Findings", "takeoff": "Takeoff (2)"}
    assert report.table_names == {"OutFindings": "OutFindings", "OutTakeoff": "OutTakeoff_2"}
    sheet = openpyxl.load_workbook(book)["Takeoff (2)"]
    gross = "OutTakeoff_2[[#This Row],[Net]]*(1+OutTakeoff_2[[#This Row],[Waste]])"
    assert sheet["C5"].value == f"={gross}"
    table = sheet.tables["OutTakeoff_2"]
    assert table.tableColumns[2].calculatedColumnFormula.attr_text == gross
    assert find(parts(book)[WORKBOOK], ".//m:definedName")[0].text == "Findings!$A$3"
    titles = [e.text for e in find(parts(book)[WORKBOOK], ".//m:definedName") if "$4" in e.text]
    assert titles == ["Findings!$4:$4", "'Takeoff (2)'!$4:$4"]


def test_a_table_may_not_be_called_what_a_name_is(tmp_path: Path) -> None:
    book = made(tmp_path, names={"OUTTAKEOFF": "1"})
    assert graft_into(book).table_names["OutTakeoff"] == "OutTakeoff_2"


def test_long_sheet_names_are_cut_where_they_clash(tmp_path: Path) -> None:
    long = "Order " + "x" * 25
    book = made(tmp_path, sheet_names=(long,))
    report = graft_into(book, [f"order:{'x' * 25}"])
    (name,) = report.sheet_names.values()
    assert len(name) == 31
    assert name == "Order " + "X" + "x" * 20 + " (2)"


def test_ids_go_on_after_those_of_the_book(tmp_path: Path) -> None:
    book = made(tmp_path, states=("visible",) * 3, tables=("One", "Two"))
    graft_into(book)
    sheets = find(parts(book)[WORKBOOK], "m:sheets/m:sheet")
    assert [s.get("sheetId") for s in sheets] == ["3", "6", "9", "10", "11"]
    tables = [content for name, content in parts(book).items() if "/tables/" in name]
    assert [etree.fromstring(t).get("id") for t in tables] == ["1", "2", "3", "4"]


def test_the_tab_in_front_stays_in_front_and_ours_are_not_selected(tmp_path: Path) -> None:
    book = made(tmp_path, states=("visible",) * 3, active_tab=2)
    graft_into(book)
    assert find(parts(book)[WORKBOOK], ".//m:workbookView")[0].get("activeTab") == "2"
    for number in (4, 5):
        (view,) = find(parts(book)[f"xl/worksheets/sheet{number}.xml"], ".//m:sheetView")
        assert view.get("tabSelected") is None


def test_the_calculation_chain_goes_and_everything_is_calculated_on_opening(
    tmp_path: Path,
) -> None:
    book = made(tmp_path, calc_chain=True)
    graft_into(book)
    assert "xl/calcChain.xml" not in parts(book)
    assert b"calcChain" not in parts(book)["[Content_Types].xml"]
    assert b"calcChain" not in parts(book)["xl/_rels/workbook.xml.rels"]
    (settings,) = find(parts(book)[WORKBOOK], "m:calcPr")
    assert settings.get("fullCalcOnLoad") == "1"


def test_new_children_stand_where_the_schema_wants_them(tmp_path: Path) -> None:
    book = made(tmp_path, extension_lists=True, alternate_content=True)
    graft_into(book)
    root = etree.fromstring(parts(book)[WORKBOOK])
    assert [child.tag.rpartition("}")[2] for child in root] == [
        "workbookPr",
        "AlternateContent",
        "bookViews",
        "sheets",
        "definedNames",
        "calcPr",
        "extLst",
    ]


def test_styles_are_only_added_to(tmp_path: Path) -> None:
    book = made(tmp_path, extension_lists=True)
    before = parts(book)[STYLES]
    graft_into(book)
    after = parts(book)[STYLES]
    for group in ("numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs"):
        old = [etree.tostring(e) for e in find(before, f"m:{group}/*")]
        new = [etree.tostring(e) for e in find(after, f"m:{group}/*")]
        assert new[: len(old)] == old
        (element,) = find(after, f"m:{group}")
        assert element.get("count") == str(len(new))
    order = [e.tag.rpartition("}")[2] for e in etree.fromstring(after)]
    assert order[-3:] == ["cellStyles", "dxfs", "extLst"]


def test_our_cells_look_the_same_in_a_book_with_another_font(tmp_path: Path) -> None:
    book = made(tmp_path)
    graft_into(book)
    sheet = openpyxl.load_workbook(book)["Takeoff"]
    assert (sheet["A5"].font.name, sheet["A5"].font.sz) == ("Calibri", 11)
    assert sheet["A5"].font.color.rgb == "FF000000"
    assert sheet["A1"].fill.fgColor.rgb == "FFDDEEFF"
    assert sheet["B5"].number_format == "0.0%"
    assert sheet["D5"].number_format == "yyyy-mm-dd"
    assert openpyxl.load_workbook(book)["Data 1"]["B1"].font.name == "Lato"
    added = find(parts(book)[STYLES], "m:fonts/m:font")[1:]
    assert all(not font.findall(f"{{{MAIN}}}scheme") for font in added)
    assert b"theme=" not in parts(book)[STYLES]


def test_a_built_in_format_that_the_book_redefines_keeps_its_meaning_for_us(
    tmp_path: Path,
) -> None:
    """Number 10 is 0.00 % by the standard (18.8.30); this book says 0.000."""
    import io  # noqa: PLC0415 - used here only

    import xlsxwriter  # noqa: PLC0415 - used here only

    out = io.BytesIO()
    with xlsxwriter.Workbook(out) as fresh:
        sheet = fresh.add_worksheet("Prices")
        sheet.write_number("A1", 0.5, fresh.add_format({"num_format": 10}))
    book = made(tmp_path, styles="redefined")
    with graft.prepare(book, out.getvalue(), [graft.Placement("input:Prices", "Prices")]) as plan:
        place = tmp_path / "out.xlsx"
        with place.open("wb") as file:
            plan.write(file)
    workbook = openpyxl.load_workbook(place)
    assert workbook["Prices"]["A1"].number_format == "0.00%"
    assert workbook["Data 1"]["B1"].number_format == "0.000"


@pytest.mark.parametrize(("epoch", "serial"), [(1900, 45004), (1904, 45004 - 1462)])
def test_dates_are_written_for_the_books_own_epoch(tmp_path: Path, epoch: int, serial: int) -> None:
    book = made(tmp_path, date_1904=epoch == 1904)
    graft_into(book)
    (value,) = find(parts(book)["xl/worksheets/sheet2.xml"], ".//m:c[@r='D5']/m:v")
    assert int(value.text or "") == serial
    (net,) = find(parts(book)["xl/worksheets/sheet2.xml"], ".//m:c[@r='A5']/m:v")
    assert net.text == "2"


def test_constants_are_written_with_the_digits_that_programs_keep(tmp_path: Path) -> None:
    """LibreOffice wrote 9.39744912196922 for 9.397449121969215 (seen with 7.4)."""
    book = made(tmp_path)
    graft_into(book)
    (value,) = find(parts(book)["xl/worksheets/sheet2.xml"], ".//m:c[@r='F8']/m:v")
    assert value.text in {"9.39744912196921", "9.39744912196922"}


def test_a_strict_book_gets_strict_parts(tmp_path: Path) -> None:
    book = made(tmp_path, strict=True)
    graft_into(book)
    for name, content in parts(book).items():
        if name.endswith(".xml") and name.startswith("xl/"):
            assert b"openxmlformats.org/spreadsheetml" not in content, name
            assert b"openxmlformats.org/officeDocument/2006/relationships" not in content, name
            assert b"openxmlformats.org/drawingml" not in content, name
    rels = parts(book)["xl/worksheets/_rels/sheet2.xml.rels"]
    assert b"purl.oclc.org/ooxml/officeDocument/relationships/table" in rels
    assert find(parts(book)["xl/worksheets/sheet2.xml"], ".//m:c", STRICT_MAIN)


def test_a_books_own_prefix_is_kept_in_what_is_added(tmp_path: Path) -> None:
    book = made(tmp_path, prefix="x")
    graft_into(book)
    content = parts(book)
    assert content[WORKBOOK].count(b"<x:sheet ") == 3
    assert b"<x:definedName " in content[WORKBOOK]
    assert b"<x:xf " in content[STYLES]
    assert b"<xf " not in content[STYLES]
    assert b"ns0" not in content[WORKBOOK] + content[STYLES]


def test_text_stays_text_whatever_it_says(tmp_path: Path) -> None:
    book = made(tmp_path)
    shared = parts(book)["xl/sharedStrings.xml"]
    graft_into(book)
    assert parts(book)["xl/sharedStrings.xml"] == shared
    cell = openpyxl.load_workbook(book)["Takeoff"]["G8"]
    assert cell.data_type == "s"
    assert cell.value == '= text, <b> & "quotes" \' \u00e9 \U0001f6bf'


def test_one_picture_used_twice_is_stored_once_and_stays_while_it_is_used(
    tmp_path: Path,
) -> None:
    book = made(tmp_path)
    graft_into(book)
    assert len([name for name in parts(book) if "/media/" in name]) == 1
    graft_into(book, ("findings",))
    workbook = openpyxl.load_workbook(book)
    assert len(workbook["Takeoff"]._images) == 1  # noqa: SLF001 - no other way to count them
    assert len(workbook["Findings"]._images) == 1  # noqa: SLF001 - as above
    assert b'descr="drawing of takeoff"' in b"".join(parts(book).values())


def test_a_picture_of_another_type_with_our_ending_does_not_mislead(tmp_path: Path) -> None:
    book = made(tmp_path)
    content = parts(book)
    types = content["[Content_Types].xml"]
    odd = b'<Default Extension="png" ContentType="image/x-odd"/>'
    content["[Content_Types].xml"] = types.replace(b"<Default", odd + b"<Default", 1)
    with zipfile.ZipFile(book, "w") as package:
        for name, data in content.items():
            package.writestr(name, data)
    graft_into(book)
    after = parts(book)["[Content_Types].xml"]
    assert b'PartName="/xl/media/image1.png" ContentType="image/png"' in after


def test_as_many_sheets_as_placements_are_wanted(tmp_path: Path) -> None:
    fresh, placements = fresh_book()
    with pytest.raises(ValueError, match="1 placements for 2 sheets"):
        graft.prepare(made(tmp_path), fresh, placements[:1])


def test_large_and_far_parts_are_written_in_the_large_form(tmp_path: Path) -> None:
    """Sizes of 4 GiB need zip64 (APPNOTE 4.5.3); the writer is told of one, not given it."""
    from sheetcalc.excel.opc.zip_directory import Member, read_directory  # noqa: PLC0415 - used once
    from sheetcalc.excel.opc.zip_writer import ZipWriter  # noqa: PLC0415 - used once

    size = (1 << 32) + 5
    member = Member(b"big", "big", 0, 0, 8, 0, 33, 7, 3, size, 0, 0, 0)
    place = tmp_path / "large.zip"
    with place.open("wb") as out:
        writer = ZipWriter(out)
        writer.copy(member, [b"abc"])
        writer.add("small.txt", b"small")
        writer.finish()
    with place.open("rb") as file:
        big, small = read_directory(file)
    assert (big.size, big.packed, big.crc) == (size, 3, 7)
    assert small.size == 5
    with zipfile.ZipFile(place) as package:
        assert package.getinfo("big").file_size == size
        assert package.read("small.txt") == b"small"

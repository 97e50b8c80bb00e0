"""The life of our tabs in the hands of people and of other programs."""

import io
import zipfile
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from excel.own_tab_books import KEYS, change, keys, names, with_results
from grafting import fresh_book, graft_into, parts, tiny_png
from msgspec.structs import replace
from odd_packages import Features, write_book
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from openpyxl.drawing.image import Image
from openpyxl.workbook.defined_name import DefinedName

from sheetcalc.excel.grafting import graft
from sheetcalc.excel.grafting.graft import Placement
from sheetcalc.excel.tabs.own_tabs import (
    find_in_file,
    key_of_signature,
    signature,
)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return with_results(tmp_path / "book.xlsx")


def test_every_result_tab_is_known_by_its_key(book: Path) -> None:
    assert keys(book) == [
        ("findings", "Findings", False),
        ("takeoff", "Takeoff", False),
        ("order:Kiln & Quarry", "Order Kiln & Quarry", False),
    ]


def test_a_signature_tells_its_key_even_with_dots_in_it() -> None:
    key = "order:Kiln · Quarry · schema 2"
    assert key_of_signature(signature(key)) == key
    assert key_of_signature(signature(key) + " · check 0123456789abcdef") == key
    assert key_of_signature("sheetcalc result tab") == ""


def test_a_renamed_tab_stays_renamed_and_is_filled_anew(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook["Takeoff"].title = "Larch takeoff"
    # a spreadsheet program follows a rename in names and formulas; this library leaves it to us
    for name in workbook.defined_names.values():
        name.attr_text = name.attr_text.replace("Takeoff!", "'Larch takeoff'!")
    workbook.save(book)
    report = graft_into(book, KEYS, waste=0.5)
    assert report.sheet_names["takeoff"] == "Larch takeoff"
    assert "Takeoff" not in names(book)
    assert openpyxl.load_workbook(book)["Larch takeoff"]["B5"].value == 0.5


def test_links_between_our_tabs_follow_a_rename(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook["Findings"].title = "What is wrong"
    for name in workbook.defined_names.values():
        name.attr_text = name.attr_text.replace("Findings!", "'What is wrong'!")
    workbook.save(book)
    graft_into(book, KEYS)
    sheet = openpyxl.load_workbook(book)["Takeoff"]
    assert sheet["B1"].value == '=IF(COUNTIF(\'What is wrong\'!A5:A9,"error")>0,"no","OK")'
    assert sheet["G1"].hyperlink.location == "'What is wrong'!A1"


def test_a_moved_tab_stays_where_it_was_put(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook.move_sheet("Takeoff", -4)
    workbook.save(book)
    before = names(book)
    graft_into(book, KEYS)
    assert names(book) == before == ["Takeoff", *(n for n in before if n != "Takeoff")]


@pytest.mark.parametrize("state", ["hidden", "veryHidden"])
def test_a_hidden_tab_stays_hidden(book: Path, state: str) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook["Takeoff"].sheet_state = state
    workbook.save(book)
    graft_into(book, KEYS)
    assert {tab.key: tab.state for tab in find_in_file(book).tabs}["takeoff"] == state
    assert openpyxl.load_workbook(book)["Takeoff"].sheet_state == state


def test_a_copy_made_by_a_person_is_theirs(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    copy = workbook.copy_worksheet(workbook["Takeoff"])
    copy.title = "Takeoff of last week"
    # a spreadsheet program copies the name too, with the copy's scope
    copy.defined_names["sheetcalc_tab_2"] = DefinedName(
        "sheetcalc_tab_2", attr_text="'Takeoff of last week'!$A$3"
    )
    workbook.save(book)
    graft_into(book, KEYS, waste=0.5)
    workbook = openpyxl.load_workbook(book)
    assert workbook["Takeoff of last week"]["B5"].value == 0.1
    assert workbook["Takeoff"]["B5"].value == 0.5


def test_a_deleted_tab_is_made_again_and_its_name_does_not_linger(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    del workbook["Takeoff"]
    workbook.defined_names["sheetcalc_tab_2"].attr_text = "#REF!$A$3"
    workbook.save(book)
    report = graft_into(book, KEYS)
    assert report.added == ["takeoff"]
    assert [key for key, _, _ in keys(book)] == ["findings", "order:Kiln & Quarry", "takeoff"]
    assert b"#REF!" not in parts(book)["xl/workbook.xml"]


def test_a_tab_without_its_signature_is_no_longer_ours(book: Path) -> None:
    change(book, "Takeoff", "A3", None)
    report = graft_into(book, KEYS)
    assert report.sheet_names["takeoff"] == "Takeoff (2)"
    assert report.table_names["OutTakeoff"] == "OutTakeoff_2"
    sheet = openpyxl.load_workbook(book)["Takeoff (2)"]
    assert (
        sheet["C5"].value
        == "=OutTakeoff_2[[#This Row],[Net]]*(1+OutTakeoff_2[[#This Row],[Waste]])"
    )


def test_a_note_typed_beside_the_signature_is_not_lost(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook["Takeoff"]["B3"] = "ask Rosa about this"
    workbook.save(book)
    report = graft_into(book, KEYS)
    assert report.kept == {"Takeoff": "Takeoff (edited)"}
    assert openpyxl.load_workbook(book)["Takeoff (edited)"]["B3"].value == "ask Rosa about this"


@pytest.mark.parametrize(
    ("cell", "value"),
    [
        ("A5", 7),
        ("A5", "2.0"),
        ("C6", "=1+1"),
        ("C6", 99),
        ("F9", "a note to self"),
        ("B4", "Allowance"),
        ("A6", None),
    ],
)
def test_an_edit_is_found_and_the_edited_tab_kept(book: Path, cell: str, value: object) -> None:
    change(book, "Takeoff", cell, value)
    (edited,) = [tab for tab in find_in_file(book).tabs if tab.edited]
    assert (edited.key, edited.kept_as) == ("takeoff", "Takeoff (edited)")
    report = graft_into(book, KEYS)
    assert report.kept == {"Takeoff": "Takeoff (edited)"}
    workbook = openpyxl.load_workbook(book)
    assert workbook["Takeoff (edited)"][cell].value == value
    assert list(workbook["Takeoff (edited)"].tables) == ["OutTakeoff_edited"]
    assert list(workbook["Takeoff"].tables) == ["OutTakeoff"]
    assert not any(tab.edited for tab in find_in_file(book).tabs)


def test_an_edited_tab_is_kept_once_and_later_runs_change_nothing(book: Path) -> None:
    change(book, "Takeoff", "A5", 7)
    graft_into(book, KEYS)
    once = book.read_bytes()
    graft_into(book, KEYS)
    assert book.read_bytes() == once


def test_a_second_edit_is_kept_beside_the_first(book: Path) -> None:
    for number, value in ((1, 7), (2, 8)):
        change(book, "Takeoff", "A5", value)
        report = graft_into(book, KEYS)
        tail = "(edited)" if number == 1 else "(edited) (2)"
        assert report.kept == {"Takeoff": f"Takeoff {tail}"}
    workbook = openpyxl.load_workbook(book)
    assert workbook["Takeoff (edited)"]["A5"].value == 7
    assert workbook["Takeoff (edited) (2)"]["A5"].value == 8


def test_formulas_of_a_kept_tab_follow_its_table(book: Path) -> None:
    change(book, "Takeoff", "A5", 7)
    graft_into(book, KEYS)
    text = openpyxl.load_workbook(book)["Takeoff (edited)"]["C5"].value
    assert text.startswith("=OutTakeoff_edited[[#This Row],[Net]]")


def test_a_comment_on_a_result_tab_is_something_typed(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook["Takeoff"]["A5"].comment = Comment("too much?", "Rosa")
    workbook.save(book)
    report = graft_into(book, KEYS)
    kept = openpyxl.load_workbook(book)[report.kept["Takeoff"]]
    assert kept["A5"].comment.text == "too much?"


def with_chart(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    chart = BarChart()
    chart.add_data(Reference(workbook["Takeoff"], min_col=3, min_row=4, max_row=6))
    workbook["Takeoff"].add_chart(chart, "L2")
    workbook.save(book)


def with_picture(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook["Takeoff"].add_image(Image(io.BytesIO(tiny_png())), "L2")
    workbook.save(book)


@pytest.mark.parametrize(("put", "holds"), [(with_chart, "_charts"), (with_picture, "_images")])
def test_what_a_person_puts_on_a_result_tab_is_kept_with_it(
    book: Path, put: Callable[[Path], None], holds: str
) -> None:
    before = len(getattr(openpyxl.load_workbook(book)["Takeoff"], holds))
    put(book)
    report = graft_into(book, KEYS)
    assert report.kept == {"Takeoff": "Takeoff (edited)"}
    workbook = openpyxl.load_workbook(book)
    assert len(getattr(workbook["Takeoff (edited)"], holds)) == before + 1
    assert len(getattr(workbook["Takeoff"], holds)) == before
    once = book.read_bytes()
    graft_into(book, KEYS)
    assert book.read_bytes() == once


def test_a_chart_on_the_order_of_a_vanished_supplier_keeps_the_order(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook["Order Kiln & Quarry"].add_chart(BarChart(), "L2")
    workbook.save(book)
    report = graft_into(book, KEYS[:2], retire_others=True)
    assert report.kept == {"Order Kiln & Quarry": "Order Kiln & Quarry"}


def test_live_results_that_change_are_no_edit(book: Path) -> None:
    stored = parts(book)["xl/worksheets/sheet5.xml"]
    assert b"<v>2.2</v>" in stored
    changed = stored.replace(b"<v>2.2</v>", b"<v>2.4</v>")
    rewrite(book, {"xl/worksheets/sheet5.xml": changed})
    assert not any(tab.edited for tab in find_in_file(book).tabs)


def test_sorting_a_result_tab_is_no_edit(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    sheet = workbook["Takeoff"]
    for column in "ABCDE":
        upper, lower = sheet[f"{column}5"], sheet[f"{column}6"]
        upper.value, lower.value = lower.value, upper.value
    workbook.save(book)
    assert not any(tab.edited for tab in find_in_file(book).tabs)


def test_readings_typed_where_people_are_meant_to_type_are_no_edit(tmp_path: Path) -> None:
    path = write_book(tmp_path / "book.xlsx", Features())
    graft_into(path, ("findings", "resistance log"))
    change(path, "Resistance Log", "E5", 98.4)
    typed = {"resistance log": ("Reading",)}
    assert not any(tab.edited for tab in find_in_file(path, typed).tabs)
    change(path, "Resistance Log", "A5", 98.4)
    assert [tab.key for tab in find_in_file(path, typed).tabs if tab.edited] == ["resistance log"]


def test_a_supplier_that_vanishes_takes_its_tab_along(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook.move_sheet("Order Kiln & Quarry", -5)
    workbook.defined_names["Total"] = DefinedName(
        "Total", attr_text="'Order Kiln & Quarry'!$A$5+'Data 1'!$B$1"
    )
    workbook["Data 2"].defined_names["Mine"] = DefinedName("Mine", attr_text="'Data 2'!$B$1")
    workbook.active = workbook.sheetnames.index("Data 3")
    workbook.views[0].firstSheet = 1
    workbook.save(book)
    report = graft_into(book, KEYS[:2], retire_others=True)
    assert report.retired == ["Order Kiln & Quarry"]
    workbook = openpyxl.load_workbook(book)
    assert workbook.sheetnames == ["Data 1", "Data 2", "Data 3", "Findings", "Takeoff"]
    assert workbook.active.title == "Data 3"
    assert workbook.views[0].firstSheet == 0
    assert workbook.defined_names["Total"].attr_text == "#REF!$A$5+'Data 1'!$B$1"
    assert workbook["Data 2"].defined_names["Mine"].attr_text == "'Data 2'!$B$1"
    assert workbook["Takeoff"].print_title_rows == "$4:$4"
    left = [name for name in parts(book) if "tables/" in name or "sheets/sheet" in name]
    assert len([name for name in left if "tables/" in name]) == 2
    assert len([name for name in left if name.startswith("xl/worksheets/sheet")]) == 5


def test_an_edited_tab_of_a_vanished_supplier_becomes_theirs(book: Path) -> None:
    change(book, "Order Kiln & Quarry", "A5", 12)
    report = graft_into(book, KEYS[:2], retire_others=True)
    assert report.retired == []
    assert report.kept == {"Order Kiln & Quarry": "Order Kiln & Quarry"}
    assert openpyxl.load_workbook(book)["Order Kiln & Quarry"]["A5"].value == 12
    assert [key for key, _, _ in keys(book)] == ["findings", "takeoff"]


def test_a_run_of_findings_alone_leaves_the_other_tabs_as_they_are(book: Path) -> None:
    before = parts(book)
    graft_into(book, ("findings",), waste=0.7)
    after = parts(book)
    same = {name for name in before if before[name] == after.get(name)}
    assert "xl/worksheets/sheet5.xml" in same
    assert "xl/worksheets/sheet6.xml" in same
    assert "xl/worksheets/sheet4.xml" not in same


def test_formulas_that_point_at_our_tabs_keep_their_meaning(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook["Data 1"]["D1"] = "=Takeoff!C5+SUM(OutTakeoff[Net])"
    workbook.save(book)
    graft_into(book, KEYS, rows=5)
    workbook = openpyxl.load_workbook(book)
    assert workbook["Data 1"]["D1"].value == "=Takeoff!C5+SUM(OutTakeoff[Net])"
    assert workbook["Takeoff"].tables["OutTakeoff"].ref == "A4:E9"


def test_a_table_that_a_person_renamed_keeps_that_name(book: Path) -> None:
    content = parts(book)
    (table,) = [name for name in content if b'displayName="OutTakeoff"' in content[name]]
    sheet = "xl/worksheets/sheet5.xml"
    rewrite(
        book,
        {
            table: content[table].replace(b"OutTakeoff", b"Quantities"),
            sheet: content[sheet].replace(b"OutTakeoff[", b"Quantities["),
        },
    )
    report = graft_into(book, KEYS)
    assert report.table_names["OutTakeoff"] == "Quantities"


def test_two_tabs_that_say_the_same_key_are_one_of_ours_and_one_of_theirs(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    copy = workbook.copy_worksheet(workbook["Takeoff"])
    copy.title = "From another book"
    workbook.defined_names["sheetcalc_tab_9"] = DefinedName(
        "sheetcalc_tab_9", attr_text="'From another book'!$A$3"
    )
    workbook.save(book)
    assert [sheet for _, sheet, _ in keys(book)] == ["Findings", "Takeoff", "Order Kiln & Quarry"]


def test_a_result_sheet_without_its_signature_is_a_mistake_of_ours(book: Path) -> None:
    fresh, _ = fresh_book(("takeoff",))
    with pytest.raises(ValueError, match="must hold 'sheetcalc result tab · order:A"):
        graft.prepare(book, fresh, [Placement("order:A", "Order A")])


def rewrite(path: Path, changed: dict[str, bytes]) -> None:
    """Write some parts of a package anew, as a spreadsheet program that saves it would."""
    content = parts(path) | changed
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as package:
        for name, data in content.items():
            package.writestr(name, data)


def test_tabs_that_were_found_hold_only_while_the_file_is_as_it_was(book: Path) -> None:
    found = find_in_file(book)
    assert [tab.key for tab in found.tabs] == list(KEYS)
    fresh, placements = fresh_book(KEYS)
    with graft.prepare(book, fresh, placements, found=found) as plan:
        assert plan.report.replaced == list(KEYS)
    # whoever says that none is there is believed, so that they are not looked for twice
    with graft.prepare(book, fresh, placements, found=replace(found, tabs=())) as plan:
        assert plan.report.added == list(KEYS)
    change(book, "Takeoff", "A5", 7)
    with graft.prepare(book, fresh, placements, found=found) as plan:
        assert plan.report.kept == {"Takeoff": "Takeoff (edited)"}

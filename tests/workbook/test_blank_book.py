"""The blank workbook, the example and the guide, as an estimator opens them."""

import io
from pathlib import Path
from typing import Literal

import pytest
from openpyxl import load_workbook
from openpyxl.workbook import Workbook
from samples import SAMPLES
from workbook.dumps import check_golden

from sheetcalc.domain.inputs import Inputs
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.templates_folder import templates_folder
from sheetcalc.workbook.blank import blank_book, filled_book
from sheetcalc.workbook.columns import Kind
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.guide import steps
from sheetcalc.workbook.headers import shown_header, units_of
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.settings import SETTINGS
from sheetcalc.workbook.sheet import BookModel
from sheetcalc.workbook.template_data import template_records, typed

System = Literal["metric", "us"]
SYSTEMS: tuple[System, ...] = ("metric", "us")
STYLE = load_house_style()


def written(model: BookModel) -> bytes:
    return write_book(model, STYLE, named_styles=True)


def opened(model: BookModel) -> Workbook:
    return load_workbook(io.BytesIO(written(model)))


def read_back(model: BookModel, folder: Path) -> tuple[Inputs, list[str]]:
    path = folder / "book.xlsx"
    path.write_bytes(written(model))
    inputs, findings = to_inputs(start_reading(path).result())
    return inputs, [f"{f.code} {f.source.tab} {f.source.row} {f.column}" for f in findings]


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_blank_workbook_is_as_it_was_reviewed(system: System) -> None:
    check_golden(f"blank-{system}.txt", written(blank_book(system)))


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_tab_and_header_of_the_declaration_is_there(system: System) -> None:
    book = opened(blank_book(system))
    assert book.sheetnames == ["Guide", *(tab.key for tab in INPUT_TABS), "Lists"]
    for tab in INPUT_TABS:
        headers = [cell.value for cell in book[tab.key][4][: len(tab.columns)]]
        assert headers == [shown_header(c, units_of(system)) for c in tab.columns]
        assert book[tab.key]["A1"].value == tab.key
        assert book[tab.key]["A2"].value == tab.purpose
        assert book[tab.key].freeze_panes == "B5"
        assert tab.table in book[tab.key].tables


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_input_column_has_a_message_and_bounds_are_enforced(system: System) -> None:
    book = opened(blank_book(system))
    for tab in INPUT_TABS[1:]:
        validations = book[tab.key].data_validations.dataValidation
        assert len(validations) == len(tab.columns)
        for column, validation in zip(tab.columns, validations, strict=True):
            assert validation.showInputMessage
            assert 0 < len(validation.prompt) <= 255
            if column.default and not column.required:
                assert "mpty" in validation.prompt, column.header
            if column.low is not None or column.kind in {Kind.CHOICE, Kind.YES_NO}:
                assert validation.showErrorMessage
                assert validation.errorStyle in {None, "stop"}


def test_names_and_codes_are_text_and_percents_are_percents() -> None:
    book = opened(blank_book("metric"))
    assert book["Rooms"]["A5"].number_format == "@"
    assert book["Tiles"]["A5"].number_format == "@"
    assert book["Waste factors"]["E5"].number_format == "0.0##%"
    assert book["Heating cables"]["G5"].number_format == "0.0##%"


def test_a_tax_of_8_25_percent_is_shown_as_that_where_it_is_typed_and_in_the_quote() -> None:
    styles = load_house_style().styles
    for key in ("input_percent", "sum_percent"):
        decimals = styles[key].number_format.removesuffix("%").partition(".")[2]
        assert len(decimals) >= len("25"), key


def test_a_length_lets_tape_notation_through_and_bounds_plain_numbers() -> None:
    rule = next(
        v for v in opened(blank_book("metric"))["Rooms"].data_validations.dataValidation
        if "E5" in v.sqref
    )  # fmt: skip
    assert rule.type == "custom"
    assert rule.formula1 == (
        "IF(ISNUMBER(E5),AND(ROUND(E5*sheetcalc_room_mm,9)>=300,"
        "ROUND(E5*sheetcalc_room_mm,9)<=30000),ISTEXT(E5))"
    )


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_name_that_a_validation_uses_is_defined(system: System) -> None:
    book = opened(blank_book(system))
    for sheet in book:
        for validation in sheet.data_validations.dataValidation:
            if validation.type == "list":
                assert validation.formula1 in book.defined_names


@pytest.mark.parametrize("system", SYSTEMS)
def test_a_list_holds_the_words_of_its_column(system: System) -> None:
    book = opened(blank_book(system))
    piece_kinds = book.defined_names["sheetcalc_list_kind_floor_pieces"].attr_text
    sheet, cells = piece_kinds.split("!")
    words = [row[0].value for row in book[sheet][cells.replace("$", "")]]
    kind = next(t for t in INPUT_TABS if t.key == "Floor pieces").by_header["Kind"]
    assert tuple(words) == kind.choices


@pytest.mark.parametrize("system", SYSTEMS)
def test_nothing_is_merged_hidden_or_commented(system: System) -> None:
    for sheet in opened(blank_book(system, example=True)):
        assert not sheet.merged_cells.ranges
        assert sheet.sheet_state == "visible"
        assert not any(cell.comment for row in sheet.iter_rows() for cell in row)


@pytest.mark.parametrize("system", SYSTEMS)
def test_links_of_the_guide_lead_to_tabs_that_are_there(system: System) -> None:
    book = opened(blank_book(system))
    links = [c.hyperlink.location for row in book["Guide"] for c in row if c.hyperlink]
    assert {link.split("!")[0].strip("'") for link in links} == set(book.sheetnames) - {"Guide"}


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_job_tab_has_every_setting_once_with_its_default(system: System) -> None:
    sheet = opened(blank_book(system))["Job"]
    rows = {row[0].value: row[1].value for row in sheet.iter_rows(min_row=5) if row[0].value}
    assert rows == {s.label: s.default(system) for s in SETTINGS}


@pytest.mark.parametrize("system", SYSTEMS)
def test_a_blank_job_reads_as_its_defaults_and_only_asks_for_records(
    system: System, tmp_path: Path
) -> None:
    inputs, findings = read_back(blank_book(system), tmp_path)
    assert {f.split()[1] for f in findings} == {"Rooms", "Finishes", "Tiles"}
    assert inputs.job.units == units_of(system)
    assert inputs.catalogue.waste_factors
    assert inputs.catalogue.labour


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_example_is_read_without_a_finding(system: System, tmp_path: Path) -> None:
    inputs, findings = read_back(blank_book(system, example=True), tmp_path)
    assert findings == []
    kinds = {piece.kind.value for room in inputs.rooms for piece in room.pieces}
    assert {"floor", "void", "shower floor", "curb", "drain", "doorway", "thermostat"} <= kinds
    assert {"face", "wet area", "niche", "opening"} <= {
        face.part.value for room in inputs.rooms for face in room.faces
    }
    assert any(room.handed for room in inputs.rooms)
    assert len(inputs.catalogue.suppliers) >= 2


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_guide_alone_suffices_for_one_bathroom(system: System, tmp_path: Path) -> None:
    """Only what its five steps name is filled in, with the values that it shows."""
    words = " ".join(step.text for step in steps(system))
    tile = {"Code": "A", "Description": "Floor tile", "Pieces per box": 6}
    if system == "us":
        tile |= {"Length": 18, "Width": 18, "Thickness": 0.375}
        joint, notch, length = "1/8", "square 1/2 x 1/2 x 1/2 in", "8' 0\""
    else:
        tile |= {"Length": 600, "Width": 300, "Thickness": 9}
        joint, notch, length = "3", "square 10 x 10 x 10 mm", "2400 mm"
    for shown in (joint, notch, length):
        assert shown in words
    finish = {
        "Finish": "Plain", "Surface": "floor", "Tile": "A",
        "Joint": typed(joint, Kind.SMALL_LENGTH), "Trowel notch": notch,
    }  # fmt: skip
    room = {"Room": "Bath", "Length": length, "Width": length, "Finish": "Plain"}
    book = filled_book(
        system, {"Tiles": [tile], "Finishes": [finish], "Rooms": [room]}, {"name": "One bathroom"}
    )
    inputs, findings = read_back(book, tmp_path)
    assert findings == []
    assert [room.name for room in inputs.rooms] == ["Bath"]


def test_templates_are_found_in_the_checkout_or_the_package() -> None:
    folder = templates_folder()
    assert (folder / "house_style.toml").is_file()
    assert {"metric", "us"} <= {path.name for path in folder.iterdir()}


@pytest.mark.parametrize("system", SYSTEMS)
def test_templates_hold_waste_labour_and_a_catalogue(system: System) -> None:
    records = template_records(system)
    assert {"Tiles", "Bags and pails", "Rolls and sheets", "Heating cables", "Sundries",
            "Waste factors", "Labour", "Suppliers"} <= set(records)  # fmt: skip


def test_a_template_with_an_unknown_column_is_refused(tmp_path: Path) -> None:
    (tmp_path / "metric").mkdir()
    (tmp_path / "house_style.toml").write_text("", encoding="utf-8")
    (tmp_path / "metric" / "tiles.csv").write_text("Code,Colour\nA,red\n", encoding="utf-8")
    with pytest.raises(ValueError, match="Colour"):
        template_records("metric", tmp_path)


def test_a_template_with_words_for_a_number_is_refused(tmp_path: Path) -> None:
    (tmp_path / "metric").mkdir()
    (tmp_path / "house_style.toml").write_text("", encoding="utf-8")
    (tmp_path / "metric" / "tiles.csv").write_text("Code,Price\nA,dear\n", encoding="utf-8")
    with pytest.raises(ValueError, match="line 2, Price"):
        template_records("metric", tmp_path)


@pytest.mark.parametrize("name", ["alder-street-us.xlsx", "larch-court.xlsx", "small-room.xlsx"])
def test_a_sample_is_read_without_a_finding(name: str, tmp_path: Path) -> None:
    _, findings = read_back(SAMPLES[name](), tmp_path)
    assert findings == []


def test_larch_court_is_48_bathrooms_of_6_types_on_4_floors_from_5_suppliers(
    tmp_path: Path,
) -> None:
    inputs, _ = read_back(SAMPLES["larch-court.xlsx"](), tmp_path)
    assert sum(room.count for room in inputs.rooms) == 48
    assert len({room.same_as or room.name for room in inputs.rooms}) == 6
    assert len(inputs.phases) == 4
    assert len(inputs.catalogue.suppliers) == 5


def test_the_workbook_of_mistakes_has_at_least_25_different_ones(tmp_path: Path) -> None:
    _, findings = read_back(SAMPLES["mistakes.xlsx"](), tmp_path)
    assert len({finding.split()[0] for finding in findings}) >= 25

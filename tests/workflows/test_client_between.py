"""Another program rewrites the workbook between two runs: nothing is lost, nothing is doubled."""

import shutil
from pathlib import Path

import openpyxl
import pandas as pd
import pytest
from openpyxl.worksheet.worksheet import Worksheet
from recalc import cells, convert
from whole_program import ages, check, codes, example, find, rows_of, run, tabs, value_at
from xml_edits import Edits

from sheetcalc import workflows
from sheetcalc.domain.inputs import Inputs
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.excel.tabs.own_tabs import find_in_file
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.results import TYPED_HEADERS


def inputs_of(book: Path) -> Inputs:
    inputs, findings = to_inputs(start_reading(book).result())
    assert inputs is not None
    assert [f.code for f in findings if "UNUSUAL" not in f.code] == []
    return inputs


def tabs_of(book: Path) -> list[tuple[str, str, bool]]:
    return [(tab.key, tab.sheet_name, tab.edited) for tab in find_in_file(book, TYPED_HEADERS).tabs]


def look_of(sheet: Worksheet) -> dict[str, object]:
    """What a spreadsheet program may drop of one of our tabs."""
    tables = {table.name: table for table in sheet.tables.values()}
    styles = {name: t.tableStyleInfo and t.tableStyleInfo.name for name, t in tables.items()}
    return {
        "tables": {name: t.ref for name, t in tables.items()},
        "table styles": styles,
        "frozen": sheet.freeze_panes,
        "print titles": sheet.print_title_rows,
        "pictures": len(sheet._images),  # noqa: SLF001 - the library has no other way
        "rules": len(sheet.conditional_formatting),
        "calculated columns": {
            name: [c.name for c in t.tableColumns if c.calculatedColumnFormula is not None]
            for name, t in tables.items()
        },
    }


@pytest.fixture(scope="module")
def by_office(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example after a takeoff, saved by headless LibreOffice, which rewrites everything."""
    folder = tmp_path_factory.mktemp("office")
    book = example(folder / "example.xlsx")
    log = find(book, "Resistance log", "Reading")
    with Edits(book) as edits:
        edits.type("Resistance log", log, 108.5)
    return convert(book, "xlsx", folder / "saved")


@pytest.fixture
def saved(by_office: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(by_office, tmp_path / "saved.xlsx"))


@pytest.mark.libreoffice
def test_libreoffice_in_between_changes_no_input(saved: Path, tmp_path: Path) -> None:
    before, after = inputs_of(example(tmp_path / "before.xlsx")), inputs_of(saved)
    for name in Inputs.__slots__:
        if name != "readings":
            assert getattr(after, name) == getattr(before, name), name
    assert [r.reading_ohm for r in after.readings if r.reading_ohm is not None] == [108.5]
    assert ages(saved) == ["RESULTS-CURRENT"]


@pytest.mark.libreoffice
def test_after_libreoffice_our_tabs_are_known_and_none_is_doubled(
    saved: Path, tmp_path: Path
) -> None:
    before = example(tmp_path / "before.xlsx")
    assert tabs_of(saved) == tabs_of(before)
    report = run(saved)
    assert tabs(saved) == tabs(before)
    assert tabs_of(saved) == tabs_of(before)
    assert not {"RESULT-TAB-EDITED", "RESULT-TAB-FOREIGN"} & set(codes(report))
    once = saved.read_bytes()
    run(saved)
    assert saved.read_bytes() == once


@pytest.mark.libreoffice
def test_what_libreoffice_drops_of_result_tabs_is_made_again(saved: Path, tmp_path: Path) -> None:
    wanted = openpyxl.load_workbook(example(tmp_path / "before.xlsx"))
    dropped = openpyxl.load_workbook(saved)
    run(saved)
    made = openpyxl.load_workbook(saved)
    results = [sheet_name for _, sheet_name, _ in tabs_of(saved)]
    for name in results:
        assert look_of(made[name]) == look_of(wanted[name]), name
    assert dropped["Takeoff"].freeze_panes is None, "it keeps them by now: then say so"
    assert dropped["Takeoff"].tables["OutTakeoff"].tableStyleInfo is None


@pytest.mark.libreoffice
def test_readings_survive_libreoffice_and_a_run(saved: Path) -> None:
    run(saved)
    log = find(saved, "Resistance log", "Reading")
    assert value_at(saved, "Resistance log", log) == 108.5


@pytest.fixture
def by_openpyxl(tmp_path: Path) -> Path:
    """The example after a takeoff, loaded and saved by openpyxl, which empties stored values."""
    path = example(tmp_path / "example.xlsx")
    workbook = openpyxl.load_workbook(path)
    workbook.save(path)
    return path


def test_openpyxl_in_between_changes_no_input_and_doubles_no_tab(
    by_openpyxl: Path, tmp_path: Path
) -> None:
    before = example(tmp_path / "before.xlsx")
    assert inputs_of(by_openpyxl) == inputs_of(before)
    assert ages(by_openpyxl) == ["RESULTS-CURRENT"]
    report = run(by_openpyxl)
    assert tabs(by_openpyxl) == tabs(before)
    assert not {"RESULT-TAB-EDITED", "RESULT-TAB-FOREIGN"} & set(codes(report))
    assert texts_of(by_openpyxl) == texts_of(before)


def texts_of(book: Path) -> dict[tuple[str, str], str]:
    return {
        (sheet, address): str(value)
        for (sheet, address), value in cells(book).items()
        if address != "A3"  # its figure is of the file's bytes
    }


def test_a_formula_in_an_input_that_openpyxl_emptied_is_a_finding(tmp_path: Path) -> None:
    path = example(tmp_path / "example.xlsx")
    place = find(path, "Rooms", "Length")
    with Edits(path) as edits:
        edits.type("Rooms", place, 2.4, formula="1.2*2")
    assert check(path).count("FORMULA-WITHOUT-VALUE") == 0
    workbook = openpyxl.load_workbook(path)
    workbook.save(path)
    report = workflows.takeoff(path, lambda *_: None)
    assert report.exit_code == 1
    found = [f for f in report.findings if f.status == "error" and f.cell == place]
    assert [f.code for f in found] == ["FORMULA-WITHOUT-VALUE"]


@pytest.fixture(scope="module")
def by_pandas(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Every sheet of the example as pandas writes it: values alone, no tables, no names."""
    path = example(tmp_path_factory.mktemp("pandas") / "example.xlsx")
    frames = pd.read_excel(path, sheet_name=None, header=None, dtype=object)
    with pd.ExcelWriter(path, engine="openpyxl") as writer:
        for name, frame in frames.items():
            frame.to_excel(writer, sheet_name=name, header=False, index=False)
    return path


def test_after_pandas_inputs_are_read_by_their_headers(by_pandas: Path, tmp_path: Path) -> None:
    before = example(tmp_path / "before.xlsx")
    assert openpyxl.load_workbook(by_pandas)["Rooms"].tables == {}
    assert inputs_of(by_pandas) == inputs_of(before)


def test_result_tabs_that_pandas_wrote_are_the_users_with_a_finding(
    by_pandas: Path, tmp_path: Path
) -> None:
    book = Path(shutil.copy(by_pandas, tmp_path))
    old = tabs(book)
    content = values(book, old)
    report = run(book)
    foreign = {f.found.split('"')[1] for f in report.findings if f.code == "RESULT-TAB-FOREIGN"}
    assert {"Findings", "Takeoff", "Resistance log", "Quote"} <= foreign
    assert {name for name in old if name not in foreign} == set(old[: old.index("Findings")])
    assert tabs(book)[: len(old)] == old
    assert values(book, old) == content
    assert "Takeoff (2)" in tabs(book)
    once = book.read_bytes()
    run(book)
    assert book.read_bytes() == once


def values(book: Path, names: list[str]) -> dict[str, tuple[tuple[object, ...], ...]]:
    return {name: rows_of(book, name) for name in names}

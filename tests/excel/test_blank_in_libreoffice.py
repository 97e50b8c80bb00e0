"""The blank workbook opens clean in another program: nothing is lost, names and rules work."""

from collections.abc import Hashable
from functools import partial
from pathlib import Path
from typing import Literal

import pytest
import recalc
from msgspec.structs import replace
from openpyxl import load_workbook

from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.blank import blank_book
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.sheet import Cell, SheetModel

pytestmark = pytest.mark.libreoffice


TOGETHER = recalc.Together()


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> recalc.Books:
    """A workbook by the function that wrote it; all were recalculated in one start."""
    return TOGETHER.recalculated(tmp_path_factory.mktemp("blank"))


def test_tables_names_and_validations_survive_opening_and_saving(tmp_path: Path) -> None:
    blank = tmp_path / "blank.xlsx"
    blank.write_bytes(write_book(blank_book("metric"), load_house_style(), named_styles=True))
    saved = recalc.convert(blank, "xlsx", tmp_path / "saved")
    one, two = load_workbook(blank), load_workbook(saved)
    assert two.sheetnames == one.sheetnames
    assert set(one.defined_names) <= set(two.defined_names)
    for sheet in one:
        after = two[sheet.title]
        assert set(after.tables) == set(sheet.tables)
        rules = {v.type for v in sheet.data_validations.dataValidation}
        assert rules <= {v.type for v in after.data_validations.dataValidation}
        assert [c.value for c in after[4]] == [c.value for c in sheet[4]]


def probed(path: Path, system: Literal["metric", "us"]) -> None:
    """What validations look at: the Job's units (exact factors), the used rows of a column."""
    made = blank_book(system, example=True)
    probes = {
        (5, 1): Cell(0, formula="sheetcalc_room_mm"),
        (6, 1): Cell(0, formula="sheetcalc_small_mm"),
        (7, 1): Cell(0, formula="ROWS(sheetcalc_ref_suppliers_supplier)"),
        (8, 1): Cell(0, formula='COUNTIF(sheetcalc_list_kind_floor_pieces,"curb")'),
        (9, 1): Cell(0, formula="ROUND(Tiles!G5*sheetcalc_small_mm,9)>=5"),
    }
    probe = SheetModel("probe", "Probe", "Probe", "Names, calculated.", loose=probes)
    path.write_bytes(write_book(replace(made, sheets=(*made.sheets, probe)), load_house_style()))


METRIC = TOGETHER.book(partial(probed, system="metric"))
US = TOGETHER.book(partial(probed, system="us"))


@pytest.mark.parametrize(
    ("system", "room_mm", "small_mm"), [(METRIC, 1000, 1), (US, 304.8, 25.4)], ids=["metric", "us"]
)
def test_names_for_units_and_references_are_calculated(
    system: Hashable, room_mm: float, small_mm: float, book: recalc.Books
) -> None:
    found = book(system).after
    suppliers = sum(
        1 for (tab, at) in found if tab == "Suppliers" and at[0] == "A" and int(at[1:]) > 4
    )
    values = [found["Probe", f"A{row}"] for row in range(5, 10)]
    assert values == [pytest.approx(room_mm), pytest.approx(small_mm), suppliers, 1, True]

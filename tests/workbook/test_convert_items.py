"""Item cells of Build-up that name several codes."""

from raw_books import book

from sheetcalc.domain.finish import LayerRole, SurfaceKind
from sheetcalc.workbook.convert import to_inputs

ROLL = {"Description": "Underlay", "Kind": "underlay roll", "Width": 1, "Length": 10}
ROLLS = [{"Code": "U-1", **ROLL}, {"Code": "U-2", **ROLL, "Length": 25}]
LAYER = {"Finish": "Plain", "Surface": "floor", "Order": 1, "Role": "underlay"}


def test_several_codes_are_read_in_the_catalogues_spelling() -> None:
    raw = book(Rolls_and_sheets=ROLLS, Build_up=[{**LAYER, "Item": "u-1 ;U-2; u-1"}])
    inputs, findings = to_inputs(raw)
    assert [f.code for f in findings] == ["SETTINGS-NOT-THERE"]
    assert inputs is not None
    layer = inputs.finishes["Plain"].layer(SurfaceKind.FLOOR, LayerRole.UNDERLAY)
    assert layer is not None
    assert (layer.item, layer.items) == ("U-1; U-2", ("U-1", "U-2"))


def test_a_code_among_several_that_nobody_sells_is_found() -> None:
    raw = book(Rolls_and_sheets=ROLLS, Build_up=[{**LAYER, "Item": "U-1; X-9"}])
    _, findings = to_inputs(raw)
    unknown = [f.facts["code"] for f in findings if f.code == "ITEM-NOT-IN-CATALOGUE"]
    assert unknown == ["X-9"]

"""Finished height at the doorway and dead load, layer by layer."""

from math import sqrt

import pytest
from hand_made import (
    MM,
    bag,
    box,
    codes,
    context,
    layer,
    only,
    quantities,
    roll,
    room,
    spec,
    square_notch,
    tile,
)
from msgspec.structs import replace

from sheetcalc.domain.catalogue import BagKind, RollKind
from sheetcalc.domain.finish import LayerRole, SurfaceKind
from sheetcalc.domain.room import Surface
from sheetcalc.lines.assembly import FINISHED_HEIGHT, FLOOR_LOAD

BED = 0.010 * 0.010 * sqrt(0.5) / 0.020
UNDER = 0.006 * sqrt(0.5) / 2
ROWS = (
    layer(LayerRole.LEVELLING, "V", mean_depth_mm320=5 * MM),
    layer(LayerRole.UNDERLAY, "U", order=2, bed_mortar="M", notch=square_notch(6 * MM)),
)
ITEMS = (
    tile(box_weight_kg=16.2),
    bag("M", BagKind.MORTAR),
    roll("U", RollKind.UNDERLAY_ROLL, thickness_mm320=3 * MM, weight_kg=15.0),
)


def test_the_layers_add_up_to_the_finished_height() -> None:
    # levelling 5, bed under 2.12, underlay 3, bed 3.54, skim 1, tile 8 mm
    old_floor = room(take_up="tile", take_up_thickness_mm320=20 * MM)
    ctx = context(*ITEMS, specs=(spec(),), layers=ROWS, in_room=old_floor)
    line = only(FINISHED_HEIGHT, ctx)
    assert line.each_si == pytest.approx(0.005 + UNDER + 0.003 + BED + 0.001 + 0.008)
    assert line.description == "Finished height at door"
    assert "less what is taken up 20 mm: step 2.66 mm" in line.basis
    assert "asks for a flat threshold or edge trim" in line.basis


def test_a_high_step_is_a_warning() -> None:
    ctx = context(*ITEMS, specs=(spec(),), layers=ROWS)
    assert codes(FINISHED_HEIGHT, ctx) == ["STEP-AT-DOORWAY"]


def test_a_room_without_doorways_has_no_threshold() -> None:
    ctx = context(*ITEMS, specs=(spec(),), layers=ROWS, in_room=room(doorways=()))
    assert quantities(FINISHED_HEIGHT, ctx) == []


def test_dead_load_of_the_assembly() -> None:
    # per m2: levelling 5 mm x 2000, beds x 1650, underlay 15 kg on 30 m2, 16.2 kg of tile on 0.9
    line = only(FLOOR_LOAD, context(*ITEMS, specs=(spec(),), layers=ROWS))
    per_m2 = 10 + (UNDER + BED + 0.001) * 1650 + 0.5 + 18
    assert line.each_si == pytest.approx(6 * per_m2)
    assert "tile 18 kg/m²" in line.basis


def test_knobs_filled_with_mortar_weigh() -> None:
    knobbed = replace(ITEMS[2], knob_pitch_mm320=30 * MM, fill_m=0.003)
    plain = only(FLOOR_LOAD, context(*ITEMS, specs=(spec(),), layers=ROWS)).each_si
    filled = only(FLOOR_LOAD, context(*ITEMS[:2], knobbed, specs=(spec(),), layers=ROWS)).each_si
    assert filled - plain == pytest.approx(6 * 0.003 * 1650)


def test_a_wet_room_has_its_height_and_load_on_the_shower_floor() -> None:
    # screed 40, bed 3.54, skim 1, tile 8 mm; per m2: 40 mm x 2000, bed and skim x 1650, tile 18 kg
    kind = SurfaceKind.SHOWER_FLOOR
    in_room = room(Surface("shower floor S", kind, box(2000 * MM, 1500 * MM)))
    rows = (layer(LayerRole.SCREED, "V", kind, mean_depth_mm320=40 * MM),)
    ctx = context(ITEMS[0], specs=(spec(kind),), layers=rows, in_room=in_room)
    (height,) = quantities(FINISHED_HEIGHT, ctx)
    assert height.each_si == pytest.approx(0.040 + BED + 0.001 + 0.008)
    assert "the falls rise from the drain" in height.basis
    assert only(FLOOR_LOAD, ctx).each_si == pytest.approx(3 * (80 + (BED + 0.001) * 1650 + 18))


def test_an_untiled_floor_has_no_assembly() -> None:
    assert list(FLOOR_LOAD.work(context(*ITEMS, layers=ROWS))) == []

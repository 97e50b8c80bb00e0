import pytest

from sheetcalc.rules.allowances import WASTE_LINES, default_allowance
from sheetcalc.rules.bases import BASES
from sheetcalc.rules.cautions import (
    asbestos_presumed,
    box_weight_kg,
    needs_two_people,
    threshold_for_step,
)
from sheetcalc.rules.flatness import flatness_for
from sheetcalc.rules.materials import covering_density_kg_m3, is_stone
from sheetcalc.rules.membrane import bands_from_roll, water_test_load_kg

IN = 8128
MM = 320


def test_load_of_a_water_test() -> None:
    # 36 x 60 in pan, 2 in of water: 70.8 kg; 155.7 lb by 5.19 lb/ft2 per inch (ASTM D5957)
    load = water_test_load_kg(36 * 60 * 0.0254**2)
    assert load == pytest.approx(70.8, abs=0.051)
    assert load / 0.45359237 == pytest.approx(155.7, rel=0.003)


def test_bands_from_a_roll() -> None:
    # by hand
    assert bands_from_roll(1000 * MM, 125 * MM) == (8, 0)
    assert bands_from_roll(39 * IN, 5 * IN) == (7, 4 * IN)


def test_a_heavy_box_of_tile() -> None:
    # 1.44 m2 x 10 mm x 2350 kg/m3
    weight = box_weight_kg(1.44, 0.010)
    assert weight == pytest.approx(33.84)
    assert needs_two_people(weight)


def test_two_people_above_the_load_constant() -> None:
    # 23 kg: NIOSH load constant, CCOHS page
    assert not needs_two_people(22.99)
    assert not needs_two_people(23)
    assert needs_two_people(23.01)


def test_asbestos_up_to_1980() -> None:
    # 29 CFR 1926.1101, as summarised by Cornerstone Training
    assert [y for y in (1900, 1979, 1980, 1981, None) if asbestos_presumed(y)] == [1900, 1979, 1980]


def test_flatness_turns_at_15_inches() -> None:
    # ANSI A108.02-4.2.2 as quoted in floortrendsmag 113806; the smaller tile's from memory
    assert flatness_for(15 * IN).words.startswith("1/8 in in 10 ft")
    assert flatness_for(15 * IN - 1).words.startswith("1/4 in in 10 ft")
    assert flatness_for(15 * IN - 1).source.endswith("from memory, not verified")


def test_thresholds_by_the_step() -> None:
    assert threshold_for_step(0.00635) == "a flat threshold or edge trim"
    assert threshold_for_step(-0.00636).startswith("a bevelled")
    assert threshold_for_step(0.0127).startswith("a bevelled")
    assert threshold_for_step(0.0128).startswith("a ramped")


@pytest.mark.parametrize("material", ["natural stone", "Marble", "travertine, honed", "Slate"])
def test_stones(material: str) -> None:
    assert is_stone(material)


@pytest.mark.parametrize("material", ["porcelain", "ceramic", "porcelain, marble look", "glass"])
def test_what_is_no_stone(material: str) -> None:
    assert not is_stone(material)


def test_densities_by_words() -> None:
    assert covering_density_kg_m3("tile and bed") == 2000
    assert covering_density_kg_m3("Resilient flooring and mastic") == 1400
    assert covering_density_kg_m3("timber flooring") == 700
    assert covering_density_kg_m3("who knows") == 2000


def test_the_contract_lists_27_bases_and_thermostats_and_pipes_are_two_more() -> None:
    own_units = {key for key in BASES if not key.startswith(("per ft of", "per lb of"))}
    assert len(own_units) == 27 + 2
    by_the_foot = {key.replace("per m of", "per ft of") for key in own_units if "per m of" in key}
    assert set(BASES) - own_units == {*by_the_foot, "per lb of another item"}
    assert {"per thermostat", "per pipe"} <= set(BASES)
    assert [key for key, basis in BASES.items() if basis.once_a_job] == ["per job"]


def test_the_allowance_that_says_most_wins() -> None:
    assert default_allowance("tile", "grid", "setting-out").share == 0.03
    assert default_allowance("tile", "grid", "area").share == 0.10
    assert default_allowance("tile", "diagonal grid", "area").share == 0.15
    assert default_allowance("mortar", "grid").share == 0.05
    assert default_allowance("underlay") is None
    assert "tile" in WASTE_LINES

"""Levelling compound, screed, primer and sealer on 6 m2."""

import pytest
from hand_made import MM, bag, codes, context, layer, only, quantities, spec, tile

from sheetcalc.domain.catalogue import BagKind
from sheetcalc.domain.finish import LayerRole
from sheetcalc.domain.quantity import PackBy
from sheetcalc.lines.poured import LEVELLING, PRIMER, SCREED, SEALER

LEVEL = bag("V", BagKind.LEVELLING_COMPOUND, yield_m3=0.0125)
PRIME = bag("P", BagKind.PRIMER, coverage_m2=40.0)
SEAL = bag("X", BagKind.SEALER, coverage_m2=12.0)


def test_levelling_by_mean_depth() -> None:
    # 6 m2 x 8 mm = 48 L
    row = layer(LayerRole.LEVELLING, "V", mean_depth_mm320=8 * MM)
    line = only(LEVELLING, context(LEVEL, layers=(row,)))
    assert line.each_si == pytest.approx(0.048)
    assert line.pack_by is PackBy.YIELD


def test_screed_by_mean_depth_in_a_named_bag() -> None:
    row = layer(LayerRole.SCREED, "V", mean_depth_mm320=65 * MM)
    assert only(SCREED, context(LEVEL, layers=(row,))).each_si == pytest.approx(0.390)


def test_a_depth_is_needed() -> None:
    ctx = context(LEVEL, layers=(layer(LayerRole.LEVELLING, "V"),))
    assert codes(LEVELLING, ctx) == ["DEPTH-MISSING"]


def test_no_density_is_assumed_for_a_levelling_compound() -> None:
    row = layer(LayerRole.LEVELLING, "V", mean_depth_mm320=8 * MM)
    ctx = context(bag("V", BagKind.LEVELLING_COMPOUND), layers=(row,))
    assert codes(LEVELLING, ctx) == ["BAG-WITHOUT-YIELD"]


def test_primer_by_coats() -> None:
    line = only(PRIMER, context(PRIME, layers=(layer(LayerRole.PRIMER, "P", coats=2),)))
    assert line.each_si == pytest.approx(12)
    assert line.pack_by is PackBy.COVERAGE
    one = only(PRIMER, context(PRIME, layers=(layer(LayerRole.PRIMER, "P"),)))
    assert one.each_si == pytest.approx(6)


def test_primer_without_coverage_is_an_error() -> None:
    ctx = context(bag("P", BagKind.PRIMER), layers=(layer(LayerRole.PRIMER, "P"),))
    assert codes(PRIMER, ctx) == ["BAG-WITHOUT-COVERAGE"]


def test_stone_is_sealed_twice() -> None:
    marble = tile(material="marble")
    line = only(SEALER, context(marble, SEAL, specs=(spec(sealer="X"),)))
    assert line.each_si == pytest.approx(12)
    assert "before setting and before grouting: common practice, no source" in line.basis


def test_what_is_no_stone_is_sealed_once_where_a_sealer_is_named() -> None:
    assert only(SEALER, context(tile(), SEAL, specs=(spec(sealer="X"),))).each_si == 6
    assert quantities(SEALER, context(tile(), SEAL, specs=(spec(),))) == []


def test_stone_without_a_sealer_is_noted() -> None:
    ctx = context(tile(material="marble"), SEAL, specs=(spec(),))
    assert codes(SEALER, ctx) == ["STONE-NOT-SEALED"]

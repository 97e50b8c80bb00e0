"""Cautions of the whole job."""

import pytest
from hand_made import (
    IN,
    MM,
    bag,
    codes,
    context,
    findings,
    floor,
    quantities,
    setting_out,
    spec,
    tile,
)
from msgspec.structs import replace

from sheetcalc.domain.catalogue import BagKind
from sheetcalc.domain.measure import MILLILITRE, POUND
from sheetcalc.domain.setting_out import CutPiece, CutShape
from sheetcalc.lines.cautions import DUST, FLATNESS, LIFTS
from sheetcalc.lines.cuts import CUTS
from sheetcalc.lines.line import JobContext
from sheetcalc.lines.mortar import MORTAR
from sheetcalc.lines.tile import TILE
from sheetcalc.rules.pack_contents import pack_weight


def job_of(*items: object) -> JobContext:
    pieces = (CutPiece(CutShape.STRAIGHT, 150 * MM, 300 * MM, (), 22),)
    ctx = context(*items, specs=(spec(),), outs=(setting_out(floor(), pieces=pieces),))
    lines = [x for line in (TILE, CUTS, MORTAR) for x in quantities(line, ctx)]
    return JobContext(ctx.job, {"F": ctx.finish}, ctx.catalogue, (ctx.work,), tuple(lines))


def test_a_box_above_23_kg_takes_two_people() -> None:
    # 1.44 m2 x 10 mm x 2350 kg/m3 = 33.84 kg; here 4 tiles of 600 x 600
    heavy = tile(
        length_mm320=600 * MM, width_mm320=600 * MM, thickness_mm320=10 * MM, pieces_per_box=4
    )
    (finding,) = findings(LIFTS, job_of(heavy))
    assert finding.code == "TWO-PERSON-LIFT"
    assert finding.facts["weight"] == "33.84 kg"
    assert finding.facts["how"] == (
        "worked out: 2350 kg/m³ for porcelain, from memory, not verified"
    )


def test_a_box_of_stone_is_heavier_than_one_of_porcelain() -> None:
    # 2 x 0.36 m2 x 12.5 mm = 9 L: 21.15 kg of porcelain (2350 kg/m3), 24.30 kg of stone (2700)
    slab = tile(
        length_mm320=600 * MM, width_mm320=600 * MM, thickness_mm320=25 * MM // 2, pieces_per_box=2
    )
    assert codes(LIFTS, job_of(slab)) == []
    (finding,) = findings(LIFTS, job_of(replace(slab, material="natural stone")))
    assert finding.facts["weight"] == "24.3 kg"
    assert finding.facts["how"] == (
        "worked out: 2700 kg/m³ for natural stone, from memory, not verified"
    )


def test_the_boxs_own_weight_wins() -> None:
    assert codes(LIFTS, job_of(tile(box_weight_kg=23.0))) == []
    assert codes(LIFTS, job_of(tile(box_weight_kg=23.1))) == ["TWO-PERSON-LIFT"]


def test_bags_are_lifted_too_where_they_are_used() -> None:
    sack = bag("M", BagKind.MORTAR, pack_size=55.0, pack_unit=POUND)
    idle = bag("M9", BagKind.MORTAR, pack_size=40.0)
    assert [f.facts["code"] for f in findings(LIFTS, job_of(tile(), sack, idle))] == ["M"]


def test_a_bag_without_a_weight_weighs_what_it_holds_and_the_finding_says_so() -> None:
    (light,) = findings(LIFTS, job_of(tile(), bag("M", BagKind.MORTAR, pack_size=25.0)))
    assert light.facts["weight"] == "25 kg"
    assert light.facts["how"] == "Pack size; no Pack weight given"
    given = bag("M", BagKind.MORTAR, pack_size=20.0, pack_weight_kg=23.5)
    (finding,) = findings(LIFTS, job_of(tile(), given))
    assert (finding.facts["weight"], finding.facts["how"]) == ("23.5 kg", "Pack weight")
    assert pack_weight(bag("S", BagKind.SEALANT, pack_size=310.0, pack_unit=MILLILITRE)) is None
    assert pack_weight(bag("M", BagKind.MORTAR, pack_size=50.0, pack_unit=POUND)) == pytest.approx(
        22.6796185  # 50 x 0.45359237
    )


def test_cuts_bring_the_caution_on_dust() -> None:
    (finding,) = findings(DUST, job_of(tile()))
    assert (finding.code, finding.facts["cuts"]) == ("SAW-WITH-WATER", 46)


def test_flatness_by_the_longest_edge() -> None:
    long = tile(length_mm320=15 * IN)
    assert "1/8 in in 10 ft" in str(findings(FLATNESS, job_of(long))[0].facts["flatness"])
    assert "1/4 in in 10 ft" in str(findings(FLATNESS, job_of(tile()))[0].facts["flatness"])


def test_a_mosaic_goes_by_its_chip() -> None:
    sheet = tile(length_mm320=400 * MM, chip_length_mm320=48 * MM, chip_width_mm320=48 * MM)
    assert "1/4 in in 10 ft" in str(findings(FLATNESS, job_of(sheet))[0].facts["flatness"])

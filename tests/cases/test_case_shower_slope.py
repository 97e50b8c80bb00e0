"""Falls of the shower: a pan of 36 x 60 in, a channel, and a curb's height."""

import pytest
from hand_made import IN, MEASURES, METRIC, MM, US, codes, context, quantities, room
from msgspec.structs import replace

from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.room import Fixture, PieceKind
from sheetcalc.domain.room_measures import ShowerMeasures
from sheetcalc.lines.line import JobContext
from sheetcalc.lines.shower_slope import SHOWER_CHECKS, SHOWER_SLOPE

INCH = 0.0254
PAN = ShowerMeasures(
    surface="shower floor S", area_m2=36 * 60 * INCH**2,
    drains=1, channel=False, edge_distance_m=30 * INCH, corner_distance_m=34.986 * INCH,
    wall_edge_m=0.0, curb_edge_m=0.0, inside_corners=0, outside_corners=0,
)  # fmt: skip
QUARTER_INCH_A_FOOT = 0.25 / 12


def rises(shower: ShowerMeasures, slope: float) -> dict[str, float]:
    job = replace(US, shower_slope=slope)
    ctx = context(in_room=room(measures=replace(MEASURES, showers=(shower,))), job=job)
    found = quantities(SHOWER_SLOPE, ctx)
    assert {line.count for line in found} <= {1}
    return {line.description.split()[-1]: line.each_si / INCH for line in found}


def test_the_rise_at_the_far_corner_and_at_the_far_edge() -> None:
    # by hand: sqrt(18^2 + 30^2) = 34.986 in; 0.729 in and 0.625 in at 1/4 in/ft
    found = rises(PAN, QUARTER_INCH_A_FOOT)
    assert found["corner"] == pytest.approx(0.729, abs=5e-4)
    assert found["edge"] == pytest.approx(0.625)


def test_a_us_basis_says_what_the_tape_shows() -> None:
    # 2 % of 34.986 in is 0.69972 in, 11.2 sixteenths; of 30 in 0.6 in, 9.6 sixteenths or 5/8
    told = {}
    for job in (US, METRIC):
        slope = replace(job, shower_slope=0.02)
        ctx = context(in_room=room(measures=replace(MEASURES, showers=(PAN,))), job=slope)
        told[job] = [line.basis for line in quantities(SHOWER_SLOPE, ctx)]
    corner, edge = told[US]
    assert '; 11/16" on a tape; with an edge that is level all round' in corner
    assert edge.endswith('; 5/8" on a tape')
    assert not any("tape" in basis for basis in told[METRIC])


def test_a_floor_that_falls_to_a_channel_has_one_rise() -> None:
    channel = replace(PAN, channel=True, edge_distance_m=1.2, corner_distance_m=1.2)
    assert rises(channel, 0.02) == {"edge": pytest.approx(0.024 / INCH)}


def test_a_shower_without_a_drain_has_no_falls() -> None:
    assert rises(replace(PAN, drains=0), 0.02) == {}


def checks(slope: float, curb_mm320: int | None = None) -> list[str]:
    curb = Fixture("C", PieceKind.CURB, None, None, curb_mm320, RowRef("Floor pieces", 9))
    in_room = room(measures=replace(MEASURES, showers=(PAN,)), fixtures=(curb,))
    ctx = context(in_room=in_room)
    job = replace(METRIC, shower_slope=slope)
    return codes(SHOWER_CHECKS, JobContext(job, {}, ctx.catalogue, (ctx.work,)))


@pytest.mark.parametrize(
    ("slope", "found"),
    [
        (0.0199, ["SHOWER-SLOPE-UNUSUAL"]),
        (0.02, []),
        (QUARTER_INCH_A_FOOT, []),
        (0.04, []),
        (0.0401, ["SHOWER-SLOPE-UNUSUAL"]),
    ],
)
def test_the_slope_is_held_against_2_and_4_percent(slope: float, found: list[str]) -> None:
    # IRC 2009 P2709.1, as quoted in The Building Code Forum
    assert checks(slope) == found


@pytest.mark.parametrize(
    ("height", "found"),
    [
        (2 * IN - 1, ["CURB-HEIGHT-UNUSUAL"]),
        (2 * IN, []),
        (100 * MM, []),
        (9 * IN, []),
        (9 * IN + 1, ["CURB-HEIGHT-UNUSUAL"]),
        (None, []),
    ],
)
def test_a_curb_is_held_against_2_and_9_inches(height: int | None, found: list[str]) -> None:
    # IRC 2009 P2709.1, as quoted in The Building Code Forum
    assert checks(0.02, height) == found

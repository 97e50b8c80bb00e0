"""Leads on one line and the room beside each other; corridors worked by hand."""

import pytest
from heated_rooms import bathroom, cable, planned
from room_rows import piece
from shapely import LineString, box

from sheetcalc.domain.job import Job
from sheetcalc.geometry.heating.lead_bundle import Crowded, LeadLine, most_crowded

FLOOR = box(0, 0, 3000, 2000)
RUN = LineString([(500, 1000), (2500, 1000)])


def along_the_run(edge: float, count: int, leads: int, right: float = 2000) -> list[LeadLine]:
    """Ways of some cables 12 mm from a run, past a thing on the floor that ends at an edge."""
    thing = box(1000, 0, right, edge)
    return [LeadLine(LineString([(2600, 988), (0, 988)]), leads, [thing]) for _ in range(count)]


@pytest.mark.parametrize(
    ("apart", "fitting"),
    [
        (40, 4),  # 10 off the run, then 30 to the edge of the thing: leads at 0, 10, 20, 30
        (39.5, 3),
        (30, 3),
        (20, 2),
        (15, 1),
    ],
)
def test_leads_lie_ten_millimetres_apart_between_a_cable_and_a_thing(
    apart: float, fitting: int
) -> None:
    found = most_crowded(along_the_run(1000 - apart, count=2, leads=2), FLOOR, [RUN])
    assert found == (None if fitting == 4 else Crowded(4, fitting))


def test_single_leads_need_half_the_room() -> None:
    assert most_crowded(along_the_run(980, count=2, leads=1), FLOOR, [RUN]) is None
    assert most_crowded(along_the_run(980, count=3, leads=1), FLOOR, [RUN]) == Crowded(3, 2)


def test_leads_that_go_different_ways_and_those_of_one_cable_are_not_pressed() -> None:
    (one,) = along_the_run(985, count=1, leads=2)
    other = LeadLine(LineString([(2600, 1200), (0, 1200)]), 2, one.things)
    assert most_crowded([one], FLOOR, [RUN]) is None
    assert most_crowded([one, other], FLOOR, [RUN]) is None


def test_a_stretch_as_short_as_a_hand_is_wide_is_not_told() -> None:
    for right, found in ((1090, None), (1110, Crowded(4, 1))):
        lines = along_the_run(985, count=2, leads=2, right=right)
        assert most_crowded(lines, FLOOR, [RUN]) == found


@pytest.mark.parametrize(("clear", "said"), [(76, []), (40, []), (39, ["COLD-LEADS-CROWDED"])])
def test_a_room_whose_cables_leave_little_beside_the_wall_says_so(
    clear: int, said: list[str]
) -> None:
    # the leads of two cables, two each, come along the near wall: 40 less 10 holds four
    room = bathroom(piece("T", "thermostat", None, 600, wall="left"), length=5000, width=4000)
    job = Job(clearance_wall_mm320=clear * 320)
    plans, findings = planned(
        room, cable("A", 10, 120, spacing=60), cable("B", 60, 720, spacing=60), job=job, pitch=None
    )
    assert len(plans) > 2
    assert [f.code for f in findings] == said
    assert all((f.facts["leads"], f.facts["fitting"]) == (4, 3) for f in findings)

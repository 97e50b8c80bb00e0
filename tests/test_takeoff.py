"""The pure middle: rooms that share their plans, base courses as surfaces."""

from msgspec.structs import replace
from roll_jobs import sample_inputs

from sheetcalc.geometry.rooms.base_course import with_base_course
from sheetcalc.takeoff import calculate
from tests import hand_made


def test_a_base_course_is_a_surface_for_each_straight_stretch() -> None:
    """A 2 m x 1.5 m room with a 0.8 m door in the near wall: stretches worked by hand."""
    room = hand_made.room()
    tile = hand_made.tile()
    stretches = (300 * 320, 900 * 320, 1500 * 320, 2000 * 320, 1500 * 320)
    measures = replace(room.measures, base_stretches_mm320=stretches)
    based = with_base_course(replace(room, measures=measures), tile)
    courses = [s for s in based.surfaces if s.kind.value == "base"]
    assert [s.region.bounds for s in courses] == [(0, 0, x, tile.width_mm320) for x in stretches]
    assert sum(s.open_edges_mm320 for s in courses) == 6200 * 320


def test_rooms_that_are_counted_without_names_have_a_circuit_each() -> None:
    # three alike bathrooms: three cables, three circuits, three readings at each stage
    inputs = sample_inputs("alder-street-us.xlsx")
    (room,) = inputs.rooms
    run = calculate(replace(inputs, rooms=(replace(room, count=3, copies=()),)))
    assert {tuple(c.name for c in plan.circuits) for plan in run.cable_plans} == {
        ("H1", "H2", "H3")
    }
    assert {len(plan.copies) for plan in run.cable_plans} == {3}
    (load,) = [line for line in run.lines if line.line == "heating circuit"]
    assert (load.each_si, load.count) == (1, 3)

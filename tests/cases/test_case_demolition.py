"""Demolition waste of 6 m2, and the caution on asbestos."""

import pytest
from hand_made import METRIC, MM, codes, context, findings, quantities, room
from msgspec.structs import replace

from sheetcalc.domain.measure import US_GALLON
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.lines.demolition import ASBESTOS, DEMOLITION, SKIPS
from sheetcalc.lines.line import JobContext

OLD_FLOOR = room(take_up="tile and bed", take_up_thickness_mm320=40 * MM)


def test_volume_is_loose_and_mass_in_place() -> None:
    # 6 m2 x 40 mm = 0.24 m3; x 1.5 loose; x 2000 kg/m3
    found = quantities(DEMOLITION, context(in_room=OLD_FLOOR))
    assert [x.each_si for x in found] == pytest.approx([0.36, 480])
    assert "0.24 m³ in place" in found[0].basis
    assert found[0].unit.symbol == "m³"


def test_rubble_in_a_job_of_gallons_is_in_cubic_feet() -> None:
    # 0.36 m3 = 12.713 ft3; nobody orders a skip of gallons
    us = replace(METRIC, units=replace(METRIC.units, volume=US_GALLON))
    loose, _ = quantities(DEMOLITION, context(in_room=OLD_FLOOR, job=us))
    assert loose.unit.symbol == "ft³"
    assert loose.unit.from_si(loose.each_si) == pytest.approx(0.36 / 0.3048**3)


def test_nothing_taken_up_is_no_waste() -> None:
    assert quantities(DEMOLITION, context()) == []


def test_a_thickness_is_needed() -> None:
    ctx = context(in_room=room(take_up="tile"))
    (finding,) = findings(DEMOLITION, ctx)
    assert (finding.code, finding.room) == ("TAKE-UP-WITHOUT-THICKNESS", "101")


def job_of(rooms: int, year: int | None = 1975) -> JobContext:
    ctx = context(in_room=replace(OLD_FLOOR, count=rooms))
    lines = tuple(quantities(DEMOLITION, ctx))
    job = replace(METRIC, year_built=year)
    return JobContext(job, {"F": ctx.finish}, ctx.catalogue, (ctx.work,), lines)


@pytest.mark.parametrize(("rooms", "skips"), [(1, 1), (16, 1), (17, 2)])
def test_skips_are_counted_once_for_the_job(rooms: int, skips: int) -> None:
    # 0.36 m3 a room in skips of 6 m3: 16 rooms are 5.76, 17 are 6.12
    (line,) = quantities(SKIPS, job_of(rooms))
    assert line.each_si == skips


def test_asbestos_is_presumed_up_to_1980() -> None:
    assert codes(ASBESTOS, job_of(1, 1980)) == ["ASBESTOS-PRESUMED"]
    assert codes(ASBESTOS, job_of(1, 1981)) == []
    assert codes(ASBESTOS, job_of(1, None)) == ["YEAR-BUILT-NOT-SAID"]


def test_no_caution_where_nothing_is_taken_up() -> None:
    ctx = context()
    job = replace(METRIC, year_built=1960)
    assert codes(ASBESTOS, JobContext(job, {}, ctx.catalogue, (RoomWork(room()),))) == []

"""Rooms worked out once for several: each has the lines that it has by itself."""

from itertools import chain
from pathlib import Path

import pytest
from hand_made import METRIC, MM, context, floor, room, setting_out, spec, tile
from msgspec.structs import replace

from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.room import Room
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.lines.alike import kinds_of
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.takeoff import take_off, take_off_room
from sheetcalc.takeoff import calculate
from sheetcalc.workbook.convert import to_inputs

SAMPLES = Path(__file__).parents[2] / "sample_workbooks"


def named(name: str, row: int, phase: str | None = "P1", **changes: object) -> Room:
    return room(name=name, copies=(name, f"{name} b"), phase=phase, source=RowRef("Rooms", row),
                **changes)  # fmt: skip


def works(*rooms: Room) -> list[RoomWork]:
    out = setting_out(floor())
    return [RoomWork(r, {"floor": replace(out, room=r.name)}) for r in rooms]


def test_rooms_are_of_one_kind_whatever_they_are_called_and_wherever_they_stand() -> None:
    kinds = kinds_of(works(named("1", 5), named("2", 6, "P2", note="by the lift"), named("3", 7)))
    assert kinds.of == (0, 0, 0)


@pytest.mark.parametrize(
    "other",
    [
        named("2", 6, count=3),
        named("2", 6, shape="another"),
        named("2", 6, take_up="ceramic tile", take_up_thickness_mm320=12 * MM),
        room(floor(), floor(key="floor 2"), name="2"),
        room(replace(floor(), source=RowRef("Floor pieces", 9)), name="2"),
    ],
)
def test_rooms_that_differ_in_anything_else_are_of_two_kinds(other: Room) -> None:
    assert kinds_of(works(named("1", 5), other, named("3", 7))).of == (0, 1, 0)


def test_rooms_that_are_cut_or_heated_otherwise_are_of_two_kinds() -> None:
    one, two = works(named("1", 5), named("2", 6))
    out = replace(two.setting_outs["floor"], tiles_opened=99)
    assert kinds_of([one, replace(two, setting_outs={"floor": out})]).of == (0, 1)


def test_lines_and_findings_carry_the_room_that_they_are_of() -> None:
    # what the room's own row says, what a finish's row says, and the doorway's
    take_up = {"take_up": "ceramic tile", "take_up_thickness_mm320": None}
    rooms = [named("1", 5, **take_up), named("2", 6, None, **take_up)]
    ctx = context(tile(), specs=(spec(),))
    taken = take_off(METRIC, ctx.finishes, ctx.catalogue, works(*rooms))
    for r in rooms:
        mine = [x for x in taken.lines if x.room == r.name]
        assert {x.phase for x in mine} == {r.phase or ""}
        assert {x.source for x in mine if x.line == "waits"} == {r.source}
        heights = [x.source for x in mine if x.line == "finished height"]
        assert heights == [RowRef("Floor pieces", 9)]
        (found,) = [f for f in taken.by_room[r.name] if f.code == "TAKE-UP-WITHOUT-THICKNESS"]
        assert (found.room, found.source) == (r.name, r.source)
        assert {f.room for f in taken.by_room[r.name] if f.source.tab == "Finishes"} == {""}


@pytest.fixture(scope="module")
def larch_court() -> Inputs:
    inputs, _ = to_inputs(start_reading(SAMPLES / "larch-court.xlsx").result())
    assert inputs is not None
    return inputs


@pytest.mark.parametrize(
    "settings",
    [{}, {"rooms_per_circuit": "several"}, {"offcuts": "whole job"}],
)
def test_every_room_of_a_job_has_the_lines_that_it_has_by_itself(
    larch_court: Inputs, settings: dict[str, str]
) -> None:
    inputs = replace(larch_court, job=replace(larch_court.job, **settings))
    run = calculate(inputs)
    assert len(kinds_of(run.works).firsts) < len(run.works)
    alone = [
        take_off_room(
            LineContext(
                inputs.job, inputs.finishes[w.room.finish], inputs.catalogue, w,
                finishes=inputs.finishes,
            )
        )
        for w in run.works
    ]  # fmt: skip
    lines = tuple(chain.from_iterable(lines for lines, _ in alone))
    assert tuple(line for line in run.lines if line.room) == lines
    assert all(f in run.findings for f in chain.from_iterable(found for _, found in alone))

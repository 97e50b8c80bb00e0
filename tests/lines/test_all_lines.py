"""What holds for every line, and the driver that works them all."""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import TypeVar

import pytest
from hand_made import (
    METRIC,
    MM,
    bag,
    context,
    finish,
    floor,
    room,
    setting_out,
    spec,
    sundry,
    tile,
)
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

import sheetcalc.lines as package
from sheetcalc.domain.catalogue import BagKind, WasteFactor
from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.measure import KILOGRAM
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.spread import Spread, alone
from sheetcalc.lines import JOB_LINES, LINES
from sheetcalc.lines.checks import check_catalogue
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.takeoff import TakenOff, take_off, take_off_room, unique
from sheetcalc.rules.allowances import WASTE_LINES
from sheetcalc.workbook.wording import WORDINGS

Given = TypeVar("Given")
Made = TypeVar("Made")
SOURCES = sorted(Path(package.__file__).parent.glob("*.py"))
ITEMS = (
    tile(),
    bag("M", BagKind.MORTAR, yield_m3=0.0145),
    bag("G", BagKind.GROUT, pack_size=5.0),
    sundry("AD", "per kg of another item", 0.05, of_item="G", pack_unit=KILOGRAM),
)


def plain(count: int = 2) -> LineContext:
    outs = (setting_out(floor()),)
    return context(*ITEMS, specs=(spec(),), outs=outs, in_room=room(count=count))


def test_keys_of_lines_are_told_once() -> None:
    keys = [line.key for line in LINES]
    assert len(keys) == len(set(keys))
    assert all(line.title and line.about for line in (*LINES, *JOB_LINES))


def test_every_default_waste_factor_is_for_a_line() -> None:
    keys = {line.key for line in LINES} | {"mats"}  # mats are a line of the underlay's file
    assert set(WASTE_LINES) <= keys


def test_every_code_that_a_line_finds_is_worded_and_words_fit_the_facts() -> None:
    found = {
        code
        for path in SOURCES
        for code in re.findall(r'"([A-Z]+(?:-[A-Z]+)+)"', path.read_text(encoding="utf-8"))
    }
    assert found <= set(WORDINGS), found - set(WORDINGS)


def test_sundries_see_the_lines_before_them() -> None:
    # 0.118 m2 x 8 mm x 1600 kg/m3 of grout, 0.05 kg for each
    lines, _ = take_off_room(plain())
    (admixture,) = [x for x in lines if x.item == "AD"]
    assert admixture.each_si == pytest.approx(0.118 * 0.008 * 1600 * 0.05)


def test_findings_of_a_finish_are_told_once_for_all_its_rooms() -> None:
    ctx = context(*ITEMS, specs=(spec(grout=None),))
    works = (ctx.work, RoomWork(room(name="102")))
    taken = take_off(METRIC, {"F": ctx.finish}, ctx.catalogue, works)
    said = [f for f in taken.findings if f.code == "ITEM-NOT-NAMED-ONE-TAKEN"]
    assert len(said) == 1
    assert {name: said[0] in found for name, found in taken.by_room.items()} == {
        "101": True,
        "102": True,
    }


def test_a_room_of_an_unknown_finish_is_passed_over() -> None:
    ctx = plain()
    taken = take_off(METRIC, {}, ctx.catalogue, (ctx.work,))
    assert [x for x in taken.lines if x.room] == []


@given(st.integers(1, 500))
def test_doubling_the_count_doubles_every_net_and_leaves_each_alone(count: int) -> None:
    once, _ = take_off_room(plain(count))
    twice, _ = take_off_room(plain(2 * count))
    assert [x.each_si for x in once] == [x.each_si for x in twice]
    # waits and heights don't add up over alike rooms
    single = {"waits", "finished height", "shower slope"}
    nets = [[x.net_si for x in lines if x.line not in single] for lines in (once, twice)]
    assert [2 * net for net in nets[0]] == pytest.approx(nets[1])
    assert {x.count for x in twice if x.line in single} == {1}


def test_what_is_ordered_names_an_item_its_tab_and_a_basis() -> None:
    lines, _ = take_off_room(plain())
    assert lines
    for line in lines:
        ordered = line.pack_by is not PackBy.NONE
        assert bool(line.item) == ordered, line
        assert bool(line.tab) == ordered
        assert line.basis


def test_alike_findings_are_kept_once_and_others_apart() -> None:
    one = Finding("A-B", RowRef("Rooms", 5), None, {"x": 1})
    other = replace(one, facts={"x": 2})
    assert unique([one, other, replace(one)]) == (one, other)


def test_waste_factors_for_no_line_and_sundries_of_nothing_are_found() -> None:
    waste = WasteFactor("tiles", None, None, None, 0.1, RowRef("Waste factors", 5))
    rows = (
        sundry("A", "per kg of another item"),
        sundry("B", "per kg of another item", of_item="GG"),
        sundry("C", "per kg of another item", of_item="G"),
    )
    ctx = context(*ITEMS, *rows, waste=(waste,))
    found = {f.code: f.facts for f in check_catalogue(ctx.catalogue)}
    assert set(found) == {"WASTE-FACTOR-FOR-NO-LINE", "SUNDRY-OF-NOTHING", "SUNDRY-OF-UNKNOWN"}
    assert str(found["WASTE-FACTOR-FOR-NO-LINE"]["nearest"]).startswith("tile")
    assert found["SUNDRY-OF-UNKNOWN"] == {"code": "B", "of": "GG", "nearest": "G"}


def test_one_plain_room_with_an_empty_catalogue_is_taken_off_without_an_error() -> None:
    # only Job, Rooms, Finishes and Tiles must be filled
    bare = spec(mortar=None, grout=None, sealant=None)
    ctx = context(tile(), specs=(bare,), outs=(setting_out(floor()),))
    lines, found = take_off_room(replace(ctx, finish=finish(bare)))
    assert {WORDINGS[f.code].severity.value for f in found} <= {"note", "warning"}
    assert {"tile", "spare tiles", "mortar", "grout"} <= {x.line for x in lines}


def test_splitting_a_floor_in_two_leaves_its_mortar_as_it_was() -> None:
    whole, _ = take_off_room(context(*ITEMS, specs=(spec(),), in_room=room(floor(3000, 2000))))
    halves = (floor(1000, 2000), replace(floor(2000, 2000), key="floor 2"))
    split, _ = take_off_room(context(*ITEMS, specs=(spec(),), in_room=room(*halves)))

    def mortar(lines: object) -> float:
        return sum(x.each_si for x in lines if x.line == "mortar")

    assert mortar(split) == pytest.approx(mortar(whole))
    assert MM == 320


def test_what_is_known_of_a_room_is_worked_out_once_and_of_no_other() -> None:
    asked: list[str] = []

    def name_and_height(ctx: LineContext) -> tuple[str, int]:
        asked.append(ctx.room.name)
        return ctx.room.name, ctx.job.wet_wall_height_mm320

    ctx = plain()
    later = replace(ctx, lines=take_off_room(ctx)[0])
    assert ctx.once(name_and_height) == later.once(name_and_height)
    assert asked == ["101"]
    other = replace(later, work=RoomWork(room(name="102")))
    lower = replace(later, job=replace(METRIC, wet_wall_height_mm320=7 * MM))
    assert other.once(name_and_height)[0] == "102"
    assert lower.once(name_and_height) == ("101", 7 * MM)
    assert asked == ["101", "102", "101"]


def test_rooms_of_a_large_job_are_worked_out_elsewhere_alike() -> None:
    ctx = plain()
    works = [
        RoomWork(room(name=f"{n}", shape=f"{n}"), ctx.work.setting_outs) for n in range(101, 221)
    ]
    handed_out: list[int] = []

    def one_by_one(
        work: Callable[[Sequence[Given]], Iterable[Made]],
        things: Sequence[Given],
        *,
        in_memory: bool = False,
    ) -> Iterator[Made]:
        assert in_memory  # rooms with their plans are more to send than what is made of them
        for thing in things:
            handed_out.append(len(things))
            yield from work([thing])

    def taken(of: Sequence[RoomWork], spread: Spread) -> TakenOff:
        return take_off(METRIC, {"F": ctx.finish}, ctx.catalogue, of, spread)

    assert taken(works, one_by_one) == taken(works, alone)
    assert handed_out
    handed_out.clear()
    assert taken(works[:9], one_by_one) == taken(works[:9], alone)
    assert not handed_out  # a few are worked out sooner here

"""Stretches of band in the order of the rooms, by hand."""

from hand_made import METRIC, MM, catalogue, roll, room
from msgspec.structs import replace

from sheetcalc.domain.catalogue import RollKind
from sheetcalc.domain.measure import METRE
from sheetcalc.domain.quantity import PackBy, QuantityLine
from sheetcalc.domain.rolls import RollPlan
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.lines.band_stretches import band_plans

BAND = roll("N", RollKind.BAND, length_mm320=30_000 * MM, width_mm320=125 * MM)
SHEET = roll("Q", RollKind.WATERPROOFING_SHEET, length_mm320=10_000 * MM)


def line(name: str, count: int, each_m: float, item: str = "N") -> QuantityLine:
    return QuantityLine(
        "bands", "P1", name, count, "", item, "band", each_m, METRE, None, PackBy.LENGTH, ""
    )


def stretches(plan: RollPlan) -> list[tuple[str, str, int, int, int]]:
    return [
        (p.strip.room, p.strip.piece, p.roll, p.position_mm320 // MM, p.strip.length_mm320 // MM)
        for p in plan.placed
    ]


def test_stretches_follow_each_other_and_go_on_with_the_next_roll() -> None:
    # 12 m in each of three rooms from rolls of 30 m: the third is joined 6 m along
    work = RoomWork(room(name="A", count=2, copies=("1", "2")))
    other = RoomWork(room(name="3", count=1, copies=("3",)))
    lines = [line("A", 2, 12.0), line("3", 1, 12.0)]
    (plan,) = band_plans(lines, [work, other], [], catalogue(BAND), METRIC)
    assert stretches(plan) == [
        ("1", "band", 1, 0, 12_000),
        ("2", "band", 1, 12_000, 12_000),
        ("3", "band, part 1 of 2", 1, 24_000, 6000),
        ("3", "band, part 2 of 2", 2, 0, 6000),
    ]
    assert (plan.rolls, plan.lower_bound, plan.by_length) == (2, 2, True)


def test_an_exact_roll_needs_no_second() -> None:
    work = RoomWork(room(name="A", count=3, copies=("1", "2", "3")))
    (plan,) = band_plans([line("A", 3, 10.0)], [work], [], catalogue(BAND), METRIC)
    assert plan.rolls == 1


def test_bands_of_a_sheet_go_on_after_its_planned_rolls_side_by_side() -> None:
    # computed: 8 bands of 125 mm across 1 m
    work = RoomWork(room(name="A", count=1, copies=("A",)))
    sheets = RollPlan("Q", "P1", 4, (), 4, "")
    (plan,) = band_plans([line("A", 1, 2.5, "Q")], [work], [sheets], catalogue(SHEET), METRIC)
    assert stretches(plan) == [("A", "8 bands side by side", 5, 0, 2500)]
    assert plan.placed[0].strip.width_mm320 == 1000 * MM


def test_what_is_not_bought_by_length_is_not_listed() -> None:
    counted = replace(line("A", 1, 2.5), pack_by=PackBy.NONE)
    assert band_plans([counted], [RoomWork(room(name="A"))], [], catalogue(BAND), METRIC) == ()

"""What stands on a room's card, and that each fills its page."""

import re

import pytest
from drawing.drawn_rooms import measures, work
from msgspec.structs import replace
from result_books import bag, catalogue, line
from workbook.carded_runs import Said, frame, run, sheet_of, task, words_of

from sheetcalc.cards import Space, begin_drawings
from sheetcalc.domain.card import CARD_WIDTH_MM
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import INCH, LITRE, PIECE, JobUnits
from sheetcalc.domain.rolls import PlacedStrip, RollPlan
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import CutPiece, CutShape, SettingOut
from sheetcalc.geometry.rolls.rolls import strips_of_copies
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.results.card_content import LARGE, SMALL, TINY
from sheetcalc.workbook.results.card_cuts import cable_texts, cut_texts, strip_texts
from sheetcalc.workbook.results.card_items import carried
from sheetcalc.workbook.results.card_layout import Card, plan_cards
from sheetcalc.workbook.results.card_lines import broken, text_width_mm
from sheetcalc.workbook.results.card_work import cautions, checks, steps
from sheetcalc.workbook.results.room_cards import Cards, room_cards_sheets

# ---------------------------------------------------------------------------------- what to carry


def test_lines_of_one_item_are_carried_as_one() -> None:
    """2 L under the underlay and 3.5 L under the tile are 5.5 L."""
    lines = [line("B-1", 0.002, LITRE), line("B-1", 0.0035, LITRE)]
    (one,) = carried(lines, work(), catalogue(bag("B-1", 5)))
    assert (one.item, one.quantity, one.unit) == ("B-1", pytest.approx(5.5), LITRE)


def test_packs_are_told_in_tenths_rounded_up() -> None:
    """12.1 L a bag: 24.2 L are 2 bags, 24.3 L a little more."""
    goods = catalogue(bag("B-1", 5))
    exact = carried([line("B-1", 0.0242, LITRE)], work(), goods)
    above = carried([line("B-1", 0.0243, LITRE)], work(), goods)
    assert (exact[0].packs, above[0].packs) == ("2 bags", "2.1 bags")


def test_what_is_not_bought_is_not_carried() -> None:
    assert carried([line("", 24.0, PIECE)], work(), catalogue()) == ()


def test_pieces_are_carried_whole() -> None:
    """10.2 tiles are 11 to carry, 10 are 10."""
    lines = [line("T-1", 10.2, room="1.01"), line("T-2", 10.0, room="1.01")]
    (card, _) = plan_cards(run(work(), lines=lines), ())
    assert re.search(r"T-1 \|.*\| 11 \|", words_of(card.below))
    assert re.search(r"T-2 \|.*\| 10 \|", words_of(card.below))


# ------------------------------------------------------------------------------ cuts, cable, strips


def cut(number: int, **changes: object) -> CutPiece:
    made = CutPiece(CutShape.STRAIGHT, 300 * 320, 100 * 320, (), number)
    return replace(made, **changes)  # type: ignore[arg-type]


def floor_with(*pieces: CutPiece) -> RoomWork:
    done = work()
    out: SettingOut = replace(done.setting_outs["floor"], pieces=pieces)
    return replace(done, setting_outs={"floor": out})


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def test_a_cut_bears_the_letter_of_its_surface_and_its_number_in_the_cut_list() -> None:
    (text,) = cut_texts(floor_with(cut(4), cut(2, shape=CutShape.NOTCHED)), Job())
    assert plain(text).startswith("A floor · T · offset 1/3 · joint 3 mm. Each row")
    assert plain(text).endswith(" A1 4 of 300 x 100 · A2 2 of 300 x 100 notched")


def test_an_offcut_is_named_after_the_cut_that_leaves_it() -> None:
    pieces = (cut(1), cut(1, taken_from="offcut of cut 1"))
    (text,) = cut_texts(floor_with(*pieces), Job())
    assert plain(text).endswith("A2 300 x 100 from A1")


def test_small_surfaces_are_listed_together_by_tile() -> None:
    done = floor_with(cut(1))
    niche = replace(
        done.setting_outs["floor"],
        surface="niche far back",
        kind=SurfaceKind.NICHE,
        pieces=(cut(2), cut(3)),
        whole=0,
    )
    outs = {**done.setting_outs, "niche far back": niche}
    *_, last = cut_texts(replace(done, setting_outs=outs), Job())
    assert plain(last) == "Niches · T · joint 3 mm. B1 2 of 300 x 100 · B2 3 of 300 x 100"


def test_a_cable_is_told_with_what_to_check_and_where_its_rows_stand() -> None:
    text, where = cable_texts(work(), Job())
    assert "Check 1.60 m at the end of row 1 and 3.20 m at the end of row 2." in text
    assert where == "Row by row on Cable plans."


def test_alike_rooms_have_their_own_places_on_the_rolls() -> None:
    done = work()
    of_both = strips_of_copies(replace(done.room, copies=("1.01", "1.07"), count=2), done.strips)
    placed = tuple(PlacedStrip(strip, at, 0) for at, strip in enumerate(of_both, 1))
    plans = {("Floor 1", "U-1"): RollPlan("U-1", "Floor 1", 4, placed, 4, "")}
    texts = [
        plain(t) for name in ("1.01", "1.07") for t in strip_texts(done, plans, (name,), Job())
    ]
    assert texts == [
        "Strips of U-1 (underlay): 1: 2400 x 1000 (roll 1) · 2: 2400 x 800 (roll 2)",
        "Strips of U-1 (underlay): 1: 2400 x 1000 (roll 3) · 2: 2400 x 800 (roll 4)",
    ]


def placed_strips(count: int, rolls: dict[int, int]) -> tuple[PlacedStrip, ...]:
    """Strips of rooms counted without names, on a roll of their own each but for some."""
    done = work()
    room = replace(done.room, copies=("1.01",), count=count)
    return tuple(
        PlacedStrip(strip, rolls.get(at, at), 0)
        for at, strip in enumerate(strips_of_copies(room, done.strips), 1)
    )


def test_rooms_counted_without_names_are_told_the_rolls_of_all_on_the_card_they_share() -> None:
    """Strips 1 and 2 of three rooms: rolls 1 and 2, 3 and 4, 5 and 4 again."""
    placed = placed_strips(3, {6: 4})
    plans = {("Floor 1", "U-1"): RollPlan("U-1", "Floor 1", 5, placed, 5, "")}
    names = replace(work().room, copies=("1.01",), count=3).names
    told, where = (plain(t) for t in strip_texts(work(), plans, names, Job()))
    assert told == (
        "Strips of U-1 in each of the 3 rooms (underlay): "
        "1: 2400 x 1000 (rolls 1, 3, 5) · 2: 2400 x 800 (rolls 2, 4)"
    )
    assert where == "Room by room on Roll plan."


def test_neighbouring_rolls_are_told_from_first_to_last_and_those_of_earlier_phases_apart() -> None:
    """Strip 1 of five rooms: rolls 1, 2, 3, 7, and roll 9 that Floor 0 leaves over."""
    placed = placed_strips(5, {1: 1, 3: 2, 5: 3, 7: 7, 9: 9})
    moved = tuple(replace(p, leftover_of="Floor 0") if p.roll == 9 else p for p in placed)
    plans = {("Floor 1", "U-1"): RollPlan("U-1", "Floor 1", 9, moved, 9, "")}
    names = replace(work().room, copies=("1.01",), count=5).names
    told, _ = (plain(t) for t in strip_texts(work(), plans, names, Job()))
    assert "1: 2400 x 1000 (rolls 1 to 3, 7, roll 9 of Floor 0) ·" in told


def test_a_card_that_rooms_share_says_how_often_it_is_wanted() -> None:
    (card,) = plan_cards(run(work(copies=("1.01",), count=3)), ())
    assert "· 3 alike, not named: print this card 3 times ·" in words_of(card.above)
    assert "in each of the 3 rooms" in words_of(card.below)


# ------------------------------------------------------------------------------- order of the work


def test_tasks_come_by_day_with_their_date_and_wait() -> None:
    """Day 3 of a phase that starts on Monday 7 June is Wednesday 9 June."""
    labour = [task("Grout", 3), task("Set tile", 1, wait_hours=24.0)]
    found = steps(run(work(), labour=labour), work(), ())
    assert [(s.day, s.what, s.wait) for s in found] == [
        ("1 · 7 Jun", "Set tile", "24 h"),
        ("3 · 9 Jun", "Grout", ""),
    ]


def test_a_phase_without_a_start_has_days_without_dates() -> None:
    (step,) = steps(run(work(), labour=[task("Grout", 3)], starts=None), work(), ())
    assert step.day == "3"


def test_tasks_of_other_finishes_and_surfaces_are_left_out() -> None:
    labour = [task("Stone", 1, finish="Stone"), task("Niche", 1, surface="niche"), task("All", 1)]
    assert [s.what for s in steps(run(work(), labour=labour), work(), ())] == ["All"]


def test_without_labour_the_usual_order_of_what_the_room_needs_stands_there() -> None:
    done = work()
    lines = [line("S-1", 1.0, line="sealant")]
    usual = [s.what for s in steps(run(done), done, lines)]
    assert usual == [
        "Check the base: sound, dry, flat",
        "Lay cable and sensor, read",
        "Mark start lines, lay dry, set tile",
        "Grout, clean",
        "Sealant along edges and corners",
    ]


def test_a_shower_has_its_water_test() -> None:
    done = work(measures=replace(measures(), shower_floors=1))
    first, *_ = checks(done, None, run(done).inputs)
    assert first.startswith("Water test: 51 mm of water, 15 min at least, drain plugged, no leak")


def test_a_room_is_warned_of_its_own_warnings_once_a_kind() -> None:
    told = list(cautions(run(work()), work(), (), [Said(), Said(), Said(severity="note")]))
    assert told == ["A step of 25 mm at Door (and 1 more alike): plan a ramp"]


def test_heavy_packs_ask_for_two_people() -> None:
    """The limit is 23 kg: NIOSH lifting equation, load constant, CCOHS page."""
    goods = catalogue(bag("B-1", 5, pack_weight_kg=25.0), bag("B-2", 6, pack_weight_kg=23.0))
    done = run(work())
    done = replace(done, inputs=replace(done.inputs, catalogue=goods))
    lines = [line("B-1", 1.0, LITRE), line("B-2", 1.0, LITRE)]
    assert list(cautions(done, work(), lines, ())) == ["Two people to lift: a bag of B-1 (25.0 kg)"]


def test_an_old_building_is_presumed_to_hold_asbestos_where_something_is_taken_up() -> None:
    done = work(take_up="sheet vinyl")
    told = list(cautions(run(done, job=Job(year_built=1974)), done, (), ()))
    assert told[0].startswith("Building of 1974: asbestos is presumed")
    assert list(cautions(run(work(), job=Job(year_built=1974)), work(), (), ())) == []


# ---------------------------------------------------------------------------------------- the page


def test_every_copy_of_a_room_has_a_card_in_the_order_of_the_phases() -> None:
    later = work(name="2.01", phase="Floor 2", copies=("2.01",), count=1)
    cards = plan_cards(run(later, work()), ())
    assert [(card.name, card.phase) for card in cards] == [
        ("1.01", "Floor 1"),
        ("1.02", "Floor 1"),
        ("2.01", "Floor 2"),
    ]


def test_a_card_names_room_phase_finish_and_its_like() -> None:
    card, _ = plan_cards(run(work()), ())
    assert words_of(card.above) == (
        "Room 1.01\nphase Floor 1 · day 1 is 2027-06-07 · finish Bath · 2 alike: 1.01, 1.02 · "
        "card 1 of 2"
    )


@pytest.mark.parametrize("length", [8, 9, 10, 40])
def test_a_note_is_printed_whole_and_the_cards_number_after_it(length: int) -> None:
    """The line takes about 110 letters: the note ends before its end, at it, and far behind it."""
    note = "ask " * length + "Ann"
    room = work()
    noted = replace(room, room=replace(room.room, note=note))
    cards = plan_cards(run(noted), ())
    for number, card in enumerate(cards, 1):
        told = " ".join(words_of(card.above).split())
        assert re.search(rf"1\.01, 1\.02 · {note}( ·)? card {number} of 2$", told)
        lines = words_of(card.above).split("\n")[1:]
        assert all(text_width_mm(line, LARGE.size) <= CARD_WIDTH_MM for line in lines)
    assert len({len(card.above) for card in cards}) == 1


@pytest.mark.parametrize("units", [JobUnits(), JobUnits(small_length=INCH)])
def test_a_card_fits_its_page(units: JobUnits) -> None:
    """A4 has 297 mm, letter 279.4 mm, less margins of 0.35 and 0.5 in."""
    card, _ = plan_cards(run(work(), job=Job(units=units)), ())
    rows = (*card.above, *card.below)
    page = {"A4": 297.0, "letter": 279.4}[units.paper] - 0.85 * 25.4
    assert card.second == ()
    assert sum(height for height, _ in rows) / 72 * 25.4 + card.drawing_mm <= page


def test_a_fuller_card_is_printed_small_before_it_takes_a_second_page() -> None:
    def card_with(items: int) -> Card:
        lines = [line(f"I-{n}", 1.0, room="1.01") for n in range(items)]
        return plan_cards(run(work(), lines=lines), ())[0]

    few, many, more, most = (card_with(number) for number in (5, 30, 42, 75))
    assert {height for height, _ in few.below} >= {LARGE.line}
    assert {height for height, _ in many.below} >= {SMALL.line}
    assert {height for height, _ in more.below} >= {TINY.line}
    assert (few.second, many.second, more.second) == ((), (), ())
    assert "second page" in words_of(most.second)
    assert min(card.drawing_mm for card in (few, many, more, most)) >= TINY.least_mm


def test_a_row_of_unfolded_niches_needs_room_of_its_own() -> None:
    """Drawings that can't be read are worse than a second page."""
    flat = work()
    niche = replace(
        flat.setting_outs["floor"], surface="niche far back", kind=SurfaceKind.NICHE, whole=0
    )
    unfolded = replace(flat, setting_outs={**flat.setting_outs, "niche far back": niche})

    def least(done: RoomWork) -> float:
        cards = []
        for items in range(5, 80, 5):
            lines = [line(f"I-{n}", 1.0, room="1.01") for n in range(items)]
            cards.append(plan_cards(run(done, lines=lines), ())[0])
        return min(card.drawing_mm for card in cards if not card.second)

    assert TINY.least_mm <= least(flat) < TINY.least_mm + 30
    assert least(unfolded) >= TINY.least_mm + 30


def test_each_card_begins_a_page_and_the_list_links_to_it() -> None:
    sheet, cards = sheet_of(run(work()))
    assert len(sheet.row_breaks) == len(cards) == 2
    (table,) = sheet.tables
    assert [row[2].link for row in table.rows] == [f"internal:A{r + 1}" for r in sheet.row_breaks]
    assert [sheet.loose[r + 1, 1].value for r in sheet.row_breaks] == ["Room 1.01", "Room 1.02"]


def test_pictures_lie_between_the_heading_and_the_lists_with_words_for_each() -> None:
    sheet, cards = sheet_of(run(work()))
    first = sheet.row_breaks[0]
    pictures = [p for p in sheet.pictures if p.row == first + 3]
    assert len(pictures) == 4  # floor, cable, far wall, strips
    assert all(picture.description for picture in pictures)
    rows = [r for r in range(first + 3, sheet.row_breaks[1]) if (r, 1) not in sheet.loose]
    drawing = sum(sheet.heights[r] for r in rows if sheet.heights)  # type: ignore[index]
    assert drawing / 72 * 25.4 >= cards[0].drawing_mm - 0.5


def test_alike_rooms_share_their_pictures() -> None:
    sheet, _ = sheet_of(run(work()))
    assert len(sheet.pictures) == 8
    assert len({picture.png for picture in sheet.pictures}) == 4


def test_two_rooms_alike_in_shape_and_finish_are_drawn_once() -> None:
    done = run(work(), work(name="1.03", copies=("1.03",), count=1))
    pictures = begin_drawings(done, Space({"1.01": 100.0, "1.03": 100.0}))().cards
    assert pictures["1.01"] is pictures["1.03"]


def test_a_room_with_a_fixture_of_another_name_is_drawn_for_itself() -> None:
    one = work()
    fixtures = (replace(one.room.fixtures[0], name="Shelf"), *one.room.fixtures[1:])
    done = run(one, replace(work(fixtures=fixtures, name="1.03")))
    pictures = begin_drawings(done, Space({"1.01": 100.0, "1.03": 100.0}))().cards
    assert pictures["1.01"] != pictures["1.03"]


def test_a_room_that_is_not_drawn_leaves_no_hole() -> None:
    done = RoomWork(work().room)
    sheet, _ = sheet_of(run(done))
    assert sheet.pictures == ()


def test_very_many_cards_go_on_several_tabs() -> None:
    many = work(copies=tuple(str(n) for n in range(501)), count=501)
    planned = plan_cards(run(many), ())
    sheets = room_cards_sheets(Cards(planned, {}), frame())
    assert [(s.key, s.name) for s in sheets] == [
        ("room-cards", "Room cards"),
        ("room-cards:2", "Room cards 2"),
    ]
    assert [len(s.row_breaks) for s in sheets] == [500, 1]
    assert len({s.tables[0].name for s in sheets}) == 2


def test_a_run_without_rooms_says_so() -> None:
    (sheet,) = room_cards_sheets(Cards((), {}), frame())
    assert sheet.tables[0].rows[0][0].value == "no cards"


def test_every_style_of_a_card_is_in_the_house_style() -> None:
    style = load_house_style()
    sheet, _ = sheet_of(run(work(), labour=[task("Grout", 1)]))
    assert {cell.style for cell in sheet.loose.values()} <= set(style.styles)


def test_small_and_large_print_are_as_the_house_style_says() -> None:
    style = load_house_style()
    assert style["card"].size == LARGE.size
    assert style["card_small"].size == SMALL.size
    assert style["card_tiny"].size == TINY.size


def test_there_is_room_to_write_three_readings_of_each_cable() -> None:
    """The cable's band stands beside them; a long zone leaves shorter lines, or gives way."""
    done = work()
    long = replace(
        done.cables[0], zone="shower floor of the room beside the stairs on the second floor"
    )
    card, _ = plan_cards(run(replace(done, cables=(done.cables[0], long))), ())
    first, second = (row for row in words_of(card.below).splitlines() if "insulation" in row)
    assert first.startswith("H-0047 · main floor · 897.4 to 1039.1 Ω")
    assert [first.count(f"{s} ____") for s in ("delivered", "laid", "covered")] == [1, 1, 1]
    assert second.startswith("H-0047 · 897.4 to 1039.1 Ω")
    assert text_width_mm(second, LARGE.size) <= CARD_WIDTH_MM


# -------------------------------------------------------------------------------------- its lines


def test_lines_break_between_words_within_their_width() -> None:
    text = "Lay that row of 2 whole tiles along the start line first, then back to the door"
    lines = list(broken(text, 8.0, 40.0, indent="  "))
    assert " ".join(found.strip() for found in lines) == text
    assert len(lines) > 1
    assert all(text_width_mm(found, 8.0) <= 40.0 for found in lines)
    assert all(found.startswith("  ") for found in lines[1:])


def test_a_word_longer_than_the_line_stands_alone() -> None:
    assert list(broken("a " + "m" * 40 + " b", 8.0, 20.0)) == ["a", "m" * 40, "b"]

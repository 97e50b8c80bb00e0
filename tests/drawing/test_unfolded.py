"""Curbs, niches, reveals and base courses as drawn, through the program without a file."""

from collections import Counter

import pytest
import shapely
from tiling_jobs import run_of, work_of
from workbook.raw_books import PLAIN_TILE, Values

from sheetcalc.domain.card import drawn_surfaces, is_small
from sheetcalc.domain.job import Job
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.domain.setting_out import CutShape
from sheetcalc.drawing.draw import draw
from sheetcalc.drawing.plan import PlanDrawing
from sheetcalc.drawing.room import room_plans
from sheetcalc.drawing.words import Legend
from sheetcalc.geometry.setting_out.drawing import tiles_of

JOB = Job()
SMALL_TILE: Values = {**PLAIN_TILE, "Code": "T-2", "Length": 200, "Width": 100}
FINISHES: list[Values] = [
    {"Finish": "Plain", "Surface": surface, "Tile": tile, "Joint": 3}
    for surface, tile in (
        ("floor", "T-1"), ("shower floor", "T-2"), ("curb", "T-2"), ("wall", "T-1"),
        ("niche", "T-2"), ("base", "T-2"),
    )
]  # fmt: skip
ROOMS: list[Values] = [
    {"Room": "1", "Length": 3.0, "Width": 2.4, "Finish": "Plain"},
    {"Room": "2", "Same as": "1", "Handed": "yes", "Finish": "Plain"},
]
PIECES: list[Values] = [
    {"Room": "1", "Piece": name, "Kind": kind, "Left": left, "Front": front, "Length": length,
     "Width": width} | ({"Height": height} if height else {})
    for name, kind, left, front, length, width, height in (
        ("Shower", "shower floor", 0, 1.2, 1.2, 1.2, None),
        ("Near", "curb", 0, 1.1, 1.3, 0.1, 100),
        ("Side", "curb", 1.2, 1.2, 0.1, 1.2, 100),
    )
]  # fmt: skip
PIECES += [
    {"Room": "1", "Piece": "Door", "Kind": "doorway", "Wall": "near", "Left": 1.8, "Length": 0.8},
    {"Room": "1", "Piece": "Drain", "Kind": "drain", "Left": 0.6, "Front": 1.8, "Diameter": 110},
]
FACES: list[Values] = [
    {"Room": "1", "Wall": "far", "Part": part, "Left": left, "Bottom": bottom, "Length": length,
     "Height": height} | ({"Depth": depth} if depth else {})
    for part, left, bottom, length, height, depth in (
        ("face", 0, 0, 3.0, 2.4, None), ("niche", 0.4, 1.1, 0.4, 0.5, 90),
        ("opening", 1.9, 1.2, 0.6, 0.8, 120),
    )
]  # fmt: skip


@pytest.fixture(scope="module")
def run() -> Run:
    return run_of(
        Rooms=ROOMS, Floor_pieces=PIECES, Wall_faces=FACES, Finishes=FINISHES,
        Tiles=[PLAIN_TILE, SMALL_TILE],
    )  # fmt: skip


def low(work: RoomWork) -> list[PlanDrawing]:
    return room_plans(work, Legend(JOB))[2]


def small_keys(work: RoomWork) -> list[str]:
    return [key for key, out in work.setting_outs.items() if is_small(out)]


@pytest.mark.parametrize("name", ["1", "2"])
def test_every_small_surface_is_drawn_with_every_tile_of_it(run: Run, name: str) -> None:
    work = work_of(run, name)
    drawn = [tile for plan in low(work) for tile in plan.tiles]
    outs = [work.setting_outs[key] for key in small_keys(work)]
    wanted = sum(shapely.Polygon(t.ring).area for out in outs for t in tiles_of(out))
    assert sum(shapely.Polygon(t.ring).area for t in drawn) == pytest.approx(wanted, rel=1e-9)
    letters = drawn_surfaces(work)
    listed = {
        f"{letters[out.surface]}{n}": piece.count
        for out in outs
        for n, piece in enumerate(out.pieces, 1)
        if piece.shape is not CutShape.DRILLED
    }
    assert Counter(t.label for t in drawn if t.label) == listed


@pytest.mark.parametrize("name", ["1", "2"])
def test_panels_lie_apart_and_are_as_large_as_their_surfaces(run: Run, name: str) -> None:
    work = work_of(run, name)
    panels = [shapely.Polygon(p.shell) for plan in low(work)[:1] for p in plan.region.patches]
    nets = [key for key in small_keys(work) if not key.startswith("base")]
    areas = sorted(work.setting_outs[key].region.area_mm320 for key in nets)
    assert sorted(p.area for p in panels) == pytest.approx(areas)
    assert shapely.union_all(panels).area == pytest.approx(sum(areas))


def test_the_sides_of_a_curb_are_named_as_seen_from_the_door(run: Run) -> None:
    """The curb Near runs from wall to wall's end, Side from it to the far wall."""
    words = {c.words.split(" ", 1)[-1] for plan in low(work_of(run, "1")) for c in plan.captions}
    assert {"top", "near face", "far face", "right end", "left face", "right face"} <= words


def test_a_handed_room_has_its_free_end_on_the_other_side(run: Run) -> None:
    first, second = (
        {c.words.split(" ", 1)[-1] for plan in low(work_of(run, name)) for c in plan.captions}
        for name in ("1", "2")
    )
    assert "right end" in first
    assert "left end" not in first
    assert "left end" in second
    assert "right end" not in second


def test_a_curb_lies_level_whichever_way_it_runs(run: Run) -> None:
    work = work_of(run, "1")
    plan = low(work)[0]
    letters = drawn_surfaces(work)
    for name in ("Near", "Side"):
        letter = letters[f"curb {name} top"]
        rings = [shapely.Polygon(t.ring) for t in plan.tiles if t.label.startswith(letter)]
        left, front, right, far = shapely.union_all(rings).bounds
        assert right - left > 5 * (far - front)


def test_the_drawings_say_in_words_what_they_show(run: Run) -> None:
    nets, base = low(work_of(run, "1"))
    assert "curb Near top: " in nets.description
    assert "base 1: " in base.description
    assert draw(nets, 186, 40) == draw(nets, 186, 40)


def test_the_card_lists_small_surfaces_under_the_same_letters(run: Run) -> None:
    from sheetcalc.workbook.results.card_cuts import cut_texts  # noqa: PLC0415 - one test

    work = work_of(run, "1")
    texts = list(cut_texts(work, JOB))
    letter = drawn_surfaces(work)["niche far back"]
    (small,) = [text for text in texts if text.startswith("Curbs, niches, ")]
    assert f"{letter}1\N{NO-BREAK SPACE}" in small

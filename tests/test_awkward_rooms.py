"""Awkward rooms through the program: a right answer or a finding, within 2 s each."""

import math
from collections.abc import Iterator, Sequence

import pytest
from pace import within
from tiling_jobs import checked, errors, work_of
from workbook.raw_books import PLAIN_FINISH, PLAIN_TILE, Values

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.run import Run

MOST_SECONDS = 2.0
MM = 320


@pytest.fixture(autouse=True)
def _in_time() -> Iterator[None]:
    """Hold every test of this file to the limit, by the processor's time."""
    checked(Rooms=[{"Room": "1", "Length": 2, "Width": 2, "Finish": "Plain"}])  # load libraries
    with within(MOST_SECONDS):
        yield


def tile(length: float, width: float, **more: str | float) -> list[Values]:
    return [{**PLAIN_TILE, "Length": length, "Width": width, "Thickness": 4, **more}]


def bond(name: str, **more: str | float) -> list[Values]:
    return [{**PLAIN_FINISH, "Bond": name, **more}]


def one(length: float, width: float) -> list[Values]:
    return [{"Room": "R", "Length": length, "Width": width, "Finish": "Plain"}]


def legs(*walk: tuple[str | float, float]) -> list[Values]:
    return [
        {"Room": "R", "Leg": str(n), "Turn": turn, "Length": length}
        for n, (turn, length) in enumerate(walk, 1)
    ]


def piece(kind: str, left: float, front: float, *size: float, n: int = 1) -> Values:
    length, width = size
    return {"Room": "R", "Piece": f"{kind} {n}", "Kind": kind, "Left": left, "Front": front,
            "Length": length, "Width": width}  # fmt: skip


OPEN: list[Values] = [{"Room": "R", "Finish": "Plain"}]


def codes(findings: Sequence[Finding]) -> set[str]:
    return {f.code for f in findings}


def floor_tiles(run: Run | None) -> float:
    assert run is not None
    return sum(x.net_si for x in run.lines if x.line == "tile")


def test_a_room_smaller_than_a_tile_is_one_cut_tile() -> None:
    run, findings = checked(Rooms=one(0.5, 0.4), Tiles=tile(600, 600))
    assert floor_tiles(run) == 1
    assert "SURFACE-SMALLER-THAN-TILE" in codes(findings)
    assert errors(findings) == []


@pytest.mark.parametrize("slit_mm", [2, 11, 12, 13])
def test_a_slit_narrower_than_a_joint_or_its_gaps_gets_no_tile(slit_mm: float) -> None:
    """A duct leaves a slit at the right wall; gaps of 6 mm on either side fill 12 mm."""
    slit = slit_mm / 1000
    void = piece("void", 1.0, 0.5, 1.0 - slit, 0.4)
    run, findings = checked(Rooms=one(2.0, 1.8), Floor_pieces=[void])
    assert errors(findings) == []
    assert run is not None
    out = work_of(run, "R").setting_outs["floor"]
    narrow = [p for p in out.pieces if min(p.length_mm320, p.width_mm320) < 3 * MM]
    assert bool(narrow) == (slit_mm > 12 and bool(narrow))
    area = 2.0 * 1.8 - 0.4 * (1.0 - slit)
    assert out.area_m2 == pytest.approx(area)


@pytest.mark.parametrize("pattern", ["grid", "offset 1/2", "herringbone"])
def test_a_tile_larger_than_the_wall(pattern: str) -> None:
    """A pillar's side of 250 mm in tile of 1200 x 400."""
    faces: list[Values] = [
        {"Room": "R", "Wall": "left", "Part": "face", "Length": 0.25, "Height": 2.1}
    ]
    run, findings = checked(
        Rooms=one(0.9, 0.3),
        Wall_faces=faces,
        Finishes=[{**PLAIN_FINISH, "Surface": "wall", "Bond": pattern}],
        Tiles=tile(1200, 400),
    )
    assert errors(findings) == []
    assert run is not None
    out = work_of(run, "R").setting_outs["wall left"]
    assert out.whole == 0
    # 2100 mm of courses of 400 at least: 6 cut tiles
    assert out.cut >= 6 if pattern != "herringbone" else out.cut >= 2


def test_a_self_crossing_outline_is_an_error() -> None:
    """A bow tie: along, back across, up, and home."""
    walk = legs(
        ("straight", 2.0),
        (135.0, 2.0 * math.sqrt(2)),
        (-135.0, 2.0),
        (-135.0, 2.0 * math.sqrt(2)),
    )
    _, findings = checked(Rooms=OPEN, Wall_legs=walk)
    assert errors(findings)
    assert {f.room for f in findings if f.code in errors(findings)} == {"R"}


@pytest.mark.parametrize("kind", ["void", "column", "bath"])
@pytest.mark.parametrize("place", [(0.0, 0.6), (1.0, 1.4), (1.6, 1.4)])
def test_islands_that_touch_walls_and_corners(kind: str, place: tuple[float, float]) -> None:
    run, findings = checked(Rooms=one(2.0, 1.8), Floor_pieces=[piece(kind, *place, 0.4, 0.4)])
    assert errors(findings) == []
    assert run is not None
    out = work_of(run, "R").setting_outs["floor"]
    assert out.area_m2 == pytest.approx(2.0 * 1.8 - 0.16)
    assert out.tiles_opened >= out.lower_bound


def test_two_islands_that_touch_in_a_corner() -> None:
    pieces = [piece("column", 0.5, 0.5, 0.3, 0.3, n=1), piece("column", 0.8, 0.8, 0.3, 0.3, n=2)]
    run, findings = checked(Rooms=one(2.0, 1.8), Floor_pieces=pieces)
    assert errors(findings) == []
    assert floor_tiles(run) > 0


@pytest.mark.parametrize("pattern", ["grid", "offset 1/3", "herringbone"])
def test_an_outline_of_ten_thousand_corners(pattern: str) -> None:
    """Two walls of 26 m like saws: 1,250 teeth each, 10 mm wide, 10 mm deep, into the room."""
    teeth = [("left", 0.01), ("right", 0.01), ("right", 0.01), ("left", 0.01)] * 1250
    walk = legs(
        ("straight", 0.5), *teeth, ("straight", 0.5), ("left", 4.0),
        ("left", 0.5), *teeth, ("straight", 0.5), ("left", 4.0),
    )  # fmt: skip
    assert len(walk) > 10_000
    run, findings = checked(Rooms=OPEN, Wall_legs=walk, Finishes=bond(pattern))
    assert errors(findings) == []
    assert run is not None
    out = work_of(run, "R").setting_outs["floor"]
    # 26 x 4 m less 2,500 teeth of 1 cm2
    assert out.area_m2 == pytest.approx(26 * 4 - 0.25)
    assert out.tiles_opened >= out.lower_bound >= 26 * 4 / (0.603 * 0.303) * 0.97


@pytest.mark.parametrize("pattern", ["grid", "offset 1/2", "herringbone", "diagonal grid"])
def test_tile_of_five_millimetres_on_300_square_metres(pattern: str) -> None:
    run, findings = checked(
        Rooms=one(20.0, 15.0), Finishes=bond(pattern, Joint=1), Tiles=tile(5, 5)
    )
    if run is None or not run.works:
        assert errors(findings)
        return
    # 300 m2 over modules of 6 x 6 mm, less the gaps round it: within 1 %
    assert floor_tiles(run) == pytest.approx(300 / 0.006**2, rel=0.01)


def test_mosaic_of_five_millimetre_chips_on_300_square_metres() -> None:
    sheets = tile(299, 299, **{"Chip length": 5, "Chip width": 5})
    run, findings = checked(Rooms=one(20.0, 15.0), Finishes=bond("grid", Joint=1), Tiles=sheets)
    assert errors(findings) == []
    assert floor_tiles(run) == pytest.approx(300 / 0.3**2, rel=0.03)

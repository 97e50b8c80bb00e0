"""Shortest chords of pieces, worked by hand."""

import pytest
from tiling_cases import MM

from sheetcalc.domain.room import Ring
from sheetcalc.geometry.setting_out.chords import shortest_chords


def ring(*points: tuple[float, float]) -> Ring:
    return tuple((round(u * MM), round(v * MM)) for u, v in points)


def shortest(outline: Ring, *openings: Ring) -> float | None:
    found = shortest_chords(outline, openings, 600 * MM, 300 * MM)
    return min((chord for chord in found if chord is not None), default=None)


@pytest.mark.parametrize(
    ("points", "chord"),
    [
        # an end piece of 140 in a tile of 600 x 300
        (((0, 0), (140, 0), (140, 300), (0, 300)), 140),
        # a wall that runs askew: 50 at one end, 70 at the other
        (((0, 0), (600, 0), (600, 70), (0, 50)), 50),
        # half a tile cut corner to corner: the mean of what shrinks to a tip, 300/2
        (((0, 0), (600, 0), (0, 300)), 150),
        # a leg of 40 left beside a notch
        (((0, 0), (600, 0), (600, 300), (560, 300), (560, 100), (0, 100)), 40),
    ],
)
def test_shortest_chord(points: tuple[tuple[float, float], ...], chord: float) -> None:
    assert shortest(ring(*points)) == pytest.approx(chord * MM)


def test_a_whole_tile_has_no_cut_chord() -> None:
    assert shortest(ring((0, 0), (600, 0), (600, 300), (0, 300))) is None


def test_beside_an_opening_the_strip_counts() -> None:
    hole = ring((25, 100), (25, 200), (125, 200), (125, 100))
    whole = ring((0, 0), (600, 0), (600, 300), (0, 300))
    assert shortest(whole, hole) == pytest.approx(25 * MM)

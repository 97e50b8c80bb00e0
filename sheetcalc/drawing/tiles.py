"""Tiles of a setting-out as drawn: cuts marked, each with its row of the cut list."""

from collections import defaultdict
from collections.abc import Sequence
from itertools import product

from sheetcalc.domain.room import Point
from sheetcalc.domain.setting_out import CutPiece, CutShape, SettingOut
from sheetcalc.drawing.plan import MarkedTile, TileMark
from sheetcalc.geometry.setting_out.drawing import DrawnTile, tiles_of

MOST_TILES = 1500
"""Surfaces with more tiles are drawn without them: lines would run together on paper."""

_ALIKE = 160.0
"""Half a millimetre: corners of a drawn piece and its row of the cut list agree within this."""

_Ring = Sequence[Sequence[float]]
_Kind = tuple[int, int, int]


def marked_tiles(
    out: SettingOut, gap_mm320: int, small_share: float, letter: str
) -> tuple[MarkedTile, ...]:
    """Lay out the tiles of a surface and name its cuts.

    Parameters
    ----------
    out
        The setting-out.
    gap_mm320
        The Job's perimeter gap [1/320 mm].
    small_share
        Cuts with less of a tile than this are marked small.
    letter
        Of the surface on its card; cut 3 of surface A is A3.

    Returns
    -------
    tuple of MarkedTile
        Empty for a surface counted by area, or with more tiles than can be told apart.
    """
    namer = _Namer(out, letter)
    start = _First(out.origin)
    marked = []
    for tile in tiles_of(out, gap_mm320, small_share, MOST_TILES):
        if not tile.cut:
            mark = TileMark.START if start.is_at(tile) else TileMark.WHOLE
            marked.append(MarkedTile(tile.ring, mark))
            continue
        mark = TileMark.SMALL if tile.small else TileMark.CUT
        marked.append(MarkedTile(tile.ring, mark, namer.name(tile)))
    return tuple(marked)


class _First:
    """Knows the first tile by its near left corner, once."""

    def __init__(self, origin: Point) -> None:
        self._origin = origin
        self._found = False

    def is_at(self, tile: DrawnTile) -> bool:
        if self._found:
            return False
        self._found = (
            any(
                abs(x - self._origin[0]) <= _ALIKE and abs(y - self._origin[1]) <= _ALIKE
                for x, y in tile.ring
            )
            and min(y for _, y in tile.ring) >= self._origin[1] - _ALIKE
        )
        return self._found


class _Namer:
    """Names pieces by the rows of the cut list; alike rows are used up in turn."""

    def __init__(self, out: SettingOut, letter: str) -> None:
        self._letter = letter
        self._face = out.face_mm320
        self._rows: defaultdict[_Kind, list[tuple[int, CutPiece]]] = defaultdict(list)
        self._left: dict[int, int] = {}
        for number, piece in enumerate(out.pieces, 1):
            if piece.shape is not CutShape.DRILLED:
                self._rows[_kind(piece.outline)].append((number, piece))
                self._left[number] = piece.count
        self._known: dict[tuple[tuple[int, int], ...], list[int]] = {}

    def name(self, tile: DrawnTile) -> str:
        """Row of the cut list that a drawn piece belongs to; "" where none is like it."""
        key = tuple((round(u / 64), round(v / 64)) for u, v in tile.own)
        if key not in self._known:
            corners, wide, high = _kind(tile.own)
            self._known[key] = sorted(
                number
                for one, other in product((-1, 0, 1), repeat=2)
                for number, piece in self._rows.get((corners, wide + one, high + other), ())
                if self._is_like(piece, tile.own)
            )
        numbers = self._known[key]
        for number in numbers:
            if self._left[number] > 0:
                self._left[number] -= 1
                return f"{self._letter}{number}"
        return f"{self._letter}{numbers[0]}" if numbers else ""

    def _is_like(self, piece: CutPiece, own: _Ring) -> bool:
        """Whether a drawn piece is a row's, as it lies or after a half turn."""
        length, width = self._face
        turned = [(length - u, width - v) for u, v in own]
        return _same(piece.outline, own) or _same(piece.outline, turned)


def _kind(ring: _Ring) -> _Kind:
    """Corners of a ring, and its size: of alike rings one step more or less at most."""
    us, vs = [u for u, _ in ring], [v for _, v in ring]
    step = 2 * _ALIKE
    across, along = (round((max(s) - min(s)) / step) if s else 0 for s in (us, vs))
    return len(ring), across, along


def _same(one: _Ring, other: _Ring) -> bool:
    """Whether two rings have the same corners, in any order."""
    return all(any(abs(u - a) <= _ALIKE and abs(v - b) <= _ALIKE for a, b in other) for u, v in one)

"""Words on a drawing: where they fit, and never one over another."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from math import hypot

from sheetcalc.drawing.canvas import INK, Box, Canvas, Dot, patch_size

_NEAR = 3.0
"""Dots within which a piece lies at the edge of the drawing."""

_NEAR_SIDE = 5.0
"""Dots between the outline and the name of a side."""

_UPRIGHT = 0.2
"""Sides that rise more steeply have their names along them."""

_PADDING = 3.0
"""Dots of paper round the letters of a patch."""

_ALONG = (0.5, 0.3, 0.7, 0.15, 0.85)
"""Where along a side its name may stand."""

_ON_LINE = (0.28, 0.72, 0.42, 0.58, 0.85, 0.15, 0.5)
"""Where on a line its words may stand: seldom where two lines cross."""

_PAPER = 1.0
"""Dots by which a figure's paper may lie over another's: it is three dots wide."""

_RECTANGLE = 4


class Labels:
    """Words written so far, and the room that is left."""

    def __init__(
        self, canvas: Canvas, text: int, corners: Sequence[Dot], *, apart: bool = False
    ) -> None:
        """Begin with none.

        Parameters
        ----------
        canvas
            Where they are written.
        text
            Size of letters [dots].
        corners
            Left bottom and right top of what is drawn [dots].
        apart
            Panels stand apart from each other, with room between them for names of pieces.
        """
        self._apart = apart
        self._canvas = canvas
        self._text = text
        self._taken: list[Box] = []
        self._said: set[str] = set()
        (left, bottom), (right, top) = corners
        self.bounds: Box = (left, bottom, right, top)

    def write(self, at: Dot, words: str, colour: int) -> None:
        """Write words about a place, moved up or down a line where others stand already."""
        high = patch_size(words, self._text)[1]
        for step in (0, 1, -1, 2, -2):
            place = (at[0], at[1] + step * high)
            if self._is_free(self._box(place, words)):
                self._put(place, words, colour)
                return
        self._put(at, words, colour)

    def keep_clear(self, at: Dot, reach: float) -> None:
        """Leave the place of a sign free of words."""
        self._taken.append((at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach))

    def if_free(self, at: Dot, words: str, colour: int) -> None:
        """Write words at a place, or nowhere where others stand there."""
        if self._is_free(self._box(at, words)):
            self._put(at, words, colour)

    def on_side(self, line: Sequence[Dot], words: str) -> None:
        """Write a side's name outside it, along it; nowhere where other words fill the place.

        Sides are walked with the room on the left.  Beside an oblique one the name is level.  A
        name that is longer than its side stands where nothing is drawn if there is such a place,
        level if need be.
        """
        (x0, y0), (x1, y1) = line
        wide, high = patch_size(words, self._text)
        length = max(hypot(x1 - x0, y1 - y0), 1.0)
        right_x, right_y = (y0 - y1) / length, (x1 - x0) / length

        def places(*, upright: bool) -> Iterator[tuple[Dot, bool]]:
            half = (high, wide) if upright else (wide, high)
            off = _NEAR_SIDE + abs(right_x) * half[0] / 2 + abs(right_y) * half[1] / 2
            off -= (high - self._text) / 2
            for share in _ALONG:
                x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
                yield (x + right_x * off, y + right_y * off), upright

        along = list(places(upright=abs(right_y) < _UPRIGHT))
        clear: list[tuple[Dot, bool]] = []
        if wide > length:
            beside = (*along, *places(upright=False))
            clear = [
                (at, upright)
                for at, upright in beside
                if self._canvas.is_blank(self._box(at, words, upright=upright), _PADDING)
            ]
        for at, upright in (*clear, *along):
            box = self._box(at, words, upright=upright)
            if not self._is_free(box):
                continue
            if upright:
                self._canvas.upright(at, words, self._text, INK)
                self._taken.append(box)
            else:
                self._put(at, words, INK)
            return

    def in_shape(self, ring: Sequence[Dot], words: str) -> None:
        """Write a name in a shape: across, upwards where it is narrow, over it where it is small.

        Shapes narrower than a letter stay without a name.
        """
        wide, high = patch_size(words, self._text)
        rooms = list(_rooms(ring))
        for at, width, height in rooms:
            if width >= wide and height >= high - 4:
                for step in (0.0, 0.3, -0.3):
                    place = (at[0], at[1] + step * (height - high))
                    if self._is_free(self._box(place, words)):
                        self._put(place, words, INK)
                        return
        for at, width, height in rooms:
            box = self._box(at, words, upright=True)
            if width >= high - 4 and height >= wide and self._is_free(box):
                self._canvas.upright(at, words, self._text, INK)
                self._taken.append(box)
                return
        at, width, height = rooms[0]
        if min(width, height) >= high:
            self.write(at, words, INK)

    def above(self, at: Dot, words: str, short: str = "") -> None:
        """Write words just above a place, or shorter ones where others stand already."""
        place = (at[0], at[1] - patch_size(words, self._text)[1] / 2 - 6)
        fits = not short or self._is_free(self._box(place, words))
        self._put(place, words if fits else short, INK)

    def along(self, line: Sequence[Dot], words: str) -> None:
        """Write words on a line where there is room, once for lines that say the same."""
        if words in self._said:
            return
        (x0, y0), (x1, y1) = line[0], line[-1]
        for share in _ON_LINE:
            at = (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
            if self._is_free(self._box(at, words)):
                self._put(at, words, INK)
                self._said.add(words)
                return

    def beside(self, at: Dot, words: str, colour: int, off: float = 12) -> None:
        """Write words beside a sign: right of it, left, above or below, where there is room.

        Where there is none, a line higher or lower at its sides.
        """
        wide, high = patch_size(words, self._text)
        x, y = at
        sideways, upwards = wide / 2 + off, high / 2 + off
        places = [(x + sideways, y), (x - sideways, y), (x, y - upwards), (x, y + upwards)]
        places += [(x + side, y + line) for line in (-high, high) for side in (sideways, -sideways)]
        for place in places:
            within = wide / 2 <= place[0] <= self._canvas.size[0] - wide / 2
            if within and self._is_free(self._box(place, words)):
                self._put(place, words, colour)
                return
        self._put(places[0], words, colour)

    def on_line(self, at: Dot, length: float, words: str, colour: int, *, across: bool) -> None:
        """Write a figure on a dimension line, beside it where it would hide the line.

        Where others stand there, a line farther off.
        """
        wide, high = patch_size(words, self._text)
        x, y = at
        if across and length < wide + 40:
            places = [(x, y - high / 2 - 8), (x, y + high / 2 + 8)]
        elif not across and length < high + 40:
            places = [(x + wide / 2 + 8, y), (x - wide / 2 - 8, y)]
        else:
            places = [(x, y)]
        farther = [(px, py + line) for line in (-high, high, -2 * high) for px, py in places]
        for place in (*places, *farther):
            if self._is_free(self._box(place, words), _PAPER):
                self._put(place, words, colour)
                return
        self._put(places[0], words, colour)

    def on_piece(self, ring: Sequence[Dot], words: str) -> None:
        """Write a piece's name in it, or outside the drawing where the piece is too narrow."""
        wide, high = patch_size(words, self._text)
        across, along = (max(side) - min(side) for side in zip(*ring, strict=True))
        level = across >= wide - 2 and along >= high - 2
        upright = across >= high - 4 and along >= wide - 2
        rooms = list(_rooms(ring)) if level or upright else []
        for at, width, height in rooms:
            if width >= wide - 2 and height >= high - 2 and self._is_free(self._box(at, words)):
                self._put(at, words, INK)
                return
        for at, width, height in rooms:
            box = self._box(at, words, upright=True)
            if width >= high - 4 and height >= wide - 2 and self._is_free(box):
                self._canvas.upright_patch(at, words, self._text, INK)
                self._taken.append(box)
                return
        for at in self._outside(ring, wide, high):
            if self._is_free(self._box(at, words)):
                self._put(at, words, INK)
                return

    def _outside(self, ring: Sequence[Dot], wide: float, high: float) -> Iterator[Dot]:
        """Places outside the drawing next to a piece at its edge."""
        xs, ys = [x for x, _ in ring], [y for _, y in ring]
        x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        left, bottom, right, top = self.bounds
        margin = 7  # a perimeter gap and the outline
        if min(xs) - left <= margin:
            yield left - wide / 2 - _NEAR, y
        if right - max(xs) <= margin:
            yield right + wide / 2 + _NEAR, y
        if bottom - max(ys) <= margin:
            yield x, bottom + high / 2 + _NEAR
        if min(ys) - top <= margin:
            yield x, top - high / 2 - _NEAR
        if self._apart:
            yield x, max(ys) + high / 2 + _NEAR
            yield x, min(ys) - high / 2 - _NEAR

    def _box(self, at: Dot, words: str, *, upright: bool = False) -> Box:
        """Patch of words about a place; ``upright`` ones read upwards."""
        if not upright:
            return self._canvas.patch_box(at, words, self._text)
        wide, high = patch_size(words, self._text)
        return at[0] - high / 2, at[1] - wide / 2, at[0] + high / 2, at[1] + wide / 2

    def _is_free(self, box: Box, overlap: float = 0.0) -> bool:
        left, top, right, bottom = box
        left, top, right, bottom = left + overlap, top + overlap, right - overlap, bottom - overlap
        return not any(
            left < b[2] and b[0] < right and top < b[3] and b[1] < bottom for b in self._taken
        )

    def _put(self, at: Dot, words: str, colour: int) -> None:
        self._taken.append(self._canvas.patch(at, words, self._text, colour))


def _rooms(ring: Sequence[Dot]) -> Iterator[tuple[Dot, float, float]]:
    """Middles of rectangles within a piece with their sizes, those with most room first.

    Within one with oblique or round sides they are where the middles of its parts lie.
    """
    xs, ys = _few({x for x, _ in ring}), _few({y for _, y in ring})
    if len(ring) <= _RECTANGLE:
        yield (
            ((xs[0] + xs[-1]) / 2, (ys[0] + ys[-1]) / 2),
            xs[-1] - xs[0],
            ys[-1] - ys[0],
        )
        return
    levels = [_crossings(ring, (y0 + y1) / 2) for y0, y1 in pairwise(ys)]
    inside = [
        [bisect_left(crossings, (x0 + x1) / 2) % 2 == 1 for crossings in levels]
        for x0, x1 in pairwise(xs)
    ]
    found = [
        (((xs[i] + xs[j]) / 2, (ys[k] + ys[m]) / 2), xs[j] - xs[i], ys[m] - ys[k])
        for i in range(len(xs) - 1)
        for j, common in enumerate(accumulate(inside[i:], _both), i + 1)
        for k, m in _runs(common)
    ]
    yield from sorted(found, key=lambda c: (-min(c[1], c[2]), -max(c[1], c[2]), c[0]))


_MOST_PARTS = 8


def _few(marks: set[float]) -> list[float]:
    """Sort places, and thin them out where a round side has very many."""
    ordered = sorted(marks)
    if len(ordered) <= _MOST_PARTS:
        return ordered
    step = (len(ordered) - 1) / (_MOST_PARTS - 1)
    return [ordered[round(step * n)] for n in range(_MOST_PARTS)]


def _both(one: list[bool], other: list[bool]) -> list[bool]:
    return [a and b for a, b in zip(one, other, strict=True)]


def _runs(flags: Sequence[bool]) -> Iterator[tuple[int, int]]:
    """First and one past the last of every unbroken row of true flags."""
    start = None
    for at, flag in enumerate((*flags, False)):
        if flag and start is None:
            start = at
        elif not flag and start is not None:
            yield start, at
            start = None


def _crossings(ring: Sequence[Dot], y: float) -> list[float]:
    """Where a level line crosses a ring, from the left; between odd and even ones it is inside."""
    return sorted(
        ax + (bx - ax) * (y - ay) / (by - ay)
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True)
        if (ay > y) != (by > y)
    )

"""A sheet of paper to draw plans on: millimetres of the surface to dots of the print."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import cycle, pairwise
from math import hypot
from typing import TypeAlias

from msgspec import Struct
from PIL import Image, ImageDraw

from sheetcalc.drawing.letters import font_for
from sheetcalc.drawing.png import png_of

DOTS_PER_INCH = 200
"""Sharp on an A4 print."""

Dot: TypeAlias = tuple[float, float]
Box: TypeAlias = tuple[float, float, float, float]

_PALETTE = (
    (255, 255, 255),  # paper
    (28, 34, 40),  # ink
    (112, 120, 128),  # thin lines
    (222, 230, 236),  # cut tiles, under the hatch
    (168, 44, 32),  # start, dimensions
    (226, 221, 208),  # fixtures
    (22, 78, 128),  # cable
)
PAPER, INK, THIN, SHADE, MARK, FIXTURE, CABLE = range(len(_PALETTE))

_HATCH_STEP = 13
_HATCH_SHEET = 64 * _HATCH_STEP
"""Hatched sheets come in multiples of this, so that drawings of all sizes share a few [dots]."""


def dots(length_mm: float) -> int:
    """Dots of a length on paper."""
    return round(length_mm / 25.4 * DOTS_PER_INCH)


class Scale(Struct, frozen=True):
    """Plane to dots: uniform, front up."""

    left: float
    front: float
    dots_per_unit: float
    x0: float
    y0: float

    def dot(self, point: Sequence[float]) -> Dot:
        """Dots from the sheet's top left corner."""
        return (
            self.x0 + (point[0] - self.left) * self.dots_per_unit,
            self.y0 - (point[1] - self.front) * self.dots_per_unit,
        )

    def dots(self, ring: Iterable[Sequence[float]]) -> list[Dot]:
        """Dots of a line of points."""
        return [self.dot(p) for p in ring]


@lru_cache(maxsize=8)
def _sign(size: int, sign: str) -> tuple[float, float]:
    """Width and height of a sign."""
    left, top, right, bottom = font_for(sign, size).getbbox(sign)
    return right - left, bottom - top


@lru_cache(maxsize=4096)
def width_of(words: str, size: int) -> float:
    """Width of words [dots]."""
    return float(font_for(words, size).getlength(words))


def shortened(words: str, size: int, width: float) -> str:
    """Cut words off that are wider than a place [dots]."""
    if width_of(words, size) < width:
        return words
    cuts = (f"{words[:end].rstrip()}..." for end in range(len(words) - 1, 0, -1))
    return next((cut for cut in cuts if width_of(cut, size) < width), "")


def _hatched(size: tuple[int, int], *, crossed: bool) -> Image.Image:
    """Give a whole sheet of the shade of cut tiles under diagonal lines."""
    across, along = (-(-dots // _HATCH_SHEET) * _HATCH_SHEET for dots in size)
    return _hatched_sheet(across, along, crossed=crossed).crop((0, 0, *size))


@lru_cache(maxsize=8)
def _hatched_sheet(width: int, height: int, *, crossed: bool) -> Image.Image:
    sheet = Image.new("P", (width, height), SHADE)
    draw = ImageDraw.Draw(sheet)
    for offset in range(-height, width, _HATCH_STEP):
        draw.line((offset, height, offset + height, 0), fill=THIN)
        if crossed:
            draw.line((offset, 0, offset + height, height), fill=THIN)
    return sheet


class _Written(Struct, frozen=True):
    """Words as a mask, and its near top corner from the place that they are written at."""

    mask: Image.Image
    left: int
    top: int


@lru_cache(maxsize=1024)
def _written(words: str, size: int, anchor: str) -> _Written:
    """Write words once: the names of cuts stand on many pieces, and on many cards."""
    font = font_for(words, size)
    left, top, right, bottom = (round(side) for side in font.getbbox(words, "1", anchor=anchor))
    mask = Image.new("1", (max(right - left, 1), max(bottom - top, 1)))
    ImageDraw.Draw(mask).text((-left, -top), words, fill=1, font=font, anchor=anchor)
    return _Written(mask, left, top)


@lru_cache(maxsize=256)
def _written_upright(words: str, size: int) -> Image.Image:
    """Write words that read upwards, in the middle of a mask."""
    wide, high = int(width_of(words, size)) + 2, size + 4
    flat = Image.new("1", (wide, high))
    font = font_for(words, size)
    ImageDraw.Draw(flat).text((wide / 2, high / 2), words, fill=1, font=font, anchor="mm")
    return flat.transpose(Image.Transpose.ROTATE_90)


class Canvas:
    """A palette image with the few strokes that a plan needs."""

    def __init__(self, size: tuple[int, int]) -> None:
        self.size = size
        self._image = Image.new("P", size, PAPER)
        self._image.putpalette([part for colour in _PALETTE for part in colour])
        self._draw = ImageDraw.Draw(self._image)

    def fill(self, ring: Sequence[Dot], colour: int) -> None:
        """Fill a polygon."""
        self._draw.polygon(ring, fill=colour)

    def outline(self, ring: Sequence[Dot], colour: int, width: int) -> None:
        """Stroke a closed line."""
        self._draw.line([*ring, ring[0]], fill=colour, width=width, joint=_joint(width))

    def line(self, line: Sequence[Dot], colour: int, width: int) -> None:
        """Stroke an open line."""
        self._draw.line(line, fill=colour, width=width, joint=_joint(width))

    def dashed(
        self, line: Sequence[Dot], colour: int, width: int, pattern: Sequence[float] = (9, 9)
    ) -> None:
        """Stroke an open line in dashes: lengths of stroke and gap by turns [dots]."""
        for (x0, y0), (x1, y1) in pairwise(line):
            length = max(hypot(x1 - x0, y1 - y0), 1e-9)
            at = 0.0
            for number, step in enumerate(cycle(pattern)):
                if at >= length:
                    break
                a, b = at / length, min(at + step, length) / length
                at += step
                if number % 2 == 0:
                    begin = (x0 + (x1 - x0) * a, y0 + (y1 - y0) * a)
                    end = (x0 + (x1 - x0) * b, y0 + (y1 - y0) * b)
                    self.line((begin, end), colour, width)

    def circle(self, centre: Dot, radius: float, colour: int, *, fill: int = PAPER) -> None:
        """Draw a disc with an edge."""
        x, y = centre
        box = (x - radius, y - radius, x + radius, y + radius)
        self._draw.ellipse(box, fill=fill, outline=colour, width=3)

    def hatch(self, polygons: Iterable[Sequence[Dot]], *, crossed: bool) -> None:
        """Shade and hatch polygons: a mark that survives a black-and-white print."""
        rings = list(polygons)
        if not rings:
            return
        where = Image.new("1", self.size)
        draw = ImageDraw.Draw(where)
        for ring in rings:
            draw.polygon(ring, fill=1)
        self._image.paste(_hatched(self.size, crossed=crossed), mask=where)

    def text(self, at: Dot, words: str, size: int, colour: int, anchor: str = "lt") -> None:
        """Write words, from whole dots on.

        Letters are drawn without grey so that the palette stays small.
        """
        written = _written(words, size, anchor)
        place = (round(at[0]) + written.left, round(at[1]) + written.top)
        self._image.paste(colour, place, written.mask)

    def upright(self, at: Dot, words: str, size: int, colour: int) -> None:
        """Write words that read upwards, about a place."""
        mask = _written_upright(words, size)
        high, wide = mask.size
        self._image.paste(colour, (round(at[0] - high / 2), round(at[1] - wide / 2)), mask)

    def upright_patch(self, at: Dot, words: str, size: int, colour: int) -> None:
        """Write words that read upwards in the middle of a patch of paper."""
        wide, high = patch_size(words, size)
        box = (at[0] - high / 2 + 1, at[1] - wide / 2, at[0] + high / 2 - 1, at[1] + wide / 2)
        self._draw.rectangle(box, fill=PAPER)
        self.upright(at, words, size, colour)

    def patch(self, at: Dot, words: str, size: int, colour: int) -> Box:
        """Write words in the middle of a patch of paper, legible on any hatch.

        The patch is kept within the sheet; returns its place.
        """
        box = self.patch_box(at, words, size)
        self._draw.rectangle(box, fill=PAPER)
        middle = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2 + 1
        self.text(middle, words, size, colour, anchor="mm")
        return box

    def patch_box(self, at: Dot, words: str, size: int) -> Box:
        """Place of a patch that holds words about a place: within the sheet."""
        wide, high = (side / 2 for side in patch_size(words, size))
        x = min(max(at[0], wide), self.size[0] - 1 - wide)
        y = min(max(at[1], high), self.size[1] - 1 - high)
        return x - wide, y - high, x + wide, y + high

    def is_blank(self, box: Box, margin: float) -> bool:
        """Tell whether nothing is drawn in a box on the sheet, but for a margin within it."""
        left, top, right, bottom = box
        if left < 0 or top < 0 or right > self.size[0] or bottom > self.size[1]:
            return False
        corners = left + margin, top + margin, right - margin, bottom - margin
        x0, y0, x1, y1 = map(round, corners)
        within = self._image.crop((x0, y0, x1, y1))
        return bool(within.getextrema() == (PAPER, PAPER))

    def png(self) -> bytes:
        """Return the picture as a file."""
        return png_of(self._image, DOTS_PER_INCH)


def _joint(width: int) -> str | None:
    """Thick lines need round joints; thin ones are quicker without."""
    return "curve" if width > 2 else None  # noqa: PLR2004 - dots


def patch_size(words: str, size: int) -> tuple[float, float]:
    """Width and height of a patch that holds words [dots]."""
    return width_of(words, size) + 6, _sign(size, "0")[1] + 6


def fit(bounds: Box, box: Box) -> Scale:
    """Largest scale at which a rectangle of the plane fits a box of the sheet, at its top.

    Parameters
    ----------
    bounds
        Left, front, right, far of what is drawn [1/320 mm].
    box
        Left, top, right, bottom on the sheet [dots].
    """
    width, depth = max(bounds[2] - bounds[0], 1), max(bounds[3] - bounds[1], 1)
    left, top, right, bottom = box
    scale = min((right - left) / width, (bottom - top) / depth)
    x0 = left + ((right - left) - width * scale) / 2
    y0 = top + depth * scale
    return Scale(bounds[0], bounds[1], scale, x0, y0)

"""A sheet of paper to draw plans on: millimetres of the surface to dots of the print."""

import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from PIL import Image, ImageDraw, ImageFont

from sheetcalc.domain.room import Ring

DOTS_PER_INCH = 200
"""Sharp on an A4 print."""

_PALETTE = (
    (255, 255, 255),  # paper
    (28, 34, 40),  # ink
    (120, 128, 136),  # thin lines
    (214, 224, 232),  # cut tiles, under the hatch
    (176, 58, 46),  # start, dimensions
    (230, 226, 216),  # fixtures
    (36, 88, 132),  # cable
)
PAPER, INK, THIN, SHADE, MARK, FIXTURE, CABLE = range(len(_PALETTE))


@dataclass(frozen=True, slots=True)
class Scale:
    """Plane to dots: uniform, front up."""

    left: float
    front: float
    dots_per_unit: float
    x0: float
    y0: float

    def dot(self, point: Sequence[float]) -> tuple[float, float]:
        """Dots from the sheet's top left corner."""
        return (
            self.x0 + (point[0] - self.left) * self.dots_per_unit,
            self.y0 - (point[1] - self.front) * self.dots_per_unit,
        )

    def dots(self, ring: Iterable[Sequence[float]]) -> list[tuple[float, float]]:
        """Dots of a line of points."""
        return [self.dot(p) for p in ring]


@lru_cache(maxsize=8)
def _font(size: int) -> ImageFont.FreeTypeFont | ImageFont.ImageFont:
    return ImageFont.load_default(size)


@lru_cache(maxsize=4)
def _hatch(size: tuple[int, int], spacing: int, *, crossed: bool) -> Image.Image:
    """Make a mask of diagonal lines over a whole sheet."""
    mask = Image.new("1", size)
    draw = ImageDraw.Draw(mask)
    width, height = size
    for offset in range(-height, width, spacing):
        draw.line((offset, height, offset + height, 0), fill=1)
        if crossed:
            draw.line((offset, 0, offset + height, height), fill=1)
    return mask


class Canvas:
    """A palette image with the few strokes that a plan needs."""

    def __init__(self, size: tuple[int, int]) -> None:
        self.size = size
        self._image = Image.new("P", size, PAPER)
        self._image.putpalette([part for colour in _PALETTE for part in colour])
        self._draw = ImageDraw.Draw(self._image)

    def fill(self, dots: Sequence[tuple[float, float]], colour: int) -> None:
        """Fill a polygon."""
        self._draw.polygon(dots, fill=colour)

    def outline(self, dots: Sequence[tuple[float, float]], colour: int, width: int) -> None:
        """Stroke a closed line."""
        self._draw.line([*dots, dots[0]], fill=colour, width=width, joint="curve")

    def line(self, dots: Sequence[tuple[float, float]], colour: int, width: int) -> None:
        """Stroke an open line."""
        self._draw.line(dots, fill=colour, width=width, joint="curve")

    def circle(self, centre: tuple[float, float], radius: float, colour: int, width: int) -> None:
        """Stroke a circle on paper."""
        x, y = centre
        box = (x - radius, y - radius, x + radius, y + radius)
        self._draw.ellipse(box, fill=PAPER, outline=colour, width=width)

    def hatch(self, polygons: Iterable[Sequence[tuple[float, float]]], *, crossed: bool) -> None:
        """Hatch polygons: a mark that survives a black-and-white print."""
        where = Image.new("1", self.size)
        draw = ImageDraw.Draw(where)
        drawn = False
        for dots in polygons:
            draw.polygon(dots, fill=1)
            drawn = True
        if drawn:
            lines = _hatch(self.size, 14, crossed=crossed)
            both = Image.new("1", self.size)
            both.paste(lines, mask=where)
            self._image.paste(THIN, mask=both)

    def text(
        self, at: tuple[float, float], words: str, size: int, colour: int, anchor: str = "lt"
    ) -> None:
        """Write words; letters are drawn without grey so that the palette stays small."""
        self._draw.text(at, words, fill=colour, font=_font(size), anchor=anchor)

    def words_on_paper(self, at: tuple[float, float], words: str, size: int, colour: int) -> None:
        """Write words in the middle of a patch of paper, legible on any hatch."""
        box = self._draw.textbbox(at, words, font=_font(size), anchor="mm")
        self._draw.rectangle((box[0] - 4, box[1] - 3, box[2] + 4, box[3] + 3), fill=PAPER)
        self._draw.text(at, words, fill=colour, font=_font(size), anchor="mm")

    def width_of(self, words: str, size: int) -> float:
        """Width of words [dots]."""
        return float(self._draw.textlength(words, font=_font(size)))

    def png(self) -> bytes:
        """Return the picture, compressed lightly: a print is read once and written often."""
        out = io.BytesIO()
        self._image.save(out, "PNG", compress_level=4, dpi=(DOTS_PER_INCH, DOTS_PER_INCH), bits=4)
        return out.getvalue()


def fit(
    rings: Iterable[Ring], box: tuple[float, float, float, float], largest: float = 1.0
) -> Scale:
    """Largest scale at which rings fit a box of the sheet (left, top, right, bottom) [dots]."""
    points = [p for ring in rings for p in ring]
    lefts, fronts = [p[0] for p in points], [p[1] for p in points]
    width = max(max(lefts) - min(lefts), 1)
    depth = max(max(fronts) - min(fronts), 1)
    left, top, right, bottom = box
    scale = min((right - left) / width, (bottom - top) / depth, largest)
    x0 = left + ((right - left) - width * scale) / 2
    y0 = bottom - ((bottom - top) - depth * scale) / 2
    return Scale(min(lefts), min(fronts), scale, x0, y0)

"""Draw a plan: tiles, cuts, fixtures, cables and the distances to mark."""

from sheetcalc.domain.room import Point
from sheetcalc.drawing.canvas import (
    CABLE,
    FIXTURE,
    INK,
    MARK,
    PAPER,
    SHADE,
    THIN,
    Canvas,
    Scale,
    fit,
)
from sheetcalc.drawing.plan import Dimension, PlanDrawing, TileMark

_TITLE, _TEXT, _SMALL = 34, 24, 20
_MARGIN = 110
"""Dots round the plan, for dimension lines and their figures."""

_LEAST_LETTER_DOTS = 26
"""A tile narrower than this is not lettered: the letter would hide it."""


def draw(plan: PlanDrawing, size: tuple[int, int] = (1400, 1400)) -> bytes:
    """Draw a plan.

    Parameters
    ----------
    plan
        What to show.
    size
        Width and height [dots]; at 200 dots an inch 1400 is 178 mm, the width of an A4 print.

    Returns
    -------
    bytes
        PNG file.
    """
    canvas = Canvas(size)
    foot = 30 * len(plan.legend) + 20
    box = (_MARGIN, _MARGIN, size[0] - _MARGIN, size[1] - _MARGIN - foot)
    scale = fit([patch.shell for patch in plan.region.patches], box)
    canvas.text((30, 24), plan.title, _TITLE, INK)
    _tiles(canvas, scale, plan)
    _strips(canvas, scale, plan)
    _fixtures(canvas, scale, plan)
    for patch in plan.region.patches:
        for ring in (patch.shell, *patch.holes):
            canvas.outline(scale.dots(ring), INK, 5)
    for start, end in plan.openings:
        canvas.line(scale.dots((start, end)), PAPER, 7)
        canvas.line(scale.dots((start, end)), INK, 1)
    for path in plan.paths:
        canvas.line(scale.dots(path.course), CABLE, 5)
        for label in path.labels:
            canvas.words_on_paper(scale.dot(label.at), label.words, _SMALL, CABLE)
    for dimension in plan.dimensions:
        _dimension(canvas, scale, dimension)
    if plan.start is not None:
        _start(canvas, scale, plan.start)
    for label in plan.labels:
        canvas.words_on_paper(scale.dot(label.at), label.words, _SMALL, INK)
    for number, words in enumerate(plan.legend):
        canvas.text((30, size[1] - foot + 30 * number), words, _TEXT, INK)
    return canvas.png()


def _tiles(canvas: Canvas, scale: Scale, plan: PlanDrawing) -> None:
    rings = [(tile, scale.dots(tile.ring)) for tile in plan.tiles]
    for tile, dots in rings:
        if tile.mark in {TileMark.CUT, TileMark.SMALL}:
            canvas.fill(dots, SHADE)
    canvas.hatch((d for t, d in rings if t.mark is TileMark.CUT), crossed=False)
    canvas.hatch((d for t, d in rings if t.mark is TileMark.SMALL), crossed=True)
    for tile, dots in rings:
        canvas.outline(dots, THIN, 2)
        if tile.letter:
            xs, ys = [x for x, _ in dots], [y for _, y in dots]
            if min(max(xs) - min(xs), max(ys) - min(ys)) >= _LEAST_LETTER_DOTS:
                middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
                canvas.words_on_paper(middle, tile.letter, _SMALL, INK)
    for tile, dots in rings:
        if tile.mark is TileMark.START:
            canvas.outline(dots, MARK, 6)


def _strips(canvas: Canvas, scale: Scale, plan: PlanDrawing) -> None:
    for ring, words in plan.strips:
        dots = scale.dots(ring)
        canvas.outline(dots, THIN, 3)
        middle = (sum(x for x, _ in dots) / len(dots), sum(y for _, y in dots) / len(dots))
        canvas.words_on_paper(middle, words, _SMALL, INK)


def _fixtures(canvas: Canvas, scale: Scale, plan: PlanDrawing) -> None:
    for ring, words in plan.fixtures:
        dots = scale.dots(ring)
        canvas.fill(dots, FIXTURE)
        canvas.outline(dots, INK, 3)
        middle = (sum(x for x, _ in dots) / len(dots), sum(y for _, y in dots) / len(dots))
        canvas.words_on_paper(middle, words, _SMALL, INK)
    for circle in plan.circles:
        radius = circle.diameter_mm320 / 2 * scale.dots_per_unit
        canvas.circle(scale.dot(circle.centre), max(radius, 5), INK, 3)


def _dimension(canvas: Canvas, scale: Scale, dimension: Dimension) -> None:
    """Draw a line between two ticks, its figure in the middle."""
    start, end = scale.dot(dimension.start), scale.dot(dimension.end)
    canvas.line((start, end), MARK, 2)
    across = abs(end[0] - start[0]) >= abs(end[1] - start[1])
    for x, y in (start, end):
        tick = ((x, y - 12), (x, y + 12)) if across else ((x - 12, y), (x + 12, y))
        canvas.line(tick, MARK, 3)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    canvas.words_on_paper(middle, dimension.words, _TEXT, MARK)


def _start(canvas: Canvas, scale: Scale, start: Point) -> None:
    """Draw a ringed cross on the start corner."""
    x, y = scale.dot(start)
    canvas.line(((x - 22, y), (x + 22, y)), MARK, 4)
    canvas.line(((x, y - 22), (x, y + 22)), MARK, 4)
    canvas.outline(
        [(x - 12, y - 12), (x + 12, y - 12), (x + 12, y + 12), (x - 12, y + 12)], MARK, 3
    )

"""Draw a plan: tiles, cuts, fixtures, cables, strips and the distances to mark."""

from sheetcalc.drawing.canvas import (
    CABLE,
    FIXTURE,
    INK,
    MARK,
    PAPER,
    THIN,
    Box,
    Canvas,
    Dot,
    Scale,
    dots,
    fit,
    shortened,
    width_of,
)
from sheetcalc.drawing.labels import Labels
from sheetcalc.drawing.plan import Dimension, LineMark, PlanDrawing, PointMark, TileMark

_SMALL_PRINT_MM = 70.0
"""Drawings narrower than this have smaller letters."""

_LARGE_TEXT, _SMALL_TEXT = 20, 17

_SIGN = 9
"""Half the size of a sign [dots]."""


def draw(plan: PlanDrawing, width_mm: float, height_mm: float) -> bytes:
    """Draw a plan.

    Parameters
    ----------
    plan
        What to show.
    width_mm, height_mm
        Size on paper [mm].

    Returns
    -------
    bytes
        PNG file at 200 dots an inch, the same for the same plan.
    """
    size = (dots(width_mm), dots(height_mm))
    small = width_mm < _SMALL_PRINT_MM or plan.in_panels
    text = _SMALL_TEXT if small else _LARGE_TEXT
    canvas = Canvas(size)
    fits = width_of(plan.title, text + 3) < size[0] - 4
    title = plan.title if fits else shortened(plan.short_title, text + 3, size[0] - 4)
    canvas.text((2, 10), title, text + 3, INK)
    left, front, right, far = plan.region.bounds
    bounds = left, front, right, max([far, *(round(c.at[1]) for c in plan.captions)])
    scale = fit(bounds, _box(plan, size, text))
    corners = scale.dots(((bounds[0], bounds[1]), (bounds[2], bounds[3])))
    labels = Labels(canvas, text, corners, apart=plan.in_panels)
    _tiles(canvas, scale, plan)
    _fixtures(canvas, scale, plan)
    _strips(canvas, scale, plan)
    _outline(canvas, scale, plan)
    _lines(canvas, scale, plan)
    for path in plan.paths:
        course = scale.dots(path.course)
        (canvas.dashed if path.dashed else canvas.line)(course, CABLE, 4)
    _marks(canvas, scale, plan, labels, small=text == _SMALL_TEXT)
    _words(scale, plan, labels)
    return canvas.png()


_DASHES = {LineMark.MOVEMENT: (26, 10), LineMark.HIP: (16, 6, 3, 6)}
_WIDTHS = {LineMark.MOVEMENT: 6, LineMark.HIP: 3}


def _lines(canvas: Canvas, scale: Scale, plan: PlanDrawing) -> None:
    for line in plan.lines:
        canvas.dashed(scale.dots(line.course), INK, _WIDTHS[line.mark], _DASHES[line.mark])


def _marks(canvas: Canvas, scale: Scale, plan: PlanDrawing, labels: Labels, *, small: bool) -> None:
    """Draw doors' names, starts, distances and signs, which no other word may cover."""
    for side in plan.sides:
        if side.door:
            labels.on_side(scale.dots((side.start, side.end)), side.words)
    for start in plan.starts:
        _start(canvas, scale.dot(start), 6 if small else 9)
    for dimension in plan.dimensions:
        _dimension(canvas, scale, dimension, labels, small=small)
    for point in plan.points:
        _sign(canvas, scale.dot(point.at), point.mark)
        labels.keep_clear(scale.dot(point.at), _SIGN)
    for point in plan.points:
        labels.beside(scale.dot(point.at), point.words, INK)


def _words(scale: Scale, plan: PlanDrawing, labels: Labels) -> None:
    """Write names of things, rows, pieces and sides where there is room."""
    for caption in plan.captions:
        labels.above(scale.dot(caption.at), caption.words, caption.short)
    for line in plan.lines:
        labels.along(scale.dots(line.course), line.words)
    _names(scale, plan, labels)
    for label in plan.labels:
        labels.if_free(scale.dot(label.at), label.words, CABLE)
    for tile in plan.tiles:
        if tile.label:
            labels.on_piece(scale.dots(tile.ring), tile.label)
    for side in plan.sides:
        if not side.door:
            labels.on_side(scale.dots((side.start, side.end)), side.words)


def _tiles(canvas: Canvas, scale: Scale, plan: PlanDrawing) -> None:
    rings = [(tile.mark, scale.dots(tile.ring)) for tile in plan.tiles]
    canvas.hatch((r for m, r in rings if m is TileMark.CUT), crossed=False)
    canvas.hatch((r for m, r in rings if m is TileMark.SMALL), crossed=True)
    for _, ring in rings:
        canvas.outline(ring, THIN, 2)
    for mark, ring in rings:
        if mark is TileMark.START:
            canvas.outline(ring, MARK, 4)


def _strips(canvas: Canvas, scale: Scale, plan: PlanDrawing) -> None:
    for ring, _ in plan.strips:
        canvas.outline(scale.dots(ring), THIN, 3)


def _fixtures(canvas: Canvas, scale: Scale, plan: PlanDrawing) -> None:
    for ring, _ in plan.fixtures:
        corners = scale.dots(ring)
        canvas.fill(corners, FIXTURE)
        canvas.outline(corners, INK, 3)
    for circle, _ in plan.circles:
        radius = circle.diameter_mm320 / 2 * scale.dots_per_unit
        canvas.circle(scale.dot(circle.centre), max(radius, 5), INK)


def _outline(canvas: Canvas, scale: Scale, plan: PlanDrawing) -> None:
    width = 3 if plan.in_panels else 5
    for patch in plan.region.patches:
        for ring in (patch.shell, *patch.holes):
            canvas.outline(scale.dots(ring), INK, width)
    for side in plan.sides:
        if side.door:
            ends = scale.dots((side.start, side.end))
            canvas.line(ends, PAPER, 7)
            canvas.line(ends, INK, 1)


def _box(plan: PlanDrawing, size: tuple[int, int], text: int) -> Box:
    """Room on the sheet within the title, and the names of sides and of narrow cuts."""
    cuts = any(tile.label for tile in plan.tiles)
    aside = 2 * text + 4 if cuts else text + 8 if plan.sides else 5
    if plan.in_panels:
        return aside, 2 * text + 24, size[0] - aside, size[1] - text - 8
    above = text + 10 if cuts or plan.sides else 5
    return aside, above + text + 14, size[0] - aside, size[1] - above


def _names(scale: Scale, plan: PlanDrawing, labels: Labels) -> None:
    """Write names of fixtures, holes and strips."""
    for ring, words in (*plan.fixtures, *plan.strips):
        if words:
            labels.in_shape(scale.dots(ring), words)
    for circle, words in plan.circles:
        radius = max(circle.diameter_mm320 / 2 * scale.dots_per_unit, 5)
        if words:
            labels.beside(scale.dot(circle.centre), words, INK, radius + 3)


def _dimension(
    canvas: Canvas, scale: Scale, dimension: Dimension, labels: Labels, *, small: bool
) -> None:
    """Draw a line with arrows, its figure in the middle, or beside it where it is short."""
    start, end = scale.dot(dimension.start), scale.dot(dimension.end)
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = (dx * dx + dy * dy) ** 0.5
    if length < 1:  # a joint, say, of a distance to a wall outside the drawing: the figure alone
        level = dimension.start[1] == dimension.end[1]
        labels.on_line(start, length, dimension.words, MARK, across=level)
        return
    ux, uy = dx / length, dy / length
    canvas.line((start, end), MARK, 2 if small else 3)
    arrow = min(9 if small else 14, length / 2)
    for (x, y), way in ((start, 1), (end, -1)):
        back = arrow * way
        sides = [(x + ux * back - uy * s, y + uy * back + ux * s) for s in (-arrow / 3, arrow / 3)]
        canvas.fill([(x, y), *sides], MARK)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    labels.on_line(middle, length, dimension.words, MARK, across=abs(dx) >= abs(dy))


def _start(canvas: Canvas, at: Dot, half: float) -> None:
    """Draw a boxed cross on the start corner."""
    x, y = at
    canvas.line(((x - 2 * half, y), (x + 2 * half, y)), MARK, 3)
    canvas.line(((x, y - 2 * half), (x, y + 2 * half)), MARK, 3)
    box = [(x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)]
    canvas.outline(box, MARK, 2)


def _sign(canvas: Canvas, at: Dot, mark: PointMark) -> None:
    x, y = at
    square = [(x - 8, y - 8), (x + 8, y - 8), (x + 8, y + 8), (x - 8, y + 8)]
    match mark:
        case PointMark.RING:
            canvas.circle(at, _SIGN, MARK)
        case PointMark.DOT:
            canvas.circle(at, 8, INK, fill=INK)
        case PointMark.BAR:
            canvas.line(((x - _SIGN, y - _SIGN), (x + _SIGN, y + _SIGN)), INK, 5)
            canvas.line(((x - _SIGN, y + _SIGN), (x + _SIGN, y - _SIGN)), INK, 5)
        case PointMark.BOX:
            canvas.fill(square, PAPER)
            canvas.outline(square, INK, 4)

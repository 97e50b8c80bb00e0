"""Drawings of what is small: curbs, niches and reveals unfolded, and base courses."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import log
from typing import TypeAlias

from msgspec import Struct

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Patch, PieceKind, Point, Region, Ring, Room
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.drawing.letters import printable
from sheetcalc.drawing.plan import Label, MarkedTile, PlanDrawing
from sheetcalc.drawing.tiles import marked_tiles
from sheetcalc.drawing.words import Legend, heading, setting_out_sentences, told

_BETWEEN = 0.055
"""Between panels, as a share of the drawing's width: a line of letters fits."""

_NETS_ASPECT, _COURSES_ASPECT = 3.0, 6.0
"""How much wider than high these drawings are, about."""

_NICHE = {"back": (0, 0), "left": (-1, 0), "right": (1, 0), "top": (0, 1), "bottom": (0, -1)}
_OPENING = {"left": (-1, 0), "right": (1, 0), "head": (0, 1), "sill": (0, -1)}
_CURB = {"top": (0, 0), "face 1": (0, -1), "face 2": (0, 1), "end 1": (-1, 0), "end 2": (1, 0)}
_SIDES_ALONG = {"face 1": "near", "face 2": "far", "end 1": "left", "end 2": "right"}
_SIDES_AWAY = {"face 1": "left", "face 2": "right", "end 1": "near", "end 2": "far"}
_OTHER_HAND = {"left": "right", "right": "left"}


class _Panel(Struct, frozen=True):
    """One surface as it lies in its net, its near left corner at the origin.

    Attributes
    ----------
    at
        Column and row in the net, from the middle.
    turned
        Turned by a right angle to the right, so that a curb lies along the sheet.
    """

    out: SettingOut
    letter: str
    words: str
    at: tuple[int, int]
    turned: bool = False

    @property
    def size(self) -> Point:
        """Width and height as it lies."""
        left, front, right, far = self.out.region.bounds
        across, along = right - left, far - front
        return (along, across) if self.turned else (across, along)

    def lying(self, ring: Iterable[Sequence[float]]) -> Iterator[tuple[float, float]]:
        """Places of points of the surface in the panel."""
        left, front, right, _ = self.out.region.bounds
        if self.turned:
            return ((y - front, right - x) for x, y in ring)
        return ((x - left, y - front) for x, y in ring)


class _Placed(Struct, frozen=True):
    """A panel with its near left corner on the sheet [1/320 mm]."""

    panel: _Panel
    left: int
    front: int

    def ring(self, ring: Iterable[Sequence[float]]) -> tuple[tuple[float, float], ...]:
        """Corners on the sheet."""
        return tuple((x + self.left, y + self.front) for x, y in self.panel.lying(ring))

    def region(self) -> Region:
        """Region on the sheet."""
        return Region(
            tuple(
                Patch(self._whole(p.shell), tuple(self._whole(hole) for hole in p.holes))
                for p in self.panel.out.region.patches
            )
        )

    def _whole(self, ring: Ring) -> Ring:
        return tuple((round(x), round(y)) for x, y in self.ring(ring))


_Sheet: TypeAlias = tuple[Sequence[_Placed], Sequence[Label]]
"""Panels as they lie, and the names of their nets."""


def unfolded_plans(
    work: RoomWork, letters: Mapping[str, str], legend: Legend
) -> tuple[PlanDrawing, ...]:
    """Draw the small surfaces of a room: one drawing of nets, one of base courses.

    Parameters
    ----------
    work
        The room.
    letters
        Of the surfaces to draw, by key.
    legend
        How things are put; its job has perimeter gap and smallest cut.
    """
    outs = [work.setting_outs[key] for key in letters if work.setting_outs[key].region.patches]
    base = [out for out in outs if out.kind is SurfaceKind.BASE]
    nets: dict[str, list[_Panel]] = {}
    for out in outs:
        if out.kind is not SurfaceKind.BASE:
            net, panel = _panel(work.room, out, letters[out.surface])
            nets.setdefault(net, []).append(panel)
    plans = []
    if nets:
        laid = _nets(list(nets.items()), legend)
        plans.append(_plan("Unfolded, each seen from its front", laid, legend))
    if base:
        courses = [_Panel(out, letters[out.surface], "", (0, 0)) for out in base]
        laid = _courses(courses)
        plans.append(_plan("Base course, round from the near left corner", laid, legend))
    return tuple(plans)


def _panel(room: Room, out: SettingOut, letter: str) -> tuple[str, _Panel]:
    """Name of the net that a surface belongs to, and its place there."""
    what, _, _ = out.surface.partition(" ")
    places = {"curb": _CURB, "niche": _NICHE}.get(what, _OPENING)
    part = next((p for p in places if out.surface.endswith(f" {p}")), "")
    net = out.surface.removesuffix(f" {part}")
    words = part
    turned = False
    if places is _CURB:
        away = _runs_away(room, net)
        turned = away and part == "top"
        words = _curb_side(part, away=away, handed=room.handed)
        if away and part.startswith("face"):  # turned to the right, its left side lies above
            part = "face 2" if words == "left face" else "face 1"
    return net, _Panel(out, letter, words, places.get(part, (0, 0)), turned)


def _runs_away(room: Room, net: str) -> bool:
    """Whether a curb runs away from the door."""
    for fixture in room.fixtures:
        if fixture.kind is PieceKind.CURB and f"curb {fixture.name}" == net and fixture.region:
            left, front, right, far = fixture.region.bounds
            return right - left < far - front
    return False


def _curb_side(part: str, *, away: bool, handed: bool) -> str:
    """Say which side of a curb a part is."""
    side = (_SIDES_AWAY if away else _SIDES_ALONG).get(part, "")
    if handed:
        side = _OTHER_HAND.get(side, side)
    return f"{side} {part.split(' ', maxsplit=1)[0]}" if side else part


def _nets(nets: Sequence[tuple[str, Sequence[_Panel]]], legend: Legend) -> _Sheet:
    """Lay nets in columns, each with its name above."""
    bare = [_net_size(panels, 0) for _, panels in nets]
    gap = _gap(bare, _NETS_ASPECT)
    sizes = [_net_size(panels, gap) for _, panels in nets]
    corners, _ = _in_columns([(w, h + gap) for w, h in sizes], 2 * gap, _NETS_ASPECT)
    placed: list[_Placed] = []
    captions: list[Label] = []
    for (name, panels), (wide, high), (left, front) in zip(nets, sizes, corners, strict=True):
        captions.append(Label((left + wide / 2, front + high), heading(_net_name(name, legend))))
        placed += _net(panels, gap, (left, front))
    return placed, captions


def _net_name(name: str, legend: Legend) -> str:
    """Name of a curb as typed; else which niche or opening it is."""
    what, _, typed = name.partition(" ")
    return printable(typed, legend.name(what)) if what == "curb" else legend.name(name, what)


def _courses(panels: Sequence[_Panel]) -> _Sheet:
    """Lay base courses in columns, round the room from the near left corner."""
    bare = [panel.size for panel in panels]
    gap = _gap(bare, _COURSES_ASPECT)
    corners, _ = _in_columns([(w, h + gap) for w, h in bare], gap, _COURSES_ASPECT)
    return [_Placed(p, x, y) for p, (x, y) in zip(panels, corners, strict=True)], []


def _gap(sizes: Sequence[Point], aspect: float) -> int:
    """Room between panels: a line of letters, whether width or height limits the drawing."""
    corners, wide = _in_columns(sizes, 0, aspect)
    high = -min(front for _, front in corners)
    return round(max(wide, high * aspect) * _BETWEEN)


def _in_columns(sizes: Sequence[Point], gap: int, aspect: float) -> tuple[list[Point], int]:
    """Lay boxes below each other in columns, their order kept; about as wide as wanted.

    Returns
    -------
    tuple
        Near left corner of each, fronts below 0, and the width of all.
    """
    heights = sorted({sum(h for _, h in sizes[:n]) for n in range(1, len(sizes) + 1)})
    tallest = max(h for _, h in sizes)
    ways = [_columns_of(sizes, gap, max(high, tallest)) for high in heights]
    return min(ways, key=lambda way: abs(log(way[1] / way[2] / aspect)))[:2]


def _columns_of(sizes: Sequence[Point], gap: int, high: int) -> tuple[list[Point], int, int]:
    """Fill columns of a height; corners, and the width and height of all."""
    corners: list[Point] = []
    left = depth = widest = deepest = 0
    for wide, tall in sizes:
        if depth and depth + tall > high:
            left, depth, widest = left + widest + gap, 0, 0
        depth += tall
        corners.append((left, -depth))
        widest, deepest = max(widest, wide), max(deepest, depth)
    return corners, left + widest, deepest


def _net_size(panels: Sequence[_Panel], gap: int) -> Point:
    """Width and height of a net, with room above each row for words."""
    columns, rows = _tracks(panels)
    return sum(columns) + 2 * gap, sum(rows) + 3 * gap


def _tracks(panels: Sequence[_Panel]) -> tuple[list[int], list[int]]:
    """Widths of the three columns of a net and heights of its three rows."""
    columns = [max((p.size[0] for p in panels if p.at[0] == c), default=0) for c in (-1, 0, 1)]
    rows = [max((p.size[1] for p in panels if p.at[1] == r), default=0) for r in (-1, 0, 1)]
    return columns, rows


def _net(panels: Sequence[_Panel], gap: int, corner: Point) -> Iterator[_Placed]:
    """Place the panels of a net."""
    columns, rows = _tracks(panels)
    lefts = [0, columns[0] + gap, columns[0] + columns[1] + 2 * gap]
    fronts = [0, rows[0] + gap, rows[0] + rows[1] + 2 * gap]
    for panel in panels:
        column, row = panel.at[0] + 1, panel.at[1] + 1
        off = (columns[column] - panel.size[0]) // 2 if column == 1 else 0
        up = (rows[row] - panel.size[1]) // 2 if row == 1 else 0
        yield _Placed(panel, corner[0] + lefts[column] + off, corner[1] + fronts[row] + up)


def _plan(title: str, laid: _Sheet, legend: Legend) -> PlanDrawing:
    placed, captions = laid
    outs = [(p.panel.out, p.panel.letter) for p in placed]
    first, last = outs[0][1], outs[-1][1]
    several = "{first} to {last}"
    letters = first if first == last else legend.write(several, first=first, last=last)
    tiles = ", ".join(dict.fromkeys(out.tile for out, _ in outs))
    return PlanDrawing(
        title=f"{letters}  {legend.write(title)}: {tiles}",
        short_title=f"{letters}  {legend.write(title.partition(',')[0])}",
        description=told(
            [
                f"{legend.tell(title)}.",
                *(
                    words
                    for out, letter in outs
                    for words in setting_out_sentences(out, letter, legend)
                ),
            ]
        ),
        region=Region(tuple(patch for p in placed for patch in p.region().patches)),
        tiles=tuple(tile for p in placed for tile in _tiles(p, legend.job)),
        captions=(
            *captions,
            *(
                Label(
                    (p.left + p.panel.size[0] / 2, p.front + p.panel.size[1]),
                    _caption(p.panel, legend),
                    p.panel.letter,
                )
                for p in placed
            ),
        ),
    )


def _caption(panel: _Panel, legend: Legend) -> str:
    """Name a panel: its letter, and which side it is where it is wide enough for words."""
    wide, high = panel.size
    side = panel.words and 2 * wide > high
    return f"{panel.letter} {legend.name(panel.words)}" if side else panel.letter


def _tiles(placed: _Placed, job: Job) -> Iterator[MarkedTile]:
    panel = placed.panel
    share = job.smallest_cut_share
    for tile in marked_tiles(panel.out, job.perimeter_gap_mm320, share, panel.letter):
        yield MarkedTile(placed.ring(tile.ring), tile.mark, tile.label)

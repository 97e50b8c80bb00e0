"""Which row of a lattice bond to lay first, and its first tile."""

from collections import defaultdict

import numpy as np

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import Point
from sheetcalc.geometry.setting_out.candidates import outer_cuts
from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.pieces import Counted
from sheetcalc.geometry.setting_out.request import Request, is_upright
from sheetcalc.geometry.setting_out.slabs import Slabs, turn_point
from sheetcalc.geometry.setting_out.start import Start, start_at
from sheetcalc.geometry.setting_out.tape import tape, whole_mm320


def first_tile(
    req: Request, slabs: Slabs, lattice: Lattice, choice: Choice, counted: Counted
) -> Start:
    """Choose the tile to lay first and say how to mark it.

    On a floor: the farthest row with at least half as many whole tiles as the fullest one, so
    that one works back to the door; on a wall: the lowest full course, on a batten.
    """
    turns = req.quarter_turns or 0
    upright = is_upright(req.surface)
    lowest = upright and turns == 0
    rows: defaultdict[int, list[tuple[int, int]]] = defaultdict(list)  # whole tiles, near edge
    for column, row in counted.blocks:
        far = row.near + (row.number - 1) * lattice.rise * lattice.cycle
        rows[row.near if lowest else far].append((column.number, column.near))
    if not rows:
        return _corner_start(req, slabs, lattice, choice)
    whole_in = {y: sum(n for n, _ in found) for y, found in rows.items()}
    most = max(whole_in.values())
    y = min(rows) if lowest else max(y for y in rows if 2 * whole_in[y] >= most)
    whole, x = whole_in[y], min(near for _, near in rows[y])
    corner = _corner(lattice, x, y, turns)
    words = _rest(req, slabs, lattice, choice, whole, corner[1])
    return start_at(corner, req, words)


def _corner_start(req: Request, slabs: Slabs, lattice: Lattice, choice: Choice) -> Start:
    """Start in the near left corner of what is tiled: there are cut pieces only."""
    left, right = (int(v) // lattice.scale for v in slabs.xs[[0, -1]])
    low, high = (int(v) // lattice.scale for v in slabs.ys[[0, -1]])
    turns = req.quarter_turns or 0
    corners = [turn_point(p, turns) for p in ((left, low), (right, high))]
    corner = min(p[0] for p in corners), min(p[1] for p in corners)
    start = start_at(corner, req)
    what = "sheet" if req.sheet else "tile"
    words = f"No whole {what} fits: begin in the corner at the left with the cut pieces."
    tile = _corner(lattice, choice.x, choice.y, turns)
    return Start(tile, start.left, start.front, words)


def _rest(  # noqa: PLR0913, PLR0917 - what is laid, and which row of it first
    req: Request, slabs: Slabs, lattice: Lattice, choice: Choice, whole: int, level: int
) -> list[str]:
    """Say what to do after the first tile of a row of so many, whose near edge lies at a level."""
    turns = req.quarter_turns or 0
    tiles = "whole tile" if whole == 1 else "whole tiles"
    if not is_upright(req.surface):
        way = "away from the door" if turns else "along the start line"
        row = f"Lay that row of {whole} {tiles} {way} first, then back to the door; cuts last."
        return [row, *_stepping(req, lattice, choice)]
    foot = min(p[1] for patch in req.surface.region.patches for p in patch.shell)
    hung = req.surface.kind in {SurfaceKind.WALL, SurfaceKind.WET_AREA} and level > foot
    on = ", on a batten" if hung else ""
    out = [f"Lay that course of {whole} {tiles} first{on}; cuts last."]
    if turns == 0 and req.surface.kind is not SurfaceKind.BASE:
        starts = np.array([choice.y], dtype=np.int64)
        bottom, top = (int(c[0]) for c in outer_cuts(slabs.ys, lattice.width, lattice.rise, starts))
        full = [
            f"{name} course full"
            if size >= lattice.width
            else f"{name} course cut to {tape(whole_mm320(size, lattice.scale), req.job)}"
            for name, size in (("bottom", bottom), ("top", top))
        ]
        out.append(f"{full[0].capitalize()}, {full[1]}.")
    return [*out, *_stepping(req, lattice, choice)]


def _stepping(req: Request, lattice: Lattice, choice: Choice) -> list[str]:
    """How the rows of a stepping bond are offset."""
    if lattice.cycle <= 1:
        return []
    step = tape(whole_mm320(lattice.part, lattice.scale), req.job)
    if not lattice.steps_round:
        return [f"Every second row is offset by {step}."]
    if lattice.cycle == 2:  # noqa: PLR2004 - a half bond steps either way
        return [f"Each row is offset by {step}."]
    turns = req.quarter_turns or 0
    if turns:
        way = "towards the door" if choice.leftward else "away from the door"
        return [f"Each row to the left of another is offset by {step} {way}."]
    way = "left" if choice.leftward else "right"
    return [f"Each row beyond another is offset by {step} to the {way}."]


def _corner(lattice: Lattice, x: int, y: int, turns: int) -> Point:
    """Near left corner, in the surface's frame, of the tile at x, y of the tile's frame."""
    left, front = whole_mm320(x, lattice.scale), whole_mm320(y, lattice.scale)
    length, width = lattice.length // lattice.scale, lattice.width // lattice.scale
    corners = [turn_point(p, turns) for p in ((left, front), (left + length, front + width))]
    return min(p[0] for p in corners), min(p[1] for p in corners)

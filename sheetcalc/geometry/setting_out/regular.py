"""Setting-out of grids and 1/n bonds over rectilinear surfaces: exact."""

import math
from collections.abc import Sequence

from sheetcalc.domain.measure import mm320_squared_to_m2, mm320_to_m
from sheetcalc.domain.room import Circle, Point
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out.aims import Aim, aims_of
from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.first_tile import first_tile
from sheetcalc.geometry.setting_out.holes import drill
from sheetcalc.geometry.setting_out.joints import joint_lengths
from sheetcalc.geometry.setting_out.mosaic import lay_sheets
from sheetcalc.geometry.setting_out.pieces import count_tiles, cut_list
from sheetcalc.geometry.setting_out.request import Given, Request, lattice_of
from sheetcalc.geometry.setting_out.search import best_start
from sheetcalc.geometry.setting_out.slabs import Slabs, slabs_of, turn_point, turned
from sheetcalc.geometry.setting_out.tape import whole_mm320
from sheetcalc.geometry.setting_out.views import View

PROVEN = "every start at which a count can change was weighed: none is better by the Job's aims"
SEARCHED = "so many corners that starts were left out: the best of those weighed, not proven"
GIVEN = "start given, so that joints run on from the neighbouring surface"
GIVEN_ONE_WAY = "joints one way given by the neighbouring surface, the other way searched: proven"


def regular(req: Request, slabs: Slabs, origin: Given) -> SettingOut:
    """Set out a grid or a 1/n bond.

    Parameters
    ----------
    req
        What is set out; its direction is a quarter turn.
    slabs
        What can be tiled, in the tile's frame [1/320 mm].
    origin
        A tile's near left corner to keep to, in the surface's frame; None where it is free.
    """
    turns = req.quarter_turns or 0
    lattice = lattice_of(req)
    fine = slabs.scaled(lattice.scale)
    aims = aims_of(req.job.aims)
    x, y = origin if turns == 0 else _turned_given(origin, req.width)
    scale = lattice.scale
    fixed = None if x is None else x * scale, None if y is None else y * scale
    usual = View(req.handed and turns % 2 == 0, req.handed and turns % 2 == 1)
    choice = best_start(fine, lattice, aims, fixed, usual)
    how = PROVEN if choice.proven else SEARCHED
    if fixed != (None, None):
        how = GIVEN if None not in fixed else GIVEN_ONE_WAY
    laid, laid_at = (lattice, choice) if not req.sheet else lay_sheets(fine, req, lattice, choice)
    counted = count_tiles(fine, laid, laid_at)
    chips = count_tiles(fine, lattice, choice) if req.sheet else counted
    parts, holed, neck = counted.parts, 0, None
    if req.surface.holes:
        drilled = drill(fine, laid, laid_at, _turned_circles(req.surface.holes, -turns), parts)
        parts, holed, neck = drilled.parts, drilled.tiles, drilled.neck
    length, crossings = joint_lengths(fine, lattice, choice)
    start = first_tile(req, fine, laid, laid_at, counted)
    least = choice.least_covered if choice.least_covered >= 0 else chips.covered
    per_sheet = req.sheet[0] * req.sheet[1] if req.sheet else 1
    return SettingOut(
        room=req.room,
        surface=req.surface.key,
        kind=req.surface.kind,
        tile=req.tile.code,
        bond=req.spec.bond,
        run_label=req.spec.run.label,
        joint_mm320=req.joint,
        region=req.surface.region,
        origin=start.corner,
        module_mm320=_module(req, turns),
        whole=counted.whole,
        cut=counted.cut,
        holed=holed,
        tiles_opened=counted.whole + counted.cut,
        pieces=cut_list(parts, laid.length, laid.width, scale),
        smallest_cut_mm320=None if chips.shortest is None else whole_mm320(chips.shortest, scale),
        balance_mm320=choice.balance // scale,
        lower_bound=max(
            math.ceil(least / (lattice.length * lattice.width * per_sheet) - 1e-9),
            _fewest(req, fine, lattice, choice),
        ),
        area_m2=req.surface.region.area_m2,
        joint_area_m2=mm320_squared_to_m2(slabs.area_mm320 - chips.covered / scale**2),
        joint_length_m=mm320_to_m(length / scale),
        crossings=crossings,
        searched=how,
        start=start.words,
        splits=counted.splits,
        start_left_mm320=start.left,
        start_front_mm320=start.front,
        small=choice.small,
        turn_degrees=req.degrees,
        laid_rows=_stepping(lattice, choice),
        neck_mm320=None if neck is None else math.floor(neck / scale),
        face_mm320=(laid.length // scale, laid.width // scale),
        sheet_chips=req.sheet or (0, 0),
        anchor=(laid_at.x / scale, laid_at.y / scale),
        joint_edges=req.joint_edges,
        gap_mm320=req.gap,
    )


def slabs_for(req: Request) -> Slabs:
    """Find what can be tiled of a rectilinear surface, in the tile's frame."""
    turns = req.quarter_turns or 0
    return slabs_of(
        turned(req.surface.region, -turns),
        req.gap,
        [(turn_point(a, -turns), turn_point(b, -turns)) for a, b in req.joint_edges],
        req.joint,
    )


def _fewest(req: Request, slabs: Slabs, lattice: Lattice, choice: Choice) -> int:
    """Fewest tiles that any start lays; a bound only where no piece comes from an offcut."""
    if req.job.offcuts != "none" or req.sheet or not choice.proven:
        return 0
    first = (Aim.FEWEST_TILES, *(aim for aim in Aim if aim is not Aim.FEWEST_TILES))
    return best_start(slabs, lattice, first).laid


def _turned_given(origin: Given, width: int) -> Given:
    """Near corner, in the frame of a tile that runs away from the door, of a corner given."""
    left, front = origin
    return front, None if left is None else -left - width


def _turned_circles(circles: Sequence[Circle], turns: int) -> list[Circle]:
    return [Circle(turn_point(c.centre, turns), c.diameter_mm320) for c in circles]


def _module(req: Request, turns: int) -> Point:
    along, across = req.length + req.joint, req.width + req.joint
    return (across, along) if turns % 2 else (along, across)


def _stepping(lattice: Lattice, choice: Choice) -> str:
    """Which way rows step, seen along the tile with its frame upright."""
    if lattice.cycle <= 1:
        return ""
    if not lattice.steps_round:
        return "back and forth"
    return "to the left" if choice.leftward else "to the right"

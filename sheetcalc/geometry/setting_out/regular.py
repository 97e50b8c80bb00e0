"""Setting-out of grids and 1/n bonds over rectilinear surfaces: exact."""

import math
from collections.abc import Sequence

from sheetcalc.domain.measure import mm320_squared_to_m2, mm320_to_m
from sheetcalc.domain.quantity import SettingOut
from sheetcalc.domain.room import Circle, Point
from sheetcalc.geometry.setting_out.aims import aims_of
from sheetcalc.geometry.setting_out.holes import drill
from sheetcalc.geometry.setting_out.joints import joint_lengths
from sheetcalc.geometry.setting_out.pieces import count_tiles, cut_list
from sheetcalc.geometry.setting_out.request import Request, lattice_of
from sheetcalc.geometry.setting_out.search import best_start, measured
from sheetcalc.geometry.setting_out.slabs import Slabs, slabs_of, turn_point, turned
from sheetcalc.geometry.setting_out.weighing import Choice, Lattice

PROVEN = "every start at which a count can change was weighed: none is better by the Job's aims"
SEARCHED = "so many corners that starts were left out: the best of those weighed, not proven"
GIVEN = "start given, so that joints run on from the neighbouring surface"


def regular(req: Request, slabs: Slabs, origin: Point | None) -> SettingOut:
    """Set out a grid or a 1/n bond.

    Parameters
    ----------
    req
        What is set out; its direction is a quarter turn.
    slabs
        What can be tiled, in the tile's frame [1/320 mm].
    origin
        A tile's corner to keep to, in the surface's frame, instead of a search.
    """
    turns = req.quarter_turns or 0
    lattice = lattice_of(req)
    fine = slabs.scaled(lattice.scale)
    aims = aims_of(req.job.aims)
    if origin is None:
        choice = best_start(fine, lattice, aims)
        how = PROVEN if choice.proven else SEARCHED
    else:
        x, y = turn_point(origin, -turns)
        choice = measured(fine, lattice, aims, x * lattice.scale, y * lattice.scale)
        how = GIVEN
    counted = count_tiles(fine, lattice, choice)
    parts, holed, neck = counted.parts, 0, None
    if req.surface.holes:
        drilled = drill(fine, lattice, choice, _turned_circles(req.surface.holes, -turns), parts)
        parts, holed, neck = drilled.parts, drilled.tiles, drilled.neck
    length, crossings = joint_lengths(fine, lattice, choice)
    scale = lattice.scale
    area = slabs.area_mm320
    laid = counted.whole + counted.cut
    least = choice.least_covered if choice.least_covered >= 0 else counted.covered
    return SettingOut(
        room=req.room,
        surface=req.surface.key,
        kind=req.surface.kind,
        tile=req.tile.code,
        bond=req.spec.bond,
        run_label=req.spec.run.label,
        joint_mm320=req.joint,
        region=req.surface.region,
        origin=_corner(lattice, choice, turns),
        module_mm320=_module(req, turns),
        whole=counted.whole,
        cut=counted.cut,
        holed=holed,
        tiles_opened=laid,
        pieces=cut_list(parts, lattice.length, lattice.width, scale),
        smallest_cut_mm320=None if counted.shortest is None else counted.shortest // scale,
        balance_mm320=choice.balance // scale,
        lower_bound=math.ceil(least / (lattice.length * lattice.width) - 1e-9),
        area_m2=req.surface.region.area_m2,
        joint_area_m2=mm320_squared_to_m2(area - counted.covered / scale**2),
        joint_length_m=mm320_to_m(length / scale),
        crossings=crossings,
        searched=how,
        splits=counted.splits,
        small=choice.small,
        turn_degrees=req.degrees,
        face_mm320=(req.length, req.width),
        neck_mm320=None if neck is None else math.floor(neck / scale),
    )


def slabs_for(req: Request) -> Slabs:
    """What can be tiled of a rectilinear surface, in the tile's frame."""
    turns = req.quarter_turns or 0
    return slabs_of(
        turned(req.surface.region, -turns),
        req.job.perimeter_gap_mm320,
        [(turn_point(a, -turns), turn_point(b, -turns)) for a, b in req.joint_edges],
        req.joint,
    )


def _turned_circles(circles: Sequence[Circle], turns: int) -> list[Circle]:
    return [Circle(turn_point(c.centre, turns), c.diameter_mm320) for c in circles]


def _module(req: Request, turns: int) -> Point:
    along, across = req.length + req.joint, req.width + req.joint
    return (across, along) if turns % 2 else (along, across)


def _corner(lattice: Lattice, choice: Choice, turns: int) -> Point:
    """Near left corner, in the surface's frame, of the chosen tile."""
    x, y = round(choice.x / lattice.scale), round(choice.y / lattice.scale)
    length, width = lattice.length // lattice.scale, lattice.width // lattice.scale
    corners = [turn_point(p, turns) for p in ((x, y), (x + length, y + width))]
    return min(p[0] for p in corners), min(p[1] for p in corners)

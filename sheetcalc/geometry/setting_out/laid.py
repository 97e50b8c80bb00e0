"""Setting-out tile by tile: herringbone, basket weave, diagonal grids, oblique outlines."""

import math
from collections.abc import Sequence

import numpy as np
import shapely
from msgspec.structs import replace

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Bond
from sheetcalc.domain.measure import mm320_squared_to_m2, mm320_to_m
from sheetcalc.domain.room import Point
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out.aims import aims_of
from sheetcalc.geometry.setting_out.by_area import by_area
from sheetcalc.geometry.setting_out.cutting import cut_pieces, turned_point
from sheetcalc.geometry.setting_out.patterns import Pattern, estimated_tiles, pattern_for
from sheetcalc.geometry.setting_out.pieces import cut_list
from sheetcalc.geometry.setting_out.plane import (
    Plane,
    cosine_sine,
    gapped,
    plane_of,
)
from sheetcalc.geometry.setting_out.request import Given, Request
from sheetcalc.geometry.setting_out.sampling import SPECK, Sampled, sample_starts
from sheetcalc.geometry.setting_out.slabs import Segment, Slabs
from sheetcalc.geometry.setting_out.start import start_at

MOST_TILES = 6_000


def laid(req: Request, slabs: Slabs | None, origin: Given) -> SettingOut | None:
    """Set out tile by tile.

    Parameters
    ----------
    req
        What is set out, at any angle, in any bond.
    slabs
        What can be tiled, in the tile's frame, where that is rectilinear.
    origin
        A tile's near left corner to keep to, in the surface's frame; heeded where both are given.

    Returns
    -------
    SettingOut or None
        None where the perimeter gap leaves nothing.  Counted by area, with a finding, where there
        would be more than 6 000 tiles.
    """
    plane = plane_of(req)
    if plane is None:
        return None
    if slabs is not None and slabs.occupied.size <= 400:  # noqa: PLR2004 - then quicker than edges
        plane = replace(plane, slabs=slabs)
    pattern = _pattern(req)
    number = estimated_tiles(pattern, float(shapely.area(plane.shape)))
    if number > MOST_TILES:
        return _too_many(req, number)
    fixed = None
    if origin[0] is not None and origin[1] is not None:
        corner = turned_point((origin[0], origin[1]), -req.degrees)
        if req.degrees >= 90:  # noqa: PLR2004 - then the tile's far left corner is the nearest
            corner = corner - np.array([0.0, req.width])
        fixed = corner - pattern.motif[0]
    sampled = sample_starts(
        plane, pattern, req.job.smallest_cut_share, aims_of(req.job.aims), fixed
    )
    return _counted(req, plane, pattern, sampled, given=fixed is not None)


def counted_at(
    req: Request, out: SettingOut, cuts: Sequence[Segment], width: int
) -> SettingOut | None:
    """Count a setting-out again at its start, with lines cut through its tiles.

    Parameters
    ----------
    req
        What is set out.
    out
        Its setting-out without those lines.
    cuts, width
        The lines, and the joint along them [1/320 mm].

    Returns
    -------
    SettingOut or None
        With cuts and joints as they are then; None where the lines leave nothing.
    """
    plane = plane_of(req, cuts, width)
    if plane is None:
        return None
    pattern = _pattern(req, leftward=out.laid_rows == "to the left")
    limit, aims = req.job.smallest_cut_share, aims_of(req.job.aims)
    sampled = sample_starts(plane, pattern, limit, aims, np.array(out.anchor))
    again = _counted(req, plane, pattern, sampled, given=True)
    whole = gapped(req.surface.region, req.gap, req.joint_edges, req.joint)
    parted = float(shapely.area(whole) - shapely.area(plane.shape))
    return replace(
        out,
        whole=again.whole,
        cut=again.cut,
        holed=again.holed,
        tiles_opened=again.tiles_opened,
        pieces=again.pieces,
        smallest_cut_mm320=again.smallest_cut_mm320,
        joint_area_m2=again.joint_area_m2 + mm320_squared_to_m2(parted),
        joint_length_m=again.joint_length_m + mm320_to_m(parted / width),
        crossings=again.crossings,
        splits=again.splits,
        neck_mm320=again.neck_mm320,
    )


def _pattern(req: Request, *, leftward: bool = False) -> Pattern:
    """Bond of the tiles, or of a mosaic's sheets: they always lie in a grid."""
    if req.sheet is None:
        return pattern_for(req.spec.bond, (req.length, req.width), req.joint, leftward=leftward)
    along, across = req.sheet
    sheet = (
        along * (req.length + req.joint) - req.joint,
        across * (req.width + req.joint) - req.joint,
    )
    return pattern_for(Bond(), sheet, req.joint)


def _too_many(req: Request, number: int) -> SettingOut:
    finding = Finding(
        "SETTING-OUT-TOO-LARGE",
        source=req.spec.source,
        column="Bond",
        facts={
            "surface": req.surface.key,
            "number": number,
            "bond": req.spec.bond.label,
            "degrees": f"{req.degrees:g} degrees",
            "most": MOST_TILES,
        },
        room=req.room,
        surface=req.surface.key,
    )
    out = by_area(req, "counted by area and module: too many tiles to lay one by one")
    return replace(out, findings=(finding,))


def _counted(
    req: Request, plane: Plane, pattern: Pattern, sampled: Sampled, *, given: bool
) -> SettingOut:
    full = pattern.length * pattern.width
    whole = sampled.areas >= full - SPECK
    cuts = cut_pieces(req, plane, pattern, sampled)
    covered = float(sampled.areas.sum())
    area = float(shapely.area(plane.shape))
    joint_area = max(area - covered, 0.0)
    if req.sheet:  # joints between chips lie within the sheets
        chip, module = req.length * req.width, (req.length + req.joint) * (req.width + req.joint)
        joint_area = area * (1 - chip / module)
    length_of_joints = joint_length(req, joint_area, covered, area)
    start, words = _start(req, sampled, whole)
    cell = abs(float(np.linalg.det(pattern.vectors))) / len(pattern.motif)
    if given:
        how = "start given, so that joints run on from the neighbouring surface"
    else:
        how = (
            f"best of {sampled.tried} starts, a net over one repeat of the pattern and finer nets "
            "about the best; not proven. Small cuts are judged by their share of a tile's area."
        )
    along, across = req.length + req.joint, req.width + req.joint
    return SettingOut(
        room=req.room,
        surface=req.surface.key,
        kind=req.surface.kind,
        tile=req.tile.code,
        bond=req.spec.bond,
        run_label=req.spec.run.label,
        joint_mm320=req.joint,
        region=req.surface.region,
        origin=start,
        module_mm320=(across, along) if req.quarter_turns == 1 else (along, across),
        whole=int(whole.sum()),
        cut=cuts.tiles,
        holed=cuts.holed,
        tiles_opened=int(whole.sum()) + cuts.tiles,
        pieces=cut_list(cuts.parts, pattern.length, pattern.width, 1),
        smallest_cut_mm320=None if cuts.shortest is None else math.floor(cuts.shortest),
        balance_mm320=round(sampled.balance),
        lower_bound=_least_tiles(plane, req.joint, cell),
        area_m2=req.surface.region.area_m2,
        joint_area_m2=mm320_squared_to_m2(joint_area),
        joint_length_m=mm320_to_m(length_of_joints),
        crossings=round(length_of_joints / (req.length + req.width) * pattern.ends_per_tile),
        searched=how,
        start=words[0],
        splits=cuts.splits,
        start_left_mm320=words[1],
        start_front_mm320=words[2],
        small=sampled.small,
        turn_degrees=req.degrees,
        neck_mm320=None if cuts.neck is None else math.floor(cuts.neck),
        face_mm320=(pattern.length, pattern.width),
        sheet_chips=req.sheet or (0, 0),
        anchor=(float(sampled.start[0]), float(sampled.start[1])),
        joint_edges=req.joint_edges,
        gap_mm320=req.gap,
    )


def _least_tiles(plane: Plane, joint: int, cell: float) -> int:
    """Tiles that no layout can do without.

    Drawn in by half a joint, every point of the region lies in some tile's module; a tile covers
    at least its module's share.  Half a joint's diagonal is taken off along the edges, and a
    quarter disc and more at every corner.
    """
    reach = joint * 0.7072
    corners = int(shapely.get_num_coordinates(plane.shape))
    edge = float(shapely.length(plane.shape))
    area = float(shapely.area(plane.shape)) - reach * edge - 1.6 * reach**2 * corners
    return max(math.ceil(area / cell - 1e-9), 1)


def joint_length(req: Request, joint_area: float, covered: float, area: float) -> float:
    """Length of joints from their area: a module has j(L + W + j) of area, L + W of length."""
    edges = req.length + req.width
    if req.joint > 0:
        return joint_area / req.joint * edges / (edges + req.joint)
    boundary = math.sqrt(area) * 2
    return max(covered / (req.length * req.width) * edges - boundary, 0.0)


_ALIKE = 3200
"""Tiles this near to the middle line are equally near to it: a centimetre [1/320 mm]."""


def _start(req: Request, sampled: Sampled, whole: np.ndarray) -> tuple[Point, tuple[str, int, int]]:
    """First tile: the whole one nearest to the middle of the far side of the surface."""
    choose = np.flatnonzero(whole & (sampled.member == 0))
    if len(choose) == 0:
        choose = np.flatnonzero(whole)
    if len(choose) == 0:
        corner = nearest_corner(
            req.degrees, sampled.boxes[0] if len(sampled.boxes) else np.zeros(4)
        )
        return corner, ("No whole tile fits: begin with the cut pieces.", req.gap, req.gap)
    boxes = sampled.boxes[choose]
    middles = (boxes[:, :2] + boxes[:, 2:]) / 2
    c, s = cosine_sine(req.degrees)
    front = s * middles[:, 0] + c * middles[:, 1]
    left = c * middles[:, 0] - s * middles[:, 1]
    bounds = req.surface.region.bounds
    off = np.abs(left - (bounds[0] + bounds[2]) / 2)
    if req.degrees % 90:  # start in the middle
        pick = int(np.argmin(off + np.abs(front - (bounds[1] + bounds[3]) / 2)))
    else:  # start in the middle of the far side, one repeat deep: what lies there is staggered
        far = front >= front.max() - req.length - req.width
        pick = int(np.lexsort((-front, np.round(off / _ALIKE), ~far))[0])
    corner = nearest_corner(req.degrees, boxes[pick])
    angle = req.degrees
    words = []
    if angle % 90:
        words.append(
            f"That is the tile's nearest corner; its long edge lies at {angle:g} degrees to the "
            "near wall (the left-right line), turning to the left."
        )
    words.append(
        f"Lay {req.spec.bond.label} from there to the far side, then back to the door; cuts last."
    )
    start = start_at(corner, req, words)
    return corner, (start.words, start.left, start.front)


def nearest_corner(degrees: float, box: np.ndarray) -> Point:
    """Near left corner of a tile in the surface's frame; the nearest one where it lies oblique."""
    c, s = cosine_sine(degrees)
    x0, y0, x1, y1 = box.tolist()
    corners = [(c * x - s * y, s * x + c * y) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))]
    if degrees % 90 == 0:
        return round(min(p[0] for p in corners)), round(min(p[1] for p in corners))
    x, y = min(corners, key=lambda p: (round(p[1]), p[0]))
    return round(x), round(y)

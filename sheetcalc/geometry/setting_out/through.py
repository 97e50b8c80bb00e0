"""Several surfaces laid through as one: the parts of a wall, floors of rooms joined by a doorway.

What they make up together is set out; each tile then belongs to the part that holds most of it,
with its real shape, so that tiles across a border are counted once and never cut there.  A tile
that a wall between two rooms cuts apart has a piece in either: each piece belongs where it lies.
"""

import math
from collections.abc import Collection, Sequence

import numpy as np
import shapely
from msgspec.structs import replace
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finish import Bond, BondKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import mm320_squared_to_m2, mm320_to_m
from sheetcalc.domain.room import Circle, Point, Surface
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.plane.regions import union
from sheetcalc.geometry.setting_out.checks import findings_of
from sheetcalc.geometry.setting_out.common_frame import (
    Part,
    own_corner,
    own_degrees,
    own_point,
    own_segment,
    turned_module,
)
from sheetcalc.geometry.setting_out.cutting import cut_pieces
from sheetcalc.geometry.setting_out.laid import joint_length, nearest_corner
from sheetcalc.geometry.setting_out.lattice import Floats
from sheetcalc.geometry.setting_out.ownership import (
    areas_within,
    owners,
    owners_of_pieces,
    parts_within,
)
from sheetcalc.geometry.setting_out.patterns import Pattern, pattern_for, repeats_over
from sheetcalc.geometry.setting_out.pieces import cut_list
from sheetcalc.geometry.setting_out.plane import (
    Plane,
    cosine_sine,
    plane_of,
)
from sheetcalc.geometry.setting_out.request import Given, Request, is_upright, request
from sheetcalc.geometry.setting_out.sampling import SPECK, Sampled
from sheetcalc.geometry.setting_out.slabs import Segment
from sheetcalc.geometry.setting_out.start import start_at
from sheetcalc.geometry.setting_out.surface import lay


def set_out_through(  # noqa: PLR0913 - what is laid, how, and what is given
    parts: Sequence[Part],
    tile: Tile,
    job: Job,
    *,
    joint_edges: Collection[Segment] = (),
    origin: Given = (None, None),
    degrees: float | None = None,
    handed: bool = False,
) -> list[SettingOut] | None:
    """Set out several surfaces as one, and tell each what it has of it.

    Parameters
    ----------
    parts
        In order; a tile that lies half and half belongs to the first, unless it is cut apart
        between them: then each has its own piece, and opens a tile for it.
    tile, job
        As for a single surface; all parts have the same tile, bond, run and joint.
    joint_edges
        Stretches, in the common frame, where other tiled surfaces go on.
    origin, degrees
        Given in the common frame, as for a single surface.
    handed
        Whether the first part's room is the mirrored one of a pair.

    Returns
    -------
    list of SettingOut or None
        One for each part, in its own frame, without offcuts; None where tiles can't be laid one
        by one, so that each part has to be set out by itself.
    """
    first = parts[0]
    whole = Surface(
        first.surface.key,
        first.surface.kind,
        union([part.region(part.surface.region) for part in parts]),
        tuple(
            Circle(part.point(hole.centre), hole.diameter_mm320)
            for part in parts
            for hole in part.surface.holes
        ),
        source=first.surface.source,
        joined_edges=tuple(
            part.segment(edge) for part in parts for edge in part.surface.joined_edges
        ),
    )
    req = replace(
        request(first.room, whole, first.spec, tile, job, joint_edges),
        walls=first.walls,
        handed=handed,
    )
    if degrees is not None:
        req = replace(req, degrees=degrees % 180)
    together = lay(req, origin)
    plane = plane_of(req)
    if together is None or together.by_area or plane is None:
        return None
    return _Split(req, together, plane, parts, tile).outs()


class _Split:
    """Tells each part what it has of a setting-out."""

    def __init__(
        self,
        req: Request,
        together: SettingOut,
        plane: Plane,
        parts: Sequence[Part],
        tile: Tile,
    ) -> None:
        self._req, self._together, self._plane = req, together, plane
        self._parts, self._tile = parts, tile
        self._pattern = pattern_of(together)
        self._boxes, self._member = _boxes(together, self._pattern, plane)
        self._areas = plane.areas(self._boxes)
        touched = self._areas > SPECK
        self._boxes, self._member = self._boxes[touched], self._member[touched]
        self._areas = self._areas[touched]
        regions = [part.region(part.surface.region) for part in parts]
        shapes = parts_within(regions, plane.shape, together.turn_degrees)
        self._room = [float(shapely.area(shape)) for shape in shapes]
        self._within = areas_within(shapes, self._boxes)
        self._owner = owners(self._within)
        self._held = np.where(self._owner == np.arange(len(parts))[:, None], self._areas, 0.0)
        self._elsewhere = self._tear(shapes)
        self._lead, self._lead_owns = self._find_lead()

    def _tear(self, shapes: Sequence[BaseGeometry]) -> list[list[BaseGeometry]]:
        """Give the pieces of tiles that fall apart to the parts where they lie.

        Returns, for each part, the pieces of its tiles that lie in another.
        """
        elsewhere: list[list[BaseGeometry]] = [[] for _ in self._parts]
        across = np.flatnonzero((self._within > SPECK).sum(axis=0) > 1)
        cut = shapely.intersection(self._plane.shape, shapely.box(*self._boxes[across].T))
        pieces, of = shapely.get_parts(cut, return_index=True)
        areas = shapely.area(pieces)
        kept = areas > SPECK
        pieces, of, areas = pieces[kept], across[of[kept]], areas[kept]
        whose = owners_of_pieces(shapes, self._boxes[of], pieces, of)
        for tile in across.tolist():
            its = of == tile
            owner = whose[its]
            if (owner == owner[0]).all():
                continue
            self._held[:, tile] = 0
            for at in set(owner.tolist()):
                self._held[at, tile] = areas[its][owner == at].sum()
                elsewhere[at] += pieces[its][owner != at].tolist()
        return elsewhere

    def outs(self) -> list[SettingOut]:
        """One setting-out for each part."""
        bounds = self._bounds()
        outs = [self._out(at, bounds[at]) for at in range(len(self._parts))]
        req = replace(self._req, room=self._parts[0].room)
        moves = [f for f in findings_of(req, self._together) if f.code == _MOVEMENT]
        first = outs[0]
        return [replace(first, findings=(*first.findings, *moves)), *outs[1:]]

    def _bounds(self) -> list[int]:
        """Share the lower bound out by tiles, so that the parts add up to it."""
        tiles = np.bincount(self._owner, minlength=len(self._parts)).cumsum()
        marks = np.rint(tiles / max(int(tiles[-1]), 1) * self._together.lower_bound)
        return [int(n) for n in np.diff(marks, prepend=0)]

    def _out(self, at: int, lower_bound: int) -> SettingOut:
        part, together, pattern = self._parts[at], self._together, self._pattern
        own = self._held[at] > SPECK
        sampled = Sampled(
            np.array(together.anchor), self._boxes[own], self._member[own], self._held[at][own],
            0, 0.0, 0,
        )  # fmt: skip
        plane = self._plane
        if self._elsewhere[at]:
            others = shapely.union_all(self._elsewhere[at])
            plane = replace(plane, shape=shapely.difference(plane.shape, others))
        full = pattern.length * pattern.width
        whole = sampled.areas >= full - SPECK
        cuts = cut_pieces(self._req, plane, pattern, sampled)
        req = replace(
            request(part.room, part.surface, part.spec, self._tile, self._req.job),
            walls=part.walls,
            degrees=own_degrees(together.turn_degrees, part.turns),
        )
        covered = float(self._within[at].sum())
        area = self._room[at]
        joint_area = max(area - min(covered, area), 0.0)
        if req.sheet:
            chip, module = (
                req.length * req.width,
                (req.length + req.joint) * (req.width + req.joint),
            )
            joint_area = area * (1 - chip / module)
        length = joint_length(req, joint_area, covered, area)
        regular = together.bond.kind in {BondKind.GRID, BondKind.OFFSET}
        share = sampled.areas / full
        limit = req.job.smallest_cut_share
        small = cuts.small if regular else int(((share < limit - 1e-9) & ~whole).sum())
        smallest = None if cuts.shortest is None else math.floor(cuts.shortest)
        out = replace(
            together,
            room=part.room,
            surface=part.surface.key,
            kind=part.surface.kind,
            run_label=part.spec.run.label,
            region=part.surface.region,
            module_mm320=turned_module(together.module_mm320, part.turns),
            whole=int(whole.sum()),
            cut=cuts.tiles,
            holed=cuts.holed,
            tiles_opened=int(whole.sum()) + cuts.tiles,
            pieces=cut_list(cuts.parts, pattern.length, pattern.width, 1),
            smallest_cut_mm320=together.smallest_cut_mm320 if req.sheet else smallest,
            lower_bound=lower_bound,
            area_m2=part.surface.region.area_m2,
            joint_area_m2=mm320_squared_to_m2(joint_area),
            joint_length_m=mm320_to_m(length),
            crossings=round(length / (req.length + req.width) * pattern.ends_per_tile),
            searched=f"{together.searched}; {self._through(at)}",
            splits=cuts.splits,
            small=small,
            turn_degrees=req.degrees,
            neck_mm320=None if cuts.neck is None else math.floor(cuts.neck),
            anchor=self._anchor(part),
            joint_edges=tuple(own_segment(part, e) for e in together.joint_edges),
            through=tuple(part.own(other.region(other.surface.region)) for other in self._parts),
            through_at=at,
            beyond=part.beyond,
            findings=(),
        )
        out = self._with_start(out, req, part, sampled.boxes, whole)
        found = (f for f in findings_of(req, out) if f.code != _MOVEMENT)
        return replace(out, findings=tuple(found))

    def _through(self, at: int) -> str:
        if self._parts[at].beyond:
            doors = " and ".join(self._parts[at].beyond)
            return f"laid through as one surface with the floor beyond {doors}"
        here = self._parts[at].room
        names = [
            part.surface.key if part.room == here else f"{part.surface.key} of {part.room}"
            for k, part in enumerate(self._parts)
            if k != at
        ]
        return f"laid through as one surface with {', '.join(names)}"

    def _anchor(self, part: Part) -> tuple[float, float]:
        """Corner of a tile of the bond's first row in the part's own tile frame."""
        c, s = cosine_sine(-self._together.turn_degrees)
        x, y = part.shift
        ax, ay = self._together.anchor
        here = np.array([ax - (c * x - s * y), ay - (s * x + c * y)])
        if (self._together.turn_degrees - 90 * part.turns) % 360 >= _HALF_ROUND:
            # the part's tile frame is turned half round: so is the pattern, about its centre
            here = -here - 2 * self._pattern.centre
        return float(here[0]), float(here[1])

    def _with_start(
        self, out: SettingOut, req: Request, part: Part, boxes: Floats, whole: np.ndarray
    ) -> SettingOut:
        """Begin where the common first tile lies, or with a first tile of the part's own."""
        if part is self._lead and (self._lead_owns or not whole.any()):
            return out
        if not whole.any():
            corner = own_point(part, self._together.origin)
            words = f"No whole tile: {self._runs_on(part)}, with the cut pieces."
            return replace(out, origin=corner, start=words)
        first = self._first(req, part, boxes[whole])
        frame = replace(req, surface=self._wide(part, req.surface))
        rest = f"No new start: {self._runs_on(part)}."
        if part is self._lead:
            on = f"on through {' and '.join(part.beyond)}" if part.beyond else "the other parts"
            rest = f"Lay that row first, then {on}; cuts last."
        start = start_at(first, frame, [rest])
        return replace(
            out,
            origin=start.corner,
            start=start.words,
            start_left_mm320=start.left,
            start_front_mm320=start.front,
        )

    def _runs_on(self, part: Part) -> str:
        if part.beyond:
            return f"joints run on through {' and '.join(part.beyond)}"
        lead = self._lead
        return f"joints run on from {lead.surface.key if lead.room == part.room else lead.room}"

    def _wide(self, part: Part, surface: Surface) -> Surface:
        """On a wall measure from the ends of the whole wall."""
        if not is_upright(surface):
            return surface
        return replace(surface, region=part.own(self._req.surface.region))

    def _find_lead(self) -> tuple[Part, bool]:
        """Part to begin with, and whether the common first tile is its own.

        Of parts in one frame that with the first tile; of several rooms the first.
        """
        full = self._pattern.length * self._pattern.width
        for at in np.flatnonzero(self._areas >= full - SPECK).tolist():
            if nearest_corner(self._req.degrees, self._boxes[at]) == self._together.origin:
                part = self._parts[int(self._owner[at])]
                first = self._parts[0]
                if (part.turns, part.shift) == (first.turns, first.shift):
                    return part, True
        return self._parts[0], False

    def _first(self, req: Request, part: Part, boxes: Floats) -> Point:
        """First tile: on a wall in the lowest course, on a floor in the farthest full row."""
        corners = []
        for box in boxes:
            low = nearest_corner(self._req.degrees, box)
            corners.append(own_corner(part, low, self._req.degrees, box))
        if req.degrees % 90:
            middle = [sum(part.surface.region.bounds[k::2]) / 2 for k in (0, 1)]
            return min(corners, key=lambda p: (abs(p[0] - middle[0]) + abs(p[1] - middle[1]), p))
        rows: dict[int, list[Point]] = {}
        for corner in corners:
            rows.setdefault(corner[1], []).append(corner)
        if is_upright(req.surface):
            return min(rows[min(rows)])
        most = max(len(row) for row in rows.values())
        return min(rows[max(y for y, row in rows.items() if 2 * len(row) >= most)])


_MOVEMENT = "MOVEMENT-JOINTS-NEEDED"
_HALF_ROUND = 180


def pattern_of(out: SettingOut) -> Pattern:
    """Pattern of a setting-out, of sheets where it is a mosaic."""
    bond = Bond() if out.sheet_chips != (0, 0) else out.bond
    leftward = out.laid_rows == "to the left"
    return pattern_for(bond, out.face_mm320, out.joint_mm320, leftward=leftward)


def _boxes(out: SettingOut, pattern: Pattern, plane: Plane) -> tuple[Floats, np.ndarray]:
    """Every tile that may touch a plane, and which of the motif it is."""
    start = np.array(out.anchor)
    x0, y0, x1, y1 = plane.bounds
    shifts = repeats_over(pattern, (x0 - start[0], y0 - start[1], x1 - start[0], y1 - start[1]))
    low = (shifts[:, None, :] + pattern.motif[None]).reshape(-1, 2) + start
    high = low + np.tile(pattern.sizes(), (len(shifts), 1))
    near = (low < (x1, y1)).all(axis=1) & (high > (x0, y0)).all(axis=1)
    member = np.tile(np.arange(len(pattern.motif)), len(shifts))
    return np.concatenate([low, high], axis=1)[near], member[near]

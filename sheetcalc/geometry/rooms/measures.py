"""Lengths and counts of a room that several lines of a takeoff use.

Walls are taken one by one; along each, the stretches that lie on a floor, a shower floor, a curb
or a fixture are added up, doorways left out.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from math import hypot, pi
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_METRE
from sheetcalc.domain.room import PieceKind, Span
from sheetcalc.domain.room_measures import BackedEdge, RoomMeasures, ShowerMeasures, ShowerWalls
from sheetcalc.geometry.plane.contacts import (
    Line,
    contact,
    edges_of,
    less,
    shared_length,
    together,
    total,
    within,
)
from sheetcalc.geometry.plane.regions import corner_counts, perimeter_mm320
from sheetcalc.geometry.plane.slabs import Interval
from sheetcalc.geometry.rooms.backing import BackedStretch
from sheetcalc.geometry.rooms.curbs import bends_of_curbs, corners_of_curbs
from sheetcalc.geometry.rooms.floor_surfaces import NEVER_TILED, STANDING, FloorWork
from sheetcalc.geometry.rooms.outline_shape import Outline
from sheetcalc.geometry.rooms.pieces import PlacedPiece
from sheetcalc.geometry.rooms.showers import Surroundings, measure_shower, upstand_corners
from sheetcalc.geometry.rooms.wall_edges import REACHES_MM320
from sheetcalc.geometry.rooms.wall_surfaces import WallWork
from sheetcalc.geometry.rooms.walls import PlacedWall

_SEALED: Final = frozenset({*NEVER_TILED, PieceKind.CABINET})
_NICHE_CORNERS: Final = 4  # inside and outside each; common practice, no source


class Measured(Struct, frozen=True):
    """A room's parts, as its measures are taken from them."""

    outline: Outline
    walls: tuple[PlacedWall, ...]
    placed: tuple[PlacedPiece, ...]
    doorways: tuple[Span, ...]
    floor: FloorWork
    wall_work: WallWork
    job: Job
    backed: tuple[BackedStretch, ...] = ()
    faces: Mapping[int, tuple[Interval, ...]] = {}
    wet: Mapping[int, tuple[Interval, ...]] = {}


def measure_room(parts: Measured) -> RoomMeasures:
    """Measure a room.

    Rules that have no published source, and are common practice:

    - an inside corner is one that a person in the room looks into, whatever its angle;
    - the main floor has a soft joint wherever it meets a wall (also asked for at restraining
      surfaces by EJ171, as quoted in TileLetter Aug 2018), a shower floor also along its curbs;
    - tiled reveals have a soft joint in their corners and where they end at the frame;
    - corner pieces: every corner of a shower floor whose two sides are upstands, one outside
      piece where a curb meets a wall and one at each free corner of a curb, four of both a niche;
    - a base course goes along walls of the main floor and its insets, except doorways, what
      stands against the wall, and stretches tiled up from the floor.
    """
    return _Measuring(parts).measures()


class _Measuring:
    """Takes the measures of one room."""

    def __init__(self, parts: Measured) -> None:
        self._p = parts
        self._slack = parts.outline.slack_mm320
        self._walls = [w.line for w in parts.walls]
        doors: dict[str, list[Line]] = {}
        for door in parts.doorways:
            doors.setdefault(door.wall, []).append((door.start, door.end))
        self._doors = [
            contact(w.line, doors.get(w.wall.name, ()), self._slack) for w in parts.walls
        ]

    def measures(self) -> RoomMeasures:
        p, floor, walls = self._p, self._p.floor, self._p.wall_work
        kinds = [x.piece.kind for x in p.placed]
        showers = self._showers()
        edges = {
            SurfaceKind.FLOOR: self._along_walls(edges_of(floor.main)),
            SurfaceKind.INSET: self._along_walls(edges_of(*(r for _, r in floor.insets))),
            SurfaceKind.SHOWER_FLOOR: self._along_walls(edges_of(*(r for _, r in floor.showers))),
        }
        wall_edges = {kind: _sum(stretches) for kind, stretches in edges.items()}
        curb_edge = round(sum(s.curb_edge_m for s in showers) * MM320_PER_METRE)
        dry_bends, wet_bends = self._upright_bends()
        wet_corners = self._wet_corner_heights(wet_bends)
        curb_bends = bends_of_curbs(floor.curbs, self._tiled_edges(), self._slack)
        reveals = walls.reveal_bends_mm320 + walls.frames_mm320
        bends = {
            SurfaceKind.FLOOR: wall_edges[SurfaceKind.FLOOR],
            SurfaceKind.INSET: wall_edges[SurfaceKind.INSET],
            SurfaceKind.SHOWER_FLOOR: wall_edges[SurfaceKind.SHOWER_FLOOR] + curb_edge,
            SurfaceKind.WALL: dry_bends + reveals[SurfaceKind.WALL],
            SurfaceKind.WET_AREA: wet_bends + reveals[SurfaceKind.WET_AREA],
            SurfaceKind.CURB: curb_bends,
            SurfaceKind.NICHE: walls.niche_bends_mm320,
        }
        inside, outside = corner_counts(p.outline.region)
        niche_corners = _NICHE_CORNERS * walls.wet_niches
        floor_corners = self._floor_corners()
        measures = RoomMeasures(
            outline_perimeter_m=_m(perimeter_mm320(p.outline.region)),
            doorway_m=_m(sum(hypot(d.end[0] - d.start[0], d.end[1] - d.start[1])
                             for d in p.doorways)),
            inside_corners=inside,
            outside_corners=outside,
            change_of_plane_m={kind: _m(length) for kind, length in bends.items() if length},
            wet_inside_corners=sum(s.inside_corners for s in showers) + niche_corners,
            wet_outside_corners=sum(s.outside_corners for s in showers)
            + corners_of_curbs(floor.curbs, self._upstands(), self._slack) + niche_corners,
            wet_change_of_plane_m=_m(
                wall_edges[SurfaceKind.SHOWER_FLOOR] + curb_edge + wet_corners + curb_bends
                + walls.wet_niche_bends_mm320 + walls.reveal_bends_mm320[SurfaceKind.WET_AREA]
            ),
            fixture_edge_m=_m(self._fixture_edges()),
            round_fixture_m=_m(sum(
                pi * hole.diameter_mm320
                for hole in dict.fromkeys(h for s in floor.surfaces for h in s.holes)
            )),
        )  # fmt: skip
        return replace(
            measures,
            niches=walls.niches,
            curbs=kinds.count(PieceKind.CURB),
            drains=kinds.count(PieceKind.DRAIN),
            baths=kinds.count(PieceKind.BATH),
            shower_floors=kinds.count(PieceKind.SHOWER_FLOOR),
            wall_edge_m={kind: _m(length) for kind, length in wall_edges.items() if length},
            bath_wall_m=_m(self._bath_walls()),
            showers=showers,
            base_stretches_mm320=self._base(edges[SurfaceKind.FLOOR], edges[SurfaceKind.INSET]),
            floor_inside_corners=floor_corners[0],
            floor_outside_corners=floor_corners[1],
            backed_edges=tuple(self._backed(edges)),
            shower_walls=self._beside_showers(),
        )

    def _along_walls(self, edges: Sequence[Line]) -> list[tuple[Interval, ...]]:
        """Stretches of every wall that lie on the edges, doorways left out."""
        if not edges:
            return [() for _ in self._walls]
        return [
            less(contact(line, edges, self._slack), doors) if doors
            else contact(line, edges, self._slack)
            for line, doors in zip(self._walls, self._doors, strict=True)
        ]  # fmt: skip

    def _backed(
        self, edges: Mapping[SurfaceKind, Sequence[tuple[Interval, ...]]]
    ) -> Iterator[BackedEdge]:
        """Edges of the floors that a wall surface stands behind, alike ones together."""
        lengths: Counter[tuple[SurfaceKind, SurfaceKind, int]] = Counter()
        for floor, on_walls in edges.items():
            for stretch in self._p.backed:
                both = total(within(on_walls[stretch.wall], (stretch.along,)))
                lengths[floor, stretch.kind, stretch.top_mm320] += both
        for (floor, wall, top), length in lengths.items():
            if length:
                yield BackedEdge(floor, wall, _m(length), top)

    def _beside_showers(self) -> ShowerWalls:
        """Edge of shower floors and trays along walls, and what of it has no wet area there."""
        floor = self._p.floor
        trays = (r for x, r in floor.untiled if x.piece.kind is PieceKind.SHOWER_TRAY)
        beside = self._along_walls(edges_of(*(r for _, r in floor.showers), *trays))
        dry = [less(on, self._p.wet.get(i, ())) for i, on in enumerate(beside)]
        bare = [less(on, self._p.faces.get(i, ())) for i, on in enumerate(dry)]
        return ShowerWalls(
            _m(_sum(beside)),
            _m(_sum(dry)),
            _m(_sum(bare)),
            dry=self._named(dry),
            bare=self._named(bare),
        )

    def _named(self, stretches: Sequence[Sequence[Interval]]) -> tuple[str, ...]:
        """Names of the walls that have a stretch."""
        return tuple(
            wall.wall.name for wall, on in zip(self._p.walls, stretches, strict=True) if on
        )

    def _showers(self) -> tuple[ShowerMeasures, ...]:
        floor = self._p.floor
        curb_edges = edges_of(*(c.region for c in floor.curbs))
        drains = [d for d in self._p.placed if d.piece.kind is PieceKind.DRAIN]
        walls = tuple(zip(self._walls, self._doors, strict=True))
        around = Surroundings(walls, curb_edges, drains, self._slack)
        return tuple(
            measure_shower(placed, region, around)
            for placed, region in floor.showers
            if region.patches
        )

    def _floor_corners(self) -> tuple[int, int]:
        """Inside and outside corners of the main floor and its insets between two walls."""
        regions = (self._p.floor.main, *(r for _, r in self._p.floor.insets))
        found = [upstand_corners(r, self._walls, self._slack) for r in regions if r.patches]
        return sum(inside for inside, _ in found), sum(outside for _, outside in found)

    def _upright_bends(self) -> tuple[int, int]:
        """Heights of inside corners between tiled walls: dry or mixed, and wet on both sides."""
        if not self._p.wall_work.tiled:
            return 0, 0
        dry = wet = 0
        for i, wall in enumerate(self._p.walls):
            if wall.turn > 0:
                at_end = self._heights(i, at_end=True)
                at_start = self._heights(wall.next_index, at_end=False)
                both = total(within(at_end[0], at_start[0]))
                both_wet = total(within(at_end[1], at_start[1]))
                dry += both - both_wet
                wet += both_wet
        return dry, wet

    def _heights(
        self, wall: int, *, at_end: bool
    ) -> tuple[tuple[Interval, ...], tuple[Interval, ...]]:
        """Heights that are tiled at one end of a wall: all, and wet ones."""
        reach = self._p.walls[wall].length_mm320 - REACHES_MM320
        here = [
            t
            for t in self._p.wall_work.tiled
            if t.wall == wall and (t.along[1] >= reach if at_end else t.along[0] <= REACHES_MM320)
        ]
        return together([t.heights for t in here]), together([t.heights for t in here if t.wet])

    def _wet_corner_heights(self, drawn: int) -> int:
        """Heights of wet upright corners: as drawn, else to the job's height in the showers."""
        if drawn or any(t.wet for t in self._p.wall_work.tiled):
            return drawn
        shower_edges = edges_of(*(r for _, r in self._p.floor.showers))
        if not shower_edges:
            return 0
        corners = 0
        on_walls = [contact(line, shower_edges, self._slack) for line in self._walls]
        for i, wall in enumerate(self._p.walls):
            before, after = on_walls[i], on_walls[wall.next_index]
            reaches = before and before[-1][1] >= wall.length_mm320 - REACHES_MM320
            corners += bool(wall.turn > 0 and reaches and after and after[0][0] <= REACHES_MM320)
        return corners * self._p.job.wet_wall_height_mm320

    def _tiled_edges(self) -> list[Line]:
        """Edges of the main floor and its insets."""
        return edges_of(self._p.floor.main, *(r for _, r in self._p.floor.insets))

    def _upstands(self) -> list[Line]:
        """Walls, and edges of what stands on the floor."""
        return [*self._walls, *edges_of(*(r for _, r in self._p.floor.untiled))]

    def _fixture_edges(self) -> int:
        """Edges of baths, trays, cabinets and columns against tile: on the floor, at the walls."""
        tiled: dict[int, list[Interval]] = {}
        for stretch in self._p.wall_work.tiled:
            tiled.setdefault(stretch.wall, []).append(stretch.along)
        sealed = [x for x in self._p.placed if x.piece.kind in _SEALED and x.region]
        length = 0
        for placed in sealed:
            if placed.region is None:
                continue
            if placed.circle:
                length += round(pi * placed.circle.diameter_mm320)
                continue
            edges = edges_of(placed.region)
            others = edges_of(*(x.region for x in sealed if x is not placed and x.region))
            length += round(perimeter_mm320(placed.region))
            length -= shared_length(edges, others, self._slack) if others else 0
            for i, line in enumerate(self._walls):
                on_wall = contact(line, edges, self._slack)
                if on_wall:
                    length -= total(less(on_wall, tiled.get(i, ())))
        return length

    def _bath_walls(self) -> int:
        edges = edges_of(
            *(r for x, r in self._p.floor.untiled
              if x.piece.kind in (PieceKind.BATH, PieceKind.SHOWER_TRAY))
        )  # fmt: skip
        return sum(total(contact(line, edges, self._slack)) for line in self._walls) if edges else 0

    def _base(
        self, floor: list[tuple[Interval, ...]], insets: list[tuple[Interval, ...]]
    ) -> tuple[int, ...]:
        """Straight stretches that a base course goes along."""
        standing = edges_of(
            *(x.region for x in self._p.placed if x.piece.kind in STANDING and x.region)
        )
        from_floor: dict[int, list[Interval]] = {}
        for stretch in self._p.wall_work.tiled:
            if stretch.heights[0] <= REACHES_MM320:
                from_floor.setdefault(stretch.wall, []).append(stretch.along)
        stretches: list[int] = []
        for i, line in enumerate(self._walls):
            free = together(floor[i], insets[i])
            if free and (standing or i in from_floor):
                blocked = contact(line, standing, self._slack)
                free = less(free, blocked, from_floor.get(i, ()))
            stretches += [high - low for low, high in free]
        return tuple(stretches)


def _sum(stretches: Sequence[tuple[Interval, ...]]) -> int:
    return sum(total(s) for s in stretches)


def _m(length_mm320: float) -> float:
    return length_mm320 / MM320_PER_METRE

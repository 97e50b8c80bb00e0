"""Surfaces of the floor: main floor, insets, shower floors and curbs, each less what goes before.

Precedence where pieces meet: void, column, curb, shower floor, all others; but what stands on a
shower floor is taken out of it.  A square or channel drain is cut out of the surface that it lies
in; outlets, pipes and round drains are holes.
"""

from collections.abc import Sequence
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Circle, PieceKind, Region, Surface
from sheetcalc.geometry.plane.contacts import contact, edges_of, point_at
from sheetcalc.geometry.plane.points import touches_circle
from sheetcalc.geometry.plane.regions import difference, intersection, to_shapely
from sheetcalc.geometry.rooms.curbs import CurbWork, curb_work
from sheetcalc.geometry.rooms.outline_shape import Outline
from sheetcalc.geometry.rooms.pieces import PlacedPiece
from sheetcalc.geometry.rooms.showers import falls_to

STANDING: Final = (PieceKind.BATH, PieceKind.SHOWER_TRAY, PieceKind.CABINET)
"""Kinds that stand against walls and curbs."""

NEVER_TILED: Final = frozenset({PieceKind.BATH, PieceKind.SHOWER_TRAY, PieceKind.COLUMN})
"""Kinds that no tile lies under; cabinets depend on the job."""


class FloorWork(Struct, frozen=True):
    """What the floor of a room comes to.

    Attributes
    ----------
    main
        Main floor, perhaps empty.
    insets, showers
        Pieces with their regions after precedence.
    untiled
        Regions of what stands on the floor with no tile under it.
    """

    main: Region
    insets: tuple[tuple[PlacedPiece, Region], ...]
    showers: tuple[tuple[PlacedPiece, Region], ...]
    curbs: tuple[CurbWork, ...]
    untiled: tuple[tuple[PlacedPiece, Region], ...]
    surfaces: tuple[Surface, ...]


def floor_surfaces(placed: Sequence[PlacedPiece], outline: Outline, job: Job) -> FloorWork:
    """Divide the floor of a room among its surfaces; the pieces must be free of errors."""
    by_kind: dict[PieceKind, list[tuple[PlacedPiece, Region]]] = {}
    for piece in placed:
        if piece.region and not piece.is_hole:
            region = piece.region
            if outline.slack_mm320 or piece.piece.kind is not PieceKind.VOID:
                region = _inside(region, outline)
            by_kind.setdefault(piece.piece.kind, []).append((piece, region))

    def regions(*kinds: PieceKind) -> list[Region]:
        return [r for kind in kinds for _, r in by_kind.get(kind, ())]

    columns, drains = regions(PieceKind.COLUMN), regions(PieceKind.DRAIN)
    curbs = [(p, difference(r, *columns)) for p, r in by_kind.get(PieceKind.CURB, ())]
    curb_regions = [r for _, r in curbs]
    untiled_kinds = NEVER_TILED if job.tile_under_cabinets else NEVER_TILED | {PieceKind.CABINET}
    untiled = [pair for kind, pairs in by_kind.items() if kind in untiled_kinds for pair in pairs]
    before = [*curb_regions, *drains, *(r for _, r in untiled)]
    showers = [(p, difference(r, *before)) for p, r in by_kind.get(PieceKind.SHOWER_FLOOR, ())]
    shower_regions = regions(PieceKind.SHOWER_FLOOR)
    insets = [
        (p, difference(r, *before, *shower_regions)) for p, r in by_kind.get(PieceKind.INSET, ())
    ]
    main = difference(
        outline.region,
        *curb_regions,
        *shower_regions,
        *regions(PieceKind.INSET),
        *drains,
        *(r for _, r in untiled),
    )
    main = _without_slivers(main, outline.slack_mm320)
    standing = [*columns, *regions(*STANDING)]
    curb_works = tuple(
        curb_work(p, r, [*standing, *(o for o in curb_regions if o is not r)], outline)
        for p, r in curbs
    )
    holes = [p.circle for p in placed if p.is_hole and p.circle]
    flat = [
        Surface("floor", SurfaceKind.FLOOR, main),
        *(
            replace(_flat("inset", SurfaceKind.INSET, p, r), let_into=SurfaceKind.FLOOR)
            for p, r in insets
        ),
        *(
            replace(
                _flat("shower floor", SurfaceKind.SHOWER_FLOOR, p, r),
                falls_to=falls_to(p, [d for d in placed if d.piece.kind is PieceKind.DRAIN]),
            )
            for p, r in showers
        ),
    ]
    surfaces = _with_joined_edges(_with_holes([s for s in flat if s.region.patches], holes))
    return FloorWork(
        main,
        tuple(insets),
        tuple(showers),
        curb_works,
        tuple(untiled),
        (*surfaces, *(s for c in curb_works for s in c.surfaces)),
    )


def _inside(region: Region, outline: Outline) -> Region:
    """Clip a piece where the outline is not exact or has voids in it."""
    if outline.slack_mm320 or outline.region is not outline.full:
        return intersection(region, outline.region)
    return region


def _without_slivers(region: Region, slack: int) -> Region:
    """Drop parts narrower than the walls' own error, between a straight piece and such a wall."""
    if not slack:
        return region
    return Region(
        tuple(
            patch
            for patch in region.patches
            if not to_shapely(Region((patch,))).buffer(-slack / 2).is_empty
        )
    )


def _flat(name: str, kind: SurfaceKind, placed: PlacedPiece, region: Region) -> Surface:
    return Surface(f"{name} {placed.piece.name}", kind, region, source=placed.piece.source)


def _with_holes(surfaces: Sequence[Surface], holes: Sequence[Circle]) -> list[Surface]:
    """Give every surface the round holes that are drilled in it."""
    return [
        replace(s, holes=tuple(h for h in holes if touches_circle(s.region, h))) if holes else s
        for s in surfaces
    ]


def _with_joined_edges(surfaces: Sequence[Surface]) -> list[Surface]:
    """Give every surface the stretches of its edge that lie on another surface's edge."""
    if len(surfaces) <= 1:
        return list(surfaces)
    edges = [edges_of(s.region) for s in surfaces]
    joined = []
    for i, surface in enumerate(surfaces):
        others = [e for j, group in enumerate(edges) if j != i for e in group]
        stretches = [
            (point_at(line, low), point_at(line, high))
            for line in edges[i]
            for low, high in contact(line, others)
        ]
        joined.append(replace(surface, joined_edges=tuple(stretches)))
    return joined

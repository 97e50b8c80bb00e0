"""What was measured of a room: lengths and counts that several lines of a takeoff use."""

from collections.abc import Mapping

from msgspec import Struct, field

from sheetcalc.domain.finish import SurfaceKind


class ShowerMeasures(Struct, frozen=True):
    """One shower floor, as its falls and its waterproofing need it [m, m2 unless said].

    Attributes
    ----------
    surface
        Key of its surface.
    drains
        Drains in it; ``channel`` tells whether one is a channel (one-way fall).
    edge_distance_m
        Longest straight fall square to an edge: from the drain to the farthest edge.
    corner_distance_m
        From the nearest drain to the farthest corner; for a channel, the farthest distance from it.
    wall_edge_m, curb_edge_m
        Edge along walls, and along curbs.
    inside_corners, outside_corners
        Of its upstands: where two of walls and curbs meet.
    """

    surface: str
    area_m2: float
    drains: int
    channel: bool
    edge_distance_m: float
    corner_distance_m: float
    wall_edge_m: float
    curb_edge_m: float
    inside_corners: int
    outside_corners: int


class BackedEdge(Struct, frozen=True):
    """Edge of a floor along walls that a wall surface stands behind, from the floor up.

    Attributes
    ----------
    floor, wall
        Kind of the floor, and of the wall surface.
    length_m
        Length of the edge [m], doorways left out.
    top_mm320
        Up to here the wall is that surface alone [1/320 mm].
    """

    floor: SurfaceKind
    wall: SurfaceKind
    length_m: float
    top_mm320: int


class ShowerWalls(Struct, frozen=True):
    """Edge of shower floors and trays along walls, doorways left out [m].

    Attributes
    ----------
    all_m
        All of it.
    dry_m
        Where no wet area is drawn on the wall.
    bare_m
        Where the wall has no face either.
    dry, bare
        Names of these walls.
    """

    all_m: float = 0.0
    dry_m: float = 0.0
    bare_m: float = 0.0
    dry: tuple[str, ...] = ()
    bare: tuple[str, ...] = ()


class RoomMeasures(Struct, frozen=True):
    """Counts and lengths of a room that several lines use [m, m2 unless said].

    Attributes
    ----------
    outline_perimeter_m
        Round the outline, doorways included, voids' sides included.
    doorway_m
        Total width of doorways.
    inside_corners, outside_corners
        Of the outline as seen from inside.
    change_of_plane_m
        Floor-to-wall lengths and tiled wall-to-wall inside corners, by surface kind, for sealant.
    wet_inside_corners, wet_outside_corners
        Of the waterproofed parts (pan, curb, niches), for corner pieces.
    wet_change_of_plane_m
        For bands: round shower floors, up wet corners, round curbs and niches.
    fixture_edge_m
        Edges of baths, trays and cabinets against tile, for sealant.
    round_fixture_m
        Circumference of drilled holes.
    wall_edge_m
        Edge of floor, inset and shower floor along walls, doorways left out, by surface kind: the
        length of their upturns.
    bath_wall_m
        Edge of baths and shower trays along walls.
    showers
        One for each shower floor.
    base_stretches_mm320
        Straight stretches where a base course can go (perimeter less doorways, curb ends, baths,
        trays, cabinets), round the room from the near left corner.
    floor_inside_corners, floor_outside_corners
        Of the main floor and its insets where both sides run along walls, for the corner pieces
        of a floor that is made waterproof.
    backed_edges
        Which part of ``wall_edge_m`` has a wall surface behind it, for upturns on walls that are
        made waterproof themselves.
    shower_walls
        Walls beside showers, with and without a wet area.
    """

    outline_perimeter_m: float
    doorway_m: float
    inside_corners: int
    outside_corners: int
    change_of_plane_m: Mapping[SurfaceKind, float]
    wet_inside_corners: int
    wet_outside_corners: int
    wet_change_of_plane_m: float
    fixture_edge_m: float
    round_fixture_m: float
    niches: int = 0
    curbs: int = 0
    drains: int = 0
    baths: int = 0
    shower_floors: int = 0
    wall_edge_m: Mapping[SurfaceKind, float] = field(default_factory=dict)
    bath_wall_m: float = 0.0
    showers: tuple[ShowerMeasures, ...] = ()
    base_stretches_mm320: tuple[int, ...] = ()
    floor_inside_corners: int = 0
    floor_outside_corners: int = 0
    backed_edges: tuple[BackedEdge, ...] = ()
    shower_walls: ShowerWalls = ShowerWalls()

"""What is made waterproof in a room: surfaces, and upturns on the walls beside them."""

from collections.abc import Mapping
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.catalogue import BagKind, RollKind
from sheetcalc.domain.finish import Layer, LayerRole, SurfaceKind
from sheetcalc.domain.measure import mm320_to_m
from sheetcalc.domain.room import Region, Surface
from sheetcalc.geometry.plane.regions import intersection, rectangle
from sheetcalc.lines import words
from sheetcalc.lines.layers import laid_layers
from sheetcalc.lines.line import LineContext

_FEW = 3
_UPRIGHT = (SurfaceKind.WALL, SurfaceKind.WET_AREA)
FLOORS: Final = frozenset({SurfaceKind.FLOOR, SurfaceKind.SHOWER_FLOOR})


class WetPart(Struct, frozen=True):
    """One surface made waterproof by one layer.

    Attributes
    ----------
    layer, surface
        The row of Build-up, and the surface of the room.
    region
        What is covered on the surface, in its own frame.
    upturn_m, upturn_height_mm320
        Length along walls and height of the upturn beside it.
    behind_m2
        Part of the upturn that lies on walls which a liquid makes waterproof themselves: of one
        liquid it is coated with the wall.
    """

    layer: Layer
    surface: Surface
    region: Region
    upturn_m: float = 0.0
    upturn_height_mm320: int = 0
    behind_m2: float = 0.0

    @property
    def area_m2(self) -> float:
        """Area of the surface with its upturn [m2]."""
        return self.region.area_m2 + self.upturn_m * mm320_to_m(self.upturn_height_mm320)

    @property
    def coated_m2(self) -> float:
        """Area of one coat of a liquid: the upturn without what is coated with the wall [m2]."""
        return self.area_m2 - self.behind_m2


def wet_parts(ctx: LineContext) -> list[WetPart]:
    """Surfaces that the build-up makes waterproof.

    Floors get an upturn along their walls (Up walls, else the Job's upturn); a layer on `wall`
    goes up to Up walls, else to the Job's height of waterproofing on shower walls; wet areas,
    curbs and niches are covered as drawn.
    """
    return list(ctx.once(_all_wet_parts))


def _all_wet_parts(ctx: LineContext) -> list[WetPart]:
    parts: list[WetPart] = []
    for laid in laid_layers(ctx, LayerRole.WATERPROOFING):
        with_upturn: set[SurfaceKind] = set()
        for surface in laid.surfaces:
            if surface.plane in FLOORS:
                # wall edges are measured by kind, so the first surface of a kind carries them
                first = surface.kind not in with_upturn
                with_upturn.add(surface.kind)
                parts.append(_floor_part(ctx, laid.layer, surface, first=first))
            elif surface.plane is SurfaceKind.WALL:
                parts.append(_wall_part(ctx, laid.layer, surface))
            else:
                parts.append(WetPart(laid.layer, surface, surface.region))
    parts = [p for p in parts if p.region.patches]
    coated = _coated_walls(ctx)
    return [replace(p, behind_m2=_behind_m2(ctx, p, coated)) if p.upturn_m else p for p in parts]


def _coated_walls(ctx: LineContext) -> dict[SurfaceKind, int | None]:
    """Kinds of wall surface that a liquid covers, and up to which height; None: as drawn."""
    covered: dict[SurfaceKind, int | None] = {}
    for laid in laid_layers(ctx, LayerRole.WATERPROOFING):
        if laid.layer.surface is SurfaceKind.WET_AREA and _is_liquid(ctx, laid.layer):
            covered[SurfaceKind.WET_AREA] = None
        elif laid.layer.surface is SurfaceKind.WALL and _is_liquid(ctx, laid.layer):
            covered[SurfaceKind.WALL] = _wall_height(ctx, laid.layer)
    return covered


def _is_liquid(ctx: LineContext, layer: Layer) -> bool:
    """Whether a layer's item is a liquid; where it names none, whether only liquids would do."""
    if layer.items:
        return any(code in ctx.catalogue.bags for code in layer.items)
    sheets = (r.kind is RollKind.WATERPROOFING_SHEET for r in ctx.catalogue.rolls.values())
    liquids = (b.kind is BagKind.LIQUID_WATERPROOFING for b in ctx.catalogue.bags.values())
    return any(liquids) and not any(sheets)


def _behind_m2(ctx: LineContext, part: WetPart, coated: Mapping[SurfaceKind, int | None]) -> float:
    """Part of an upturn that lies on walls which a liquid covers up to there [m2]."""
    total = 0.0
    for edge in ctx.room.measures.backed_edges:
        if edge.floor is part.surface.kind and edge.wall in coated:
            covered_to = coated[edge.wall]
            top = edge.top_mm320 if covered_to is None else min(edge.top_mm320, covered_to)
            total += edge.length_m * mm320_to_m(min(top, part.upturn_height_mm320))
    return total


def _floor_part(ctx: LineContext, layer: Layer, surface: Surface, *, first: bool) -> WetPart:
    height = ctx.job.upturn_mm320 if layer.up_walls_mm320 is None else layer.up_walls_mm320
    length = ctx.room.measures.wall_edge_m.get(surface.kind, 0.0) if first else 0.0
    return WetPart(layer, surface, surface.region, length if height > 0 else 0.0, height)


def _wall_part(ctx: LineContext, layer: Layer, surface: Surface) -> WetPart:
    top = _wall_height(ctx, layer)
    left, bottom, right, highest = surface.region.bounds
    if highest <= top:
        return WetPart(layer, surface, surface.region)
    below = rectangle(left, bottom, right - left, top - bottom)
    return WetPart(layer, surface, intersection(surface.region, below))


def _wall_height(ctx: LineContext, layer: Layer) -> int:
    up_walls = layer.up_walls_mm320
    return ctx.job.wet_wall_height_mm320 if up_walls is None else up_walls


def wet_kinds(ctx: LineContext) -> frozenset[SurfaceKind]:
    """Kinds of surface of the room that are made waterproof; insets of a wall count as the wall."""
    surfaces = [part.surface for part in wet_parts(ctx)]
    return frozenset(s.kind if s.plane in FLOORS else s.plane for s in surfaces)


def wet_area_m2(ctx: LineContext, kinds: tuple[str, ...] = ()) -> float:
    """Area made waterproof, each surface once however many layers, upturns on dry walls [m2].

    Parameters
    ----------
    ctx
        The room.
    kinds
        Of the surfaces that count; none for all.
    """
    largest: dict[str, float] = {}
    for part in wet_parts(ctx):
        if not kinds or part.surface.kind.value in kinds:
            largest[part.surface.key] = max(largest.get(part.surface.key, 0.0), part.coated_m2)
    return sum(largest.values())


def parts_words(parts: list[WetPart], ctx: LineContext) -> str:
    """Areas of the parts of one layer, for a Basis; many of a kind are put together."""
    plain = [p for p in parts if not p.upturn_m]
    if len(plain) <= _FEW:
        return ", ".join(_part_words(p, ctx) for p in parts)
    total = sum(p.area_m2 for p in plain)
    together = f"{len(plain)} parts {words.area(total, ctx.job)}"
    return ", ".join([together, *(_part_words(p, ctx) for p in parts if p.upturn_m)])


def _laps_on_walls(ctx: LineContext, part: WetPart) -> bool:
    """Whether an upturn may lie on a membrane of the wall: of two liquids it is coated once."""
    liquid = _is_liquid(ctx, part.layer)
    return any(
        x.role is LayerRole.WATERPROOFING and not (liquid and _is_liquid(ctx, x))
        for kind in _UPRIGHT
        for x in ctx.finish.layers.get(kind, ())
    )


def _part_words(part: WetPart, ctx: LineContext) -> str:
    """Area of a part and its upturn, for a Basis."""
    text = f"{part.surface.key} {words.area(part.region.area_m2, ctx.job)}"
    if part.upturn_m > 0:
        default = "" if part.layer.up_walls_mm320 is not None else " (the Job's upturn)"
        text += (
            f" + upturn {words.long(part.upturn_m, ctx.job)} x "
            f"{words.small_mm320(part.upturn_height_mm320, ctx.job)}{default}"
        )
        if _laps_on_walls(ctx, part):
            text += ", also where the wall behind is covered"
    return text

"""What is made waterproof in a room: surfaces, and upturns on the walls beside them."""

from dataclasses import dataclass

from sheetcalc.domain.finish import Layer, LayerRole, SurfaceKind
from sheetcalc.domain.measure import mm320_to_m
from sheetcalc.domain.room import Region, Surface
from sheetcalc.geometry.plane.regions import intersection, rectangle
from sheetcalc.lines import words
from sheetcalc.lines.layers import laid_layers
from sheetcalc.lines.line import LineContext

_FEW = 3
FLOORS = frozenset({SurfaceKind.FLOOR, SurfaceKind.SHOWER_FLOOR, SurfaceKind.INSET})


@dataclass(frozen=True, slots=True)
class WetPart:
    """One surface made waterproof by one layer.

    Attributes
    ----------
    layer, surface
        The row of Build-up, and the surface of the room.
    region
        What is covered on the surface, in its own frame.
    upturn_m, upturn_height_mm320
        Length along walls and height of the upturn beside it.
    """

    layer: Layer
    surface: Surface
    region: Region
    upturn_m: float = 0.0
    upturn_height_mm320: int = 0

    @property
    def area_m2(self) -> float:
        """Area of one coat, upturn included [m2]."""
        return self.region.area_m2 + self.upturn_m * mm320_to_m(self.upturn_height_mm320)


def wet_parts(ctx: LineContext) -> list[WetPart]:
    """Surfaces that the build-up makes waterproof.

    Floors get an upturn along their walls (Up walls, else the Job's upturn); a layer on `wall`
    goes up to Up walls, else to the Job's height of waterproofing on shower walls; wet areas,
    curbs and niches are covered as drawn.
    """
    parts: list[WetPart] = []
    for laid in laid_layers(ctx, LayerRole.WATERPROOFING):
        with_upturn: set[SurfaceKind] = set()
        for surface in laid.surfaces:
            if surface.kind in FLOORS:
                # wall edges are measured by kind, so the first surface of a kind carries them
                first = surface.kind not in with_upturn
                with_upturn.add(surface.kind)
                parts.append(_floor_part(ctx, laid.layer, surface, first=first))
            elif surface.kind is SurfaceKind.WALL:
                parts.append(_wall_part(ctx, laid.layer, surface))
            else:
                parts.append(WetPart(laid.layer, surface, surface.region))
    return [p for p in parts if p.region.patches]


def _floor_part(ctx: LineContext, layer: Layer, surface: Surface, *, first: bool) -> WetPart:
    height = ctx.job.upturn_mm320 if layer.up_walls_mm320 is None else layer.up_walls_mm320
    length = ctx.room.measures.wall_edge_m.get(surface.kind, 0.0) if first else 0.0
    return WetPart(layer, surface, surface.region, length if height > 0 else 0.0, height)


def _wall_part(ctx: LineContext, layer: Layer, surface: Surface) -> WetPart:
    top = ctx.job.wet_wall_height_mm320 if layer.up_walls_mm320 is None else layer.up_walls_mm320
    left, bottom, right, highest = surface.region.bounds
    if highest <= top:
        return WetPart(layer, surface, surface.region)
    below = rectangle(left, bottom, right - left, top - bottom)
    return WetPart(layer, surface, intersection(surface.region, below))


def wet_kinds(ctx: LineContext) -> frozenset[SurfaceKind]:
    """Kinds of surface of the room that are made waterproof."""
    return frozenset(part.surface.kind for part in wet_parts(ctx))


def wet_area_m2(ctx: LineContext) -> float:
    """Area made waterproof, upturns included, each surface once however many layers [m2]."""
    largest: dict[str, float] = {}
    for part in wet_parts(ctx):
        largest[part.surface.key] = max(largest.get(part.surface.key, 0.0), part.area_m2)
    return sum(largest.values())


def parts_words(parts: list[WetPart], ctx: LineContext) -> str:
    """Areas of the parts of one layer, for a Basis; many of a kind are put together."""
    plain = [p for p in parts if not p.upturn_m]
    if len(plain) <= _FEW:
        return ", ".join(_part_words(p, ctx) for p in parts)
    total = sum(p.area_m2 for p in plain)
    together = f"{len(plain)} parts {words.area(total, ctx.job)}"
    return ", ".join([together, *(_part_words(p, ctx) for p in parts if p.upturn_m)])


def _part_words(part: WetPart, ctx: LineContext) -> str:
    """Area of a part and its upturn, for a Basis."""
    text = f"{part.surface.key} {words.area(part.region.area_m2, ctx.job)}"
    if part.upturn_m > 0:
        default = "" if part.layer.up_walls_mm320 is not None else " (the Job's upturn)"
        text += (
            f" + upturn {words.long(part.upturn_m, ctx.job)} x "
            f"{words.small_mm320(part.upturn_height_mm320, ctx.job)}{default}"
        )
    return text

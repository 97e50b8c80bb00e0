"""Layers of the build-up in a room: which surfaces a layer lies under, and its area."""

from collections.abc import Iterator

from msgspec import Struct

from sheetcalc.domain.finish import Layer, LayerRole, SurfaceKind
from sheetcalc.domain.room import Region, Surface
from sheetcalc.lines.line import LineContext


class LaidLayer(Struct, frozen=True):
    """A layer with the surfaces of one room that it lies under."""

    layer: Layer
    surfaces: tuple[Surface, ...]

    @property
    def area_m2(self) -> float:
        """Area of the surfaces [m2]."""
        return sum(s.region.area_m2 for s in self.surfaces)

    @property
    def key(self) -> str:
        """Surface of the takeoff line: the surface's key, or the kind where it is several."""
        return self.surfaces[0].key if len(self.surfaces) == 1 else self.layer.surface.value

    @property
    def region(self) -> Region:
        """Patches of all the surfaces; only for surfaces of one plane."""
        return Region(tuple(p for s in self.surfaces for p in s.region.patches))


def laid_layers(ctx: LineContext, *roles: LayerRole) -> tuple[LaidLayer, ...]:
    """Layers of these roles (all where none is given) that the room has surfaces for.

    An inset lies on the layers of the floor, wall or wet area round it, unless the finish gives
    insets layers of their own.
    """
    laid = ctx.once(_all_laid)
    return tuple(x for x in laid if x.layer.role in roles) if roles else laid


def _all_laid(ctx: LineContext) -> tuple[LaidLayer, ...]:
    return tuple(_each_laid(ctx))


def _each_laid(ctx: LineContext) -> Iterator[LaidLayer]:
    own = SurfaceKind.INSET in ctx.finish.layers
    for kind, layers in ctx.finish.layers.items():
        surfaces = tuple(
            s for s in ctx.surfaces() if (s.kind if own else s.plane) is kind and s.region.patches
        )
        if not surfaces:
            continue
        for layer in sorted(layers, key=lambda x: x.order):
            yield LaidLayer(layer, surfaces)

"""The floor's assembly: what it adds in height at each doorway, and its dead load."""

from collections.abc import Iterator
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Roll
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import LayerRole, SurfaceKind
from sheetcalc.domain.measure import (
    MM320_PER_METRE,
    MM320_PER_MM,
    Length,
    mm320_squared_to_m2,
    mm320_to_m,
)
from sheetcalc.lines import words
from sheetcalc.lines.beds import bed_from, is_workable, tile_bed
from sheetcalc.lines.layers import laid_layers
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.measures import doors_with_an_end
from sheetcalc.lines.stock import standing_roll
from sheetcalc.lines.underlay_mortar import lies_in_mortar
from sheetcalc.rules.cautions import (
    BEVEL_STEP_M,
    STEP_SOURCE,
    threshold_for_step,
    tile_density,
)
from sheetcalc.rules.materials import (
    BACKER_DENSITY_KG_M3,
    DENSITY_SOURCE,
    INSULATION_DENSITY_KG_M3,
    LEVELLING_DENSITY_KG_M3,
    UNDERLAY_DENSITY_KG_M3,
)

_BOARD_DENSITY = {
    LayerRole.BACKER_BOARD: BACKER_DENSITY_KG_M3,
    LayerRole.INSULATION_BOARD: INSULATION_DENSITY_KG_M3,
    LayerRole.UNDERLAY: UNDERLAY_DENSITY_KG_M3,
    LayerRole.WATERPROOFING: UNDERLAY_DENSITY_KG_M3,
}

_WALKED_ON: Final = (SurfaceKind.FLOOR, SurfaceKind.SHOWER_FLOOR)


class Part(Struct, frozen=True):
    """One layer of the assembly: thickness [m] and mass per area [kg/m2]."""

    name: str
    thickness_m: float
    load_kg_m2: float


def floor_parts(ctx: LineContext, kind: SurfaceKind = SurfaceKind.FLOOR) -> list[Part]:
    """Layers of one kind of floor from the base up, tile last; empty where it is not tiled."""
    spec = ctx.finish.surfaces.get(kind)
    tile = ctx.catalogue.tiles.get(spec.tile) if spec and spec.tile else None
    if not spec or not tile or not ctx.surfaces(kind):
        return []
    job, wet = ctx.job, ctx.job.mortar_wet_density_kg_m3
    parts: list[Part] = []
    for laid in laid_layers(ctx):
        if laid.layer.surface is not kind:
            continue
        layer = laid.layer
        notch = layer.notch if lies_in_mortar(ctx, layer) else None
        if notch and is_workable(notch, job.trowel_angle_deg):
            bed = bed_from(notch, job.trowel_angle_deg, "", job).bed_m
            parts.append(Part(f"mortar under the {layer.role.value}", bed, bed * wet))
        if layer.mean_depth_mm320 and layer.role in {LayerRole.LEVELLING, LayerRole.SCREED}:
            depth = mm320_to_m(layer.mean_depth_mm320)
            parts.append(Part(layer.role.value, depth, depth * LEVELLING_DENSITY_KG_M3))
        roll = standing_roll(ctx, layer)
        if roll and roll.thickness_mm320 and layer.role in _BOARD_DENSITY:
            parts.append(_roll_part(layer.role, roll, wet))
    tile_m = mm320_to_m(tile.thickness_mm320)
    tile_bed_m = tile_bed(spec, job)
    if tile_bed_m:
        parts.append(Part("bed and skim", tile_bed_m.total_m, tile_bed_m.total_m * wet))
    load = tile_m * tile_density(tile.material)[0]
    if tile.box_weight_kg:
        face = mm320_squared_to_m2(tile.length_mm320 * tile.width_mm320) * tile.pieces_per_box
        load = tile.box_weight_kg / face
    return [*parts, Part("tile", tile_m, load)]


def _roll_part(role: LayerRole, roll: Roll, wet_density: float) -> Part:
    thickness = mm320_to_m(roll.thickness_mm320 or 0)
    area = mm320_squared_to_m2(roll.length_mm320 * roll.width_mm320)
    load = roll.weight_kg / area if roll.weight_kg else thickness * _BOARD_DENSITY[role]
    if roll.knob_pitch_mm320 and roll.fill_m:
        load += roll.fill_m * wet_density
    return Part(role.value, thickness, load)


def _heights(ctx: LineContext) -> Iterator[Outcome]:
    # a wet room's doorways open on its shower floor
    kind, parts = next(
        ((kind, parts) for kind in _WALKED_ON if (parts := floor_parts(ctx, kind))),
        (SurfaceKind.FLOOR, []),
    )
    if not parts:
        return
    job, room = ctx.job, ctx.room
    total = sum(p.thickness_m for p in parts)
    taken = mm320_to_m(room.take_up_thickness_mm320 or 0) if room.take_up else 0.0
    step = total - taken
    listed = " + ".join(f"{p.name} {words.small(p.thickness_m, job)}" for p in parts)
    removed = (
        f"; less what is taken up {words.small(taken, job)}: step {words.small(step, job)}"
        f"{words.on_tape(step, job)}"
        if taken
        else ""
    )
    falls = (
        "; at mean depths, the falls rise from the drain"
        if kind is SurfaceKind.SHOWER_FLOOR
        else ""
    )
    for door in doors_with_an_end(ctx):
        yield ctx.quantity(
            "finished height",
            f"Finished height at {door.name}",
            total,
            job.units.small_length,
            basis=(
                f"above the base: {listed}{falls}{removed}; a floor level with the old one beyond "
                f"the doorway asks for {threshold_for_step(step)} ({STEP_SOURCE}); films, liquids "
                "and tray formers are not counted"
            ),
            surface=kind.value,
            source=door.source,
            alike=False,
        )
        if abs(step) > BEVEL_STEP_M:
            yield Finding(
                "STEP-AT-DOORWAY",
                door.source,
                "Piece",
                {
                    "door": door.name,
                    "step": Length(round(abs(step) * 1e4) * MM320_PER_MM // 10),  # to 0.1 mm
                    "way": "higher" if step > 0 else "lower",
                    "limit": Length(round(BEVEL_STEP_M * MM320_PER_METRE)),
                    "threshold": threshold_for_step(step),
                    "source": STEP_SOURCE,
                },
                room=room.name,
            )


def _load(ctx: LineContext) -> Iterator[Outcome]:
    for kind in _WALKED_ON:
        yield from _load_of(ctx, kind)


def _load_of(ctx: LineContext, kind: SurfaceKind) -> Iterator[Outcome]:
    parts = floor_parts(ctx, kind)
    area = sum(s.region.area_m2 for s in ctx.surfaces(kind))
    if not parts or area <= 0:
        return
    job = ctx.job
    per_area = sum(p.load_kg_m2 for p in parts)
    listed = " + ".join(f"{p.name} {words.load(p.load_kg_m2, job)}" for p in parts)
    line = ctx.quantity(
        "floor load",
        "Dead load of the floor's assembly",
        per_area * area,
        job.units.mass,
        basis=(
            f"{listed} = {words.load(per_area, job)} x {words.area(area, job)} ({DENSITY_SOURCE} "
            "where no weight is given); to be in the design dead load (structuremag.org)"
        ),
        surface=kind.value,
    )
    tile = ctx.catalogue.tiles[ctx.finish.surfaces[kind].tile or ""]
    if tile.box_weight_kg:  # the weight of a piece is known from that of its box
        line = replace(line, by_box=(tile.source, parts[-1].load_kg_m2 / per_area))
    yield line


FINISHED_HEIGHT = Line(
    "finished height",
    "Finished height at doorways",
    "Thicknesses of the layers, bed and tile added up at each doorway; less what is taken up it is "
    "the step to a floor beyond that was level.  Threshold by the step: 1/4 in upright, 1/2 in "
    "bevelled (from memory, not verified).",
    _heights,
)

FLOOR_LOAD = Line(
    "floor load",
    "Dead load of the floor",
    "Mass of the layers, bed and tile of the main floor and of shower floors.  The weight of a "
    "tile assembly belongs in the design dead load (structuremag.org); densities from memory, not "
    "verified, where no weight is given.",
    _load,
)

"""Sealant: changes of plane, fixtures, pipes and movement joints, by the section of the bead."""

from collections.abc import Iterator
from typing import Final

from msgspec import Struct

from sheetcalc.domain.catalogue import BagKind
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import SurfaceKind, SurfaceSpec
from sheetcalc.domain.measure import mm320_to_m
from sheetcalc.domain.room import Surface
from sheetcalc.geometry.setting_out.movement import movement_lines
from sheetcalc.lines import words
from sheetcalc.lines.items import NO_ITEM_NOTE, Wanted, choose_bag
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.packing import by_volume
from sheetcalc.lines.waste import waste_for
from sheetcalc.rules.sealant import (
    SPACING_SOURCE,
    bead_length_m,
    fillet_section_m2,
    movement_joints_across,
)
from sheetcalc.rules.tile import movement_spacing_mm320

_DESIGNER = (
    f"at the spacing of the Job and its exposure ({SPACING_SOURCE}; where they go is the "
    "designer's decision)"
)

_FLOOR_KINDS: Final = (SurfaceKind.FLOOR, SurfaceKind.SHOWER_FLOOR, SurfaceKind.INSET)


class Beads(Struct, frozen=True):
    """Lengths of bead of one kind of surface [m]: joints filled, and fillets along fixtures."""

    planes_m: float
    fixtures_m: float
    pipes_m: float
    movement_m: float

    @property
    def joints_m(self) -> float:
        """Joints filled with the Job's section."""
        return self.planes_m + self.movement_m

    @property
    def fillets_m(self) -> float:
        """Three-cornered beads."""
        return self.fixtures_m + self.pipes_m


def movement_joint_m(surface: Surface, spacing_mm320: int) -> float:
    """Length of movement joints inside a surface [m].

    Joints across each direction of the rectangle round the surface, each as long as the surface is
    deep on average (area over the rectangle's side), so that an L-shape counts what it has.
    """
    if not surface.region.patches:
        return 0.0
    left, front, right, back = surface.region.bounds
    across, along = right - left, back - front
    area_mm320 = surface.region.area_mm320
    length = movement_joints_across(across, spacing_mm320) * (area_mm320 / across)
    length += movement_joints_across(along, spacing_mm320) * (area_mm320 / along)
    return mm320_to_m(length)


def beads_of(ctx: LineContext, kind: SurfaceKind) -> Beads:
    """Lengths of bead that belong to one kind of tiled surface of the room."""
    measures = ctx.room.measures
    on_floor = kind is _floor_kind(ctx)
    spacing = movement_spacing_mm320(ctx.job.exposure, ctx.job.movement_joint_spacing_mm320)
    movement = sum(
        mm320_to_m(sum(line.length_mm320 for line in movement_lines(t.setting_out, spacing)))
        if t.setting_out
        else movement_joint_m(t.surface, spacing)
        for t in ctx.tiled(kind)
    )
    return Beads(
        planes_m=measures.change_of_plane_m.get(kind, 0.0),
        fixtures_m=measures.fixture_edge_m if on_floor else 0.0,
        pipes_m=measures.round_fixture_m if on_floor else 0.0,
        movement_m=movement,
    )


def _floor_kind(ctx: LineContext) -> SurfaceKind | None:
    """Kind of floor whose sealant goes along fixtures and pipes: in a wet room its shower floor."""
    return next((kind for kind in _FLOOR_KINDS if ctx.tiled(kind)), None)


def _work(ctx: LineContext) -> Iterator[Outcome]:
    for kind, spec in ctx.finish.surfaces.items():
        if not ctx.tiled(kind):
            continue
        beads = beads_of(ctx, kind)
        if beads.joints_m + beads.fillets_m > 0:
            yield from _one(ctx, spec, beads)


def _one(ctx: LineContext, spec: SurfaceSpec, beads: Beads) -> Iterator[Outcome]:
    job = ctx.job
    wanted = Wanted(
        spec.sealant, "sealant", spec.finish, spec.surface.value, spec.source, "Sealant"
    )
    choice = choose_bag(ctx.catalogue, (BagKind.SEALANT,), wanted)
    yield from choice.findings
    if choice.blocked:
        return
    width, depth = job.bead_joint_width_mm320, job.bead_joint_depth_mm320
    joint_m2 = mm320_to_m(width) * mm320_to_m(depth)
    fillet_m2 = fillet_section_m2(mm320_to_m(job.bead_fillet_mm320))
    volume = beads.joints_m * joint_m2 + beads.fillets_m * fillet_m2
    need = by_volume(choice.item, volume, job, None, "")
    if isinstance(need, Finding):
        yield need
        return
    parts = [
        f"changes of plane and perimeter {words.long(beads.planes_m, job)}",
        f"movement joints {words.long(beads.movement_m, job)} {_DESIGNER}",
        f"fixtures {words.long(beads.fixtures_m, job)}",
        f"pipes and outlets {words.long(beads.pipes_m, job)}",
    ]
    lengths = (beads.planes_m, beads.movement_m, beads.fixtures_m, beads.pipes_m)
    listed = ", ".join(p for p, length in zip(parts, lengths, strict=True) if length > 0)
    sections = (
        f"joints filled {words.small_mm320(width, job)} x {words.small_mm320(depth, job)}, "
        f"fillets with {words.small_mm320(job.bead_fillet_mm320, job)} legs"
    )
    pack = choice.item.pack_unit.to_si(choice.item.pack_size) if choice.item else 0.0
    reach = (
        f"; a {choice.item.package} fills {words.long(bead_length_m(pack, joint_m2), job)} of "
        "joint (volume over section, geometry)"
        if choice.item and need.unit == choice.item.pack_unit
        else ""
    )
    yield ctx.quantity(
        "sealant",
        choice.item.description if choice.item else "Sealant",
        need.each_si,
        need.unit,
        basis=(
            f"{listed}; {sections} = {words.in_unit(volume, need.unit)}{reach}"
            f"{'' if choice.item else f'; {NO_ITEM_NOTE}'}"
        ),
        surface=spec.surface.value,
        item=choice.item,
        waste=waste_for(ctx.catalogue, "sealant", spec.finish),
        pack_by=need.pack_by,
        source=spec.source,
    )


SEALANT = Line(
    "sealant",
    "Sealant",
    "Changes of plane and perimeter (required at restraining surfaces and inside corners: EJ171, "
    "as quoted in TileLetter Aug 2018; ANSI A108.02-4.4.1), movement joints by spacing, fillets "
    "along baths, trays, cabinets, pipes and outlets: length times section, joint width x depth "
    "or half the square of a fillet's leg (geometry).",
    _work,
)

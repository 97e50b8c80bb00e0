"""Grout: exact volume of the joints, by chip for mosaic."""

from collections.abc import Iterator

from sheetcalc.domain.catalogue import Bag, BagKind
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import mm320_to_m
from sheetcalc.lines import words
from sheetcalc.lines.items import Choice, Wanted, choose_bag
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.packing import Need, bag_line, by_volume
from sheetcalc.lines.pieces import Pieces, all_pieces
from sheetcalc.rules.grout import DRY_DENSITY_SOURCE, joint_area_share

GROUT_KINDS = (BagKind.GROUT, BagKind.PREMIXED_GROUT)
_DIGITS = 4
"""Of the joints' area and volume: joints are a few hundredths of a surface."""


def grout_of(ctx: LineContext, spec: SurfaceSpec) -> Choice[Bag]:
    """Grout of a surface."""
    wanted = Wanted(spec.grout, "grout", spec.finish, spec.surface.value, spec.source, "Grout")
    return choose_bag(ctx.catalogue, GROUT_KINDS, wanted)


def joint_area(pieces: Pieces, job: Job) -> tuple[float, str]:
    """Area of the joints of a surface [m2], and how it was found, in words.

    From the setting-out, which counts mosaic by chip; without one, by the exact share of a module
    (tile or chip plus joint), and those between its tiles for a base course.
    """
    tile, joint, outs = pieces.tile, pieces.joint_mm320, pieces.outs
    mosaic = bool(tile.chip_length_mm320 and tile.chip_width_mm320)
    by = "by chip" if mosaic else "by tile"
    set_out = sum(out.joint_area_m2 for out in outs)
    if outs and not any(out.by_area for out in outs):
        on = "the setting-out" if len(outs) == 1 else f"{len(outs)} setting-outs"
        return set_out, f"joints of {on}, {by}, {words.area(set_out, job, _DIGITS)}"
    if pieces.spec.surface is SurfaceKind.BASE and not mosaic:
        between = pieces.count * mm320_to_m(joint) * mm320_to_m(tile.width_mm320)
        size = f"{words.small_mm320(joint, job)} x {words.small_mm320(tile.width_mm320, job)}"
        return between, f"{words.number(pieces.count)} joints {size}"
    length = tile.chip_length_mm320 or tile.length_mm320
    width = tile.chip_width_mm320 or tile.width_mm320
    share = joint_area_share(length, width, joint)
    return set_out or pieces.area_m2 * share, (
        f"{words.area(pieces.area_m2, job)} x {words.number(share, 5)} joint {by} "
        f"(j(L+W+j)/((L+j)(W+j)) with {words.small_mm320(length, job)} x "
        f"{words.small_mm320(width, job)}, joint {words.small_mm320(joint, job)})"
    )


def grout_need(bag: Bag | None, volume_m3: float, job: Job) -> Need | Finding:
    """Packs of a grout for a volume of joints; bags without a Yield by the Job's density."""
    note = f"{words.density(job.grout_dry_density_kg_m3, job)} ({DRY_DENSITY_SOURCE})"
    return by_volume(bag, volume_m3, job, job.grout_dry_density_kg_m3, note)


def _work(ctx: LineContext) -> Iterator[Outcome]:
    for pieces in all_pieces(ctx):
        if pieces.joint_mm320 > 0:
            yield from _one(ctx, pieces)


def _one(ctx: LineContext, pieces: Pieces) -> Iterator[Outcome]:
    spec, tile, job = pieces.spec, pieces.tile, ctx.job
    choice = grout_of(ctx, spec)
    yield from choice.findings
    if choice.blocked:
        return
    given = job.grout_depth_mm320
    depth_mm320 = tile.thickness_mm320 if given is None else given
    source = "the tile's thickness" if given is None else "the Job's depth of grout"
    joints_m2, joint_words = joint_area(pieces, job)
    volume = joints_m2 * mm320_to_m(depth_mm320)
    need = grout_need(choice.item, volume, job)
    if isinstance(need, Finding):
        yield need
        return
    yield bag_line(
        ctx,
        "grout",
        choice.item,
        need,
        called="Grout",
        working=(
            f"{joint_words} x depth {words.small_mm320(depth_mm320, job)} ({source}) = "
            f"{words.volume(volume, job, _DIGITS)}, exact (derived)"
        ),
        surface=pieces.surface,
        row=spec,
        bond=spec.bond.label,
    )


GROUT = Line(
    "grout",
    "Grout",
    "Volume of the joints: their area on the setting-out times the depth; by area, and for mosaic "
    "by chip, with the exact share j(L+W+j)/((L+j)(W+j)).  The handbook form j(L+W)/(LW) is not "
    "used: it is 18 % too large for 25 mm mosaic.  Bags without a Yield by 1.6 kg of powder for a "
    "litre of filled joint (common practice, no source).",
    _work,
)

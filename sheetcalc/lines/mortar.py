"""Mortar under tile: bed from the notch, skim, yield; checks of least bed and of contact."""

from collections.abc import Iterator

from sheetcalc.domain.catalogue import Bag, BagKind
from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.finish import SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_METRE
from sheetcalc.lines import words
from sheetcalc.lines.beds import Bed, angle_of, is_workable, notch_label, tile_bed
from sheetcalc.lines.items import Choice, Wanted, choose_bag
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.packing import Need, bag_line, by_volume
from sheetcalc.lines.pieces import Pieces, all_pieces
from sheetcalc.rules.cautions import LONG_EDGE_MM320
from sheetcalc.rules.materials import is_stone
from sheetcalc.rules.mortar import (
    CONTACT_WET,
    LEAST_BED_SOURCE,
    dry_density_kg_m3,
    least_bed_m,
    least_contact,
    mortar_volume_m3,
)

MORTAR_KINDS = (BagKind.MORTAR, BagKind.PREMIXED_MORTAR)
WET_KINDS = frozenset({SurfaceKind.SHOWER_FLOOR, SurfaceKind.WET_AREA, SurfaceKind.CURB})


def mortar_of(ctx: LineContext, spec: SurfaceSpec) -> Choice[Bag]:
    """Mortar that a surface is set in."""
    wanted = Wanted(spec.mortar, "mortar", spec.finish, spec.surface.value, spec.source, "Mortar")
    return choose_bag(ctx.catalogue, MORTAR_KINDS, wanted)


def mortar_need(bag: Bag | None, volume_m3: float, job: Job) -> Need | Finding:
    """Packs of a mortar for a volume; bags without a Yield by the Job's density and water."""
    density = dry_density_kg_m3(job.mortar_wet_density_kg_m3, job.mortar_water_ratio)
    note = (
        f"wet density {words.density(job.mortar_wet_density_kg_m3, job)} and water ratio "
        f"{words.number(job.mortar_water_ratio)} of the Job (common practice, no source)"
    )
    return by_volume(bag, volume_m3, job, density, note)


def _work(ctx: LineContext) -> Iterator[Outcome]:
    for pieces in all_pieces(ctx):
        yield from _one(ctx, pieces)


def _one(ctx: LineContext, pieces: Pieces) -> Iterator[Outcome]:
    spec, job, area = pieces.spec, ctx.job, pieces.area_m2
    where: dict[str, Fact] = {"finish": spec.finish, "surface": spec.surface.value}
    if spec.notch is None:
        yield Finding("NOTCH-MISSING", spec.source, "Trowel notch", where)
        return
    bed = tile_bed(spec, job)
    if bed is None:
        yield unworkable(spec, job)
        return
    yield from _check(ctx, pieces, bed)
    choice = mortar_of(ctx, spec)
    yield from choice.findings
    if choice.blocked:
        return
    volume = mortar_volume_m3(area, bed.bed_m, bed.skim_m)
    need = mortar_need(choice.item, volume, job)
    if isinstance(need, Finding):
        yield need
        return
    working = (
        f"{words.area(area, job)} x {words.small(bed.total_m, job)} = "
        f"{words.volume(volume, job)} as mixed; {bed.words}"
    )
    yield bag_line(
        ctx,
        "mortar",
        choice.item,
        need,
        called="Mortar under tile",
        working=working,
        surface=pieces.surface,
        row=spec,
        bond=spec.bond.label,
    )


def unworkable(spec: SurfaceSpec, job: Job) -> Finding:
    """Report a notch that leaves no bed that could be worked out."""
    angle, _ = angle_of(spec, job)
    return Finding(
        "NOTCH-UNWORKABLE",
        spec.source,
        "Trowel notch",
        {
            "finish": spec.finish,
            "surface": spec.surface.value,
            "notch": notch_label(spec.notch, job) if spec.notch else "no notch",
            "angle": f"{words.number(angle, 1)}°",
            "bad_notch": "yes" if spec.notch and not is_workable(spec.notch, 90) else "no",
        },
    )


def _check(ctx: LineContext, pieces: Pieces, bed: Bed) -> Iterator[Finding]:
    """Least bed after embedding, and the contact that the surface asks for."""
    spec, tile, job = pieces.spec, pieces.tile, ctx.job
    where: dict[str, Fact] = {"finish": spec.finish, "surface": spec.surface.value}
    least = least_bed_m(inches=words.uses_inches(job))
    # a hair below the limit through binary fractions is the limit
    if bed.total_m < least - 1e-9:
        yield Finding(
            "BED-TOO-THIN",
            spec.source,
            "Trowel notch",
            {
                **where,
                "bed": words.small(bed.total_m, job),
                "least": _limit(least, job),
                "source": LEAST_BED_SOURCE,
            },
        )
    stone = is_stone(tile.material)
    wet = spec.surface in WET_KINDS or job.exposure == "exterior"
    share, source = least_contact(wet=wet, stone=stone)
    if share < CONTACT_WET:
        return
    facts = {
        **where,
        "share": words.percent(share),
        "why": "a wet area" if wet else "natural stone",
        "source": source,
    }
    longest = max(tile.length_mm320, tile.width_mm320)
    if bed.skim_m <= 0 and longest >= LONG_EDGE_MM320 and tile.chip_length_mm320 is None:
        side = words.small_mm320(longest, job)
        yield Finding("CONTACT-WITHOUT-SKIM", spec.source, "Skim", {**facts, "side": side})
    else:
        yield Finding("CONTACT-TO-CHECK", spec.source, "Skim", facts)


def _limit(limit_m: float, job: Job) -> str:
    """Show a printed limit as it is printed, in inches with the decimal that beds are shown in."""
    printed = words.small_mm320(round(limit_m * MM320_PER_METRE), job)
    decimal = words.small(limit_m, job)
    return printed if printed == decimal else f"{printed} ({decimal})"


MORTAR = Line(
    "mortar",
    "Mortar under tile",
    "Area times bed and skim.  The bed is what the trowel's ridges give when they are pressed "
    "flat: section of a notch x sin of the trowel's angle / (notch + tooth), derived from their "
    "volume.  Working loss is the waste factor and is counted once.  The bed is checked against "
    "ANSI A108.5-2.2.2 (3/32 in or 2 mm), wet areas and stone against 95 % contact "
    "(ANSI A108.5-2.2.3), both as quoted in trade publications.",
    _work,
)

"""Mortar under layers of the build-up (their own notch), and mortar that fills knobs."""

from collections.abc import Iterator
from typing import Final

from msgspec import Struct

from sheetcalc.domain.catalogue import Bag, Roll
from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.finish import Layer, LayerRole
from sheetcalc.domain.measure import mm320_to_m
from sheetcalc.lines import words
from sheetcalc.lines.beds import bed_from, is_workable, notch_label
from sheetcalc.lines.items import NO_ITEM_NOTE, Wanted, choose_bag
from sheetcalc.lines.layers import LaidLayer, laid_layers
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.mortar import MORTAR_KINDS, mortar_need, mortar_of
from sheetcalc.lines.packing import bag_line
from sheetcalc.lines.stock import standing_roll
from sheetcalc.lines.strips import membrane_of
from sheetcalc.lines.waste import waste_for
from sheetcalc.lines.waterproofing import band_rows, band_strip
from sheetcalc.lines.wet import parts_words, wet_parts

_IN_MORTAR: Final = frozenset(
    {
        LayerRole.BACKER_BOARD,
        LayerRole.INSULATION_BOARD,
        LayerRole.TRAY_FORMER,
        LayerRole.UNDERLAY,
        LayerRole.WATERPROOFING,
    }
)


class BedOf(Struct, frozen=True):
    """What a bed lies under: its area [m2], and words for the Basis."""

    area_m2: float
    words: str


def lies_in_mortar(ctx: LineContext, layer: Layer) -> bool:
    """Whether a layer is one that mortar may bed over its whole surface; no liquid is."""
    sheet = layer.role is not LayerRole.WATERPROOFING or not isinstance(
        membrane_of(ctx, layer).item, Bag
    )
    return sheet and layer.role in _IN_MORTAR


def _beds(ctx: LineContext) -> Iterator[Outcome]:
    for laid in laid_layers(ctx):
        layer = laid.layer
        if layer.bed_mortar is None and layer.notch is None:
            continue
        if layer.role is LayerRole.BAND:
            under = _band(ctx, layer)
        elif lies_in_mortar(ctx, layer):
            under = _whole(ctx, laid)
        else:
            column = "Bed mortar" if layer.bed_mortar else "Trowel notch"
            yield Finding("BED-NOT-COUNTED", layer.source, column, _where(layer))
            continue
        if under.area_m2 > 0:
            yield from _bed(ctx, laid, under)


def _band(ctx: LineContext, layer: Layer) -> BedOf:
    """Bands are one line of the room: of several rows the one that orders them has their bed."""
    if layer != band_rows(ctx)[0]:
        return BedOf(0.0, "")
    length_m, width_mm320 = band_strip(ctx, layer)
    said = f"{words.long(length_m, ctx.job)} x {words.small_mm320(width_mm320, ctx.job)}"
    return BedOf(length_m * mm320_to_m(width_mm320), said)


def _whole(ctx: LineContext, laid: LaidLayer) -> BedOf:
    """Area of a layer: of a sheet with its upturns, and on a wall as high as it goes."""
    if laid.layer.role is not LayerRole.WATERPROOFING:
        return BedOf(laid.area_m2, words.area(laid.area_m2, ctx.job))
    parts = [part for part in wet_parts(ctx) if part.layer == laid.layer]
    area_m2 = sum(part.area_m2 for part in parts)
    said = words.area(area_m2, ctx.job)
    if any(part.upturn_m for part in parts):
        said = f"{parts_words(parts, ctx)}; {said}"
    return BedOf(area_m2, said)


def _where(layer: Layer) -> dict[str, Fact]:
    return {
        "finish": layer.finish,
        "surface": layer.surface.value,
        "role": layer.role.value,
    }


def _bed(ctx: LineContext, laid: LaidLayer, under: BedOf) -> Iterator[Outcome]:
    layer, job = laid.layer, ctx.job
    where = _where(layer)
    if layer.notch is None:
        yield Finding("BED-WITHOUT-NOTCH", layer.source, "Trowel notch", where)
        return
    if not is_workable(layer.notch, job.trowel_angle_deg):
        facts = {
            **where,
            "notch": notch_label(layer.notch, job),
            "angle": f"{words.number(job.trowel_angle_deg, 1)}°",
        }
        yield Finding("NOTCH-UNWORKABLE", layer.source, "Trowel notch", facts)
        return
    wanted = Wanted(
        layer.bed_mortar,
        f"mortar under the {layer.role.value}",
        layer.finish,
        layer.surface.value,
        layer.source,
        "Bed mortar",
    )
    choice = choose_bag(ctx.catalogue, MORTAR_KINDS, wanted)
    yield from choice.findings
    if choice.blocked:
        return
    bed = bed_from(layer.notch, job.trowel_angle_deg, " (the Job's trowel angle)", job)
    volume = under.area_m2 * bed.bed_m
    need = mortar_need(choice.item, volume, job)
    if isinstance(need, Finding):
        yield need
        return
    yield bag_line(
        ctx,
        "underlay mortar",
        choice.item,
        need,
        called=f"Mortar under the {layer.role.value}",
        working=(
            f"under the {layer.role.value}: {under.words} x {words.small(bed.bed_m, job)} = "
            f"{words.volume(volume, job)} as mixed; {bed.words}"
        ),
        surface=laid.key,
        row=layer,
    )


def knobbed_underlay(ctx: LineContext, layer: Layer) -> Roll | None:
    """Knobbed underlay that a layer names, that is one with a Knob pitch; None for any other."""
    roll = standing_roll(ctx, layer)
    return roll if roll and roll.knob_pitch_mm320 else None


def _fill(ctx: LineContext) -> Iterator[Outcome]:
    job = ctx.job
    for laid in laid_layers(ctx, LayerRole.UNDERLAY):
        layer = laid.layer
        roll = knobbed_underlay(ctx, layer)
        if roll is None:
            continue
        if roll.fill_m is None:
            yield Finding("KNOBS-WITHOUT-FILL", roll.source, "Fill", {"code": roll.code})
            continue
        spec = ctx.finish.surfaces.get(layer.surface)
        if spec is None or not spec.tile or roll.fill_m <= 0:
            continue
        choice = mortar_of(ctx, spec)
        if choice.blocked:
            continue  # the mortar line has said why
        volume = laid.area_m2 * roll.fill_m
        need = mortar_need(choice.item, volume, job)
        if isinstance(need, Finding):
            continue  # the mortar line has said why
        fill = (
            f"{words.number(job.units.volume.from_si(roll.fill_m) * job.units.area.to_si(1))} "
            f"{job.units.volume.symbol}/{job.units.area.symbol}"
        )
        note = need.note if choice.item else NO_ITEM_NOTE
        yield ctx.quantity(
            "knob fill",
            choice.item.description if choice.item else "Mortar that fills the knobs",
            need.each_si,
            need.unit,
            basis=(
                f"fills the knobs of {roll.code} before the bed starts: "
                f"{words.area(laid.area_m2, job)} x {fill} = {words.volume(volume, job)} as "
                f"mixed; {note}"
            ),
            surface=laid.key,
            item=choice.item,
            waste=waste_for(ctx.catalogue, "knob fill", layer.finish),
            pack_by=need.pack_by,
            source=roll.source,
        )


UNDERLAY_MORTAR = Line(
    "underlay mortar",
    "Mortar under the underlay and boards",
    "Area of the layer times the bed of its own notch, at the Job's trowel angle (bed derived "
    "from the ridges' volume; no skim); a waterproofing sheet with its upturns, a band with its "
    "length and width.  Build-up rows without Bed mortar and notch are laid loose or stick by "
    "themselves.",
    _beds,
)

KNOB_FILL = Line(
    "knob fill",
    "Mortar that fills an underlay's knobs",
    "Area of a knobbed underlay (one with a Knob pitch) times its Fill, in the mortar of the tile "
    "above.  An empty Fill on a knobbed underlay is an error.",
    _fill,
)

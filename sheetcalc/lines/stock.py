"""Items that a row of Build-up names, one or several set apart by ``;``, and which is taken.

Several rolls, sheets, mats or boards named together are priced against each other over the rooms
of a phase; rolls that are alike but for their length may be mixed.
"""

from collections.abc import Iterable, Mapping
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Catalogue, Roll, RollKind
from sheetcalc.domain.finish import Layer
from sheetcalc.lines.items import Choice, Wanted, choose
from sheetcalc.lines.line import LineContext

_MIXED: Final = frozenset({RollKind.UNDERLAY_ROLL, RollKind.WATERPROOFING_SHEET})


class Stock(Struct, frozen=True):
    """Items that a layer names.

    Attributes
    ----------
    choice
        The item that stands for them: the one named; of several the one that the plan chose, or
        before there is a plan the first.
    items
        All of them.
    """

    choice: Choice[Roll]
    items: tuple[Roll, ...]


def pool_of(layer: Layer) -> str:
    """Item cell of a layer that names several items; "" where it names one or none."""
    return layer.item or "" if len(layer.items) > 1 else ""


def layer_wanted(layer: Layer) -> Wanted:
    """Item cell of a row of Build-up."""
    return Wanted(
        layer.item,
        layer.role.value,
        layer.finish,
        layer.surface.value,
        layer.source,
        "Item",
        needed=True,
    )


def stock_of(ctx: LineContext, layer: Layer, of_kind: Mapping[str, Roll]) -> Stock:
    """Items of a kind that a layer names, or the only one of the kind.

    Parameters
    ----------
    ctx
        Whose strips tell which of several items the plan chose.
    layer
        Row of Build-up.
    of_kind
        Items of the catalogue that would do.
    """
    wanted = layer_wanted(layer)
    pool = pool_of(layer)
    if not pool:
        choice = choose(of_kind, ctx.catalogue, wanted)
        return Stock(choice, (choice.item,) if choice.item else ())
    choices = [choose(of_kind, ctx.catalogue, replace(wanted, named=code)) for code in layer.items]
    findings = tuple(f for choice in choices for f in choice.findings)
    items = tuple(choice.item for choice in choices if choice.item)
    if any(choice.blocked for choice in choices):
        return Stock(Choice(None, findings, blocked=True), items)
    return Stock(Choice(standing_roll(ctx, layer), findings), items)


def standing_roll(ctx: LineContext, layer: Layer) -> Roll | None:
    """Roll that a layer names; of several the one that the plan chose, else the first."""
    found = [ctx.catalogue.rolls[code] for code in layer.items if code in ctx.catalogue.rolls]
    chosen = {s.item for s in ctx.work.strips if s.pool and s.pool == layer.item}
    return next((roll for roll in found if roll.code in chosen), found[0] if found else None)


def ways(catalogue: Catalogue, codes: Iterable[str]) -> tuple[tuple[Roll, ...], ...]:
    """Group items that may be mixed: rolls alike in all but their length; others stand alone."""
    groups: dict[tuple[object, ...], list[Roll]] = {}
    for code in dict.fromkeys(codes):
        roll = catalogue.rolls[code]
        alike = (roll.kind, roll.width_mm320, roll.overlap_mm320, roll.knob_pitch_mm320,
                 roll.one_way, "" if roll.kind in _MIXED else roll.code)  # fmt: skip
        groups.setdefault(alike, []).append(roll)
    return tuple(tuple(group) for group in groups.values())


def shares(ctx: LineContext, layer: Layer, surfaces: Iterable[str]) -> list[tuple[Roll, float]]:
    """Items that the plan cut surfaces of one room from, and how much of each [m2].

    Averaged over alike rooms; empty where the layer names one item, or there is no plan yet.
    """
    pool, keys = pool_of(layer), set(surfaces)
    found: dict[str, float] = {}
    for share in ctx.work.stock:
        if pool and share.pool == pool and share.surface in keys:
            found[share.item] = found.get(share.item, 0.0) + share.each_m2
    return [(ctx.catalogue.rolls[code], area) for code, area in found.items()]

"""Sundries: anything bought by a rule, and the corner pieces, collars and formers of build-ups."""

from collections.abc import Iterator

from sheetcalc.domain.catalogue import Sundry
from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.finish import LayerRole
from sheetcalc.domain.quantity import PackBy, QuantityLine
from sheetcalc.lines import words
from sheetcalc.lines.items import choose_sundry
from sheetcalc.lines.layers import laid_layers
from sheetcalc.lines.line import JobContext, JobLine, Line, LineContext, Outcome
from sheetcalc.lines.measures import amount_of, measure
from sheetcalc.lines.stock import layer_wanted
from sheetcalc.lines.waste import waste_for
from sheetcalc.rules.bases import BASES

_PIPES = "per pipe"
_ROLE_BASES = {
    LayerRole.CORNER: ("per inside corner", "per outside corner"),
    LayerRole.COLLAR: ("per drain", _PIPES),
    LayerRole.TRAY_FORMER: ("per shower floor",),
}
_ROLE_LINES = {
    LayerRole.CORNER: "corners",
    LayerRole.COLLAR: "collars",
    LayerRole.TRAY_FORMER: "tray formers",
}


def named_in_build_ups(ctx: LineContext) -> frozenset[str]:
    """Codes that a build-up of the job names: these are ordered by their layer only."""
    finishes = ctx.finishes.values() or (ctx.finish,)
    return frozenset(
        layer.item
        for finish in finishes
        for layers in finish.layers.values()
        for layer in layers
        if layer.item
    )


def _work(ctx: LineContext) -> Iterator[Outcome]:
    in_layers = named_in_build_ups(ctx)
    for sundry in ctx.catalogue.sundries.values():
        if sundry.code in in_layers or sundry.basis not in BASES:
            continue
        if sundry.finish and sundry.finish != ctx.finish.name:
            continue
        yield from _one(ctx, sundry, "sundries")


def _one(ctx: LineContext, sundry: Sundry, line: str) -> Iterator[Outcome]:
    measured = measure(ctx, sundry.basis, sundry.surfaces, sundry.of_item)
    if measured.amount <= 0:
        return
    quantity = measured.amount * sundry.rate
    yield ctx.quantity(
        line,
        sundry.description,
        sundry.pack_unit.to_si(quantity),
        sundry.pack_unit,
        basis=(
            f"{measured.words} x {words.in_pack_unit(sundry.rate, sundry.pack_unit, 6)} (Rate, "
            f"{sundry.basis}) = {words.in_pack_unit(quantity, sundry.pack_unit)}"
        ),
        surface=", ".join(sundry.surfaces),
        item=sundry,
        waste=waste_for(ctx.catalogue, line, ctx.finish.name),
        pack_by=PackBy.PACK_SIZE,
        source=sundry.source,
    )


def _layer_pieces(ctx: LineContext, role: LayerRole) -> Iterator[Outcome]:
    """Pieces of a role: each item once for the room, however many surfaces name it."""
    seen: set[str] = set()
    for laid in laid_layers(ctx, role):
        layer = laid.layer
        bases = _ROLE_BASES[role]
        groups = [bases] if layer.item else _groups(ctx, bases)
        for group in groups:
            choice = choose_sundry(ctx.catalogue, group, layer_wanted(layer))
            yield from choice.findings
            if choice.item and choice.item.code not in seen:
                seen.add(choice.item.code)
                yield from _one(ctx, choice.item, _ROLE_LINES[role])


def _groups(ctx: LineContext, bases: tuple[str, ...]) -> list[tuple[str, ...]]:
    """Bases that an unnamed piece is looked for by, each for itself, where the room has any."""
    sold = {sundry.basis for sundry in ctx.catalogue.sundries.values()}
    # pipes without a collar are a finding of their own
    asked = [basis for basis in bases if basis != _PIPES or _PIPES in sold]
    return [(basis,) for basis in asked if amount_of(ctx, basis) > 0]


def _corners(ctx: LineContext) -> Iterator[Outcome]:
    yield from _layer_pieces(ctx, LayerRole.CORNER)


def _collars(ctx: LineContext) -> Iterator[Outcome]:
    made = list(_layer_pieces(ctx, LayerRole.COLLAR))
    yield from made
    pipes = amount_of(ctx, _PIPES)
    items = {outcome.item for outcome in made if isinstance(outcome, QuantityLine)}
    sealed = any(ctx.catalogue.sundries[code].basis == _PIPES for code in items)
    if pipes and not sealed:
        facts: dict[str, Fact] = {"count": round(pipes)}
        yield Finding("PIPES-WITHOUT-COLLAR", ctx.room.source, "Room", facts, ctx.room.name)


def _formers(ctx: LineContext) -> Iterator[Outcome]:
    yield from _layer_pieces(ctx, LayerRole.TRAY_FORMER)


def _per_job(ctx: JobContext) -> Iterator[Outcome]:
    for sundry in ctx.catalogue.sundries.values():
        if sundry.basis in BASES and BASES[sundry.basis].once_a_job and ctx.works:
            yield ctx.quantity(
                "sundries",
                sundry.description,
                sundry.pack_unit.to_si(sundry.rate),
                sundry.pack_unit,
                basis=(
                    f"{sundry.basis}: {words.in_pack_unit(sundry.rate, sundry.pack_unit, 6)} "
                    "(Rate), ordered with the first phase"
                ),
                item=sundry,
                waste=waste_for(ctx.catalogue, "sundries", ""),
                pack_by=PackBy.PACK_SIZE,
                source=sundry.source,
            )


_COUNTED = "Counted once for the room by the Basis of the Sundries row that the Build-up names."

SUNDRIES = Line(
    "sundries",
    "Sundries",
    "Rows of Sundries: the amount of their Basis times the Rate.  A row that any Build-up names is "
    "ordered by its layer only.",
    _work,
)
CORNERS = Line(
    "corners",
    "Corner pieces",
    _COUNTED,
    _corners,
)
COLLARS = Line(
    "collars",
    "Collars of drains and pipes",
    _COUNTED,
    _collars,
)
TRAY_FORMERS = Line(
    "tray formers",
    "Tray formers",
    _COUNTED,
    _formers,
)
JOB_SUNDRIES = JobLine(
    "sundries", "Sundries of the whole job", "Rows of Sundries with basis per job.", _per_job
)

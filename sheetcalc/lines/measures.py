"""How much of a basis a room has: what sundries are bought by and labour is timed by."""

from collections.abc import Callable, Mapping
from math import dist
from typing import Final, TypeAlias

from msgspec import Struct

from sheetcalc.domain.catalogue import Bag, Buyable, Cable, Roll, Sundry, Tile
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Dimension, mm320_squared_to_m2, mm320_to_m
from sheetcalc.domain.quantity import PackBy, QuantityLine
from sheetcalc.domain.room import PieceKind, Span
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.lines import words
from sheetcalc.lines.cuts import HOLES, cut_counts
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.pieces import Pieces, all_pieces
from sheetcalc.lines.waterproofing import band_m
from sheetcalc.lines.wet import FLOORS, wet_area_m2, wet_kinds, wet_parts
from sheetcalc.rules.bases import BASES, UNITS, Basis, BasisUnit
from sheetcalc.rules.circuits import circuits_begun, load_group

_Kinds: TypeAlias = tuple[str, ...]
_OUTLINE_CORNERS: Final = frozenset({"floor", "wall", "base"})
_THROUGH_FLOOR: Final = frozenset({PieceKind.TOILET_OUTLET, PieceKind.PIPE})


class Measured(Struct, frozen=True):
    """How much of a basis there is.

    Attributes
    ----------
    amount
        In the basis's own unit: a count, m, ft, kg, lb, or the Job's unit of area.
    words
        For the Basis column.
    """

    amount: float
    words: str


def measure(
    ctx: LineContext, basis: str, surfaces: _Kinds = (), of_item: str | None = None
) -> Measured:
    """Measure a basis in one room.

    Parameters
    ----------
    ctx
        The room; ``lines`` holds what was worked before (for kilograms of an item, bands).
    basis
        Key of ``rules.bases``.
    surfaces
        Only surfaces of these kinds; none for all.  It has no effect on what a room has as a
        whole (doorways, drains, cables).
    of_item
        Code of the other item, for ``per kg of another item``.

    Returns
    -------
    Measured
        Zero where the room has none, and for ``per job``, which is no room's.

    Raises
    ------
    KeyError
        For a basis that is not in the closed list.
    """
    about = BASES[basis]
    if about.once_a_job:
        return Measured(0.0, "once for the whole job")
    si = _si(ctx, about, surfaces, of_item)
    amount = _in_its_unit(si, about, ctx.job)
    if about.needs_of:
        return Measured(amount, f"{words.number(amount)} {about.unit.value} of {of_item}, net")
    what = basis.removeprefix("per ").removeprefix("area ").removeprefix(f"{about.unit.value} of ")
    if about.unit is BasisUnit.COUNT:
        return Measured(amount, words.plural(amount, what))
    if about.unit is BasisUnit.AREA:
        return Measured(amount, f"{words.area(si, ctx.job)} {what}")
    taken = f" ({about.taken})" if about.taken else ""
    return Measured(amount, f"{words.in_unit(si, UNITS[about.unit])} of {what}{taken}")


def amount_of(ctx: LineContext, basis: str, surfaces: _Kinds = ()) -> float:
    """Measure a basis in one room, without the words: the ``amount`` of ``measure``.

    Raises
    ------
    KeyError
        For a basis that is not in the closed list.
    """
    about = BASES[basis]
    if about.once_a_job:
        return 0.0
    return _in_its_unit(_si(ctx, about, surfaces, None), about, ctx.job)


def _si(ctx: LineContext, about: Basis, surfaces: _Kinds, of_item: str | None) -> float:
    """How much there is, as a count or in SI units."""
    if about.needs_of:
        return mass_of_item(ctx, of_item or "")
    return _MEASURES[about.measured_by](ctx, surfaces)


def _in_its_unit(si: float, about: Basis, job: Job) -> float:
    if about.unit is BasisUnit.COUNT:
        return si
    return (job.units.area if about.unit is BasisUnit.AREA else UNITS[about.unit]).from_si(si)


def mass_of_item(ctx: LineContext, code: str) -> float:
    """Net mass of an item in the room, from the lines worked so far [kg]."""
    item = _find(ctx, code)
    return sum(_mass(line, item) for line in ctx.lines if line.item == code) if item else 0.0


def _find(ctx: LineContext, code: str) -> Buyable | None:
    c = ctx.catalogue
    pools: tuple[Mapping[str, Buyable], ...] = (c.tiles, c.bags, c.rolls, c.cables, c.sundries)
    return next((pool[code] for pool in pools if code in pool), None)


def _mass(line: QuantityLine, item: Buyable) -> float:
    """Mass of a line's net quantity: directly, or by parts of packs of known weight."""
    if line.unit.dimension is Dimension.MASS:
        return line.each_si
    if isinstance(item, Bag):
        size = item.pack_unit.to_si(item.pack_size)
        in_kg = item.pack_unit.dimension is Dimension.MASS
        weight = size if in_kg else item.pack_weight_kg
        per_pack = {
            PackBy.YIELD: item.yield_m3,
            PackBy.COVERAGE: item.coverage_m2,
            PackBy.PACK_SIZE: size,
        }.get(line.pack_by)
        return line.each_si / per_pack * weight if per_pack and weight else 0.0
    if isinstance(item, Sundry):
        size = item.pack_unit.to_si(item.pack_size)
        return line.each_si / size * (item.pack_weight_kg or 0.0)
    if isinstance(item, Tile):
        return line.each_si / item.pieces_per_box * (item.box_weight_kg or 0.0)
    return _roll_mass(line, item)


def _roll_mass(line: QuantityLine, item: Roll | Cable) -> float:
    if isinstance(item, Cable) or not item.weight_kg:
        return 0.0
    per_pack = {
        Dimension.AREA: mm320_squared_to_m2(item.length_mm320 * item.width_mm320),
        Dimension.LENGTH: mm320_to_m(item.length_mm320),
        Dimension.COUNT: 1.0,
    }.get(line.unit.dimension)
    return line.each_si / per_pack * item.weight_kg if per_pack else 0.0


def _pieces(ctx: LineContext, surfaces: _Kinds) -> list[Pieces]:
    return [p for p in all_pieces(ctx) if not surfaces or p.spec.surface.value in surfaces]


def _outs(ctx: LineContext, surfaces: _Kinds) -> list[SettingOut]:
    return [out for p in _pieces(ctx, surfaces) for out in p.outs]


def _tile_area(ctx: LineContext, surfaces: _Kinds) -> float:
    return sum(p.area_m2 for p in _pieces(ctx, surfaces))


def _tiles(ctx: LineContext, surfaces: _Kinds) -> float:
    return sum(p.count for p in _pieces(ctx, surfaces))


def _cuts(ctx: LineContext, surfaces: _Kinds) -> float:
    return sum(out.cut for out in _outs(ctx, surfaces))


def _holes(ctx: LineContext, surfaces: _Kinds) -> float:
    return cut_counts(_outs(ctx, surfaces)).get(HOLES, 0)


def _joints(ctx: LineContext, surfaces: _Kinds) -> float:
    return sum(out.joint_length_m for out in _outs(ctx, surfaces))


def _sheets(pieces: Pieces) -> float:
    """Sheets of mosaic on their area: spacers and clips go between these, not between chips."""
    along, across = pieces.tile.module(pieces.joint_mm320)
    return pieces.area_m2 / mm320_squared_to_m2(along * across)


def _crossings(ctx: LineContext, surfaces: _Kinds) -> float:
    """Count places where joints meet; those of a sheet of mosaic meet at one of its corners."""
    return sum(
        _sheets(pieces)
        if pieces.tile.chips(pieces.joint_mm320)
        else sum(out.crossings for out in pieces.outs)
        for pieces in _pieces(ctx, surfaces)
    )


def _tile_edges(ctx: LineContext, surfaces: _Kinds) -> float:
    """Count joints between two tiles: length of joints over the mean side of a tile.

    Exact where whole tiles lie in a grid; cut tiles count by their share.  A sheet of mosaic has
    two, one to the sheet beside it and one to the sheet above.
    """
    total = 0.0
    for pieces in _pieces(ctx, surfaces):
        tile = pieces.tile
        if tile.chips(pieces.joint_mm320):
            total += 2 * _sheets(pieces)
            continue
        side_m = mm320_to_m(tile.length_mm320 + tile.width_mm320) / 2
        total += sum(out.joint_length_m for out in pieces.outs) / side_m
    return total


def _open_edges(ctx: LineContext, surfaces: _Kinds) -> float:
    return mm320_to_m(sum(p.open_edges_mm320 for p in _pieces(ctx, surfaces)))


def _inside_corners(ctx: LineContext, surfaces: _Kinds) -> float:
    measures = ctx.room.measures
    if not _OUTLINE_CORNERS.isdisjoint(surfaces):
        return measures.inside_corners
    wet_floor = SurfaceKind.FLOOR in wet_kinds(ctx)
    return measures.wet_inside_corners + (measures.floor_inside_corners if wet_floor else 0)


def _outside_corners(ctx: LineContext, surfaces: _Kinds) -> float:
    measures = ctx.room.measures
    if not _OUTLINE_CORNERS.isdisjoint(surfaces):
        return measures.outside_corners
    wet_floor = SurfaceKind.FLOOR in wet_kinds(ctx)
    return measures.wet_outside_corners + (measures.floor_outside_corners if wet_floor else 0)


def _pipes(ctx: LineContext, _surfaces: _Kinds) -> float:
    """Pipes and outlets through floors that are made waterproof."""
    wet = {h for p in wet_parts(ctx) if p.surface.plane in FLOORS for h in p.surface.holes}
    return sum(
        1
        for fixture in ctx.room.fixtures
        if fixture.kind in _THROUGH_FLOOR and fixture.circle in wet
    )


def _band(ctx: LineContext, _surfaces: _Kinds) -> float:
    return band_m(ctx) if any(line.line == "bands" for line in ctx.lines) else 0.0


def _taken_up(ctx: LineContext, _surfaces: _Kinds) -> float:
    return ctx.room.outline.area_m2 if ctx.room.take_up else 0.0


def _circuits(ctx: LineContext, surfaces: _Kinds) -> float:
    """Circuits that begin in the room; a part of one where alike rooms share it."""
    cables = [c for c in ctx.work.cables if not surfaces or c.surface.startswith(surfaces)]
    return sum(circuits_begun(c) for c in {c.circuit: c for c in cables}.values())


def _thermostats(ctx: LineContext, surfaces: _Kinds) -> float:
    cables = [c for c in ctx.work.cables if not surfaces or c.surface.startswith(surfaces)]
    return len({load_group(c, ctx.job) for c in cables})


def _cables(ctx: LineContext, surfaces: _Kinds) -> float:
    return sum(1 for c in ctx.work.cables if not surfaces or c.surface.startswith(surfaces))


def doors_with_an_end(ctx: LineContext) -> list[Span]:
    """List the doorways that the floor's tile ends at; those it runs on through have no threshold.

    The tile runs on where the floor was laid through as one with that of the room beyond.
    """
    floor = ctx.work.setting_outs.get(SurfaceKind.FLOOR.value)
    beyond = floor.beyond if floor else ()
    return [door for door in ctx.room.doorways if door.name not in beyond]


def _doorways(ctx: LineContext, _surfaces: _Kinds) -> float:
    return len(doors_with_an_end(ctx))


def _doorway_m(ctx: LineContext, _surfaces: _Kinds) -> float:
    ending = doors_with_an_end(ctx)
    run_on = (door for door in ctx.room.doorways if door not in ending)
    return ctx.room.measures.doorway_m - sum(mm320_to_m(dist(d.start, d.end)) for d in run_on)


_MEASURES: Final[Mapping[str, Callable[[LineContext, _Kinds], float]]] = {
    "per room": lambda _ctx, _surfaces: 1.0,
    "per area of tile": _tile_area,
    "per area of floor": lambda ctx, _surfaces: ctx.room.outline.area_m2,
    "per tile": _tiles,
    "per cut": _cuts,
    "per hole": _holes,
    "per m of joint": _joints,
    "per m of perimeter": lambda ctx, _surfaces: ctx.room.measures.outline_perimeter_m,
    "per m of doorway": _doorway_m,
    "per cable": _cables,
    "per circuit": _circuits,
    "per thermostat": _thermostats,
    "per drain": lambda ctx, _surfaces: ctx.room.measures.drains,
    "per pipe": _pipes,
    "per m of open tile edge": _open_edges,
    "per inside corner": _inside_corners,
    "per outside corner": _outside_corners,
    "per joint crossing": _crossings,
    "per tile edge": _tile_edges,
    "per m of band": _band,
    "per area made waterproof": wet_area_m2,
    "per area taken up": _taken_up,
    "per doorway": _doorways,
    "per niche": lambda ctx, _surfaces: ctx.room.measures.niches,
    "per bath": lambda ctx, _surfaces: ctx.room.measures.baths,
    "per curb": lambda ctx, _surfaces: ctx.room.measures.curbs,
    "per shower floor": lambda ctx, _surfaces: ctx.room.measures.shower_floors,
}

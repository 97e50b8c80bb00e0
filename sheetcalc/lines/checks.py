"""What can be wrong in the catalogue that only the lines can tell."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from sheetcalc.domain.catalogue import Catalogue, LabourTask, Sundry
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Finish, SurfaceKind
from sheetcalc.domain.measure import Dimension
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.lines import words
from sheetcalc.lines.items import nearest
from sheetcalc.lines.waste import check_waste_factors
from sheetcalc.rules.allowances import WASTE_LINES
from sheetcalc.rules.bases import BASES, UNITS, Basis

_WALL: Final = SurfaceKind.WALL.value
_WET: Final = SurfaceKind.WET_AREA.value
_ENOUGH: Final = 0.99  # 3.28 ft for a metre is meant to be all of it


def check_catalogue(catalogue: Catalogue) -> Iterator[Finding]:
    """Find waste factors said twice or for no line, and sundries whose rule can't be worked.

    Yields
    ------
    Finding
        ``WASTE-FACTOR-TWICE``, ``WASTE-FACTOR-FOR-NO-LINE``, ``SUNDRY-OF-NOTHING``,
        ``SUNDRY-OF-UNKNOWN``, ``RATE-SHORT-OF-LENGTH``.
    """
    yield from check_waste_factors(catalogue)
    for row in catalogue.waste_factors:
        if row.line not in WASTE_LINES:
            near = nearest(row.line, WASTE_LINES) or ", ".join(WASTE_LINES)
            facts = {"line": row.line, "nearest": near}
            yield Finding("WASTE-FACTOR-FOR-NO-LINE", row.source, "Line", facts)
    codes = [
        *catalogue.tiles, *catalogue.bags, *catalogue.rolls, *catalogue.cables,
        *catalogue.sundries,
    ]  # fmt: skip
    for sundry in catalogue.sundries.values():
        basis = BASES.get(sundry.basis)
        if basis is None:
            continue
        yield from _short_of_its_basis(sundry, basis)
        if not basis.needs_of:
            continue
        if not sundry.of_item:
            yield Finding("SUNDRY-OF-NOTHING", sundry.source, "Of", {"code": sundry.code})
        elif sundry.of_item not in codes:
            near = nearest(sundry.of_item, codes) or "nothing like it"
            facts = {"code": sundry.code, "of": sundry.of_item, "nearest": near}
            yield Finding("SUNDRY-OF-UNKNOWN", sundry.source, "Of", facts)


def _short_of_its_basis(sundry: Sundry, basis: Basis) -> Iterator[Finding]:
    """Find a rate that buys less of a length than there is: 1 ft of trim for each metre of edge."""
    unit = UNITS.get(basis.unit)
    if unit is None or not unit.dimension is sundry.pack_unit.dimension is Dimension.LENGTH:
        return
    if sundry.pack_unit.to_si(sundry.rate) < _ENOUGH * unit.to_si(1):
        facts = {
            "code": sundry.code,
            "rate": f"{words.number(sundry.rate, 6)} {sundry.pack_unit.symbol}",
            "basis": sundry.basis,
            "one": f"1 {unit.symbol}",
        }
        yield Finding("RATE-SHORT-OF-LENGTH", sundry.source, "Rate", facts)


def check_wet_areas(
    catalogue: Catalogue, finishes: Mapping[str, Finish], works: Iterable[RoomWork]
) -> Iterator[Finding]:
    """Find what is bought or timed for walls, and for their wet areas is not.

    A wet area is a part of a wall with a Surface of its own, so a row for walls alone passes it
    over: half the spacers of a shower's walls, or the hours of setting its tile.

    Parameters
    ----------
    catalogue
        Its rows of Sundries and Labour.
    finishes, works
        Only rows for a finish with tiled wet areas are looked at.

    Yields
    ------
    Finding
        ``WET-AREA-LEFT-OUT``.
    """
    tiled = [
        name
        for name in dict.fromkeys(work.room.finish for work in works if _has_wet_area(work))
        if (spec := finishes[name].surfaces.get(SurfaceKind.WET_AREA)) and spec.tile
    ]
    sundries = list(catalogue.sundries.values())
    for row in sundries:
        yield from _left_out(row, row.code, sundries, tiled)
    for task in catalogue.labour:
        yield from _left_out(task, task.task, catalogue.labour, tiled)


def _has_wet_area(work: RoomWork) -> bool:
    return any(surface.kind is SurfaceKind.WET_AREA for surface in work.room.surfaces)


def _left_out(
    row: Sundry | LabourTask, name: str, others: Sequence[Sundry | LabourTask], tiled: list[str]
) -> Iterator[Finding]:
    """Find a row for walls whose wet areas no row of the same basis is for."""
    if not BASES[row.basis].of_tiles or _WALL not in row.surfaces:
        return
    measured_by = BASES[row.basis].measured_by
    alike = [other for other in others if BASES[other.basis].measured_by == measured_by]
    bare = [
        finish
        for finish in tiled
        if row.finish in {None, finish}
        and not any(
            other.finish in {None, finish} and (not other.surfaces or _WET in other.surfaces)
            for other in alike
        )
    ]
    if bare:
        facts = {"name": name, "basis": row.basis, "finish": ", ".join(bare)}
        yield Finding("WET-AREA-LEFT-OUT", row.source, "Surface", facts)

"""How a volume or an area of something mixed, poured or spread turns into packs of a bag."""

from msgspec import Struct

from sheetcalc.domain.catalogue import Bag
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Layer, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Dimension, Unit
from sheetcalc.domain.quantity import PackBy, QuantityLine
from sheetcalc.lines import words
from sheetcalc.lines.items import NO_ITEM_NOTE
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.waste import waste_for


class Need(Struct, frozen=True):
    """A quantity in the unit that its pack is counted in.

    Attributes
    ----------
    each_si
        Quantity [SI unit of ``unit``].
    unit
        The job's, or the pack's own.
    pack_by
        Column of the catalogue that an order divides by.
    note
        Words for the Basis; "" where nothing was assumed.
    """

    each_si: float
    unit: Unit
    pack_by: PackBy
    note: str = ""


def by_volume(
    bag: Bag | None, volume_m3: float, job: Job, dry_density_kg_m3: float | None, density_note: str
) -> Need | Finding:
    """Need of a volume as mixed.

    By the pack's yield; else by the pack's own volume; else, where a density is known, by mass of
    powder.

    Parameters
    ----------
    bag
        What is ordered; None lists the volume without ordering it.
    volume_m3
        Volume as mixed [m3].
    job
        For its units.
    dry_density_kg_m3
        Powder in a volume as mixed [kg/m3]; None where no default is allowed.
    density_note
        Words and source of that density.

    Returns
    -------
    Need or Finding
        ``BAG-WITHOUT-YIELD`` where packs can't be worked out.
    """
    if bag is None:
        return Need(volume_m3, job.units.volume, PackBy.NONE)
    if bag.yield_m3:
        note = f"a {bag.package} yields {words.volume(bag.yield_m3, job)}"
        return Need(volume_m3, job.units.volume, PackBy.YIELD, note)
    if bag.pack_unit.dimension is Dimension.VOLUME:
        return Need(
            volume_m3, bag.pack_unit, PackBy.PACK_SIZE, f"sold by the {bag.pack_unit.symbol}"
        )
    if bag.pack_unit.dimension is Dimension.MASS and dry_density_kg_m3:
        mass_kg = volume_m3 * dry_density_kg_m3
        note = (
            f"no Yield for {bag.code}: {density_note}, so {words.in_unit(mass_kg, bag.pack_unit)}"
        )
        return Need(mass_kg, bag.pack_unit, PackBy.PACK_SIZE, note)
    return Finding("BAG-WITHOUT-YIELD", bag.source, "Yield", {"code": bag.code})


def by_coverage(bag: Bag | None, area_m2: float, coats: int, job: Job) -> Need | Finding:
    """Need of an area in coats.

    Parameters
    ----------
    bag
        What is ordered; None lists the area without ordering it.
    area_m2
        Area of one coat [m2].
    coats
        Number of coats.
    job
        For its units.

    Returns
    -------
    Need or Finding
        ``BAG-WITHOUT-COVERAGE`` where packs can't be worked out.
    """
    if bag is None:
        return Need(area_m2 * coats, job.units.area, PackBy.NONE)
    if not bag.coverage_m2:
        return Finding("BAG-WITHOUT-COVERAGE", bag.source, "Coverage", {"code": bag.code})
    note = f"a {bag.package} covers {words.area(bag.coverage_m2, job)} in one coat"
    return Need(area_m2 * coats, job.units.area, PackBy.COVERAGE, note)


def bag_line(  # noqa: PLR0913 - the columns of a takeoff line, each by its name
    ctx: LineContext,
    line: str,
    bag: Bag | None,
    need: Need,
    *,
    working: str,
    surface: str,
    row: Layer | SurfaceSpec,
    bond: str = "",
    called: str = "",
) -> QuantityLine:
    """Quantity line of what a bag holds.

    Parameters
    ----------
    ctx
        The room.
    line
        Key of the line, by which its waste factor is found.
    bag, need
        What is ordered, and how much; None lists it without ordering it.
    working
        For the Basis, before what the packs are worked from.
    surface
        Key of the surface.
    row
        Row of Finishes or Build-up that asks for it.
    bond
        Label of the bond, for the waste factor; "" where the line has none.
    called
        What it is where there is no bag.
    """
    return ctx.quantity(
        line,
        bag.description if bag else called,
        need.each_si,
        need.unit,
        basis=f"{working}; {need.note if bag else NO_ITEM_NOTE}",
        surface=surface,
        item=bag,
        waste=waste_for(ctx.catalogue, line, row.finish, bond),
        pack_by=need.pack_by,
        source=row.source,
    )

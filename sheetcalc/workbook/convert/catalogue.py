"""Tiles, Bags and pails, Rolls and sheets, Heating cables, Sundries to what can be bought."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TypedDict, TypeVar

from msgspec import Struct

from sheetcalc.domain.catalogue import (
    Bag,
    BagKind,
    Buyable,
    Cable,
    Catalogue,
    PricePer,
    Roll,
    RollKind,
    Sundry,
    Tile,
)
from sheetcalc.domain.measure import PIECE, UNITS, Dimension, Unit
from sheetcalc.rules.bases import BASES
from sheetcalc.rules.pack_contents import usual_yield_m3
from sheetcalc.rules.packages import usual_package
from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.convert.allowances import read_labour, read_waste
from sheetcalc.workbook.convert.nearest import nearest
from sheetcalc.workbook.convert.references import key_of
from sheetcalc.workbook.convert.rows import Desk, RowReader, given
from sheetcalc.workbook.convert.trading import read_suppliers
from sheetcalc.workbook.inputs.catalogue import BAGS, CABLES, ROLLS, SUNDRIES, TILES

B = TypeVar("B", bound=Buyable)

CATALOGUE_TABS = (TILES, BAGS, ROLLS, CABLES, SUNDRIES)


def read_catalogue(desk: Desk) -> Catalogue:
    """Read every row of the catalogue tabs that has no error."""
    alternatives: dict[str, tuple[Buyable, ...]] = {}
    return Catalogue(
        tiles=_first(_records(desk, TILES, _tile), alternatives),
        bags=_first(_records(desk, BAGS, _bag), alternatives),
        rolls=_first(_records(desk, ROLLS, _roll), alternatives),
        cables=_first(_records(desk, CABLES, _cable), alternatives),
        sundries=_first(_records(desk, SUNDRIES, _sundry), alternatives),
        waste_factors=read_waste(desk),
        labour=read_labour(desk),
        suppliers=read_suppliers(desk),
        alternatives=alternatives,
    )


def _records(desk: Desk, tab: Tab, read: Callable[[Desk, RowReader], B | None]) -> Iterator[B]:
    """Yield the records; those that say a code again are held against the first of it."""
    firsts: dict[str, B] = {}
    for row in desk.rows(tab):
        record = read(desk, row)
        if record is None:
            continue
        first = firsts.setdefault(key_of(record.code), record)
        if first is not record:
            _compare(row, first, record)
        if not row.faulty:
            yield record


def _first(records: Iterable[B], alternatives: dict[str, tuple[Buyable, ...]]) -> Mapping[str, B]:
    """Return the first record of each code; the others of it are alternative sources."""
    firsts: dict[str, B] = {}
    spelling: dict[str, str] = {}
    for record in records:
        code = spelling.setdefault(key_of(record.code), record.code)
        if code in firsts:
            alternatives[code] = (*alternatives.get(code, ()), record)
        else:
            firsts[code] = record
    return firsts


def _compare(row: RowReader, first: Buyable, other: Buyable) -> None:
    """Refuse an alternative source that is not the same thing, or comes in another unit."""
    for header, attributes in _SAME_IN_ALTERNATIVES:
        if any(getattr(first, a, None) != getattr(other, a, None) for a in attributes):
            row.error("ALTERNATIVE-DIFFERS", header, item=first.code, row=first.source.row or 0)


_SAME_IN_ALTERNATIVES = (
    ("Pack unit", ("pack_unit",)),
    ("Kind", ("kind",)),
    ("Length", ("length_mm320",) ),
    ("Width", ("width_mm320",)),
    ("Range", ("range_name",)),
    ("Volts", ("volts",)),
    ("Watts", ("watts",)),
    ("Basis", ("basis",)),
)  # fmt: skip
"""Header, and the fields behind it, that must agree between rows of one code."""


class _Identity(Struct, frozen=True):
    code: str | None
    supplier: str | None
    supplier_code: str | None
    description: str


def _identity(row: RowReader) -> _Identity:
    return _Identity(
        row.code("Code"), row.name("Supplier"), row.code("Supplier code"), row.text("Description")
    )


class _Selling(TypedDict):
    lead_days: int | None
    least_packs: int | None
    returnable: bool


def _selling(row: RowReader) -> _Selling:
    """Read the columns about ordering that every catalogue tab ends with."""
    lead_days, least = row.count("Lead days"), row.count("Minimum packs")
    returnable = row.yes_no("Returnable")
    return _Selling(lead_days=lead_days, least_packs=least, returnable=bool(returnable))


def _tile(desk: Desk, row: RowReader) -> Tile | None:
    del desk
    it = _identity(row)
    material, edge, price_per = row.choice("Material"), row.choice("Edge"), row.choice("Price per")
    length, width, thickness = row.length("Length"), row.length("Width"), row.length("Thickness")
    chip = row.length("Chip length"), row.length("Chip width")
    spread, warpage = row.length("Size spread"), row.length("Edge warpage")
    pieces, price, weight = (
        row.count("Pieces per box"),
        row.money("Price"),
        row.quantity("Box weight"),
    )
    one_batch, selling = row.yes_no("One batch"), _selling(row)
    if length is not None and width is not None and thickness is not None:
        _check_tile(row, length, width, thickness)
        _check_chip(row, (length, width), chip)
    if row.faulty:
        return None
    return Tile(
        code=given(it.code),
        supplier=it.supplier,
        supplier_code=it.supplier_code,
        description=it.description,
        material=material or "ceramic",
        edge=edge or "calibrated",
        length_mm320=max(given(length), given(width)),
        width_mm320=min(given(length), given(width)),
        thickness_mm320=given(thickness),
        chip_length_mm320=chip[0],
        chip_width_mm320=chip[1],
        size_spread_mm320=spread,
        edge_warpage_mm320=warpage,
        pieces_per_box=given(pieces),
        price=price,
        price_per=PricePer(price_per or "box"),
        box_weight_kg=weight,
        one_batch=bool(one_batch),
        source=row.source,
        **selling,
    )


def _check_tile(row: RowReader, length: int, width: int, thickness: int) -> None:
    if thickness >= min(length, width):
        row.error("TILE-THICKER-THAN-LONG", "Thickness")
    if width > length:
        row.remark("TILE-WIDER-THAN-LONG", "Length")


def _check_chip(
    row: RowReader, sheet: tuple[int, int], chip: tuple[int | None, int | None]
) -> None:
    """Both chip sizes or none; a chip fits into its sheet."""
    if (chip[0] is None) != (chip[1] is None):
        header = "Chip length" if chip[0] is None else "Chip width"
        if row.is_empty(header):
            row.error("CHIP-SIZE-MISSING", header)
    elif chip[0] is not None and chip[1] is not None:
        longest, shortest = max(chip[0], chip[1]), min(chip[0], chip[1])
        if longest > max(sheet) or shortest > min(sheet):
            row.error("CHIP-LARGER-THAN-SHEET", "Chip length")


def _check_yield(desk: Desk, row: RowReader, size: float, unit: Unit, made: float) -> None:
    """Note a yield that no bag of that weight gives: often it is in another unit than the Job's."""
    if unit.dimension is not Dimension.MASS:
        return
    low, high = usual_yield_m3(unit.to_si(size))
    if not low <= made <= high:
        volume = desk.units.volume
        row.remark(
            "YIELD-UNUSUAL",
            "Yield",
            low=f"{volume.from_si(low):.3g} {volume.symbol}",
            high=f"{volume.from_si(high):.3g} {volume.symbol}",
            pack=f"{size:g} {unit.symbol}",
        )


def _bag(desk: Desk, row: RowReader) -> Bag | None:
    it = _identity(row)
    kind, size, unit = row.choice("Kind"), row.number("Pack size"), row.choice("Pack unit")
    package, made, covered = row.choice("Package"), row.quantity("Yield"), row.quantity("Coverage")
    price, weight = row.money("Pack price"), row.quantity("Pack weight")
    selling = _selling(row)
    if row.faulty:
        return None
    if made:
        _check_yield(desk, row, given(size), UNITS[given(unit)], made)
    return Bag(
        code=given(it.code),
        supplier=it.supplier,
        supplier_code=it.supplier_code,
        description=it.description,
        kind=BagKind(given(kind)),
        pack_size=given(size),
        pack_unit=UNITS[given(unit)],
        package=package or usual_package(BagKind(given(kind))),
        yield_m3=made,
        coverage_m2=covered,
        pack_price=price,
        pack_weight_kg=weight,
        source=row.source,
        **selling,
    )


def _roll(desk: Desk, row: RowReader) -> Roll | None:
    del desk
    it = _identity(row)
    kind, width, length = row.choice("Kind"), row.length("Width"), row.length("Length")
    thickness, overlap = row.length("Thickness"), row.length("Overlap")
    pitch, fill, one_way = row.length("Knob pitch"), row.fill("Fill"), row.yes_no("One way")
    package, price, weight = row.choice("Package"), row.money("Price"), row.quantity("Weight")
    selling = _selling(row)
    sizes = [size for size in (width, length) if size is not None]
    if overlap is not None and any(overlap >= size for size in sizes):
        row.error("OVERLAP-OVER-WIDTH", "Overlap")
    if row.faulty:
        return None
    return Roll(
        code=given(it.code),
        supplier=it.supplier,
        supplier_code=it.supplier_code,
        description=it.description,
        kind=RollKind(given(kind)),
        width_mm320=given(width),
        length_mm320=given(length),
        thickness_mm320=thickness,
        overlap_mm320=overlap or 0,
        knob_pitch_mm320=pitch,
        fill_m=fill,
        one_way=bool(one_way),
        package=package or usual_package(RollKind(given(kind))),
        price=price,
        weight_kg=weight,
        source=row.source,
        **selling,
    )


def _cable(desk: Desk, row: RowReader) -> Cable | None:
    it = _identity(row)
    range_name, length = row.code("Range"), row.length("Length")
    tolerance, watts, volts = (
        row.percent("Length tolerance"),
        row.number("Watts"),
        row.number("Volts"),
    )
    resistance, coefficient = row.number("Resistance"), row.number("Temperature coefficient")
    leads, cold_lead = row.choice("Leads"), row.length("Cold lead")
    spacing, bend = row.length("Smallest spacing"), row.length("Bend radius")
    price, selling = row.money("Price"), _selling(row)
    if row.faulty:
        return None
    return Cable(
        code=given(it.code),
        supplier=it.supplier,
        supplier_code=it.supplier_code,
        description=it.description,
        range_name=given(desk.names.canonical("Heating cables.Range", range_name)),
        length_mm320=given(length),
        length_tolerance=tolerance,
        watts=given(watts),
        volts=given(volts),
        resistance_ohm=resistance,
        temperature_coefficient_per_k=coefficient,
        leads=leads or "one end",
        cold_lead_mm320=cold_lead,
        smallest_spacing_mm320=spacing,
        bend_radius_mm320=bend,
        price=price,
        source=row.source,
        **selling,
    )


def _sundry(desk: Desk, row: RowReader) -> Sundry | None:
    it = _identity(row)
    basis, of_item, rate = row.choice("Basis"), row.code("Of"), row.number("Rate")
    finish, surfaces = row.name("Finish"), row.choices("Surface")
    size, unit, package = row.number("Pack size"), row.choice("Pack unit"), row.choice("Package")
    price, weight = row.money("Pack price"), row.quantity("Pack weight")
    selling = _selling(row)
    of_item = _known_of(desk, row, basis, of_item)
    if row.faulty:
        return None
    return Sundry(
        code=given(it.code),
        supplier=it.supplier,
        supplier_code=it.supplier_code,
        description=it.description,
        basis=given(basis),
        of_item=of_item,
        rate=given(rate),
        finish=finish,
        surfaces=surfaces,
        pack_size=given(size),
        pack_unit=UNITS[unit] if unit else PIECE,
        package=package or "box",
        pack_price=price,
        pack_weight_kg=weight,
        source=row.source,
        **selling,
    )


def _known_of(desk: Desk, row: RowReader, basis: str | None, of_item: str | None) -> str | None:
    """Item that a basis counts by, in the catalogue's spelling."""
    if basis is not None and BASES[basis].needs_of and row.is_empty("Of"):
        row.error("SUNDRY-OF-NOTHING", "Of", code=row.shown("Code"))
    if of_item is None:
        return None
    lists = [f"{tab.key}.Code" for tab in CATALOGUE_TABS]
    for list_of in lists:
        if key_of(of_item) in desk.names.known(list_of):
            return desk.names.canonical(list_of, of_item)
    names = [name for list_of in lists for name in desk.names.known(list_of).values()]
    near = nearest(of_item, names) or "nothing like it"
    row.error("SUNDRY-OF-UNKNOWN", "Of", code=row.shown("Code"), of=of_item, nearest=near)
    return None

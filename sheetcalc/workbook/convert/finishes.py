"""Finishes and Build-up to the domain's finishes."""

from collections.abc import Iterator, Mapping

from sheetcalc.domain.catalogue import Catalogue
from sheetcalc.domain.finish import (
    Bond,
    Finish,
    Layer,
    LayerRole,
    Run,
    SurfaceKind,
    SurfaceSpec,
    codes_named,
)
from sheetcalc.workbook.convert.nearest import nearest
from sheetcalc.workbook.convert.references import key_of
from sheetcalc.workbook.convert.rows import Desk, RowReader, given
from sheetcalc.workbook.inputs.finishes import BUILD_UP, FINISHES

_ITEM_LISTS = ("Bags and pails.Code", "Rolls and sheets.Code", "Sundries.Code")


def read_finishes(desk: Desk, catalogue: Catalogue) -> Mapping[str, Finish]:
    """Read the finishes that have no error in any row, nor in the catalogue rows they name."""
    faulty: set[str] = set()
    specs = list(_specs(desk, faulty))
    layers = list(_layers(desk, faulty))
    for spec in specs:
        if not _is_buyable(spec, catalogue):
            faulty.add(key_of(spec.finish))
    buyable = {*catalogue.bags, *catalogue.rolls, *catalogue.sundries}
    for layer in layers:
        named = (*layer.items, layer.bed_mortar)
        if any(code is not None and code not in buyable for code in named):
            faulty.add(key_of(layer.finish))
    finishes: dict[str, Finish] = {}
    for spec in specs:
        if key_of(spec.finish) in faulty or spec.finish in finishes:
            continue
        own = [s for s in specs if s.finish == spec.finish]
        under = [x for x in layers if x.finish == spec.finish]
        finishes[spec.finish] = Finish(
            spec.finish,
            {s.surface: s for s in own},
            {
                surface: tuple(
                    sorted((x for x in under if x.surface is surface), key=lambda x: x.order)
                )
                for surface in dict.fromkeys(x.surface for x in under)
            },
        )
    return finishes


def _is_buyable(spec: SurfaceSpec, catalogue: Catalogue) -> bool:
    """Whether the catalogue rows that a surface names were all read without errors."""
    bags = (spec.mortar, spec.grout, spec.sealant, spec.sealer)
    ranges = {cable.range_name for cable in catalogue.cables.values()}
    return (
        (spec.tile is None or spec.tile in catalogue.tiles)
        and all(code is None or code in catalogue.bags for code in bags)
        and (spec.heating_range is None or spec.heating_range in ranges)
    )


def _specs(desk: Desk, faulty: set[str]) -> Iterator[SurfaceSpec]:
    for row in desk.rows(FINISHES):
        row.surface = row.shown("Surface")
        spec = _spec(desk, row)
        if spec is None:
            faulty.add(key_of(row.shown("Finish")))
        else:
            yield spec


def _spec(desk: Desk, row: RowReader) -> SurfaceSpec | None:
    finish, surface, tile = row.code("Finish"), row.choice("Surface"), row.name("Tile")
    bond, run, joint = row.bond("Bond"), row.run("Run"), row.length("Joint")
    if tile is not None and joint is None and row.is_empty("Joint"):
        row.error("TILE-WITHOUT-JOINT", "Joint", tile=tile)
    notch, angle, skim = row.notch("Trowel notch"), row.number("Trowel angle"), row.length("Skim")
    mortar, grout = row.name("Mortar"), row.name("Grout")
    sealant, sealer, heating = row.name("Sealant"), row.name("Sealer"), row.name("Heating")
    if row.faulty:
        return None
    return SurfaceSpec(
        finish=given(desk.names.canonical("Finishes.Finish", finish)),
        surface=SurfaceKind(given(surface)),
        tile=tile,
        bond=bond or Bond(),
        run=run or Run(),
        joint_mm320=joint,
        notch=notch,
        trowel_angle_deg=angle,
        skim_mm320=skim,
        mortar=mortar,
        grout=grout,
        sealant=sealant,
        sealer=sealer,
        heating_range=heating,
        source=row.source,
    )


def _layers(desk: Desk, faulty: set[str]) -> Iterator[Layer]:
    for row in desk.rows(BUILD_UP):
        row.surface = row.shown("Surface")
        layer = _layer(desk, row)
        if layer is None:
            faulty.add(key_of(row.shown("Finish")))
        else:
            yield layer


def _layer(desk: Desk, row: RowReader) -> Layer | None:
    finish, surface, order = row.name("Finish"), row.choice("Surface"), row.count("Order")
    role, item, bed = row.choice("Role"), row.code("Item"), row.name("Bed mortar")
    notch, depth = row.notch("Trowel notch"), row.length("Mean depth")
    coats, up_walls, note = row.count("Coats"), row.length("Up walls"), row.text("Note")
    poured = role in (LayerRole.LEVELLING.value, LayerRole.SCREED.value)
    if poured and depth is None and row.is_empty("Mean depth"):
        row.error(
            "DEPTH-MISSING",
            "Mean depth",
            role=role or "",
            finish=row.shown("Finish"),
            surface=row.surface,
        )
    known = _known_items(desk, row, item)
    if row.faulty:
        return None
    return Layer(
        finish=given(finish),
        surface=SurfaceKind(given(surface)),
        order=given(order),
        role=LayerRole(given(role)),
        item=known,
        bed_mortar=bed,
        notch=notch,
        mean_depth_mm320=depth,
        coats=coats,
        up_walls_mm320=up_walls,
        note=note,
        source=row.source,
    )


def _known_items(desk: Desk, row: RowReader, item: str | None) -> str | None:
    """Spelling of a layer's items in the catalogue; several are set apart by ``; ``."""
    codes = codes_named(item)
    return "; ".join(dict.fromkeys(_known_item(desk, row, code) for code in codes)) or None


def _known_item(desk: Desk, row: RowReader, item: str) -> str:
    """Spelling of one item in the catalogue tab that holds it; exactly one must."""
    found = [x for x in _ITEM_LISTS if key_of(item) in desk.names.known(x)]
    if not found:
        names = [name for x in _ITEM_LISTS for name in desk.names.known(x).values()]
        row.error(
            "ITEM-NOT-IN-CATALOGUE",
            "Item",
            what=row.shown("Role"),
            code=item,
            finish=row.shown("Finish"),
            surface=row.surface,
            nearest=nearest(item, names) or "nothing like it",
        )
    elif len(found) > 1:
        both = " and ".join(list_of.partition(".")[0] for list_of in found)
        row.error("ITEM-IN-TWO-TABS", "Item", tabs=both)
    return (desk.names.canonical(found[0], item) if found else None) or item

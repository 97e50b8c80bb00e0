"""Cautions of the whole job: heavy boxes, dust at the saw, flatness to prepare for."""

from collections.abc import Iterator

from sheetcalc.domain.catalogue import Buyable, Catalogue, Tile
from sheetcalc.domain.finding import Fact, Finding, RowRef
from sheetcalc.domain.finish import Finish, SurfaceSpec
from sheetcalc.domain.measure import mm320_squared_to_m2, mm320_to_m
from sheetcalc.lines import words
from sheetcalc.lines.line import JobContext, JobLine, Outcome
from sheetcalc.rules.cautions import (
    LIFT_LIMIT_KG,
    LIFT_SOURCE,
    SILICA_SOURCE,
    box_weight_kg,
    needs_two_people,
    tile_density,
)
from sheetcalc.rules.flatness import Flatness, flatness_for
from sheetcalc.rules.pack_contents import pack_weight


def box_weight(tile: Tile) -> tuple[float, str]:
    """Weight of a box of tile [kg], and where it comes from."""
    if tile.box_weight_kg:
        return tile.box_weight_kg, "Box weight"
    face = mm320_squared_to_m2(tile.length_mm320 * tile.width_mm320) * tile.pieces_per_box
    density, source = tile_density(tile.material)
    weight = box_weight_kg(face, mm320_to_m(tile.thickness_mm320), density)
    return weight, f"worked out: {source}"


def _lifts(ctx: JobContext) -> Iterator[Outcome]:
    used = {line.item for line in ctx.lines if line.item}
    heavy: list[tuple[Buyable, float, str, str]] = []
    for tile in ctx.catalogue.tiles.values():
        weight, how = box_weight(tile)
        heavy.append((tile, weight, how, "box"))
    heavy += [
        (
            bag,
            pack_weight(bag) or 0.0,
            "Pack weight" if bag.pack_weight_kg else "Pack size; no Pack weight given",
            bag.package,
        )
        for bag in ctx.catalogue.bags.values()
    ]
    unit = ctx.job.units.mass
    for item, weight, how, package in heavy:
        if item.code in used and needs_two_people(weight):
            facts = {
                "code": item.code,
                "package": package,
                "weight": words.mass(weight, ctx.job),
                "limit": f"{words.number(unit.from_si(LIFT_LIMIT_KG), 1)} {unit.symbol}",
                "how": how,
                "source": LIFT_SOURCE,
            }
            yield Finding("TWO-PERSON-LIFT", item.source, None, facts)


def _dust(ctx: JobContext) -> Iterator[Outcome]:
    cuts = sum(line.net_si for line in ctx.lines if line.line == "cuts")
    if cuts > 0:
        facts: dict[str, Fact] = {"cuts": round(cuts), "source": SILICA_SOURCE}
        yield Finding("SAW-WITH-WATER", RowRef("Job"), None, facts)


def _flatness(ctx: JobContext) -> Iterator[Outcome]:
    in_use = {w.room.finish for w in ctx.works}
    for finish in (f for name, f in ctx.finishes.items() if name in in_use):
        for flatness, specs in _classes(finish, ctx.catalogue).items():
            facts: dict[str, Fact] = {
                "finish": finish.name,
                "surface": ", ".join(spec.surface.value for _, spec in specs),
                "edge": words.small_mm320(max(longest for longest, _ in specs), ctx.job),
                "flatness": flatness.words,
                "source": flatness.source,
            }
            yield Finding("FLATNESS-TO-PREPARE", specs[0][1].source, "Tile", facts)


def _classes(finish: Finish, catalogue: Catalogue) -> dict[Flatness, list[tuple[int, SurfaceSpec]]]:
    """Longest edges and surfaces of a finish, by the class of flatness that they ask for."""
    classes: dict[Flatness, list[tuple[int, SurfaceSpec]]] = {}
    for spec in finish.surfaces.values():
        tile = catalogue.tiles.get(spec.tile) if spec.tile else None
        if tile:
            longest = _longest_edge(tile)
            classes.setdefault(flatness_for(longest), []).append((longest, spec))
    return classes


def _longest_edge(tile: Tile) -> int:
    if tile.chip_length_mm320 and tile.chip_width_mm320:
        return max(tile.chip_length_mm320, tile.chip_width_mm320)
    return max(tile.length_mm320, tile.width_mm320)


FLATNESS = JobLine(
    "flatness",
    "Flatness to prepare for",
    "Flatness of the base that the tile's longest edge asks for: ANSI A108.02-4.2.2 / A108.01, as "
    "quoted in floortrendsmag 113806, from 15 in; below from memory, not verified.",
    _flatness,
)
LIFTS = JobLine(
    "two-person lifts",
    "Two-person lifts",
    f"Boxes of tile and packs above 23 kg (51 lb): {LIFT_SOURCE}.",
    _lifts,
)
DUST = JobLine("dust", "Dust at the saw", f"{SILICA_SOURCE}.", _dust)

"""What a quote assumes and what it leaves out, in words, from what is in the workbook."""

import textwrap
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from sheetcalc.domain.finish import Finish, LayerRole, SurfaceKind
from sheetcalc.domain.measure import Length
from sheetcalc.domain.quantity import RoomWork
from sheetcalc.domain.quote import Quote, RoomType
from sheetcalc.domain.room import PieceKind
from sheetcalc.domain.run import Run
from sheetcalc.units import show_length, show_quantity

_MOST_NAMES: Final = 24

_SURFACES: Final = (
    (SurfaceKind.FLOOR, "the floor"),
    (SurfaceKind.SHOWER_FLOOR, "the shower floor"),
    (SurfaceKind.WALL, "the walls"),
    (SurfaceKind.WET_AREA, "the wet areas of the walls"),
    (SurfaceKind.CURB, "the curb"),
    (SurfaceKind.NICHE, "the niches"),
)
_FITTED: Final = (
    (PieceKind.BATH, "baths"),
    (PieceKind.SHOWER_TRAY, "shower trays"),
    (PieceKind.CABINET, "cabinets"),
    (PieceKind.TOILET_OUTLET, "toilets"),
)
_PIPED: Final = ((PieceKind.DRAIN, "drains"), (PieceKind.PIPE, "pipes"))


@dataclass(frozen=True, slots=True)
class Terms:
    """Sentences of a quote."""

    assumptions: tuple[str, ...]
    exclusions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Kind:
    """A type of room with the plan of its first room."""

    type: RoomType
    work: RoomWork
    finish: Finish

    def has(self, kind: SurfaceKind) -> bool:
        return any(surface.kind is kind for surface in self.work.room.surfaces)

    def tiles(self, kind: SurfaceKind) -> bool:
        spec = self.finish.surfaces.get(kind)
        return self.has(kind) and spec is not None and bool(spec.tile)

    def layered(self, role: LayerRole) -> bool:
        return any(
            layer.role is role and self.has(kind)
            for kind, layers in self.finish.layers.items()
            for layer in layers
        )

    def holds(self, *kinds: PieceKind) -> bool:
        return any(fixture.kind in kinds for fixture in self.work.room.fixtures)


def terms_of(run: Run, quote: Quote) -> Terms:
    """Assumptions and exclusions of a quote.

    Parameters
    ----------
    run
        What was calculated.
    quote
        Its types of room.
    """
    works = {work.room.name: work for work in run.works}
    kinds = [
        _Kind(kind, works[kind.name], run.inputs.finishes[kind.finish])
        for kind in quote.types
        if kind.name in works and kind.finish in run.inputs.finishes
    ]
    return Terms(tuple(_assumptions(run, quote, kinds)), tuple(_exclusions(run, quote, kinds)))


def wrapped(sentence: str, letters: int) -> list[str]:
    """Sentence in lines of at most so many letters, marked as one of a list."""
    return textwrap.wrap(
        sentence, letters, initial_indent="-  ", subsequent_indent="    ", break_on_hyphens=False
    )


# --- assumptions --------------------------------------------------------------------------------


def _assumptions(run: Run, quote: Quote, kinds: Sequence[_Kind]) -> Iterator[str]:
    job = run.inputs.job
    rooms = sum(kind.type.count for kind in kinds)
    area = show_quantity(sum(kind.type.tiled_m2 for kind in kinds), job.units.area)
    yield (
        f"{_counted(rooms, 'room')} of {_counted(len(kinds), 'type')}, {area} tiled, of the sizes "
        "and with the fixtures given for this quote."
    )
    yield "Materials as specified, in whole packs for the whole job; prices without tax."
    if job.spare_tiles_share and any(line.line == "spare tiles" for line in run.lines):
        yield f"Spare tiles of each kind left with the client: {job.spare_tiles_share * 100:g} %."
    yield from _levelling(run, kinds)
    started = [phase for phase in run.inputs.phases.values() if phase.start is not None]
    if started:
        dates = ", ".join(f"{phase.name} {phase.start}" for phase in started)
        yield f"Start of the work: {dates}."
    if any(kind.work.cables for kind in kinds):
        yield "Heated floors: the cables, their thermostats and the circuits of the schedule."
    if not job.tax:
        yield "No tax is added."
    if quote.rooms and not quote.labour:
        yield "Materials only."


def _levelling(run: Run, kinds: Sequence[_Kind]) -> Iterator[str]:
    """Mean depth of what levels the floor, by depth."""
    small = run.inputs.job.units.small_length
    by_depth: dict[Length, list[RoomType]] = {}
    for kind in kinds:
        layer = kind.finish.layer(SurfaceKind.FLOOR, LayerRole.LEVELLING)
        if layer and layer.mean_depth_mm320 and kind.has(SurfaceKind.FLOOR):
            by_depth.setdefault(Length(layer.mean_depth_mm320), []).append(kind.type)
    for depth, types in by_depth.items():
        yield (
            f"Floors that need no more than {show_length(depth.mm320, small)} of levelling "
            f"compound on the mean{_where(types, run)}."
        )


# --- exclusions ---------------------------------------------------------------------------------


def _exclusions(run: Run, quote: Quote, kinds: Sequence[_Kind]) -> Iterator[str]:
    if run.left_out:
        yield f"Rooms that are left out of this quote: {', '.join(run.left_out)}."
    if quote.rooms and not quote.labour:
        yield "Labour."
    for surface, words in _SURFACES:
        yield from _missing(kinds, run, f"Tiling of {words}", partial(_is_untiled, surface))
    yield from _missing(kinds, run, "Floor heating", lambda k: not k.work.cables)
    yield from _missing(
        kinds, run, "Waterproofing", lambda k: not k.layered(LayerRole.WATERPROOFING)
    )
    yield from _missing(
        kinds, run, "Taking up of what lies on the floor", lambda k: not k.work.room.take_up
    )
    yield from _by_others(run, kinds)


def _is_untiled(surface: SurfaceKind, kind: _Kind) -> bool:
    """Whether a surface is there and not tiled; walls count as there in every room."""
    if surface is SurfaceKind.WALL:
        return not kind.tiles(SurfaceKind.WALL) and not kind.tiles(SurfaceKind.WET_AREA)
    return kind.has(surface) and not kind.tiles(surface)


def _missing(
    kinds: Sequence[_Kind], run: Run, what: str, missing: Callable[[_Kind], bool]
) -> Iterator[str]:
    types = [kind.type for kind in kinds if missing(kind)]
    if types:
        yield f"{what}{_where(types, run)}."


def _by_others(run: Run, kinds: Sequence[_Kind]) -> Iterator[str]:
    """Tell what stands in the rooms, or belongs to the work, and is somebody else's."""
    fitted = _named(kinds, _FITTED)
    if fitted:
        yield f"Supply and fitting of {_listed(fitted)}: by others."
    piped = _named(kinds, _PIPED)
    if piped:
        yield f"Plumbing, and the supply of {_listed(piped)}: by others."
    if any(kind.work.cables for kind in kinds):
        yield (
            "Supply circuits, connection of the heating and its electrical tests: by others, a "
            "licensed electrician."
        )
    taken_up = any(kind.work.room.take_up for kind in kinds)
    if taken_up and not any(line.line == "demolition" and line.item for line in run.lines):
        yield "Containers and disposal of what is taken up."
    if any(finding.code == "ASBESTOS-PRESUMED" for finding in run.findings):
        yield "Work on materials that contain asbestos, and their survey."


def _named(kinds: Sequence[_Kind], words: Iterable[tuple[PieceKind, str]]) -> list[str]:
    return [word for piece, word in words if any(kind.holds(piece) for kind in kinds)]


def _listed(words: Sequence[str]) -> str:
    """Words of a list: ``baths, trays and cabinets``."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _where(types: Sequence[RoomType], run: Run) -> str:
    """Rooms that a sentence is about; nothing where it is about all."""
    names = [copy for kind in types for copy in kind.copies]
    if len(names) == sum(work.room.count for work in run.works):
        return ""
    more = len(names) - _MOST_NAMES
    ending = f" and {more} more rooms" if more > 0 else ""
    return f" in {', '.join(names[:_MOST_NAMES])}{ending}"


def _counted(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"

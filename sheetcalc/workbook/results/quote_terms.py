"""What a quote assumes and what it leaves out, in words, from what is in the workbook."""

import textwrap
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Final

from msgspec import Struct

from sheetcalc.domain.finish import Finish, LayerRole, SurfaceKind
from sheetcalc.domain.measure import Length
from sheetcalc.domain.quote import Quote, RoomType
from sheetcalc.domain.room import PieceKind
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.domain.words import Words
from sheetcalc.units import show_length, show_quantity
from sheetcalc.workbook.office import Office

_MOST_NAMES: Final = 24

_SURFACES: Final = (
    (SurfaceKind.FLOOR, "Tiling of the floor"),
    (SurfaceKind.SHOWER_FLOOR, "Tiling of the shower floor"),
    (SurfaceKind.WALL, "Tiling of the walls"),
    (SurfaceKind.WET_AREA, "Tiling of the wet areas of the walls"),
    (SurfaceKind.CURB, "Tiling of the curb"),
    (SurfaceKind.NICHE, "Tiling of the niches"),
)
_FITTED: Final = (
    (PieceKind.BATH, "baths"),
    (PieceKind.SHOWER_TRAY, "shower trays"),
    (PieceKind.CABINET, "cabinets"),
    (PieceKind.TOILET_OUTLET, "toilets"),
)


class Terms(Struct, frozen=True):
    """Sentences of a quote."""

    assumptions: tuple[str, ...]
    exclusions: tuple[str, ...]


class _Kind(Struct, frozen=True):
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


def terms_of(run: Run, quote: Quote, office: Office) -> Terms:
    """Assumptions and exclusions of a quote, in the office's words.

    Parameters
    ----------
    run
        What was calculated.
    quote
        Its types of room.
    office
        Its words, and the sentences that it always adds.
    """
    works = {work.room.name: work for work in run.works}
    kinds = [
        _Kind(kind, works[kind.name], run.inputs.finishes[kind.finish])
        for kind in quote.types
        if kind.name in works and kind.finish in run.inputs.finishes
    ]
    writer = _Writer(run, quote, tuple(kinds), office.words)
    return Terms(
        (*writer.assumptions(), *office.quote_assumes),
        (*writer.exclusions(), *office.quote_leaves_out),
    )


def wrapped(sentence: str, letters: int) -> list[str]:
    """Sentence in lines of at most so many letters, marked as one of a list."""
    return textwrap.wrap(
        sentence, letters, initial_indent="-  ", subsequent_indent="    ", break_on_hyphens=False
    )


class _Writer(Struct, frozen=True):
    """Writes the sentences of one quote."""

    run: Run
    quote: Quote
    kinds: tuple[_Kind, ...]
    words: Words

    def _say(self, template: str, **facts: object) -> str:
        return self.words.fill(template, **facts)

    # --- assumptions ------------------------------------------------------------------------

    def assumptions(self) -> Iterator[str]:
        """Tell what the price rests on."""
        job, say = self.run.inputs.job, self._say
        yield say(
            "Rooms: {rooms}; types of room: {types}; tiled surfaces: {area}; of the sizes and with "
            "the fixtures given for this quote.",
            rooms=sum(kind.type.count for kind in self.kinds),
            types=len(self.kinds),
            area=show_quantity(sum(k.type.tiled_m2 for k in self.kinds), job.units.area),
        )
        yield say("Materials as specified, in whole packs for the whole job.")
        if job.spare_tiles_share and any(x.line == "spare tiles" for x in self.run.lines):
            yield say(
                "Spare tiles of each kind left with the client: {share} %.",
                share=f"{job.spare_tiles_share * 100:g}",
            )
        yield from self._levelling()
        started = [phase for phase in self.run.inputs.phases.values() if phase.start is not None]
        if started:
            dates = ", ".join(f"{phase.name} {phase.start}" for phase in started)
            yield say("Start of the work: {dates}.", dates=dates)
        if any(kind.work.cables for kind in self.kinds):
            yield say("Heating: the cables of the schedule, laid and measured.")
        if not job.tax:
            yield say("No tax is added.")

    def _levelling(self) -> Iterator[str]:
        """Mean depth of what levels the floor, by depth."""
        small = self.run.inputs.job.units.small_length
        by_depth: dict[Length, list[RoomType]] = {}
        for kind in self.kinds:
            layer = kind.finish.layer(SurfaceKind.FLOOR, LayerRole.LEVELLING)
            if layer and layer.mean_depth_mm320 and kind.has(SurfaceKind.FLOOR):
                by_depth.setdefault(Length(layer.mean_depth_mm320), []).append(kind.type)
        for depth, types in by_depth.items():
            yield self._of_rooms(
                "Floors that need no more than {depth} of levelling compound on the mean",
                types,
                depth=show_length(depth.mm320, small),
            )

    # --- exclusions -------------------------------------------------------------------------

    def exclusions(self) -> Iterator[str]:
        """Tell what the price leaves out."""
        if self.run.left_out:
            yield self._say("Rooms left out: {rooms}.", rooms=", ".join(self.run.left_out))
        if self.quote.rooms and not self.quote.labour:
            yield self._say("Labour.")
        for surface, sentence in _SURFACES:
            yield from self._missing(sentence, partial(_is_untiled, surface))
        yield from self._missing("Floor heating", lambda kind: not kind.work.cables)
        yield from self._missing(
            "Waterproofing", lambda kind: not kind.layered(LayerRole.WATERPROOFING)
        )
        yield from self._missing(
            "Taking up of what lies on the floor", lambda kind: not kind.work.room.take_up
        )
        yield from self._by_others()

    def _missing(self, what: str, missing: Callable[[_Kind], bool]) -> Iterator[str]:
        types = [kind.type for kind in self.kinds if missing(kind)]
        if types:
            yield self._of_rooms(what, types)

    def _by_others(self) -> Iterator[str]:
        """Tell what stands in the rooms, or belongs to the work, and is somebody else's."""
        fitted = [word for piece, word in _FITTED if any(k.holds(piece) for k in self.kinds)]
        if fitted:
            things = ", ".join(self._say(word) for word in fitted)
            yield self._say("Supply and fitting by others: {things}.", things=things)
        if any(kind.holds(PieceKind.DRAIN, PieceKind.PIPE) for kind in self.kinds):
            yield self._say("Plumbing, drains and pipes: by others.")
        if any(kind.work.cables for kind in self.kinds):
            yield self._say(
                "Supply circuits, connection of the heating and its electrical tests: by others, "
                "a licensed electrician."
            )
        taken_up = any(kind.work.room.take_up for kind in self.kinds)
        bought = any(x.line == "demolition" and x.item for x in self.run.lines)
        if taken_up and not bought:
            yield self._say("Containers and disposal of what is taken up.")
        if any(finding.code == "ASBESTOS-PRESUMED" for finding in self.run.findings):
            yield self._say("Work on materials that contain asbestos, and their survey.")

    def _of_rooms(self, what: str, types: Sequence[RoomType], **facts: object) -> str:
        """Sentence about some rooms; without their names where it is about all of them."""
        names = [copy for kind in types for copy in kind.copies]
        if len(names) == sum(work.room.count for work in self.run.works):
            return f"{self._say(what, **facts)}."
        more = len(names) - _MOST_NAMES
        rooms = ", ".join(names[:_MOST_NAMES])
        if more > 0:
            rooms = self._say("{rooms} and {more} more rooms", rooms=rooms, more=more)
        return self._say("{what}: in {rooms}.", what=self._say(what, **facts), rooms=rooms)


def _is_untiled(surface: SurfaceKind, kind: _Kind) -> bool:
    """Whether a surface is there and not tiled; walls count as there in every room."""
    if surface is SurfaceKind.WALL:
        return not kind.tiles(SurfaceKind.WALL) and not kind.tiles(SurfaceKind.WET_AREA)
    return kind.has(surface) and not kind.tiles(surface)

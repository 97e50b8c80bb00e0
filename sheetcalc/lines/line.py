"""What a line of the takeoff is, and what it is worked from.

A line turns one room with its plans into quantities and findings.  It knows no file and no cell.
Lines run in the order of ``LINES``; each sees the quantities of those before it, so that sundries
sold by the kilogram of another item can be worked last.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeAlias, TypeVar

from msgspec import Struct, field
from msgspec.structs import force_setattr

from sheetcalc.domain.catalogue import Buyable, Catalogue, Tile
from sheetcalc.domain.finding import IN_ROOMS, Finding, RowRef
from sheetcalc.domain.finish import Finish, SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Unit
from sheetcalc.domain.quantity import PackBy, QuantityLine, WasteUsed
from sheetcalc.domain.room import Room, Surface
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut

Known = TypeVar("Known")

Outcome: TypeAlias = QuantityLine | Finding
"""A line's work yields quantities and findings, mixed."""


class TiledSurface(Struct, frozen=True):
    """One surface of the room that the finish tiles, with everything that is known of it."""

    surface: Surface
    spec: SurfaceSpec
    tile: Tile
    setting_out: SettingOut | None


class LineContext(Struct, frozen=True):
    """Everything that a line of one room is worked from.

    Attributes
    ----------
    job, finish, catalogue
        Settings, the room's finish, and what can be bought.
    work
        The room with its setting-outs, strips and cables.
    lines
        Quantities of the room worked by the lines before this one.
    finishes
        All finishes of the job: an item named in any build-up is no free-standing sundry.
    known
        What was worked out of the room already, by the function that did; see ``once``.
    """

    job: Job
    finish: Finish
    catalogue: Catalogue
    work: RoomWork
    lines: tuple[QuantityLine, ...] = ()
    finishes: Mapping[str, Finish] = field(default_factory=dict)
    known: dict[object, Any] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Begin with nothing known where this is not the room, or the job, that it is known of."""
        mine = (self.job, self.finish, self.catalogue, self.work, self.finishes)
        theirs = self.known.get(LineContext, ())
        if len(theirs) != len(mine) or any(a is not b for a, b in zip(theirs, mine, strict=True)):
            force_setattr(self, "known", {LineContext: mine})

    def once(self, work: "Callable[[LineContext], Known]") -> Known:
        """Work something out of the room, once for all its lines.

        Parameters
        ----------
        work
            A function of the room, the job and the finish; ``lines`` is not for it to look at.
        """
        if work not in self.known:
            self.known[work] = work(self)
        found: Known = self.known[work]
        return found

    @property
    def room(self) -> Room:
        """The room that is taken off."""
        return self.work.room

    def surfaces(self, *kinds: SurfaceKind) -> tuple[Surface, ...]:
        """Surfaces of the room of these kinds, tiled or not; all of them where none is given."""
        if not kinds:
            return self.room.surfaces
        return tuple(s for s in self.room.surfaces if s.kind in kinds)

    def tiled(self, *kinds: SurfaceKind) -> tuple[TiledSurface, ...]:
        """Surfaces that the finish tiles with a tile of the catalogue; of these kinds, or all."""
        found = self.once(_all_tiled)
        return tuple(t for t in found if t.surface.kind in kinds) if kinds else found

    def quantity(  # noqa: PLR0913 - the columns of a takeoff line, each by its name
        self,
        line: str,
        description: str,
        each_si: float,
        unit: Unit,
        *,
        basis: str,
        surface: str = "",
        item: Buyable | None = None,
        waste: WasteUsed | None = None,
        pack_by: PackBy = PackBy.NONE,
        source: RowRef | None = None,
        alike: bool = True,
    ) -> QuantityLine:
        """Quantity line of this room; the arguments are the columns of the Takeoff tab.

        The Basis begins with the surface and ends with the words of the waste factor.  What does
        not add up over alike rooms (a wait, a height) is not ``alike`` and counts once.
        """
        room = self.room
        if surface and not basis.startswith(surface):
            basis = f"{surface}: {basis}"
        return QuantityLine(
            line=line,
            phase=room.phase or "",
            room=room.name,
            count=room.count if alike else 1,
            surface=surface,
            item=item.code if item else "",
            description=description,
            each_si=each_si,
            unit=unit,
            waste=waste,
            pack_by=pack_by,
            basis=f"{basis}; {waste.note}" if waste else basis,
            source=source or room.source,
            tab=item.source.tab if item else "",
        )


def _all_tiled(ctx: LineContext) -> tuple[TiledSurface, ...]:
    found = []
    for surface in ctx.surfaces():
        spec = ctx.finish.surfaces.get(surface.kind)
        tile = ctx.catalogue.tiles.get(spec.tile) if spec and spec.tile else None
        if spec and tile:
            out = ctx.work.setting_outs.get(surface.key)
            found.append(TiledSurface(surface, spec, tile, out))
    return tuple(found)


class JobContext(Struct, frozen=True):
    """Everything that a line of the whole job is worked from.

    Attributes
    ----------
    works
        All rooms with their plans.
    lines
        The quantities of all rooms.
    """

    job: Job
    finishes: Mapping[str, Finish]
    catalogue: Catalogue
    works: tuple[RoomWork, ...]
    lines: tuple[QuantityLine, ...] = ()

    def quantity(  # noqa: PLR0913 - the columns of a takeoff line, each by its name
        self,
        line: str,
        description: str,
        each_si: float,
        unit: Unit,
        *,
        basis: str,
        phase: str = "",
        item: Buyable | None = None,
        waste: WasteUsed | None = None,
        pack_by: PackBy = PackBy.NONE,
        source: RowRef = IN_ROOMS,
    ) -> QuantityLine:
        """Quantity line of the whole job (room "", count 1, surface "job")."""
        return QuantityLine(
            line=line,
            phase=phase,
            room="",
            count=1,
            surface="job",
            item=item.code if item else "",
            description=description,
            each_si=each_si,
            unit=unit,
            waste=waste,
            pack_by=pack_by,
            basis=f"{basis}; {waste.note}" if waste else basis,
            source=source,
            tab=item.source.tab if item else "",
        )


class Line(Struct, frozen=True):
    """One line of a takeoff.

    Attributes
    ----------
    key
        As in the Waste factors tab and the Takeoff's Line column.
    title
        A few words, for the Takeoff and ``sheetcalc explain``.
    about
        What is measured and how, with rule and source, for ``sheetcalc explain``.
    work
        Quantities and findings of one room.
    """

    key: str
    title: str
    about: str
    work: Callable[[LineContext], Iterable[Outcome]]


class JobLine(Struct, frozen=True):
    """A line worked once for the whole job."""

    key: str
    title: str
    about: str
    work: Callable[[JobContext], Iterable[Outcome]]

"""Rooms resolved: from the rows of the workbook to outlines, surfaces and measures.

Everything impossible is a finding, all of a room at once; a room with an error is left out of
what is returned.  Rooms that take their description from one row are worked out once.
"""

from collections.abc import Iterator, Mapping, Sequence
from hashlib import blake2b
from itertools import chain
from typing import Final, TypeAlias

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Finish
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Room, RoomDescription
from sheetcalc.domain.spread import Spread, alone, in_shares
from sheetcalc.geometry.rooms.mirror import mirror_room
from sheetcalc.geometry.rooms.reports import Report, nearest_names
from sheetcalc.geometry.rooms.room_plan import RoomPlan, plan_room, untiled_parts

_WORTH_SHARING: Final = 100
"""Rooms to be worked out that are worth other cores."""

_ROOMS_A_SHARE: Final = 16


def resolve_rooms(
    descriptions: Sequence[RoomDescription],
    finishes: Mapping[str, Finish],
    job: Job,
    spread: Spread = alone,
) -> tuple[tuple[Room, ...], tuple[Finding, ...]]:
    """Resolve the rooms of a job.

    Parameters
    ----------
    descriptions
        Rows of Rooms with their pieces, legs and faces, in the order of the workbook.
    finishes
        By name.  A finish that is not there is the reader's finding; the room is measured as if
        every surface were tiled.
    job
        Settings.
    spread
        Where the rooms of a large job are worked out: here, or on several cores.

    Returns
    -------
    tuple
        Rooms without errors, in the same order; and every finding.
    """
    return _Resolver(descriptions, finishes, job).resolve(spread)


class _Shared(Struct):
    """A description worked out for a finish; ``plan`` is None where it has errors."""

    plan: RoomPlan | None
    rooms: dict[bool, Room]


_Wanted: TypeAlias = tuple[str, str]
"""Name of the row that is worked out, and the finish."""

_Planned: TypeAlias = tuple[RoomPlan | None, tuple[Finding, ...]]


class _Resolver:
    def __init__(
        self,
        descriptions: Sequence[RoomDescription],
        finishes: Mapping[str, Finish],
        job: Job,
    ) -> None:
        self._descriptions = descriptions
        self._finishes = finishes
        self._job = job
        self._by_name: dict[str, RoomDescription] = {}
        self._planned: dict[_Wanted, _Planned] = {}
        self._shared: dict[_Wanted, _Shared] = {}
        self._findings: list[Finding] = []
        self._said: set[tuple[object, ...]] = set()

    def resolve(self, spread: Spread) -> tuple[tuple[Room, ...], tuple[Finding, ...]]:
        for description in self._descriptions:
            self._by_name.setdefault(_key(description.name), description)
        self._plan(spread)
        rooms = [self._room(description) for description in self._descriptions]
        self._say(tuple(_named_twice(self._descriptions)))
        return tuple(room for room in rooms if room), tuple(self._findings)

    def _plan(self, spread: Spread) -> None:
        """Work out every description that rooms are taken from, once for each finish."""
        wanted: dict[_Wanted, RoomDescription] = {}
        for description in self._descriptions:
            root = self._root(description, Report(description.name))
            if root is not None:
                wanted.setdefault((root.name, description.finish), root)
        rooms = [(root, finish) for (_, finish), root in wanted.items()]

        def planned(shares: Sequence[range]) -> Iterator[list[_Planned]]:
            for share in shares:
                yield [self._plan_one(*rooms[at]) for at in share]

        shares = in_shares(len(rooms), _ROOMS_A_SHARE)
        over = spread if len(rooms) >= _WORTH_SHARING else alone
        made = chain.from_iterable(over(planned, shares, in_memory=True))
        self._planned = dict(zip(wanted, made, strict=True))

    def _plan_one(self, root: RoomDescription, finish: str) -> _Planned:
        report = Report(root.name)
        plan = plan_room(root, self._finishes.get(finish), self._job, report)
        return plan, tuple(report.findings)

    def _room(self, description: RoomDescription) -> Room | None:
        report = Report(description.name)
        if self._by_name[_key(description.name)] is not description:
            report.error("ROOM-NAME-TWICE", description.source, "Room", room=description.name)
        count = len(description.copies)
        if count and count != description.count:
            report.error(
                "COPIES-DISAGREE", description.source, "Copies",
                copies=count, count=description.count,
            )  # fmt: skip
        root = self._root(description, report)
        shared = self._work_out(root, description, report) if root else None
        self._say(report.findings)
        if report.stopped or root is None or shared is None or shared.plan is None:
            return None
        room = shared.rooms.get(description.handed)
        if room is None:
            room = self._draw(root, description, shared)
        return replace(
            room,
            name=description.name,
            phase=description.phase,
            count=description.count,
            copies=description.copies or (description.name,),
            take_up=description.take_up or root.take_up,
            take_up_thickness_mm320=(
                description.take_up_thickness_mm320 or root.take_up_thickness_mm320
            ),
            note=description.note,
            source=description.source,
        )

    def _root(self, description: RoomDescription, report: Report) -> RoomDescription | None:
        """Row that a room takes its description from, at the end of its chain of Same as."""
        here, passed = description, {description.name: None}  # in their order
        while here.same_as is not None:
            following = self._by_name.get(_key(here.same_as))
            if following is None:
                if here is description:
                    report.error(
                        "SAME-AS-UNKNOWN", here.source, "Same as",
                        same_as=here.same_as,
                        known=nearest_names(here.same_as, [d.name for d in self._by_name.values()]),
                    )  # fmt: skip
                else:
                    self._note_faulty(description, here.name, report)
                return None
            if following.name in passed:
                chain = " → ".join((*passed, following.name))
                report.error("SAME-AS-CIRCULAR", description.source, "Same as", chain=chain)
                return None
            passed[following.name] = None
            here = following
        if here is not description:
            _check_own_parts(description, here, report)
            self._check_hand(description, here, report)
        return here

    def _check_hand(
        self, description: RoomDescription, root: RoomDescription, report: Report
    ) -> None:
        """Say how a row lies whose Same as names a mirrored one: either may be meant."""
        named = self._by_name[_key(description.same_as or "")]
        if named.handed:
            report.remark(
                "SAME-AS-HANDED", description.source, "Same as",
                same_as=named.name, root=root.name,
                lies="mirrored" if description.handed else "as it was measured",
            )  # fmt: skip

    @staticmethod
    def _note_faulty(description: RoomDescription, name: str, report: Report) -> None:
        report.error("SAME-AS-FAULTY", description.source, "Same as", same_as=name)

    def _work_out(
        self, root: RoomDescription, description: RoomDescription, report: Report
    ) -> _Shared:
        """Take a description worked out for a finish; its findings are those of the root row."""
        key = (root.name, description.finish)
        shared = self._shared.get(key)
        if shared is None:
            plan, findings = self._planned[key]
            self._say(findings)
            finish = self._finishes.get(description.finish)
            shared = self._shared[key] = _Shared(plan, {})
            if plan and finish:
                self._say(untiled_parts(root, finish))
        if shared.plan is None and root is not description:
            self._note_faulty(description, root.name, report)
        return shared

    def _draw(self, root: RoomDescription, description: RoomDescription, shared: _Shared) -> Room:
        """Give the room as described, or of the other hand."""
        plan = shared.plan
        if plan is None:  # pragma: no cover - only asked for rooms that were worked out
            message = f"room {root.name} has no plan"
            raise ValueError(message)
        room = replace(plan.room, finish=description.finish, shape=_shape(root, description))
        if description.handed:
            room = mirror_room(room, plan.sum_of_sides, plan.wall_planes)
        shared.rooms[description.handed] = room
        return room

    def _say(self, findings: Sequence[Finding]) -> None:
        """Keep findings, each once."""
        for f in findings:
            key = (f.code, f.source, f.column, f.room, f.surface, tuple(f.facts.items()))
            if key not in self._said:
                self._said.add(key)
                self._findings.append(f)


def _key(name: str) -> str:
    """Form in which names are compared: without case and surplus spaces."""
    return " ".join(name.split()).casefold()


def _named_twice(descriptions: Sequence[RoomDescription]) -> Iterator[Finding]:
    """Yield rooms that two rows stand for, by Copies or as themselves: they would count twice."""
    first: dict[str, RoomDescription] = {}
    for description in descriptions:
        own = description.copies or ((description.name,) if description.count == 1 else ())
        others = {_key(name): first.setdefault(_key(name), description) for name in own}
        again = [name for name in own if others[_key(name)] is not description]
        rows = {others[_key(name)].name for name in again}
        if again and rows != {description.name}:  # the same name is told as ROOM-NAME-TWICE
            facts = {"rooms": ", ".join(again), "other": ", ".join(sorted(rows))}
            column = "Copies" if description.copies else "Room"
            yield Finding("ROOM-IN-TWO-ROWS", description.source, column, facts, description.name)


def _check_own_parts(description: RoomDescription, root: RoomDescription, report: Report) -> None:
    """Note a row with Same as that describes a room of its own as well."""
    own = [
        name
        for name, rows in (
            ("floor pieces", description.pieces),
            ("wall legs", description.legs),
            ("wall faces", description.faces),
        )
        if rows
    ]
    if own:
        report.error(
            "SAME-AS-WITH-OWN-PARTS", description.source, "Same as",
            same_as=root.name, parts=" and ".join(own),
        )  # fmt: skip
    for header, size, other in (
        ("Length", description.length_mm320, root.length_mm320),
        ("Width", description.width_mm320, root.width_mm320),
    ):
        if size is not None and size != other:
            report.error(
                "SAME-AS-WITH-OWN-PARTS", description.source, header,
                same_as=root.name, parts=f"a {header} of its own",
            )  # fmt: skip


def _shape(root: RoomDescription, description: RoomDescription) -> str:
    """Key that rooms share whose geometry, finish and hand are the same, wherever typed."""
    geometry = (
        root.length_mm320,
        root.width_mm320,
        [
            (p.name, p.kind.value, p.wall, p.left_mm320, p.front_mm320, p.length_mm320,
             p.width_mm320, p.diameter_mm320, p.height_mm320)
            for p in root.pieces
        ],
        [(leg.leg, leg.turn_degrees, leg.length_mm320) for leg in root.legs],
        [
            (f.wall, f.part.value, f.left_mm320, f.bottom_mm320, f.length_mm320, f.height_mm320,
             f.depth_mm320)
            for f in root.faces
        ],
        description.finish,
        description.handed,
    )  # fmt: skip
    return blake2b(repr(geometry).encode(), digest_size=12).hexdigest()

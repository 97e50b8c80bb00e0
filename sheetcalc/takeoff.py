"""The pure middle: a workbook's inputs to one run.  No file, no clock, no cell."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date
from itertools import islice
from typing import TYPE_CHECKING, Protocol, TypeAlias

from msgspec.structs import replace

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.progress import Progress, silent
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.domain.spread import Spread, alone
from sheetcalc.geometry.off_cuts.pooling import pool_off_cuts
from sheetcalc.geometry.rooms.outline import resolve_rooms
from sheetcalc.geometry.rooms.through_rooms import lay_through
from sheetcalc.lines.band_stretches import band_plans
from sheetcalc.lines.roll_plans import plan_job_rolls
from sheetcalc.lines.takeoff import take_off, unique
from sheetcalc.ordering import order_everything
from sheetcalc.planning import plan_rooms
from sheetcalc.quoting import make_quote
from sheetcalc.quoting.checks import check_labour
from sheetcalc.rules.circuits import assign_circuits
from sheetcalc.rules.resistance_log import reading_findings

if TYPE_CHECKING:
    from sheetcalc.domain.setting_out import SettingOut


class Awaiting(Protocol):
    """Whoever needs a run, and can begin with what there is of it."""

    def planned(self, run: Run) -> None:
        """Rooms are planned, with circuits; rolls, lines, orders and quote are missing."""

    def taken_off(self, run: Run) -> None:
        """Only orders and quote are missing."""


def calculate(
    inputs: Inputs,
    step: Progress = silent,
    spread: Spread = alone,
    awaiting: Awaiting | None = None,
) -> Run:
    """Take off every room, plan what is shared between rooms, and make the orders.

    Parameters
    ----------
    inputs
        What the workbook says.
    step
        Told of progress.
    spread
        Where rooms that are not alike are worked out and planned: here, or on several cores.
    awaiting
        Told of the run as it grows.
    """
    job, finishes, catalogue = inputs.job, inputs.finishes, inputs.catalogue
    rooms, room_findings = resolve_rooms(inputs.rooms, finishes, job, spread)
    findings = list(room_findings)
    through = lay_through(rooms, inputs.rooms, finishes, catalogue.tiles, job)
    findings += through.findings
    works, more = plan_rooms(inputs, rooms, through, step, spread)
    findings += more
    works = with_shared_off_cuts(inputs, works)
    cable_plans = assign_circuits((plan for work in works for plan in work.cables), job)
    works = _with_circuits(works, cable_plans)
    findings += reading_findings(cable_plans, inputs.readings, job.reading_temperature_c)
    run = Run(
        inputs=inputs,
        works=tuple(works),
        setting_outs=tuple(s for work in works for s in work.setting_outs.values()),
        cable_plans=cable_plans,
        findings=tuple(findings),
    )
    if awaiting:
        awaiting.planned(run)
    rolls = plan_job_rolls(inputs, works)
    taken = take_off(job, finishes, catalogue, rolls.works, spread)
    bands = band_plans(taken.lines, rolls.works, rolls.plans, catalogue, job)
    findings += [*taken.findings, *rolls.findings]
    run = replace(
        run,
        works=rolls.works,
        lines=taken.lines,
        roll_plans=(*rolls.plans, *bands),
        findings=tuple(findings),
    )
    if awaiting:
        awaiting.taken_off(run)
    orders, sourcing, order_findings = order_everything(inputs, taken.lines, rolls.plans)
    quote = make_quote(inputs, rolls.works, taken, orders)
    findings += [*order_findings, *check_labour(quote)]
    return replace(run, orders=orders, sourcing=sourcing, quote=quote, findings=unique(findings))


def with_shared_off_cuts(inputs: Inputs, works: Sequence[RoomWork]) -> list[RoomWork]:
    """Let rooms share offcuts, where the Job says so.

    Alike rooms of one phase are worked once and stay alike.  A tile that serves rooms of several
    phases is opened in the first of them: phases come in the order of their start, those without
    one in the order of the workbook, rooms without a phase first.

    Parameters
    ----------
    inputs
        The Job's ``offcuts`` and the phases.
    works
        Rooms, each with setting-outs that share nothing with other rooms.
    """
    if inputs.job.offcuts != "whole job":
        return list(works)
    alike: dict[_Alike, list[RoomWork]] = {}
    for work in works:
        alike.setdefault(_alike(work), []).append(work)
    order = sorted(
        inputs.phases.values(), key=lambda phase: (phase.start is None, phase.start or date.min)
    )
    stage_of = {phase.name: number for number, phase in enumerate(order, 1)}
    outs, counts, stages, owners = [], [], [], []
    for key, several in alike.items():
        for out in several[0].setting_outs.values():
            outs.append(out)
            counts.append(sum(work.room.count for work in several))
            stages.append(stage_of.get(key[2], 0))
            owners.append(key)
    shared: defaultdict[_Alike, list[SettingOut]] = defaultdict(list)
    for key, out in zip(owners, pool_off_cuts(outs, inputs.job, counts, stages), strict=True):
        shared[key].append(out)
    return [
        replace(
            work,
            setting_outs={
                out.surface: replace(out, room=work.room.name) for out in shared[_alike(work)]
            },
        )
        for work in works
    ]


_Alike: TypeAlias = tuple[str, str, str, tuple[float, float] | None]


def _alike(work: RoomWork) -> _Alike:
    """Shape, finish, phase, and where the floor's joints run, which a room beyond may give."""
    floor = work.setting_outs.get("floor")
    room = work.room
    return room.shape, room.finish, room.phase or "", floor.anchor if floor else None


def _with_circuits(works: Iterable[RoomWork], plans: Iterable[CablePlan]) -> list[RoomWork]:
    """Give every room its cables again, now with their circuits."""
    following = iter(plans)
    return [replace(w, cables=tuple(islice(following, len(w.cables)))) for w in works]

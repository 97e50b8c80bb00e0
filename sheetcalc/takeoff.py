"""The pure middle: a workbook's inputs to one run.  No file, no clock, no cell."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import TypeAlias

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Finish
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.quantity import (
    CablePlan,
    QuantityLine,
    RollPlan,
    RoomWork,
    SettingOut,
    Strip,
)
from sheetcalc.domain.room import Room
from sheetcalc.domain.run import Run
from sheetcalc.geometry.heating import plan_heating
from sheetcalc.geometry.outline import resolve_rooms
from sheetcalc.geometry.rolls import plan_rolls
from sheetcalc.geometry.setting_out import set_out
from sheetcalc.lines import JOB_LINES, LINES
from sheetcalc.lines.line import JobContext, LineContext, Outcome
from sheetcalc.lines.strips import strips_needed
from sheetcalc.ordering import make_orders

Step: TypeAlias = Callable[[str, int, int], None]
"""Told the stage, how many are done, and of how many."""


def calculate(inputs: Inputs, step: Step = lambda _stage, _done, _of: None) -> Run:
    """Take off every room, plan what is shared between rooms, and make the orders."""
    rooms, findings = resolve_rooms(inputs.rooms, inputs.finishes, inputs.job)
    gathered = _Gathered(list(findings))
    works: list[RoomWork] = []
    lines: list[QuantityLine] = []
    planner = _RoomPlanner(inputs)
    for done, room in enumerate(rooms, 1):
        finish = inputs.finishes.get(room.finish)
        if finish is None:  # the reader has said so
            continue
        work = planner.plan(room, finish, gathered)
        works.append(work)
        lines += _room_lines(inputs, finish, work, gathered)
        step("rooms", done, len(rooms))
    job_context = JobContext(
        inputs.job, inputs.finishes, inputs.catalogue, tuple(works), tuple(lines)
    )
    for job_line in JOB_LINES:
        lines += gathered.quantities(job_line.work(job_context))
    roll_plans = _roll_plans(inputs, works, gathered)
    cable_plans = tuple(plan for work in works for plan in work.cables)
    orders, order_findings = make_orders(inputs, tuple(lines), roll_plans, cable_plans)
    gathered.findings += order_findings
    return Run(
        inputs=inputs,
        works=tuple(works),
        lines=tuple(lines),
        setting_outs=tuple(s for work in works for s in work.setting_outs.values()),
        roll_plans=roll_plans,
        cable_plans=cable_plans,
        orders=orders,
        findings=tuple(dict.fromkeys(gathered.findings)),
    )


class _Gathered:
    """Findings as they come, so that a line's work can yield both kinds of outcome."""

    def __init__(self, findings: list[Finding]) -> None:
        self.findings = findings

    def quantities(self, outcomes: Iterable[Outcome]) -> Iterator[QuantityLine]:
        for outcome in outcomes:
            if isinstance(outcome, Finding):
                self.findings.append(outcome)
            else:
                yield outcome


class _RoomPlanner:
    """Plans rooms; alike rooms share setting-out and cable paths."""

    def __init__(self, inputs: Inputs) -> None:
        self._inputs = inputs
        self._setting_outs: dict[tuple[str, str], dict[str, SettingOut]] = {}
        self._heating: dict[tuple[str, str], tuple[tuple[CablePlan, ...], tuple[Finding, ...]]] = {}

    def plan(self, room: Room, finish: Finish, gathered: _Gathered) -> RoomWork:
        shape = (room.shape, room.finish)
        if shape not in self._setting_outs:
            self._setting_outs[shape] = self._set_out(room, finish)
            self._heating[shape] = plan_heating(
                room, finish, self._inputs.catalogue, self._inputs.job
            )
        setting_outs = {
            key: replace(found, room=room.name) for key, found in self._setting_outs[shape].items()
        }
        for found in setting_outs.values():
            gathered.findings += [
                replace(
                    f, room=room.name, source=room.source if f.source.tab == "Rooms" else f.source
                )
                for f in found.findings
            ]
        plans, findings = self._heating[shape]
        gathered.findings += [replace(f, room=room.name) for f in findings]
        cables = tuple(
            replace(
                plan, room=room.name, copies=room.copies, phase=room.phase or "", source=room.source
            )
            for plan in plans
        )
        work = RoomWork(room, setting_outs, (), cables)
        strips = strips_needed(
            LineContext(
                self._inputs.job, finish, self._inputs.catalogue, work,
                finishes=self._inputs.finishes,
            )
        )  # fmt: skip
        return replace(work, strips=tuple(strips))

    def _set_out(self, room: Room, finish: Finish) -> dict[str, SettingOut]:
        catalogue, job = self._inputs.catalogue, self._inputs.job
        found = {}
        for surface in room.surfaces:
            spec = finish.surfaces.get(surface.kind)
            tile = catalogue.tiles.get(spec.tile) if spec and spec.tile else None
            if spec and tile:
                found[surface.key] = set_out(room.name, surface, spec, tile, job)
        return found


def _room_lines(
    inputs: Inputs, finish: Finish, work: RoomWork, gathered: _Gathered
) -> list[QuantityLine]:
    lines: list[QuantityLine] = []
    for line in LINES:
        context = LineContext(
            inputs.job, finish, inputs.catalogue, work, tuple(lines), inputs.finishes
        )
        lines += gathered.quantities(line.work(context))
    return lines


def _roll_plans(inputs: Inputs, works: list[RoomWork], gathered: _Gathered) -> tuple[RollPlan, ...]:
    """Plan the rolls of each item in each phase over all rooms, alike ones counted."""
    strips: defaultdict[tuple[str, str], list[Strip]] = defaultdict(list)
    for work in works:
        for strip in work.strips:
            strips[strip.phase, strip.item] += [strip] * work.room.count
    plans = []
    for (phase, item), wanted in strips.items():
        plan, findings = plan_rolls(wanted, inputs.catalogue.rolls[item], phase, inputs.job)
        gathered.findings += findings
        plans.append(plan)
    return tuple(plans)

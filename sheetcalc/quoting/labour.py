"""Labour of a quote: every task in every type of room that has any of its basis."""

from collections import defaultdict
from collections.abc import Sequence
from fractions import Fraction

from sheetcalc.domain.catalogue import LabourTask
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.job import Job
from sheetcalc.domain.quantity import QuantityLine
from sheetcalc.domain.quote import LabourLine, RoomType
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.measures import amount_of
from sheetcalc.pricing import exact_to_cents
from sheetcalc.quoting.room_types import same_name
from sheetcalc.rules.bases import BASES, BasisUnit


def labour_lines(
    inputs: Inputs,
    works: Sequence[RoomWork],
    lines: Sequence[QuantityLine],
    types: Sequence[RoomType],
) -> tuple[LabourLine, ...]:
    """Every task in every type of room that has any of its basis."""
    of_room: dict[str, list[QuantityLine]] = defaultdict(list)
    for line in lines:
        of_room[line.room].append(line)
    contexts = {}
    for work in works:
        finish = inputs.finishes.get(work.room.finish)
        if finish is not None:
            contexts[work.room.name] = LineContext(
                inputs.job, finish, inputs.catalogue, work, tuple(of_room[work.room.name]),
                inputs.finishes,
            )  # fmt: skip
    found = []
    for kind in types:
        for task in inputs.catalogue.labour:
            quantity = sum(
                _quantity(task, contexts[room]) * contexts[room].room.count
                for room in kind.rooms
                if room in contexts
            )
            if quantity:
                found.append(labour_line(kind.number, task, quantity, inputs.job))
    once = [task for task in inputs.catalogue.labour if BASES[task.basis].once_a_job]
    found += [labour_line(len(types) + 1, task, 1.0, inputs.job) for task in once]
    return tuple(found)


def _quantity(task: LabourTask, context: LineContext) -> float:
    """How much of a task's basis one room has; none where it needs none of the goods it uses."""
    if BASES[task.basis].once_a_job:  # counted once, after the types
        return 0.0
    if task.uses and not any(line.line in task.uses for line in context.lines):
        return 0.0
    if task.finish and same_name(task.finish) != same_name(context.finish.name):
        return 0.0
    return amount_of(context, task.basis, task.surface)


def labour_line(type_number: int, task: LabourTask, quantity: float, job: Job) -> LabourLine:
    """Hours of a task, and what they cost.

    Parameters
    ----------
    type_number
        Of the type of room.
    task
        Row of Labour.
    quantity
        In the unit of the task's basis, all rooms of the type together.
    job
        For its unit of area.
    """
    hours = quantity * task.hours_per_unit
    amount = None
    if task.hourly_rate is not None:
        exact = Fraction(quantity) * Fraction(task.hours_per_unit) * Fraction(task.hourly_rate)
        amount = exact_to_cents(exact)
    unit = BASES[task.basis].unit
    words = {BasisUnit.AREA: job.units.area.symbol, BasisUnit.COUNT: "each"}
    return LabourLine(type_number, task, quantity, words.get(unit, unit.value), hours, amount)

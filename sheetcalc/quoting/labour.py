"""Labour of a quote: every task in every type of room that has any of its basis."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from sheetcalc.domain.catalogue import LabourTask
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.job import Job
from sheetcalc.domain.quote import LabourLine, RoomType
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.lines.labour import RoomLabour
from sheetcalc.pricing import exact_to_cents
from sheetcalc.rules.bases import BASES, BasisUnit


def labour_lines(
    inputs: Inputs,
    works: Sequence[RoomWork],
    labour: Mapping[str, RoomLabour],
    types: Sequence[RoomType],
) -> tuple[LabourLine, ...]:
    """Every task in every type of room that has any of its basis.

    Parameters
    ----------
    inputs
        Labour, and the Job.
    works
        Rooms with their plans.
    labour
        Work in each room by its name; a room whose finish is not known has none.
    types
        Rooms put together.
    """
    tasks = inputs.catalogue.labour
    counts = {work.room.name: work.room.count for work in works}
    found = []
    for kind in types:
        rooms = [(labour[room].amounts, counts[room]) for room in kind.rooms if room in labour]
        for place, task in enumerate(tasks):
            quantity = sum(amounts[place] * count for amounts, count in rooms)
            if quantity:
                found.append(labour_line(kind.number, task, quantity, inputs.job))
    once = [task for task in tasks if BASES[task.basis].once_a_job]
    found += [labour_line(len(types) + 1, task, 1.0, inputs.job) for task in once]
    return tuple(found)


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

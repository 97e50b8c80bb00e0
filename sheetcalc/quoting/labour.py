"""Labour of a quote: every task in every type of room that has any of its basis."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

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
    tasks = [_task(row, inputs.job) for row in inputs.catalogue.labour]
    counts = {work.room.name: work.room.count for work in works}
    found = []
    for kind in types:
        rooms = [(labour[room].amounts, counts[room]) for room in kind.rooms if room in labour]
        for place, task in enumerate(tasks):
            quantity = sum(amounts[place] * count for amounts, count in rooms)
            if quantity:
                found.append(task.line(kind.number, quantity))
    once = [task for task in tasks if task.once_a_job]
    found += [task.line(len(types) + 1, 1.0) for task in once]
    return tuple(found)


class _Task(Struct, frozen=True):
    """A row of Labour, with what one unit of its basis costs; None where it has no rate."""

    row: LabourTask
    unit: str
    cost: Fraction | None
    once_a_job: bool

    def line(self, type_number: int, quantity: float) -> LabourLine:
        """Hours of the task in a type of room, and what they cost.

        Parameters
        ----------
        type_number
            Of the type of room.
        quantity
            In the unit of the task's basis, all rooms of the type together.
        """
        hours = quantity * self.row.hours_per_unit
        amount = None if self.cost is None else exact_to_cents(Fraction(quantity) * self.cost)
        return LabourLine(type_number, self.row, quantity, self.unit, hours, amount)


def _task(row: LabourTask, job: Job) -> _Task:
    basis = BASES[row.basis]
    words = {BasisUnit.AREA: job.units.area.symbol, BasisUnit.COUNT: "each"}
    cost = None
    if row.hourly_rate is not None:
        cost = Fraction(row.hours_per_unit) * Fraction(row.hourly_rate)
    return _Task(row, words.get(basis.unit, basis.unit.value), cost, basis.once_a_job)

"""The working day of a phase on which goods are needed: that of the task that uses them."""

from collections.abc import Iterable
from typing import Final

from sheetcalc.domain.catalogue import LabourTask
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.quantity import QuantityLine

_FIRST_DAY: Final = 1
_KINDS: Final = sorted((kind.value for kind in SurfaceKind), key=len, reverse=True)


class Days:
    """Days of a job's lines, by the Uses column of Labour."""

    def __init__(self, inputs: Inputs) -> None:
        """Take the tasks, and the finish of each room."""
        self._finish = {room.name: room.finish for room in inputs.rooms}
        self._tasks: dict[str, list[LabourTask]] = {}
        for task in inputs.catalogue.labour:
            for line in task.uses:
                self._tasks.setdefault(line, []).append(task)
        self._known: dict[tuple[str, str, str], tuple[LabourTask, ...]] = {}

    def tasks_of(self, line: QuantityLine) -> tuple[LabourTask, ...]:
        """Tasks that use a line's goods.

        Those of its finish and surface; where no task names them, every task that uses such a
        line, so that mosaic on a curb comes with the other tile.
        """
        finish = self._finish.get(line.room, "")
        key = (line.line, finish, line.surface)
        if key not in self._known:
            using, surface = self._tasks.get(line.line, []), kind_of(line.surface)
            own = tuple(t for t in using if _suits(t, finish, surface))
            self._known[key] = own or tuple(using)
        return self._known[key]

    def day_of(self, lines: Iterable[QuantityLine]) -> tuple[int, tuple[RowRef, ...]]:
        """Working day of the phase on which an item is needed, and the rows that say so.

        Lines of the item that no task uses follow the others, so that spare tiles come with the
        tile; it is day 1 where no task uses any of them.
        """
        tasks = {task.source: task for line in lines for task in self.tasks_of(line)}
        day = min((task.day or _FIRST_DAY for task in tasks.values()), default=_FIRST_DAY)
        return day, tuple(tasks)


def _suits(task: LabourTask, finish: str, surface: str) -> bool:
    of_finish = task.finish is None or not finish or task.finish == finish
    return of_finish and (task.surface is None or not surface or task.surface == surface)


def kind_of(surface: str) -> str:
    """Kind of a line's surface, from its key; "" for the room, the job or words of another kind.

    Examples
    --------
    >>> kind_of("shower floor S1"), kind_of("floor"), kind_of("job")
    ('shower floor', 'floor', '')
    """
    return next((k for k in _KINDS if surface == k or surface.startswith(f"{k} ")), "")

"""The working day of a phase on which goods are needed: that of the task that uses them."""

from typing import Final

from sheetcalc.domain.catalogue import LabourTask
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
        key = (line.line, self._finish.get(line.room, ""), kind_of(line.surface))
        if key not in self._known:
            using = self._tasks.get(line.line, [])
            own = tuple(t for t in using if _suits(t, key[1], key[2]))
            self._known[key] = own or tuple(using)
        return self._known[key]

    def day_of(self, line: QuantityLine) -> int:
        """Working day of the phase, 1 where no task uses the goods."""
        return min((t.day or _FIRST_DAY for t in self.tasks_of(line)), default=_FIRST_DAY)


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

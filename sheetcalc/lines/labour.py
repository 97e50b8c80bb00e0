"""What a quote has to know of a room: the amount of every task of Labour, and the tiled area."""

from msgspec import Struct

from sheetcalc.domain.catalogue import LabourTask
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.measures import amount_of


class RoomLabour(Struct, frozen=True):
    """Work in one room.

    Attributes
    ----------
    amounts
        How much of its basis the room has for each row of Labour, in their order and in the unit
        of the basis; 0 where the task is not done in the room.
    tiled_m2
        Tiled area [m2].
    """

    amounts: tuple[float, ...]
    tiled_m2: float


def labour_of(ctx: LineContext) -> RoomLabour:
    """Measure the work in a room; ``lines`` holds all quantities of the room."""
    area = ctx.job.units.area
    return RoomLabour(
        amounts=tuple(_amount(ctx, task) for task in ctx.catalogue.labour),
        tiled_m2=area.to_si(amount_of(ctx, "per area of tile")),
    )


def _amount(ctx: LineContext, task: LabourTask) -> float:
    """How much of a task's basis the room has; none where it needs none of the goods it uses."""
    if task.uses and not any(line.line in task.uses for line in ctx.lines):
        return 0.0
    if task.finish and task.finish != ctx.finish.name:
        return 0.0
    return amount_of(ctx, task.basis, task.surfaces)  # 0 for what is done once for the job

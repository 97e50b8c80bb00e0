"""Roll plans of whole jobs for tests and benchmarks: samples, and the saving of sharing rolls."""

import tempfile
from decimal import Decimal
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.geometry.rooms.outline import resolve_rooms
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.roll_plans import PlannedRolls, plan_job_rolls
from sheetcalc.lines.strips import strips_needed
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.house_style import load_house_style
from tests.samples import SAMPLES


def sample_inputs(name: str) -> Inputs:
    """Read a sample workbook's inputs."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_bytes(write_book(SAMPLES[name](), load_house_style(), named_styles=True))
        inputs, _ = to_inputs(start_reading(path).result())
    assert inputs is not None
    return inputs


def works_of(inputs: Inputs) -> list[RoomWork]:
    """Rooms with the strips that they need; nothing else is planned."""
    rooms, _ = resolve_rooms(inputs.rooms, inputs.finishes, inputs.job)
    works = []
    for room in rooms:
        work = RoomWork(room)
        context = LineContext(inputs.job, inputs.finishes[room.finish], inputs.catalogue, work,
                              finishes=inputs.finishes)  # fmt: skip
        works.append(replace(work, strips=strips_needed(context)))
    return works


def planned(inputs: Inputs) -> PlannedRolls:
    """Plan the rolls of a job."""
    return plan_job_rolls(inputs, works_of(inputs))


class Bought(Struct, frozen=True):
    """Rolls, mats and boards of a job, and their price."""

    rolls: int
    price: Decimal


def bought(inputs: Inputs) -> Bought:
    """Count what the roll plan of a job buys."""
    plans = planned(inputs).plans
    prices = {code: roll.price or Decimal(0) for code, roll in inputs.catalogue.rolls.items()}
    total = sum((plan.rolls * prices[plan.item] for plan in plans), Decimal(0))
    return Bought(sum(plan.rolls for plan in plans), total)


def shared_against_own(inputs: Inputs) -> tuple[Bought, Bought, Bought]:
    """Rolls shared over each phase with leftovers passed on; without; each room its own rolls."""
    never = replace(inputs.job, useful_leftover_mm320=10**9)
    own = replace(inputs.job, rolls_shared="each room")
    return (
        bought(inputs),
        bought(replace(inputs, job=never)),
        bought(replace(inputs, job=own)),
    )

"""Roll plans against the clock and the bounds: ``python -m tests.benchmarks.bench_rolls``.

Invented blocks of rooms in sizes of 5 mm steps; the gap to the linear-programming bound over ten
of them (the bound needs the solver of the extra ``bounds``); and the sample block with rolls
shared over a phase against each room its own rolls.
"""

import random
from collections import Counter, defaultdict
from time import process_time

from sheetcalc.domain.catalogue import Roll, RollKind
from sheetcalc.domain.finding import NOWHERE
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import Region, Room
from sheetcalc.domain.room_measures import RoomMeasures
from sheetcalc.geometry.plane.regions import rectangle
from sheetcalc.geometry.rolls.roll_solver import lp_bound
from sheetcalc.geometry.rolls.rolls import cutting_of, plan_stock, strips_for
from sheetcalc.geometry.rolls.sections import make_sections
from tests.pace import machine
from tests.roll_jobs import sample_inputs, shared_against_own

MM = 320
JOB = Job()
ROLL = Roll(
    "U", None, None, "underlay", RollKind.UNDERLAY_ROLL, 1000 * MM, 10_000 * MM, None, 0, None,
    None, one_way=False, package="roll", price=None, weight_kg=None, lead_days=None,
    source=NOWHERE,
)  # fmt: skip
NO_MEASURES = RoomMeasures(0, 0, 0, 4, 0, {}, 0, 0, 0, 0, 0)


def a_room(name: str, outline: Region) -> Room:
    """A room of which only the floor counts."""
    return Room(
        name, "", 1, (name,), "F", None, None, handed=False, note="", source=NOWHERE, shape="",
        outline=outline, walls=(), surfaces=(), fixtures=(), doorways=(), thermostats=(),
        measures=NO_MEASURES,
    )  # fmt: skip


def a_block(rooms: int, seed: int) -> list[Strip]:
    """Strips of a block of invented bathrooms."""
    chance = random.Random(seed)  # noqa: S311 - an invention, not a secret
    wanted: list[Strip] = []
    for number in range(rooms):
        length, width = chance.randrange(1500, 4000, 5), chance.randrange(1200, 3600, 5)
        floor = rectangle(0, 0, length * MM, width * MM)
        wanted += strips_for(a_room(str(number), floor), "floor", floor, ROLL, "underlay", JOB)
    return wanted


def gaps(wanted: list[Strip], rolls: int) -> tuple[int, int]:
    """Rolls above the bound of the sections, and above the bound of any plan of the strips."""
    sections: Counter[int] = Counter(s.length for s in make_sections(wanted, cutting_of(ROLL, JOB)))
    shares: defaultdict[int, float] = defaultdict(float)
    for strip in wanted:
        shares[strip.length_mm320] += strip.width_mm320 / ROLL.width_mm320
    of_sections = lp_bound({k: float(n) for k, n in sections.items()}, ROLL.length_mm320)
    of_strips = lp_bound(shares, ROLL.length_mm320)
    assert of_sections is not None, "install the extra 'bounds' for the solver"
    assert of_strips is not None
    return rolls - of_sections, rolls - of_strips


def block(rooms: int, seeds: int) -> None:
    """Print the time and the gaps of blocks of one size."""
    times, above_sections, above_strips = [], [], []
    for seed in range(seeds):
        wanted = a_block(rooms, seed)
        rounds = []
        for _ in range(3):
            begun = process_time()
            (plan,), _ = plan_stock(wanted, (ROLL,), "", JOB, {})
            rounds.append(process_time() - begun)
        times.append(min(rounds))
        one, other = gaps(wanted, plan.rolls)
        above_sections.append(one)
        above_strips.append(other)
    print(  # noqa: T201 - a person reads it
        f"{rooms} rooms, {seeds} blocks: {max(times) * 1000:.0f} ms of processor time at most; "
        f"rolls above the bound of the sections {above_sections}, "
        f"above that of any plan {above_strips}"
    )


def main() -> None:
    """Print all figures."""
    print(machine())  # noqa: T201 - beside the milliseconds
    block(200, 10)
    block(1000, 3)
    inputs = sample_inputs("larch-court.xlsx")
    shared, apart, own = shared_against_own(inputs)
    saved = own.price - shared.price
    print(  # noqa: T201 - a person reads it
        f"Larch Court: {shared.rolls} rolls, {shared.price} {inputs.job.currency}, shared over a "
        f"phase with leftovers passed on; {apart.rolls} rolls, {apart.price}, without; "
        f"{own.rolls} rolls, {own.price}, each room its own: {own.rolls - shared.rolls} rolls and "
        f"{saved} {inputs.job.currency} saved"
    )


if __name__ == "__main__":
    main()

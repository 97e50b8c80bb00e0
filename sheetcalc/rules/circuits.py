"""Circuits of the heating: what a thermostat and a circuit carry, and which rooms share one."""

from collections.abc import Iterable, Sequence
from typing import Final

from msgspec import Struct, field
from msgspec.structs import replace

from sheetcalc.domain.cable import CablePlan, OnCircuit
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.rules import electrical

MAIN: Final = "main"
SHOWER: Final = "shower"


def load_group(plan: CablePlan, job: Job) -> str:
    """Which of a room's loads a cable belongs to: each has a thermostat and a circuit.

    Joined at the room's thermostat unless the Job gives shower floors a circuit of their own.
    """
    return load_group_of(plan.surface, job)


def load_group_of(surface: str, job: Job) -> str:
    """Load that the cables of a surface belong to, as ``load_group``."""
    own = job.shower_circuit == "of its own"
    wet = surface.startswith(SurfaceKind.SHOWER_FLOOR.value)
    return SHOWER if own and wet else MAIN


class _Load(Struct):
    """What one thermostat of one row of rooms switches, and the circuits that feed it."""

    names: tuple[str, ...]
    amperes: float
    numbers: list[int] = field(default_factory=list)
    begun: int = 0


def assign_circuits(plans: Iterable[CablePlan], job: Job) -> tuple[CablePlan, ...]:
    """Name the circuit of every room of a job: one each, or as many rooms as a circuit carries.

    Parameters
    ----------
    plans
        Of all rooms, in order, each with ``copies``.
    job
        ``rooms_per_circuit``, ``shower_circuit``, circuit sizes and the continuous factor.

    Returns
    -------
    tuple of CablePlan
        With the circuit of every copy (``H1``, ``H2``…), its load and size, and how many circuits
        begin with the room.
    """
    plans = tuple(plans)
    loads: dict[tuple[str, str], _Load] = {}
    for plan in plans:
        key = (plan.room, load_group(plan, job))
        load = loads.setdefault(key, _Load(plan.copies or (plan.room,), 0.0))
        load.amperes += plan.amperes
    on = _numbered(loads, job)
    named = []
    for plan in plans:
        load = loads[plan.room, load_group(plan, job)]
        circuits = tuple(_circuit(number, on[number], job) for number in load.numbers)
        sizes = [circuit.size_amperes for circuit in circuits]
        distinct = list(dict.fromkeys(circuit.name for circuit in circuits))
        named.append(
            replace(
                plan,
                circuit=distinct[0] + (f" to {distinct[-1]}" if len(distinct) > 1 else ""),
                circuits=circuits,
                circuits_begun=load.begun,
                circuit_amperes=max(sizes) if all(sizes) else 0.0,
            )
        )
    return tuple(named)


def _circuit(number: int, load_amperes: float, job: Job) -> OnCircuit:
    size = electrical.circuit_amperes(load_amperes, job.circuit_amperes, job.continuous_factor)
    return OnCircuit(f"H{number + 1}", load_amperes, size or 0.0)


def _numbered(loads: dict[tuple[str, str], _Load], job: Job) -> dict[int, float]:
    """Put every copy of every load on a numbered circuit; return the load on each [A].

    Shower floors with circuits of their own share them with each other only.
    """
    on: dict[int, float] = {}
    for group in (MAIN, SHOWER):
        mine = [load for (_, its), load in loads.items() if its == group]
        single = [load.amperes for load in mine for _ in load.names]
        if job.rooms_per_circuit == "one each" or not job.circuit_amperes:
            numbers: Sequence[int] = range(len(single))
        else:
            numbers = electrical.group_loads(single, job.circuit_amperes, job.continuous_factor)
        first = len(on)
        following = iter(numbers)
        for load in mine:
            for _ in load.names:
                number = first + next(following)
                load.begun += number not in on
                load.numbers.append(number)
                on[number] = on.get(number, 0.0) + load.amperes
    return on


def begun_with(plan: CablePlan) -> tuple[OnCircuit, ...]:
    """Give the circuits that begin with a cable's load, once each; none until they are assigned.

    Alike rooms load circuits alike: one that is full for the first of them is full for all, so
    what they begin comes last.
    """
    distinct = tuple(dict.fromkeys(plan.circuits))
    return distinct[len(distinct) - (plan.circuits_begun or 0) :]


def circuits_begun(plan: CablePlan) -> float:
    """Circuits that begin with a cable's load, for one of its alike rooms; a part where shared."""
    if plan.circuits_begun is None:
        return 1.0
    return plan.circuits_begun / max(1, len(plan.circuits))


def loaded(plans: Sequence[CablePlan], job: Job) -> tuple[CablePlan, ...]:
    """Put a room's cables on their thermostats and circuits.

    NEC 424.4(B), as quoted (see ``electrical.ELECTRICAL_RULES``), for the circuit's size.

    Parameters
    ----------
    plans
        Cables of one room.
    job
        Circuit sizes, continuous factor, thermostat rating and the shower floor's circuit.

    Returns
    -------
    tuple of CablePlan
        With ``circuit_amperes`` (0 where no size carries them) and ``thermostat_share``.
    """
    load: dict[str, float] = {}
    for plan in plans:
        group = load_group(plan, job)
        load[group] = load.get(group, 0.0) + plan.amperes
    made = []
    for plan in plans:
        mine = load[load_group(plan, job)]
        size = electrical.circuit_amperes(mine, job.circuit_amperes, job.continuous_factor)
        made.append(
            replace(
                plan,
                circuit_amperes=size or 0.0,
                load_amperes=mine,
                thermostat_share=electrical.thermostat_share(mine, job.thermostat_amperes),
            )
        )
    return tuple(made)

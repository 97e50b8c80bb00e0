"""Circuits of the heating: what a room loads, and which rooms share a circuit."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from sheetcalc.domain.job import Job
from sheetcalc.domain.quantity import CablePlan
from sheetcalc.rules import electrical


def assign_circuits(plans: Iterable[CablePlan], job: Job) -> tuple[CablePlan, ...]:
    """Name the circuit of every room of a job: one each, or as many rooms as a circuit carries.

    Parameters
    ----------
    plans
        Of all rooms, in order, each with ``copies``.
    job
        ``rooms_per_circuit``, circuit sizes and the continuous factor.

    Returns
    -------
    tuple of CablePlan
        With ``circuit`` (``H1``, ``H2``…, a range for rooms alike) and ``circuit_amperes``.
    """
    plans = tuple(plans)
    rooms: dict[str, list[CablePlan]] = {}
    for plan in plans:
        rooms.setdefault(plan.room, []).append(plan)
    loads = [
        (name, sum(p.amperes for p in group))
        for name, group in rooms.items()
        for _ in group[0].copies or (name,)
    ]
    if job.rooms_per_circuit == "one each" or not job.circuit_amperes:
        numbers: tuple[int, ...] = tuple(range(len(loads)))
    else:
        numbers = electrical.group_loads(
            (load for _, load in loads), job.circuit_amperes, job.continuous_factor
        )
    on: dict[int, float] = {}
    of_room: dict[str, list[int]] = {}
    for (name, load), number in zip(loads, numbers, strict=True):
        on[number] = on.get(number, 0.0) + load
        of_room.setdefault(name, []).append(number)
    named = []
    for plan in plans:
        mine = sorted(set(of_room[plan.room]))
        sizes = [
            electrical.circuit_amperes(on[n], job.circuit_amperes, job.continuous_factor) or 0.0
            for n in mine
        ]
        label = f"H{mine[0] + 1}" + (f" to H{mine[-1] + 1}" if len(mine) > 1 else "")
        named.append(
            replace(plan, circuit=label, circuit_amperes=max(sizes) if all(sizes) else 0.0)
        )
    return tuple(named)


def loaded(plans: Sequence[CablePlan], job: Job) -> tuple[CablePlan, ...]:
    """Put a room's cables on one thermostat and one circuit.

    NEC 424.4(B), as quoted (see ``electrical.ELECTRICAL_RULES``), for the circuit's size.

    Parameters
    ----------
    plans
        Cables of one room.
    job
        Circuit sizes, continuous factor and thermostat rating.

    Returns
    -------
    tuple of CablePlan
        With ``circuit_amperes`` (0 where no size carries them) and ``thermostat_share``.
    """
    load = sum(p.amperes for p in plans)
    share = electrical.thermostat_share(load, job.thermostat_amperes)
    size = electrical.circuit_amperes(load, job.circuit_amperes, job.continuous_factor) or 0.0
    return tuple(replace(p, circuit_amperes=size, thermostat_share=share) for p in plans)

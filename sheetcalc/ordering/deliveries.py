"""Deliveries of one supplier: which lines come together, when, and what they weigh."""

from collections.abc import Sequence
from datetime import date
from typing import Final

from msgspec import Struct, field
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Supplier
from sheetcalc.domain.job import Job
from sheetcalc.domain.order import ALL_AT_ONCE, EACH_DAY, Delivery, OrderLine
from sheetcalc.ordering.calendar import Calendar
from sheetcalc.rules.packs import packs_needed

CALLED_OFF: Final = 0
"""Delivery number of a line that comes phase by phase."""


class _Load(Struct):
    """What comes together."""

    phase: str
    order_number: str
    days: list[date] = field(default_factory=list)
    order_by: list[date] = field(default_factory=list)
    weights: list[float | None] = field(default_factory=list)


def with_deliveries(
    lines: Sequence[OrderLine], supplier: Supplier | None, calendar: Calendar, job: Job
) -> tuple[tuple[OrderLine, ...], tuple[Delivery, ...]]:
    """Put a supplier's lines into deliveries.

    Parameters
    ----------
    lines
        Numbered and dated.
    supplier
        Its row of Suppliers.
    calendar, job
        How it delivers, and the largest load of a pallet.

    Returns
    -------
    lines
        With the numbers of their deliveries.
    deliveries
        In the order of their dates, then of the phases.
    """
    way = calendar.deliveries(supplier.name) if supplier else job.deliveries
    loads: dict[tuple[str, date | None], _Load] = {}
    for line in lines:
        for key, packs, first in _drops(line, way):
            load = loads.setdefault(key, _Load(key[0], line.number))
            if not line.call_offs:  # the phase's own order, where there is one
                load.order_number = line.number
            day = next((c.needed_on_site for c in line.call_offs if c.phase == key[0]), None)
            day = day or (line.needed_on_site if first else None)
            load.days += [day] if day else []
            load.order_by += [line.order_by] if first and line.order_by else []
            weight = line.pack_weight_kg
            load.weights.append(None if weight is None else weight * packs)
    ordered = sorted(
        loads, key=lambda key: (min(loads[key].days, default=date.max), calendar.rank(key[0]))
    )
    numbers = {key: number for number, key in enumerate(ordered, 1)}
    made = tuple(_delivery(numbers[key], loads[key], supplier, calendar, job) for key in ordered)
    return tuple(_numbered(line, way, numbers) for line in lines), made


def _drops(line: OrderLine, way: str) -> list[tuple[tuple[str, date | None], int, bool]]:
    """Deliveries of a line: phase and day, packs, and whether the order's date counts there."""
    if way == ALL_AT_ONCE:
        return [(("", None), line.packs, True)]
    by_day = way == EACH_DAY
    if line.call_offs:
        return [
            ((c.phase, c.needed_on_site if by_day else None), c.packs, c.number == 1)
            for c in line.call_offs
            if c.packs
        ]
    return [((line.phase, line.needed_on_site if by_day else None), line.packs, True)]


def _numbered(line: OrderLine, way: str, numbers: dict[tuple[str, date | None], int]) -> OrderLine:
    if not line.call_offs or way == ALL_AT_ONCE:
        (key, _, _), *_ = _drops(line, way)
        return replace(line, delivery=numbers[key])
    by_day = way == EACH_DAY
    calls = tuple(
        replace(c, delivery=numbers.get((c.phase, c.needed_on_site if by_day else None), 0))
        for c in line.call_offs
    )
    return replace(line, delivery=CALLED_OFF, call_offs=calls)


def _delivery(
    number: int, load: _Load, supplier: Supplier | None, calendar: Calendar, job: Job
) -> Delivery:
    known = [weight for weight in load.weights if weight is not None]
    weight = sum(known) if known else None
    return Delivery(
        number=number,
        order_number=load.order_number,
        phase=load.phase,
        deliver_to=calendar.deliver_to(load.phase),
        needed_on_site=min(load.days, default=None),
        order_by=min(load.order_by, default=None),
        charge=supplier.delivery_charge if supplier else None,
        lines=len(load.weights),
        weight_kg=weight,
        unweighed=len(load.weights) - len(known),
        pallets=None if weight is None else packs_needed(weight, job.pallet_mass_kg),
    )

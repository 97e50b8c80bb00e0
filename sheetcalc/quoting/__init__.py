"""What a job costs and is sold for: materials shared out of the orders, labour by task.

Materials are priced as they are ordered: the packs of the whole job are shared among the rooms by
gross quantity.  Everything that is shared is shared to the cent, as differences of rounded running
totals, so that the shares add up exactly and a sheet can work them out row by row.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Final

from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.job import Job
from sheetcalc.domain.order import Order
from sheetcalc.domain.quote import (
    LabourLine,
    Material,
    Quote,
    RoomPrice,
    RoomType,
    Summary,
    TypePrice,
)
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.lines.takeoff import TakenOff
from sheetcalc.pricing import exact_to_cents, share_of, shared_out
from sheetcalc.quoting.labour import labour_lines
from sheetcalc.quoting.materials import priced_materials, spent_on_types
from sheetcalc.quoting.room_types import room_types

_NOTHING: Final = Decimal("0.00")


def make_quote(
    inputs: Inputs,
    works: Sequence[RoomWork],
    taken: TakenOff,
    orders: Sequence[Order],
) -> Quote:
    """Price a job.

    Parameters
    ----------
    inputs
        Job, finishes, catalogue with Labour, and the rows of Rooms.
    works
        Rooms with their plans.
    taken
        Quantity lines of the run, and the work in each room.
    orders
        Made from those lines.

    Returns
    -------
    Quote
        What has no price counts as nothing, and is named in ``unpriced``.
    """
    lines = taken.lines
    types = room_types(inputs, works, taken.labour)
    number_of_room = {room: kind.number for kind in types for room in kind.rooms}
    whole_job = len(types) + 1
    type_of_line = {at: number_of_room.get(line.room, whole_job) for at, line in enumerate(lines)}
    materials = priced_materials(orders, lines)
    material_of_line = {at: n for n, material in enumerate(materials) for at in material.lines}
    labour = labour_lines(inputs, works, taken.labour, types)
    if any(type_of_line[at] == whole_job for at in material_of_line) or any(
        line.type_number == whole_job for line in labour
    ):
        types = (*types, RoomType(whole_job, "", "", (), (), 1, 0.0))
    costs = _costs(types, spent_on_types(materials, lines, type_of_line), labour)
    summary = _summary(
        sum((goods for goods, _ in costs), _NOTHING),
        sum((hours for _, hours in costs), _NOTHING),
        sum((order.charges for order in orders), _NOTHING),
        inputs.job,
    )
    shares = shared_out(summary.price, [goods + hours for goods, hours in costs])
    without = _without_price(materials, material_of_line, type_of_line, labour)
    prices = tuple(
        TypePrice(kind, goods, hours, goods + hours, price, without[kind.number])
        for kind, (goods, hours), price in zip(types, costs, shares, strict=True)
    )
    return Quote(
        types=types,
        type_of_line=type_of_line,
        material_of_line=material_of_line,
        materials=materials,
        labour=labour,
        prices=prices,
        rooms=_room_prices(works, prices),
        summary=summary,
        unpriced=_unpriced(materials, labour),
    )


def _costs(
    types: Sequence[RoomType],
    spent: Mapping[int, Decimal],
    labour: Sequence[LabourLine],
) -> list[tuple[Decimal, Decimal]]:
    """Materials and labour of each type, to the cent."""
    hours = {kind.number: _NOTHING for kind in types}
    for line in labour:
        hours[line.type_number] += line.amount or _NOTHING
    running, before = Fraction(0), _NOTHING
    costs = []
    for kind in types:
        running += Fraction(spent.get(kind.number, 0))
        after = exact_to_cents(running)
        costs.append((after - before, hours[kind.number]))
        before = after
    return costs


def _summary(materials: Decimal, labour: Decimal, deliveries: Decimal, job: Job) -> Summary:
    """From cost to total; each step rounds to the cent."""
    cost = materials + labour + deliveries
    overhead = share_of(cost, job.overhead)
    profit = share_of(cost + overhead, job.profit)
    contingency = share_of(cost + overhead + profit, job.contingency)
    price = cost + overhead + profit + contingency
    tax = share_of(price, job.tax)
    return Summary(
        materials, labour, deliveries, cost, overhead, profit, contingency, price, tax, price + tax
    )


def _room_prices(works: Sequence[RoomWork], prices: Sequence[TypePrice]) -> tuple[RoomPrice, ...]:
    """Each row of Rooms' part of its type, by count, in the order of the workbook."""
    rooms = {work.room.name: work.room for work in works}
    found: dict[str, RoomPrice] = {}
    for price in prices:
        mine = [rooms[name] for name in price.type.rooms]
        counts = [room.count for room in mine]
        shares = zip(
            *(shared_out(total, counts) for total in (price.materials, price.labour, price.price)),
            strict=True,
        )
        upto = 0
        for room, (materials, labour, sold) in zip(mine, shares, strict=True):
            found[room.name] = RoomPrice(
                room=room.name,
                phase=room.phase or "",
                type=price.type,
                count=room.count,
                before=upto,
                after=upto + room.count,
                materials=materials,
                labour=labour,
                price=sold,
            )
            upto += room.count
    return tuple(found[name] for name in rooms)


def _without_price(
    materials: Sequence[Material],
    material_of_line: Mapping[int, int],
    type_of_line: Mapping[int, int],
    labour: Sequence[LabourLine],
) -> Counter[int]:
    """How many lines of the takeoff and of labour have no price, by number of type."""
    without = Counter(line.type_number for line in labour if line.amount is None)
    without.update(
        type_of_line[at] for at, n in material_of_line.items() if materials[n].amount is None
    )
    return without


def _unpriced(materials: Sequence[Material], labour: Sequence[LabourLine]) -> tuple[str, ...]:
    items = [f"{m.item} ({m.description})" for m in materials if m.amount is None]
    tasks = [line.task.task for line in labour if line.amount is None]
    return tuple(dict.fromkeys([*items, *tasks]))

"""A quote: what the job costs by type of room, and what it is sold for."""

from collections.abc import Mapping
from decimal import Decimal

from msgspec import Struct

from sheetcalc.domain.catalogue import LabourTask
from sheetcalc.domain.measure import Unit
from sheetcalc.domain.order import OrderLine
from sheetcalc.domain.quantity import PackBy


class RoomType(Struct, frozen=True):
    """Rooms alike: one description, one finish, the same taken up; either hand.

    Attributes
    ----------
    number
        1-based, in the order of the workbook; the Takeoff's rows carry it.
    name
        Name of the first of the rooms; "" for what belongs to the whole job.
    finish
        Their finish.
    rooms
        Rows of Rooms, by name.
    copies
        Names of all rooms that those rows stand for.
    count
        How many rooms.
    tiled_m2
        Area of the tiled surfaces of all of them [m2].
    """

    number: int
    name: str
    finish: str
    rooms: tuple[str, ...]
    copies: tuple[str, ...]
    count: int
    tiled_m2: float

    @property
    def is_whole_job(self) -> bool:
        """Whether this stands for what belongs to no room."""
        return not self.rooms


class Material(Struct, frozen=True):
    """One item of the job in one way of counting, and what one unit of it costs.

    Attributes
    ----------
    item, tab, description
        Row of the catalogue that is ordered.
    suppliers
        Who it is ordered from.
    unit, pack_by, pack
        What a pack holds, in the unit of the quantity lines.
    gross
        Sum of the lines' gross over the whole job [``unit``].
    packs
        Whole packs that the orders of all phases hold.
    amount
        Price of those packs; None where the catalogue has no price.
    rate
        Amount for one ``unit``, to 40 digits; None without a price.
    lines
        Positions of the lines in the run's quantity lines.
    orders
        The order lines behind it.
    """

    item: str
    tab: str
    description: str
    suppliers: tuple[str, ...]
    unit: Unit
    pack_by: PackBy
    pack: float
    gross: float
    packs: int
    amount: Decimal | None
    rate: Decimal | None
    lines: tuple[int, ...]
    orders: tuple[OrderLine, ...]


class LabourLine(Struct, frozen=True):
    """One task in one type of room.

    Attributes
    ----------
    type_number
        Of the type of room.
    task
        Row of Labour.
    quantity
        How much of the task's basis there is in all rooms of the type.
    unit
        What one of the basis is: ``m``, the Job's area, ``kg`` or ``each``.
    hours
        Quantity times hours per unit.
    amount
        To the cent; None without an hourly rate.
    """

    type_number: int
    task: LabourTask
    quantity: float
    unit: str
    hours: float
    amount: Decimal | None


class TypePrice(Struct, frozen=True):
    """What one type of room costs and is sold for; all of its rooms together.

    Attributes
    ----------
    materials, labour, cost
        What is known of it; to the cent.
    price
        Share of the price without tax, by cost; all shares add up to it exactly.
    unpriced
        Lines of materials and labour without a price.
    """

    type: RoomType
    materials: Decimal
    labour: Decimal
    cost: Decimal
    price: Decimal
    unpriced: int


class RoomPrice(Struct, frozen=True):
    """Share of one row of Rooms in the price of its type, by count.

    ``before`` and ``after`` are rooms of the type up to this row, without and with it.
    """

    room: str
    phase: str
    type: RoomType
    count: int
    before: int
    after: int
    materials: Decimal
    labour: Decimal
    price: Decimal


class Summary(Struct, frozen=True):
    """From cost to total; every amount to the cent.

    Attributes
    ----------
    deliveries
        What suppliers charge for deliveries.
    cost
        Materials, labour and deliveries.
    overhead
        On cost.
    profit
        On cost and overhead.
    contingency
        On cost, overhead and profit.
    price
        The sum of these four, without tax.
    """

    materials: Decimal
    labour: Decimal
    deliveries: Decimal
    cost: Decimal
    overhead: Decimal
    profit: Decimal
    contingency: Decimal
    price: Decimal
    tax: Decimal
    total: Decimal


class Quote(Struct, frozen=True):
    """Everything that the quote's tabs show.

    Attributes
    ----------
    types
        Types of room; what belongs to the whole job comes last, if there is anything.
    type_of_line
        Position of a quantity line -> number of its type.
    material_of_line
        Position of a quantity line -> position in ``materials``; lines that buy nothing are not
        in it.
    unpriced
        Items without a price, and tasks without an hourly rate, by name.
    """

    types: tuple[RoomType, ...]
    type_of_line: Mapping[int, int]
    material_of_line: Mapping[int, int]
    materials: tuple[Material, ...]
    labour: tuple[LabourLine, ...]
    prices: tuple[TypePrice, ...]
    rooms: tuple[RoomPrice, ...]
    summary: Summary
    unpriced: tuple[str, ...]

    @property
    def complete(self) -> bool:
        """Whether everything has a price."""
        return not self.unpriced

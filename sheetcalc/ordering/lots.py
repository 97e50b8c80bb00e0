"""Lots: what is ordered of an item in one go, in packs rounded up once."""

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from sheetcalc.domain.catalogue import Buyable, Roll, Tile
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import EACH, Unit
from sheetcalc.domain.order import ALL_AT_ONCE, CallOff, NeedPart, OrderLine
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.rolls import RollPlan
from sheetcalc.ordering.calendar import Calendar
from sheetcalc.ordering.items import tab_of
from sheetcalc.ordering.needs import ItemNeed, PhaseNeed
from sheetcalc.pricing import amount, pack_price
from sheetcalc.rules.pack_contents import UnknownPackError, pack_in, pack_weight, package_of
from sheetcalc.rules.packages import package_code
from sheetcalc.rules.packs import packs_needed


class Lot(Struct, frozen=True):
    """What is ordered of an item in one go.

    Attributes
    ----------
    phases
        Phases that it is for, in the order of their dates; the first one's order holds it.
    called_off
        Delivered phase by phase though ordered once.
    """

    item: Buyable
    phases: tuple[PhaseNeed, ...]
    called_off: bool

    @property
    def phase(self) -> str:
        """Phase whose order holds the lot."""
        return self.phases[0].phase


def lots_of(need: ItemNeed, item: Buyable, calendar: Calendar) -> list[Lot]:
    """Share a need out into lots: one a phase, or one for the whole job.

    Tile of one batch is ordered once, spares with it, and called off by phase; a supplier that
    delivers all at once gets one order for the whole job.
    """
    phases = sorted(
        (p for p in need.phases if p.is_something), key=lambda p: calendar.order_of(p.phase)
    )
    if not phases:
        return []
    at_once = calendar.deliveries(item.supplier or "") == ALL_AT_ONCE
    one_batch = isinstance(item, Tile) and item.one_batch and len(phases) > 1
    if at_once or one_batch:
        return [Lot(item, tuple(phases), called_off=one_batch and not at_once)]
    return [Lot(item, (phase,), called_off=False) for phase in phases]


class Packing:
    """Turns lots into order lines; dates, numbers and deliveries are filled in later."""

    def __init__(
        self, job: Job, roll_plans: Iterable[RollPlan], calendar: Calendar, home: str
    ) -> None:
        """Take the job's units and the rolls that plans ask for; those of no phase are home's."""
        self._job = job
        self._calendar = calendar
        self._rolls: dict[tuple[str, str], int] = {}
        for plan in roll_plans:
            key = (plan.item, plan.phase or home)
            self._rolls[key] = self._rolls.get(key, 0) + plan.rolls

    def line(self, lot: Lot) -> OrderLine:
        """One order line for a lot.

        Raises
        ------
        UnknownPackError
            Where the catalogue does not say what a pack holds.
        """
        item = lot.item
        rolls = self._planned(lot)
        parts = tuple(self._parts(lot, rolls))
        needed, unit, pack, pack_by = _together(parts, rolls)
        if rolls is not None and all(part.pack_by is PackBy.PLAN for part in parts):
            packs, pack_by = rolls, PackBy.PLAN
        else:
            packs = packs_needed(needed, pack)
        if packs:  # 0 where an earlier phase leaves enough of a roll over
            packs = max(packs, item.least_packs or 0)
        price, weight, package = (
            pack_price(item, self._job.units.area), pack_weight(item), package_of(item),
        )  # fmt: skip
        first = lot.phases[0]
        on_site = self._calendar.on_site(first.phase, first.day)
        return OrderLine(
            phase=lot.phase,
            number="",
            line=0,
            item=item.code,
            tab=tab_of(item),
            supplier_code=item.supplier_code or "",
            description=item.description,
            needed=needed,
            unit=unit,
            pack=pack,
            pack_by=pack_by,
            packs=packs,
            package=package,
            package_code=package_code(package),
            pack_price=price,
            amount=None if price is None else amount(packs, price),
            weight_kg=None if weight is None else weight * packs,
            needed_on_site=on_site,
            order_by=self._calendar.order_by(on_site, item),
            parts=parts,
            source=item.source,
            pack_weight_kg=weight,
            phases=tuple(phase.phase for phase in lot.phases),
            call_offs=tuple(self._call_offs(lot, parts, packs)) if lot.called_off else (),
            day=first.day,
            tasks=first.tasks,
            least_packs=item.least_packs,
            own_lead_days=item.lead_days,
            returnable=item.returnable,
        )

    def _planned(self, lot: Lot) -> int | None:
        """Give the rolls that the plans of a lot's phases ask for; None where there is no plan."""
        if not isinstance(lot.item, Roll):
            return None
        found = [
            self._rolls[lot.item.code, phase.phase]
            for phase in lot.phases
            if (lot.item.code, phase.phase) in self._rolls
        ]
        return sum(found) if found else None

    def _parts(self, lot: Lot, rolls: int | None) -> Iterable[NeedPart]:
        together: dict[tuple[PackBy, Unit], tuple[tuple[int, ...], float]] = {}
        for phase in lot.phases:
            for key, (indices, needed) in phase.parts.items():
                before = together.get(key, ((), 0.0))
                together[key] = ((*before[0], *indices), before[1] + needed)
        for (pack_by, unit), (indices, needed) in together.items():
            pack = _pack_or_one(lot.item, pack_by, unit, rolls)
            yield NeedPart(pack_by, unit, needed, pack, indices)

    def _call_offs(self, lot: Lot, parts: Sequence[NeedPart], packs: int) -> Iterable[CallOff]:
        """Packs phase by phase: each phase gets what it needs beyond the packs opened before."""
        pack_of: Mapping[tuple[PackBy, Unit], float] = {(p.pack_by, p.unit): p.pack for p in parts}
        one_way = len(parts) == 1
        so_far, sent = 0.0, 0
        for number, phase in enumerate(lot.phases, 1):
            needed = sum(
                gross if one_way else gross / pack_of[key]
                for key, (_, gross) in phase.parts.items()
            )
            so_far += needed
            pack = parts[0].pack if one_way else 1.0
            last = number == len(lot.phases)
            opened = packs if last else min(packs, packs_needed(so_far, pack))
            yield CallOff(
                number=number,
                phase=phase.phase,
                needed=needed,
                packs=opened - sent,
                needed_on_site=self._calendar.on_site(phase.phase, phase.day),
                delivery=0,
                lines=tuple(i for indices, _ in phase.parts.values() for i in indices),
                day=phase.day,
                tasks=phase.tasks,
            )
            sent = opened


def _together(parts: Sequence[NeedPart], rolls: int | None) -> tuple[float, Unit, float, PackBy]:
    """Need, unit and pack of a line; an item counted in several ways is counted in packs."""
    if len(parts) == 1:
        return parts[0].needed, parts[0].unit, parts[0].pack, parts[0].pack_by
    needed = sum(
        rolls if rolls is not None and part.pack_by is PackBy.PLAN else part.needed / part.pack
        for part in parts
    )
    return needed, EACH, 1.0, PackBy.EACH


def _pack_or_one(item: Buyable, pack_by: PackBy, unit: Unit, rolls: int | None) -> float:
    """Content of a pack; a plan's packs need none, so that 1 will do where it is not known."""
    try:
        return pack_in(item, pack_by, unit)
    except UnknownPackError:
        if rolls is None:
            raise
        return 1.0

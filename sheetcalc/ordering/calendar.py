"""Dates of a job: which phase comes first, when goods are needed, when to order them."""

from collections.abc import Iterable
from datetime import date
from typing import Final

from sheetcalc.domain.catalogue import Buyable
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import EACH_PHASE
from sheetcalc.rules.working_days import working_day, working_days_before

_NEVER: Final = date.max


class Calendar:
    """Dates of one job."""

    def __init__(self, inputs: Inputs) -> None:
        """Take the phases, the holidays and the lead times of a job."""
        self._inputs = inputs
        self._phases = inputs.phases
        self._suppliers = inputs.catalogue.suppliers
        self._holidays = inputs.holidays
        self._default = inputs.job.deliveries
        self._place = {name: at for at, name in enumerate(inputs.phases)}

    def rank(self, phase: str) -> tuple[int, str]:
        """Sort phases as their tab has them; names that are not on it come last."""
        return (self._place.get(phase, len(self._place)), phase)

    def order_of(self, phase: str) -> tuple[date, int, str]:
        """Sort phases by their start; those without one as their tab has them, after the others."""
        return (self.start(phase) or _NEVER, *self.rank(phase))

    def first(self, phases: Iterable[str]) -> str:
        """First phase by its start; "" where there is none."""
        named = dict.fromkeys(phase for phase in phases if phase)
        return min(named, key=self.order_of, default="")

    def start(self, phase: str) -> date | None:
        """First day of a phase."""
        return self._phases[phase].start if phase in self._phases else None

    def on_site(self, phase: str, day: int) -> date | None:
        """Date of a working day of a phase, counted from its start."""
        start = self.start(phase)
        return None if start is None else working_day(start, day, self._holidays)

    def lead_days(self, item: Buyable) -> int | None:
        """Working days from order to delivery: the item's, else its supplier's.

        A supplier that is listed without lead days delivers on the day; of one that is not
        listed nothing is known.
        """
        if item.lead_days is not None:
            return item.lead_days
        supplier = self._suppliers.get(item.supplier or "")
        return None if supplier is None else supplier.lead_days or 0

    def order_by(self, needed: date | None, item: Buyable) -> date | None:
        """Last day to order."""
        lead = self.lead_days(item)
        if needed is None or lead is None:
            return None
        return working_days_before(needed, lead, self._holidays)

    def deliver_to(self, phase: str) -> str:
        """Where a phase's deliveries go."""
        return self._inputs.deliver_to(phase)

    def deliveries(self, supplier: str) -> str:
        """How a supplier delivers."""
        listed = self._suppliers.get(supplier)
        return (listed.deliveries if listed else None) or self._default or EACH_PHASE

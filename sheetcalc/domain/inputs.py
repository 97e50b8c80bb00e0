"""Everything that a workbook says, read and checked: what the calculation starts from."""

from collections.abc import Mapping
from datetime import date

from msgspec import Struct

from sheetcalc.domain.catalogue import Catalogue
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.finish import Finish
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import RoomDescription


class Phase(Struct, frozen=True):
    """A stage of the block."""

    name: str
    start: date | None
    deliver_to: str
    note: str
    source: RowRef


class Receipt(Struct, frozen=True):
    """What was ordered or came: one row of Received."""

    phase: str
    supplier: str
    code: str
    ordered: float | None
    received: float | None
    on: date | None
    source: RowRef


class Decision(Struct, frozen=True):
    """A finding that a person has accepted."""

    code: str
    room: str
    surface: str
    decision: str
    by: str
    on: date | None
    reason: str
    source: RowRef


class Reading(Struct, frozen=True):
    """One line of the Resistance log as typed by people; values as found in the cells.

    The texts hold what was typed where a number or a date was wanted.
    """

    room: str
    zone: str
    cable: str
    stage: str
    reading_ohm: float | None
    insulation_mohm: float | None
    by: str
    on: date | None
    reading_text: str
    source: RowRef
    insulation_text: str = ""
    on_text: str = ""


class Inputs(Struct, frozen=True):
    """A workbook's inputs as domain records; rows with errors are left out."""

    job: Job
    phases: Mapping[str, Phase]
    rooms: tuple[RoomDescription, ...]
    finishes: Mapping[str, Finish]
    catalogue: Catalogue
    holidays: frozenset[date]
    received: tuple[Receipt, ...]
    decisions: tuple[Decision, ...]
    readings: tuple[Reading, ...]

    def deliver_to(self, phase: str) -> str:
        """Where a phase's deliveries go: its own place, else the site."""
        stage = self.phases.get(phase)
        return (stage.deliver_to if stage else "") or self.job.site_address

    def tax_rate(self, supplier: str) -> float:
        """Tax on the orders of a supplier, as a share: its own, else the job's [1]."""
        listed = self.catalogue.suppliers.get(supplier)
        return listed.tax if listed and listed.tax is not None else self.job.tax

"""Phases, Suppliers, Holidays, Received, Decisions and the Resistance log to records."""

from collections.abc import Mapping
from contextlib import suppress
from datetime import date
from typing import Final

from sheetcalc.domain.catalogue import Supplier
from sheetcalc.domain.finding import Severity
from sheetcalc.domain.inputs import Decision, Phase, Reading, Receipt
from sheetcalc.workbook.convert import patterns
from sheetcalc.workbook.convert.nearest import did_you_mean
from sheetcalc.workbook.convert.problem import CellProblem
from sheetcalc.workbook.convert.references import key_of
from sheetcalc.workbook.convert.rows import Desk, RowReader, given
from sheetcalc.workbook.inputs.job import PHASES
from sheetcalc.workbook.inputs.rooms import ROOMS
from sheetcalc.workbook.inputs.trading import DECISIONS, HOLIDAYS, RECEIVED, SUPPLIERS
from sheetcalc.workbook.raw import RawBook
from sheetcalc.workbook.results_tabs_heating import RESISTANCE_LOG
from sheetcalc.workbook.shown import displayed
from sheetcalc.workbook.wording import WORDINGS

_ROOMS: Final = "Rooms.Room"


def read_phases(desk: Desk) -> Mapping[str, Phase]:
    """Read the stages of the block, in their order."""
    phases: dict[str, Phase] = {}
    for row in desk.rows(PHASES):
        name, start = row.code("Phase"), row.day("Start")
        deliver_to, note = row.text("Deliver to"), row.text("Note")
        if not row.faulty:
            phases[given(name)] = Phase(given(name), start, deliver_to, note, row.source)
    return phases


def read_suppliers(desk: Desk) -> Mapping[str, Supplier]:
    """Read the suppliers."""
    suppliers: dict[str, Supplier] = {}
    for row in desk.rows(SUPPLIERS):
        name, address, email = row.code("Supplier"), row.text("Address"), row.text("E-mail")
        account, minimum = row.code("Account"), row.money("Minimum order")
        charge, lead_days = row.money("Delivery charge"), row.count("Lead days")
        terms, tax = row.text("Terms"), row.percent("Tax")
        deliveries = row.choice("Deliveries")
        if not row.faulty:
            suppliers[given(name)] = Supplier(
                name=given(name),
                address=address,
                email=email,
                account=account or "",
                minimum_order=minimum,
                delivery_charge=charge,
                lead_days=lead_days,
                terms=terms,
                tax=tax,
                source=row.source,
                deliveries=deliveries,
            )
    return suppliers


def read_holidays(desk: Desk) -> frozenset[date]:
    """Read the days without deliveries."""
    days = [row.day("Date") for row in desk.rows(HOLIDAYS)]
    return frozenset(day for day in days if day is not None)


def read_received(desk: Desk) -> tuple[Receipt, ...]:
    """Read what was ordered or came."""
    receipts: list[Receipt] = []
    for row in desk.rows(RECEIVED):
        phase, supplier, code = row.name("Phase"), row.name("Supplier"), row.code("Code")
        ordered, received, day = row.number("Ordered"), row.number("Received"), row.day("Date")
        if not row.faulty:
            receipts.append(
                Receipt(
                    phase or "", given(supplier), given(code), ordered, received, day, row.source
                )
            )
    return tuple(receipts)


def read_decisions(desk: Desk) -> tuple[Decision, ...]:
    """Read what a person has accepted."""
    decisions: list[Decision] = []
    for row in desk.rows(DECISIONS):
        row.room, row.surface = row.name_shown("Room"), row.shown("Surface")
        code, room = row.code("Code"), _rooms_decided(desk, row)
        surface, decision = row.text("Surface"), row.choice("Decision")
        by, day, reason = row.text("By"), row.day("Date"), row.text("Reason")
        if code is not None:
            _check_decided(row, code)
        if not row.faulty:
            decisions.append(
                Decision(given(code), room, surface, given(decision), by, day, reason, row.source)
            )
    return tuple(decisions)


def _rooms_decided(desk: Desk, row: RowReader) -> str:
    """Rooms that a decision is for, by the names of their rows; one of the Copies is its row's."""
    typed = row.name("Room") or ""
    known = desk.names.known(_ROOMS)
    if not typed or key_of(typed) in known:
        return typed
    copies = _rows_of_copies(desk.raw)
    found: list[str] = []
    for name in (part.strip() for part in typed.split(",")):
        if named := known.get(key_of(name)) or copies.get(key_of(name)):
            found.append(named)
        elif name:
            hint, tab, header = desk.names.suggestion(_ROOMS, name), *_ROOMS.split(".")
            row.error("NAME-UNKNOWN", "Room", found=f'"{name}"', tab=tab, header=header, hint=hint)
    return ", ".join(dict.fromkeys(found))


def _rows_of_copies(raw: RawBook) -> dict[str, str]:
    """Name of the row of Rooms that each room in Copies belongs to, where these can be read."""
    rows: dict[str, str] = {}
    table = raw.tables.get(ROOMS.key)
    for row in table.rows if table else ():
        name, copies = row.cells.get("Room"), row.cells.get("Copies")
        if name is not None and copies is not None:
            with suppress(CellProblem):
                named = patterns.copies(displayed(copies))
                rows |= dict.fromkeys(map(key_of, named), displayed(name))
    return rows


def _check_decided(row: RowReader, code: str) -> None:
    """Say so when a row accepts nothing: no such finding, or one that can't be accepted."""
    known = {name.casefold(): wording for name, wording in WORDINGS.items()}
    wording = known.get(code.casefold())
    if wording is None:
        hint = did_you_mean(code, WORDINGS) or "take the code from the Findings tab"
        row.remark("DECISION-ON-UNKNOWN-CODE", "Code", hint=hint)
    elif wording.severity is Severity.ERROR:
        row.remark("DECISION-ON-ERROR", "Code")


def read_readings(desk: Desk) -> tuple[Reading, ...]:
    """Read what people typed into the Resistance log; a reading that is no number is kept."""
    readings: list[Reading] = []
    for row in desk.rows(RESISTANCE_LOG):
        row.room = row.shown("Room")
        typed = ("Reading", "Insulation reading", "By", "Date")
        if all(row.is_empty(header) for header in typed):
            continue
        readings.append(
            Reading(
                room=row.shown("Room"),
                zone=row.shown("Zone"),
                cable=row.shown("Cable"),
                stage=row.shown("Stage"),
                reading_ohm=row.plain_number("Reading"),
                insulation_mohm=row.plain_number("Insulation reading"),
                by=row.shown("By"),
                on=row.plain_day("Date"),
                reading_text=row.shown("Reading"),
                source=row.source,
                insulation_text=row.shown("Insulation reading"),
                on_text=row.shown("Date"),
            )
        )
    return tuple(readings)

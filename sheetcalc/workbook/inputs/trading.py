"""Suppliers, Holidays, Received, Decisions: dealings around the orders."""

from sheetcalc.workbook.columns import Column, Kind, Tab
from sheetcalc.workbook.inputs import words

SUPPLIERS = Tab(
    key="Suppliers",
    table="InSuppliers",
    record="a supplier",
    purpose="Who the orders go to, one tab of orders each.",
    columns=(
        Column(
            "Supplier", Kind.CODE, "Name, as used in the catalogue tabs; each once.",
            "Kiln & Quarry", required=True, width=22, live=True,
        ),
        Column("Address", Kind.TEXT, "For the head of the order.", "Unit 4, Dock Road", width=34),
        Column("E-mail", Kind.TEXT, "Where orders go.", "orders@example.com", width=26),
        Column("Account", Kind.CODE, "Your account number there.",
            "20417", default="none", width=13),
        Column(
            "Minimum order", Kind.MONEY, "A smaller order is a finding. Empty: none.",
            "150.00", low=0, high=1_000_000, default="none", width=11, live=True,
        ),
        Column(
            "Delivery charge", Kind.MONEY, "For each delivery. Empty: none.",
            "45.00", low=0, high=100_000, default="0", width=11, live=True,
        ),
        Column(
            "Lead days", Kind.COUNT, "Working days from order to delivery. Empty: 0.",
            "5", low=0, high=365, usual_high=90, default="0", width=9, live=True,
        ),
        Column("Terms", Kind.TEXT, "For the foot of the order.", "30 days net", width=24),
        Column(
            "Tax", Kind.PERCENT, "Tax on this supplier's orders. Empty: the Job's tax.",
            "20 %", "8.25 %", low=0, high=1, usual_high=0.3, default="the Job's tax", width=9,
            live=True,
        ),
        Column(
            "Deliveries", Kind.CHOICE,
            "How this supplier delivers: each phase, each day that something is needed, or all at "
            "once for the whole job. Empty: the Job's setting.",
            "all at once", choices=words.DELIVERIES, default="the Job's setting", width=13,
        ),
    ),
)  # fmt: skip

HOLIDAYS = Tab(
    key="Holidays",
    table="InHolidays",
    record="a day without deliveries",
    purpose="Days without deliveries or work, besides Saturdays and Sundays.",
    columns=(
        Column("Date", Kind.DATE, "The day.", "2027-05-03", required=True, width=14),
        Column("Note", Kind.TEXT, "Which day it is.", "Spring holiday", width=36),
    ),
)

RECEIVED = Tab(
    key="Received",
    table="InReceived",
    record="what was ordered or came",
    purpose="What was ordered or has come; the next takeoff shows what is still to order.",
    columns=(
        Column(
            "Phase", Kind.CODE, "Stage of the block, from Phases. Empty: a job in one go.",
            "Floor 1", list_of="Phases.Phase", default="a job in one go", width=14,
        ),
        Column(
            "Supplier", Kind.CODE, "From Suppliers.",
            "Kiln & Quarry", required=True, list_of="Suppliers.Supplier", width=20,
        ),
        Column("Code", Kind.CODE, "Your code of the item.", "T-3060", required=True, width=14),
        Column(
            "Ordered", Kind.NUMBER, "Packs ordered. Empty: none.",
            "42", low=0, high=1_000_000, default="0", unit="packs", width=15,
        ),
        Column(
            "Received", Kind.NUMBER, "Packs that came. Empty: none.",
            "40", low=0, high=1_000_000, default="0", unit="packs", width=16,
        ),
        Column("Date", Kind.DATE, "When.", "2027-03-09", default="no date", width=14),
    ),
)  # fmt: skip

DECISIONS = Tab(
    key="Decisions",
    table="InDecisions",
    record="a finding that a person has accepted",
    purpose="Warnings that a person has looked at and accepted; they stay listed as accepted.",
    columns=(
        Column(
            "Code", Kind.CODE, "Code of the finding, from the Findings tab.",
            "OFFSET-OVER-THIRD", required=True, width=26,
        ),
        Column(
            "Room", Kind.CODE,
            "Only in these rooms, with commas, as Findings lists them. Empty: everywhere.",
            "2.07", "Hall bath", list_of="Rooms.Room", several=True, default="everywhere",
            width=16,
        ),
        Column(
            "Surface", Kind.TEXT, "Only on this surface, as Findings says it. Empty: all.",
            "floor", choices=words.SURFACES, default="all surfaces", width=16,
        ),
        Column(
            "Decision", Kind.CHOICE, "What was decided.",
            "accepted", required=True, choices=words.DECISIONS, width=13,
        ),
        Column("By", Kind.TEXT, "Who decided.", "A. Estimator", required=True, width=18),
        Column("Date", Kind.DATE, "When.", "2027-02-11", required=True, width=14),
        Column("Reason", Kind.TEXT, "Why.", "mock-up approved by the client", width=44),
    ),
)  # fmt: skip

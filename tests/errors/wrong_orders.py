"""Wrong workbooks for the findings on orders: what they lack, their dates, what came."""

from datetime import date

from gallery import Edit, Said, Wrong, cell, record, setting
from gallery import wrong as entry


def wrong(code: str, place: str, *edits: Edit) -> Wrong:
    """Make an entry whose finding comes with the orders."""
    return entry(code, place, *edits, calculated=True)


def phase(start: date | None) -> tuple[Edit, ...]:
    """Put the room into a phase."""
    return record("Phases", Phase="A", Start=start), cell("Rooms", "Phase", "A")


QUOTED = setting("Quote date", date(2027, 4, 1))
LEAD = cell("Suppliers", "Lead days", 10)


def received(code: str) -> Edit:
    """Say that packs of an item came."""
    return record("Received", Phase="A", Supplier="Kiln & Quarry", Code=code, Ordered=50)


ORDERS: tuple[Wrong, ...] = (
    wrong("ITEM-WITHOUT-SUPPLIER", "Tiles!B5", cell("Tiles", "Supplier", None)),
    wrong("ITEM-WITHOUT-PRICE", "Tiles!O5", cell("Tiles", "Price", None)),
    wrong("ORDER-BELOW-MINIMUM", "Suppliers!E5", cell("Suppliers", "Minimum order", 1000)),
    wrong("PHASE-START-PAST", "Phases!B5", *phase(date(2027, 3, 1)), QUOTED),
    wrong("ORDER-LATE", "Phases!B5", *phase(date(2027, 4, 5)), QUOTED, LEAD),
    wrong("LEAD-WITHOUT-DATES", "Phases!B5", *phase(None), LEAD),
    wrong("ORDERED-OVER-NEED", "Tiles!U5", *phase(date(2027, 4, 5)), received("T-3030")),
    wrong("RECEIVED-NOT-ORDERED", "Received!C5", *phase(date(2027, 4, 5)), received("T-9999")),
)

SAID: tuple[Said, ...] = (
    # the takeoff's lines name rows of the catalogue only, and of those only what has a pack
    Said("ORDER-ITEM-UNKNOWN", {"line": "grout", "item": "G-GRAY"}),
    Said("ITEM-WITHOUT-PACK", {"item": "G-GREY", "wanted": "its Yield in Bags and pails"}),
    Said("ORDER-NUMBER-TAKEN", {"order": "PO-KILNQUAR", "other": "Other house"}),
    Said("ORDER-RECORD-GONE", {"order": "PO-KILNQUAR", "file": "PO-KILNQUAR rev 1.csv"}),
    Said("ORDER-NO-LONGER-NEEDED", {"order": "PO-ADOBE", "supplier": "Adobe"}),
    Said("ORDER-LEFT-AS-IT-WAS", {"order": "PO-KILNQUAR", "rooms": "2.07, 2.08"}),
    Said(
        "COMBINED-BOOKS-DIFFER",
        {
            "what": "pack or price",
            "item": "T-3030",
            "values": "KQ-1, 11 piece a box at 21.90; KQ-1, 11 piece a box at 20.00",
        },
    ),
    Said(
        "COMBINED-TERMS-DIFFER",
        {
            "what": "Tax",
            "suppliers": "Kiln & Quarry, Adobe",
            "values": "20 %; 5 %",
            "taken": "20 %",
        },
    ),
    Said("COMBINED-CURRENCIES-DIFFER", {"values": "EUR, USD"}),
)

ENTRIES: tuple[Wrong | Said, ...] = (*ORDERS, *SAID)

"""The result tabs: headers of what the tool writes, and which columns people type in."""

from sheetcalc.workbook.columns import Column, Kind, Tab, Tells
from sheetcalc.workbook.results_tabs_heating import (
    CABLE_PLANS,
    CABLE_SCHEDULE,
    HEATING_RULES,
    RESISTANCE_LOG,
)
from sheetcalc.workbook.results_tabs_tiling import CUT_LIST, SETTING_OUT

_R = Kind.RESULT


def _c(header: str, help_text: str, width: float = 12, tells: Tells | None = None) -> Column:
    return Column(header, _R, help_text, width=width, tells=tells)


FINDINGS = Tab(
    key="Findings",
    table="OutFindings",
    record="a finding",
    result=True,
    purpose="What was found: an error stops, a warning asks until Decisions accepts it, "
    "a note informs.",
    columns=(
        _c("Severity", "error, warning, accepted or note.", 10),
        _c("Code", "Name of the finding, for Decisions and 'sheetcalc explain'.", 27),
        _c("Tab", "Tab that it is about.", 14),
        _c("Cell", "Cell that it is about; a link.", 8),
        _c("Room", "Rooms that it is about, for Decisions.", 12),
        _c("Surface", "Surface that it is about, for Decisions.", 16),
        _c("Found", "What was found.", 37),
        _c("Expected", "What was expected.", 37),
        _c("What to do", "What to do.", 40),
    ),
)

TAKEOFF = Tab(
    key="Takeoff",
    table="OutTakeoff",
    record="one quantity line of one room",
    result=True,
    purpose="Quantities, room by room: net for all alike rooms, with waste the gross; packs are "
    "rounded on the orders only.",
    columns=(
        _c("Phase", "Stage of the block.", 10),
        _c("Room", "Room, or 'whole job'.", 15, Tells.LABELS),
        _c("Type", "Number of the type of room on Quote.", 6.5),
        _c("Count", "How many alike.", 7),
        _c("Line", "Line of the takeoff.", 15),
        _c("Item", "Code of what is bought.", 11),
        _c("Description", "What it is.", 26, Tells.SENTENCES),
        _c("Each", "Quantity for one room.", 10),
        _c("Unit", "Unit of the quantities.", 8),
        _c("Net", "Each times Count.", 11),
        _c(
            "Waste %",
            "Waste factor; 'in plan' where whole packs come from a plan.",
            8,
            Tells.LABELS,
        ),
        _c("Gross", "Net with waste.", 11),
        _c("Cost", "Share in the orders of the item, by gross quantity; without tax.", 11),
        _c("Basis", "The working in words, with the rule and its source.", 56, Tells.SENTENCES),
    ),
)

ROLL_PLAN = Tab(
    key="Roll plan",
    table="OutRollPlan",
    record="one strip",
    result=True,
    purpose="How rolls, mats and boards are cut, roll by roll in cutting order; the last row of a "
    "roll is what is left of it. Printed up to Rolls.",
    printed_to="Rolls",
    columns=(
        _c("Phase", "Stage of the block.", 10),
        _c("Item", "Code of the roll.", 12),
        _c("Description", "What it is.", 24),
        _c("Roll", "Number of the roll or board in its phase.", 6),
        _c("From", "From the roll's start to the strip's start.", 10.5),
        _c("To", "From the roll's start to the strip's end.", 10.5),
        _c("Across", "From the roll's near edge to the strip's near edge.", 8),
        _c("Length", "Along the roll.", 10.5),
        _c("Width", "Across the roll.", 8),
        _c("Room", "Room that it goes to; empty for a rest.", 12),
        _c("Piece", "Where it goes in the room, or what becomes of a rest.", 30, Tells.NAMES),
        _c(
            "Laid",
            "Which way its length runs, from the doorway or facing the wall.",
            18,
            Tells.SENTENCES,
        ),
        _c(
            "Kept edge",
            "Edges of the roll that the strip keeps; the others are cut.",
            11,
            Tells.SENTENCES,
        ),
        _c("Leftover of", "Phase whose roll is used up; empty for a roll of this phase.", 11),
        _c("Rolls", "Rolls to buy for this phase, in the first row of a plan.", 7),
        _c("Bound", "No plan of the same strips needs fewer rolls.", 8),
        _c("Basis", "How the plan was made.", 100, Tells.SENTENCES),
    ),
)

ORDER = Tab(
    key="Order",
    table="OutOrder",
    record="one line of a purchase order",
    result=True,
    purpose="What is ordered from one supplier, phase by phase; packs are rounded up once, here. "
    "Printed up to Order by.",
    printed_to="Order by",
    columns=(
        _c("Phase", "Stage of the block.", 10),
        _c("Order number", "Number of the order.", 25),
        _c("Line", "Line of the order.", 6),
        _c("Item", "Your code.", 11),
        _c("Supplier code", "The supplier's code.", 12),
        _c("Description", "What it is.", 27),
        _c("Needed", "Gross quantity.", 10),
        _c("Unit", "Unit of Needed and Pack.", 8),
        _c("Unit code", "UN/ECE Recommendation 20.", 6.5),
        _c("Pack", "What a pack holds.", 9),
        _c("Packs", "Whole packs ordered.", 7),
        _c("Package code", "UN/ECE Recommendation 21.", 9.5),
        _c("Pack price", "Price of a pack.", 10),
        _c("Amount", "Packs times price.", 12),
        _c("Weight", "Weight of the line.", 10),
        _c(
            "Delivery",
            "Number on the Deliveries tab; or called off phase by phase.",
            10,
            Tells.LABELS,
        ),
        _c("Needed on site", "Day of the first task that uses it.", 11),
        _c("Order by", "That day less the lead time, in working days.", 11),
        _c("Ordered", "Packs ordered so far, from Received.", 10),
        _c("Received", "Packs that have come, from Received.", 10),
        _c("To order", "Packs still to order; below zero: more than is needed.", 8),
    ),
)
"""Template: one tab a supplier, each with a table of its own."""

DELIVERIES = Tab(
    key="Deliveries",
    table="OutDeliveries",
    record="one delivery of one supplier",
    result=True,
    purpose="What comes when, from whom and to where, in the order of the days; for your own eyes.",
    columns=(
        _c("Needed on site", "Earliest day of its goods.", 11),
        _c("Order by", "Last day to order the goods that need longest.", 11),
        _c("Supplier", "Who delivers.", 19),
        _c("Delivery", "Number among the supplier's deliveries.", 9),
        _c("Phase", "Stage of the block; empty: the whole job.", 10),
        _c("Order number", "Order that it belongs to.", 25),
        _c("Deliver to", "Place.", 27),
        _c("Lines", "Order lines and call-offs in it.", 7),
        _c("Weight", "Of the goods whose weight is known.", 11),
        _c("Pallets", "By the Job's largest load of a pallet.", 8),
        _c("Package code", "UN/ECE Recommendation 21: PX is a pallet.", 9.5),
        _c("Order amount", "Goods of the order, without tax.", 12),
        _c("Minimum order", "Of the supplier.", 10),
        _c("Delivery charge", "Of the supplier, for one delivery.", 10),
        _c("State", "OK, late, below the minimum order, or weights not known.", 31),
    ),
)

CALL_OFFS = Tab(
    key="Call-offs",
    table="OutCallOffs",
    record="what one phase takes of goods ordered once",
    result=True,
    purpose="Goods of one batch are ordered once for the whole job and called off phase by phase, "
    "spares with them.",
    columns=(
        _c("Supplier", "Who delivers.", 19),
        _c("Order number", "Order that holds them.", 25),
        _c("Item", "Your code.", 11),
        _c("Description", "What it is.", 26),
        _c("Call", "In the order of the days.", 6),
        _c("Phase", "Stage of the block.", 10),
        _c("Delivery", "Number among the supplier's deliveries.", 9),
        _c("Needed", "Gross quantity of the phase.", 10),
        _c("Unit", "Unit of Needed.", 8),
        _c("Needed so far", "With the phases before.", 10),
        _c("Packs so far", "Packs opened by then.", 7),
        _c("Packs", "To send for this phase.", 7),
        _c("Package code", "UN/ECE Recommendation 21.", 9.5),
        _c("Weight", "Of these packs.", 10),
        _c("Needed on site", "Day.", 11),
        _c("Deliver to", "Place.", 24),
    ),
)

SOURCES = Tab(
    key="Sources",
    table="OutSources",
    record="one supplier of an item that several sell",
    result=True,
    purpose="What several suppliers sell, side by side, and the mix that costs least; for your own "
    "eyes.",
    columns=(
        _c("Item", "Your code.", 13),
        _c("Description", "As this supplier's row has it.", 34),
        _c("Supplier", "Who sells it.", 20),
        _c("Supplier code", "The supplier's code.", 14),
        _c("Needed", "Gross quantity of the whole job.", 11),
        _c("Unit", "Unit of Needed and Pack.", 8),
        _c("Pack", "What a pack holds.", 10),
        _c("Packs", "Whole packs, rounded up in each order.", 8),
        _c("Pack price", "Price of a pack.", 11),
        _c("Cost", "Packs times price.", 12),
        _c("Dearer by", "Than the cheapest supplier of the item.", 12),
        _c("Ordered there", "yes or no.", 10),
        _c("Cheapest mix", "yes where the mix that costs least buys it there.", 10),
    ),
)

QUOTE = Tab(
    key="Quote",
    table="OutQuote",
    record="one priced type of room",
    result=True,
    purpose="Prices by type of room, then overhead, profit, contingency, tax and total; what the "
    "price assumes, and what it leaves out.",
    columns=(
        _c("No.", "Number of the type of room.", 6),
        _c(
            "Type of room",
            "First room of the type and its finish, or 'whole job'.",
            24,
            Tells.LABELS,
        ),
        _c("Rooms", "Rooms of this type.", 30),
        _c("Count", "How many rooms.", 8),
        _c("Area", "Tiled area of all of them.", 10),
        _c("Materials", "Share of the orders, without tax.", 13),
        _c("Labour", "Hours at their rates.", 13),
        _c("Cost", "Materials and labour.", 13),
        _c("Price", "Share of the price without tax, by cost.", 14),
        _c("Each", "Price of one room.", 13),
        _c("Per area", "Price for the Job's unit of tiled area.", 11),
        _c("To be priced", "Lines of materials and labour without a price.", 9),
    ),
)

QUOTE_ROOMS = Tab(
    key="Quote by room",
    table="OutQuoteRooms",
    record="one priced row of Rooms",
    result=True,
    purpose="The price of each room: its share of its type on Quote, by count.",
    columns=(
        _c("Room", "Room.", 16),
        _c("Phase", "Stage of the block.", 13),
        _c("Type", "Number of its type on Quote.", 7),
        _c("Count", "How many alike.", 8),
        _c("Materials", "Share of the orders, without tax.", 13),
        _c("Labour", "Hours at their rates.", 13),
        _c("Price", "Share of the price without tax.", 14),
        _c("Each", "Price of one room.", 13),
    ),
)

QUOTE_MATERIALS = Tab(
    key="Quote materials",
    table="OutCosts",
    record="one item that is ordered",
    result=True,
    purpose="What one unit of each item costs: the packs of the whole job, shared by gross "
    "quantity.",
    columns=(
        _c("Item", "Code.", 14),
        _c("Description", "What it is.", 38),
        _c("Supplier", "Who it is ordered from.", 20),
        _c("Gross", "Gross quantity of the whole job.", 12),
        _c("Unit", "Unit of the quantity.", 8),
        _c("Packs", "Whole packs on the orders.", 9),
        _c("Amount", "Price of those packs, without tax.", 13),
        _c("Cost per unit", "What one unit of the quantity costs.", 13),
    ),
)

QUOTE_LABOUR = Tab(
    key="Quote labour",
    table="OutLabour",
    record="one task in one type of room",
    result=True,
    purpose="Hours and cost of each task in each type of room.",
    columns=(
        _c("Type", "Number of the type of room on Quote.", 7),
        _c(
            "Type of room",
            "First room of the type and its finish, or 'whole job'.",
            24,
            Tells.LABELS,
        ),
        _c("Task", "Task of the Labour tab.", 28),
        _c("Basis", "What the hours are for.", 24),
        _c("Surface", "Only on this surface.", 14),
        _c("Quantity", "How much of the basis all rooms of the type have.", 11),
        _c("Unit", "Unit of the basis.", 8, Tells.LABELS),
        _c("Hours per unit", "From Labour.", 10),
        _c("Hours", "Quantity times hours per unit.", 11),
        _c("Hourly rate", "From Labour.", 10),
        _c("Amount", "Hours at their rate.", 13),
    ),
)

ROOM_CARDS = Tab(
    key="Room cards",
    table="OutCards",
    record="one room",
    result=True,
    purpose="A page to print for each room: drawings, cuts, what to carry, the order of the work. "
    "As of the last takeoff.",
    columns=(
        _c("#", "Number of the card, in the order of the phases.", 3),
        _c("Phase", "Stage of the block.", 9.5),
        _c("Room", "Room; a link to its card.", 22.5),
        _c("Pages", "Pages of its card.", 7.5),
        _c("Alike", "How many rooms are alike.", 5.5),
        _c("Finish", "Finish of the room.", 9),
    ),
)

RESULT_TABS: tuple[Tab, ...] = (
    FINDINGS, TAKEOFF, SETTING_OUT, CUT_LIST, ROLL_PLAN, CABLE_SCHEDULE, RESISTANCE_LOG,
    HEATING_RULES, ORDER, DELIVERIES, CALL_OFFS, SOURCES,
    QUOTE, QUOTE_ROOMS, QUOTE_MATERIALS, QUOTE_LABOUR, ROOM_CARDS,
    CABLE_PLANS,
)  # fmt: skip
"""Every tab that the tool writes, in order; Order stands for one tab a supplier."""

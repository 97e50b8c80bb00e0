"""Words of the findings about orders."""

from sheetcalc.domain.finding import Severity
from sheetcalc.workbook.wording.wording import Wording

_CONTRACT = "the program's own rule"

WORDINGS: tuple[Wording, ...] = (
    Wording(
        code="ITEM-WITHOUT-SUPPLIER",
        severity=Severity.WARNING,
        found='"{item}" ({description}) is needed, and its row names no supplier',
        expected="a name in Supplier, for each item that is bought",
        what_to_do="type the supplier's name; until then the item stands on the tab "
        '"Order - no supplier"',
        explain="An item that is needed is always ordered, never dropped. Without a supplier it "
        "stands on an order tab of its own, so that it can be seen and sent to somebody.",
        source=_CONTRACT,
    ),
    Wording(
        code="ITEM-WITHOUT-PRICE",
        severity=Severity.WARNING,
        found='"{item}" ({description}) is ordered, and its row has no price',
        expected="the price of a pack (for a tile: of what Price per says)",
        what_to_do="type the price; until then the line says 'to be priced', and the order's "
        "total is marked incomplete",
        explain="An item without a price is ordered all the same. Its amount is not counted as 0: "
        "the line says 'to be priced', and beside the total stands how many lines it lacks. Typing "
        "the price later fills the order in without another run.",
        source=_CONTRACT,
    ),
    Wording(
        code="PRICE-IS-ZERO",
        severity=Severity.WARNING,
        found='"{item}" ({description}) is ordered, and its price is 0',
        expected="what a pack costs (for a tile: what Price per says), or an empty cell",
        what_to_do="type the price, or empty the cell to have it listed as to be priced; if it is "
        "free of charge, accept this",
        explain="A price of 0 is a price: the item costs nothing on the order and in the quote, "
        "and neither says that it is incomplete. An empty cell is for a price that is not known "
        "yet.",
        source=_CONTRACT,
    ),
    Wording(
        code="ITEM-WITHOUT-PACK",
        severity=Severity.ERROR,
        found='"{item}" is needed, and its row does not say what a pack of it holds',
        expected="{wanted}",
        what_to_do="fill that column in for the item, or choose an item that has it",
        explain="Packs are the need divided by what a pack holds, rounded up once an order. "
        "Without that figure, or with one that measures something else (a mass where a volume is "
        "needed), packs can't be counted.",
        source=_CONTRACT,
    ),
    Wording(
        code="ORDER-ITEM-UNKNOWN",
        severity=Severity.ERROR,
        found='the line "{line}" needs "{item}", which stands in no catalogue tab',
        expected="a code of Tiles, Bags and pails, Rolls and sheets, Heating cables or Sundries",
        what_to_do="correct the code, or add the item to its tab",
        explain="Everything that is ordered is a row of a catalogue tab: there stand its supplier, "
        "its pack and its price.",
        source=_CONTRACT,
    ),
    Wording(
        code="SUPPLIER-NOT-LISTED",
        severity=Severity.WARNING,
        found='items are ordered from "{supplier}", which is no row of Suppliers',
        expected="a row in Suppliers for each supplier that the catalogue names",
        what_to_do="correct the name, or add the supplier with its address and lead days",
        explain="The order is made all the same, but carries no address, terms or lead time. Two "
        "spellings of one supplier give two orders.",
        source=_CONTRACT,
    ),
    Wording(
        code="ORDER-BELOW-MINIMUM",
        severity=Severity.WARNING,
        found="order {order} comes to {total}",
        expected="at least {minimum}, the minimum order of {supplier}",
        what_to_do="order for two phases together (Deliveries 'all at once'), buy more from this "
        "supplier, or accept the surcharge",
        explain="The Minimum order of a supplier's row is held against each of its orders, one a "
        "phase, without tax and delivery charge. Orders with lines to be priced are not judged.",
        source=_CONTRACT,
    ),
    Wording(
        code="PHASE-START-PAST",
        severity=Severity.WARNING,
        found='phase "{phase}" starts on {start}',
        expected="a day not before the quote date, {quoted}",
        what_to_do="correct the Start, or the quote date on the Job",
        explain="Dates are held against the Job's quote date, not against a clock, so that a "
        "workbook gives the same results on every day.",
        source=_CONTRACT,
    ),
    Wording(
        code="ORDER-LATE",
        severity=Severity.WARNING,
        found="{count} of {lines} lines of order {order} had to be ordered by {order_by} at the "
        "latest (item {item}, needed on {needed})",
        expected="a day not before the quote date, {quoted}",
        what_to_do="start the phase later, find a source with a shorter lead time, or ask the "
        "supplier",
        explain="An item is needed on site on the day of the task that uses it: the phase's Start "
        "and the Day of the rows of Labour that name the line under Uses, in working days without "
        "the Holidays. Less its lead days (else its supplier's) that is the last day to order. "
        "Dates are held against the Job's quote date, not against a clock.",
        source="common practice, no source",
    ),
    Wording(
        code="LEAD-WITHOUT-DATES",
        severity=Severity.NOTE,
        found="{lines} order lines have a lead time, and {phase} has no start",
        expected="a Start for each phase, so that orders say by when they must go out",
        what_to_do="fill in Start on the tab Phases; without it orders carry no dates",
        explain="Lead times count back from the day that goods are needed. Without the Start of a "
        "phase there is nothing to count from: the orders are made, without dates.",
        source=_CONTRACT,
    ),
    Wording(
        code="ORDERED-OVER-NEED",
        severity=Severity.WARNING,
        found='{ordered} packs of "{item}" are ordered or have come, {over} more than order '
        "{order} needs",
        expected="{packs} packs",
        what_to_do="return them or keep them for another phase: {returns}",
        explain="The Received tab says what was ordered and what came. After a change the need "
        "can be smaller than that. To order is below zero on the order tab then.",
        source=_CONTRACT,
    ),
    Wording(
        code="RECEIVED-NOT-ORDERED",
        severity=Severity.WARNING,
        found='Received names "{item}" of "{supplier}", which no order of this run holds in that '
        "phase",
        expected="a code, a supplier and a phase of an order tab",
        what_to_do="correct the row; if the item is no longer needed, see whether it can go back",
        explain="A row of Received counts for the order line of its supplier, code and phase. "
        "One that fits none would silently not be taken off what is still to order.",
        source=_CONTRACT,
    ),
    Wording(
        code="ORDER-NUMBER-TAKEN",
        severity=Severity.ERROR,
        found='order {order} stands in the folder already, for another job: "{other}"',
        expected="order numbers of this job only",
        what_to_do="give each workbook its own Order number prefix on the Job, or another folder",
        explain="An order file that may have been sent is never replaced. The Reference in its CSV "
        "says which job it is for: the Job name, or the workbook's file name where it has none.",
        source=_CONTRACT,
    ),
    Wording(
        code="ORDER-RECORD-GONE",
        severity=Severity.WARNING,
        found="order {order} stands in the folder without its record, {file}",
        expected="the CSV beside the workbook, as it was written",
        what_to_do="compare the new revision with the order before it by hand",
        explain="What was written last is read back from the CSV file, so that a run can tell what "
        "has changed. Without it the order gets another revision, changed or not.",
        source=_CONTRACT,
    ),
    Wording(
        code="ORDER-NO-LONGER-NEEDED",
        severity=Severity.WARNING,
        found="order {order} to {supplier} stands in the folder, and this run has no such order",
        expected="an order for every file of this job",
        what_to_do="if it was sent, cancel it with the supplier; then move its files elsewhere",
        explain="A supplier or a phase that is gone leaves an order that may have been sent. Its "
        "files are kept, and nobody is told but you.",
        source=_CONTRACT,
    ),
    Wording(
        code="ORDER-LEFT-AS-IT-WAS",
        severity=Severity.WARNING,
        found="order {order} stands in the folder; without {rooms}, left out for errors, it would "
        "be smaller",
        expected="orders that get smaller only where less is wanted",
        what_to_do="correct the errors and order again; until then the order stands as it was",
        explain="A room with an error is still to be built. What was ordered for it is not taken "
        "back because a cell is wrong; orders that grow without it are revised as always.",
        source=_CONTRACT,
    ),
    Wording(
        code="COMBINED-BOOKS-DIFFER",
        severity=Severity.WARNING,
        found='{what} of "{item}" differs between the workbooks: {values}',
        expected="the same in all of them",
        what_to_do="make the price lists agree; until then each stands on a line of its own",
        explain="Packs are rounded up once over all workbooks. That needs the same thing at the "
        "same price: code, supplier code, description, pack and price.",
        source=_CONTRACT,
    ),
    Wording(
        code="COMBINED-CURRENCIES-DIFFER",
        severity=Severity.ERROR,
        found="the workbooks count in {values}",
        expected="one currency",
        what_to_do="order these workbooks apart",
        explain="Amounts in several currencies can't stand in one order.",
        source=_CONTRACT,
    ),
)

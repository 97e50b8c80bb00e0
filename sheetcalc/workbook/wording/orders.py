"""Words of the findings about orders."""

from sheetcalc.workbook.wording.wording import PRACTICE, Wording, error, note, warning

WORDINGS: tuple[Wording, ...] = (
    warning(
        "ITEM-WITHOUT-SUPPLIER",
        '"{item}" ({description}) is needed, and its row names no supplier',
        "a name in Supplier, for each item that is bought",
        'type the supplier\'s name; until then the item stands on the tab "Order - no supplier"',
        "An item that is needed is always ordered, never dropped. Without a supplier it "
        "stands on an order tab of its own, so that it can be seen and sent to somebody.",
    ),
    warning(
        "ITEM-WITHOUT-PRICE",
        '"{item}" ({description}) is ordered, and its row has no price',
        "the price of a pack (for a tile: of what Price per says)",
        "type the price; until then the line says 'to be priced', and the order's "
        "total is marked incomplete",
        "An item without a price is ordered all the same. Its amount is not counted as 0: "
        "the line says 'to be priced', and beside the total stands how many lines it lacks. Typing "
        "the price later fills the order in without another run.",
    ),
    warning(
        "PRICE-IS-ZERO",
        '"{item}" ({description}) is ordered, and its price is 0',
        "what a pack costs (for a tile: what Price per says), or an empty cell",
        "type the price, or empty the cell to have it listed as to be priced; if it is "
        "free of charge, accept this",
        "A price of 0 is a price: the item costs nothing on the order and in the quote, "
        "and neither says that it is incomplete. An empty cell is for a price that is not known "
        "yet.",
    ),
    error(
        "ITEM-WITHOUT-PACK",
        '"{item}" is needed, and its row does not say what a pack of it holds',
        "{wanted}",
        "fill that column in for the item, or choose an item that has it",
        "Packs are the need divided by what a pack holds, rounded up once an order. "
        "Without that figure, or with one that measures something else (a mass where a volume is "
        "needed), packs can't be counted.",
    ),
    error(
        "ORDER-ITEM-UNKNOWN",
        'the line "{line}" needs "{item}", which stands in no catalogue tab',
        "a code of Tiles, Bags and pails, Rolls and sheets, Heating cables or Sundries",
        "correct the code, or add the item to its tab",
        "Everything that is ordered is a row of a catalogue tab: there stand its supplier, "
        "its pack and its price.",
    ),
    warning(
        "ORDER-BELOW-MINIMUM",
        "order {order} comes to {total}",
        "at least {minimum}, the minimum order of {supplier}",
        "order for two phases together (Deliveries 'all at once'), buy more from this "
        "supplier, or accept the surcharge",
        "The Minimum order of a supplier's row is held against each of its orders, one a "
        "phase, without tax and delivery charge. Orders with lines to be priced are not judged.",
    ),
    warning(
        "PHASE-START-PAST",
        'phase "{phase}" starts on {start}',
        "a day not before the quote date, {quoted}",
        "correct the Start, or the quote date on the Job",
        "Dates are held against the Job's quote date, not against a clock, so that a "
        "workbook gives the same results on every day.",
    ),
    warning(
        "ORDER-LATE",
        "{count} of {lines} lines of order {order} had to be ordered by {order_by} at the "
        "latest (item {item}, needed on {needed})",
        "a day not before the quote date, {quoted}",
        "start the phase later, find a source with a shorter lead time, or ask the supplier",
        "An item is needed on site on the day of the task that uses it: the phase's Start "
        "and the Day of the rows of Labour that name the line under Uses, in working days without "
        "the Holidays. Less its lead days (else its supplier's) that is the last day to order. "
        "Dates are held against the Job's quote date, not against a clock.",
        PRACTICE,
    ),
    note(
        "LEAD-WITHOUT-DATES",
        "{lines} order lines have a lead time, and {phase} has no start",
        "a Start for each phase, so that orders say by when they must go out",
        "fill in Start on the tab Phases; without it orders carry no dates",
        "Lead times count back from the day that goods are needed. Without the Start of a "
        "phase there is nothing to count from: the orders are made, without dates.",
    ),
    warning(
        "ORDERED-OVER-NEED",
        '{ordered} packs of "{item}" are ordered or have come, {over} more than order '
        "{order} needs",
        "{packs} packs",
        "return them or keep them for another phase: {returns}",
        "The Received tab says what was ordered and what came. After a change the need "
        "can be smaller than that. To order is below zero on the order tab then.",
    ),
    warning(
        "RECEIVED-NOT-ORDERED",
        'Received names "{item}" of "{supplier}", which no order of this run holds in that phase',
        "a code, a supplier and a phase of an order tab",
        "correct the row; if the item is no longer needed, see whether it can go back",
        "A row of Received counts for the order line of its supplier, code and phase. "
        "One that fits none would silently not be taken off what is still to order.",
    ),
    error(
        "ORDER-NUMBER-TAKEN",
        'order {order} stands in the folder already, for another job: "{other}"',
        "order numbers of this job only",
        "give each workbook its own Order number prefix on the Job, or another folder",
        "An order file that may have been sent is never replaced. The Reference in its CSV "
        "says which job it is for: the Job name, or the workbook's file name where it has none.",
    ),
    warning(
        "ORDER-RECORD-GONE",
        "order {order} stands in the folder without its record, {file}",
        "the CSV beside the workbook, as it was written",
        "compare the new revision with the order before it by hand",
        "What was written last is read back from the CSV file, so that a run can tell what "
        "has changed. Without it the order gets another revision, changed or not.",
    ),
    warning(
        "ORDER-NO-LONGER-NEEDED",
        "order {order} to {supplier} stands in the folder, and this run has no such order",
        "an order for every file of this job",
        "if it was sent, cancel it with the supplier; then move its files elsewhere",
        "A supplier or a phase that is gone leaves an order that may have been sent. Its "
        "files are kept, and nobody is told but you.",
    ),
    warning(
        "ORDER-LEFT-AS-IT-WAS",
        "order {order} stands in the folder; without {rooms}, left out for errors, it would "
        "be smaller",
        "orders that get smaller only where less is wanted",
        "correct the errors and order again; until then the order stands as it was",
        "A room with an error is still to be built. What was ordered for it is not taken "
        "back because a cell is wrong; orders that grow without it are revised as always.",
    ),
    warning(
        "COMBINED-BOOKS-DIFFER",
        '{what} of "{item}" differs between the workbooks: {values}',
        "the same in all of them",
        "make the price lists agree; until then each stands on a line of its own",
        "Packs are rounded up once over all workbooks. That needs the same thing at the "
        "same price: code, supplier code, description, pack and price.",
    ),
    warning(
        "COMBINED-TERMS-DIFFER",
        "{what} for orders to {suppliers} differs between the workbooks: {values}",
        "the same in all of them",
        "make Job and Suppliers agree, or order these workbooks apart; until then the order has "
        "{taken}",
        "An order has one head, one tax and one delivery charge. They are those of the first "
        "workbook that lists the supplier.",
    ),
    error(
        "COMBINED-CURRENCIES-DIFFER",
        "the workbooks count in {values}",
        "one currency",
        "order these workbooks apart",
        "Amounts in several currencies can't stand in one order.",
    ),
)

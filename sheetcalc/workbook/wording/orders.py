"""Words of the findings about orders."""

from sheetcalc.domain.finding import Severity
from sheetcalc.workbook.wording.wording import Wording

_CONTRACT = "the workbook's contract"

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
)

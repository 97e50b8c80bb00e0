"""Words of the findings about money and price lists."""

from sheetcalc.domain.finding import Severity
from sheetcalc.workbook.wording.wording import Wording

_CONTRACT = "the workbook's contract"

WORDINGS: tuple[Wording, ...] = (
    Wording(
        code="TWO-CURRENCIES",
        severity=Severity.ERROR,
        found="{found} names more than one currency",
        expected="one currency for every price of the workbook, such as EUR",
        what_to_do="type one currency, and convert prices in another before they are typed in",
        explain="Amounts of orders and of the quote are added up, so that all prices of a "
        "workbook have to be in one currency. Nothing is converted: a rate of exchange is a "
        "matter of the day, and of who bears the risk.",
        source=_CONTRACT,
    ),
    Wording(
        code="PRICE-IN-OTHER-CURRENCY",
        severity=Severity.WARNING,
        found="the Job's currency is {currency}; cells of this column that are shown in {other}: "
        "{count}",
        expected="prices in {currency}",
        what_to_do="convert the prices, or set the format of the cells to plain numbers if they "
        "are in {currency}",
        explain="A number's format may show a currency beside it. Where that is another than the "
        "Job's, the prices may have been pasted from a list in that currency; they would be added "
        "up as if they were in the Job's. Nothing is converted.",
        source=_CONTRACT,
    ),
)

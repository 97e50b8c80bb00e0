"""Words of the findings about money and price lists."""

from sheetcalc.workbook.wording.wording import PRACTICE, Wording, error, warning

WORDINGS: tuple[Wording, ...] = (
    error(
        "TWO-CURRENCIES",
        "{found} names more than one currency",
        "one currency for every price of the workbook, such as EUR",
        "type one currency, and convert prices in another before they are typed in",
        "Amounts of orders and of the quote are added up, so that all prices of a "
        "workbook have to be in one currency. Nothing is converted: a rate of exchange is a "
        "matter of the day, and of who bears the risk.",
    ),
    warning(
        "CURRENCY-UNKNOWN",
        "{found}, which is no code or symbol of a currency",
        "the three letters of a currency, such as EUR (ISO 4217)",
        "type the three letters; if suppliers and clients know it as it is, accept this",
        "The currency stands on every order and quote, and in their files for other "
        "programs, which know currencies by the codes of ISO 4217. A symbol such as € is taken "
        "too.",
        "ISO 4217, as listed in the iso-codes data set",
    ),
    warning(
        "PRICE-IN-OTHER-CURRENCY",
        "the Job's currency is {currency}; cells of this column that are shown in {other}: {count}",
        "prices in {currency}",
        "convert the prices, or set the format of the cells to plain numbers if they "
        "are in {currency}",
        "A number's format may show a currency beside it. Where that is another than the "
        "Job's, the prices may have been pasted from a list in that currency; they would be added "
        "up as if they were in the Job's. Nothing is converted.",
    ),
    warning(
        "TASK-TWICE",
        "{found}, which stands in row {row} already; the hours of both rows count",
        "each task once for a basis, a finish, a surface and a day",
        "delete one of the two rows; if both are meant, give one of them another name, "
        "or accept this",
        "A row that was pasted twice would be quoted twice. A task may have several rows: "
        "for several bases, finishes, surfaces or days.",
    ),
    warning(
        "TASK-WITHOUT-RATE",
        'the task "{task}" is needed, and its row has no hourly rate',
        "what an hour of it costs",
        "type the rate; until then the quote says 'to be priced', and its total is "
        "marked incomplete; type 0 for work that is not charged",
        "A task without a rate is quoted all the same: its hours stand on Quote labour, "
        "and its amount is not counted as 0. Typing the rate later fills the quote in without "
        "another run. A Labour tab without any row means that the quote holds no labour, and the "
        "quote says so.",
    ),
    error(
        "PRICE-LIST-NO-TABLE",
        "no row of the list has a header for a code and one for a price or another column",
        "a row of headers such as Article no., Description, Price, and the items below it",
        "name the columns as the catalogue tabs do, in the list's first rows or with "
        "--column, such as --column Preis=Price",
        "The columns of a supplier's list are matched by their headers: those of the "
        "catalogue tabs, and what suppliers commonly call them. The first 60 rows of every sheet "
        "are searched for the row with the most of them.",
        PRACTICE,
    ),
    error(
        "PRICE-LIST-CODE-TWICE",
        'the code "{code}" stands in rows {rows} of the list, which say different things',
        "a code once, or rows that agree",
        "ask the supplier which row is right, and take the others out of the list",
        "Which of two prices is meant can't be told from the list. As long as a code is "
        "doubtful, nothing of the list is written.",
        PRACTICE,
    ),
    error(
        "PRICE-LIST-VALUE",
        '{found} in row {row} of the list, column "{header}"',
        "what the column {column} of {tab} takes",
        "correct the cell in the list, or empty it; {hint}",
        "A value of the list is held to the same rules as one that is typed into the "
        "catalogue tab: a number where one belongs, within the column's bounds, one of its words.",
    ),
    error(
        "PRICE-LIST-UNIT",
        '"{header}" in the list gives prices for another unit of area than the Job\'s',
        "prices per {unit}, per piece or per box",
        "ask for prices per {unit}, or convert the prices, and say what they are for",
        "Prices by area are for the Job's unit of area. A price for a square foot is not "
        "taken for one of a square metre; prices are not converted, for a converted price is not "
        "the one that the supplier invoices.",
    ),
    error(
        "PRICE-LIST-PER",
        'row {row} of the list has a price for "{per}"',
        "the price of a whole pack, as {tab} counts it",
        "ask for the price of the pack; if a pack holds just that, empty the cell with "
        "the unit, or take the unit out of the header",
        "Tiles may be priced by the box, the piece or the area; everything else by the "
        "pack. A price for a metre or a kilogram is not taken for one of a roll or a bag.",
    ),
    error(
        "PRICE-LIST-SUPPLIER-UNCLEAR",
        'the code "{code}" stands in the workbook with several suppliers: {suppliers}',
        "one supplier whose list this is",
        "name the supplier with --supplier, or give the list a column Supplier",
        "A code that several suppliers sell has a price of each. Whose price a list holds "
        "is asked, not guessed.",
    ),
    error(
        "PRICE-LIST-SUPPLIER-UNKNOWN",
        'no row of Suppliers or of the catalogue has the supplier "{supplier}"',
        "one of: {suppliers}",
        "correct --supplier; a new supplier is added to Suppliers first",
        "With --supplier only rows of that supplier are looked at: under a name that is spelt "
        "another way none of the list's prices would be taken over.",
    ),
    warning(
        "PRICE-LIST-LEAP",
        "prices that are {times} times what they were or more, or as much less: {leaps}",
        "prices near those before; otherwise a list of other packs, or decimals read wrongly",
        "compare these with the list; what is right is written with --apply as it is shown",
        "A price of 0 is among them: lists leave it where there is none.",
        PRACTICE,
    ),
    warning(
        "PRICE-LIST-NO-PRICE",
        "rows of the list with words for a price: {rows}",
        "a number",
        "ask the supplier for these prices; until then the workbook keeps what it has for them, "
        "which may be out of date",
        "Lists say on request, or n/a, of what has no price. Such a row is left out whole, its "
        "lead days too, and all others are taken. A price with digits that can't be read is an "
        "error.",
        PRACTICE,
    ),
)

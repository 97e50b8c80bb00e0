"""Wrong workbooks for the findings on money and price lists."""

from gallery import Said, Wrong, cell, setting, shown_as, wrong

ENTRIES: tuple[Wrong | Said, ...] = (
    wrong("TWO-CURRENCIES", "Job!B15", setting("Currency", "EUR / GBP")),
    wrong(
        "PRICE-IN-OTHER-CURRENCY",
        "Bags and pails!K5",
        cell("Bags and pails", "Pack price", 18.9),
        shown_as("Bags and pails", "Pack price", "[$£-809]#,##0.00"),
    ),
)

"""Wrong workbooks for the findings on money and price lists."""

from gallery import Said, Wrong, cell, record, setting, shown_as, wrong, wrong_book

TASK = {"Task": "Set tile", "Basis": "per area of tile", "Hours per unit": 1.1}

ENTRIES: tuple[Wrong | Said, ...] = (
    wrong("CURRENCY-UNKNOWN", "Job!B15", setting("Currency", "Euro")),
    wrong("TWO-CURRENCIES", "Job!B15", setting("Currency", "EUR / GBP")),
    wrong_book(
        "PRICE-IN-OTHER-CURRENCY",
        "Bags and pails!K5",
        cell("Bags and pails", "Pack price", 18.9),
        shown_as("Bags and pails", "Pack price", "[$£-809]#,##0.00"),
    ),
    wrong("TASK-TWICE", "Labour!A6", *[record("Labour", **TASK, **{"Hourly rate": 46})] * 2),
    wrong("PRICE-IS-ZERO", "Tiles!O5", cell("Tiles", "Price", 0), calculated=True),
    wrong(
        "TASK-WITHOUT-RATE",
        "Labour!F5",
        record("Labour", **TASK),
        calculated=True,
    ),
    Said("PRICE-LIST-NO-TABLE"),
    Said("PRICE-LIST-CODE-TWICE", {"code": "KQ-60301", "rows": "4, 9"}),
    Said(
        "PRICE-LIST-VALUE",
        {
            "found": '"on request"',
            "row": 7,
            "header": "Net price",
            "column": "Price",
            "tab": "Tiles",
            "hint": "a number is wanted",
        },
    ),
    Said("PRICE-LIST-UNIT", {"header": "Price per ft²", "unit": "m²"}),
    Said("PRICE-LIST-PER", {"row": 7, "per": "kg", "tab": "Bags and pails"}),
    Said(
        "PRICE-LIST-SUPPLIER-UNKNOWN",
        {"supplier": "Klin & Quarry", "suppliers": "Kiln & Quarry, Harbour Tiles"},
    ),
    Said("PRICE-LIST-LEAP", {"leaps": "T-3030 21.90 to 2190", "times": "2"}),
    Said("PRICE-LIST-NO-PRICE", {"rows": 'T-3030, row 5 ("on request")'}),
    Said(
        "PRICE-LIST-SUPPLIER-UNCLEAR",
        {"code": "T-3030", "suppliers": "Kiln & Quarry, Harbour Tiles"},
    ),
)

"""One currency a workbook: what the Job names, and what formats of prices show."""

from pathlib import Path

import edited_books
import pytest
from openpyxl.workbook import Workbook

from sheetcalc.excel.reading.read import start_reading
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.convert.currencies import as_code, currency_of_format
from sheetcalc.workbook.raw import RawCell


def codes(path: Path, currency: str, number_format: str = "#,##0.00") -> list[str]:
    def edit(book: Workbook) -> None:
        for row in book["Job"].iter_rows(min_row=5):
            if row[0].value == "Currency":
                row[1].value = currency
        column = edited_books.column_of(book, "Tiles", "Price")
        book["Tiles"].cell(5, column).number_format = number_format

    _, findings = to_inputs(start_reading(edited_books.reworked(path, edit)).result())
    return [f.code for f in findings if "CURRENC" in f.code]


@pytest.mark.parametrize("currency", ["EUR", "€", "EUR (€)", "eur ", "US$", "CHF", "₪"])
def test_one_currency_however_it_is_written_is_fine(tmp_path: Path, currency: str) -> None:
    assert codes(tmp_path / "book.xlsx", currency) == []


@pytest.mark.parametrize("currency", ["euro", "EUX", "20", "yes", "EUR net", "E"])
def test_what_is_no_currency_is_asked_about(tmp_path: Path, currency: str) -> None:
    assert codes(tmp_path / "book.xlsx", currency) == ["CURRENCY-UNKNOWN"]


def test_a_code_in_small_letters_stands_in_capitals_on_orders() -> None:
    assert [as_code(text) for text in ("eur", "Chf", "€", "euro")] == ["EUR", "CHF", "€", "euro"]


@pytest.mark.parametrize("currency", ["EUR / GBP", "EUR, USD", "€ and £", "EUR USD"])
def test_two_currencies_in_the_setting_are_found(tmp_path: Path, currency: str) -> None:
    assert codes(tmp_path / "book.xlsx", currency) == ["TWO-CURRENCIES"]


@pytest.mark.parametrize(
    ("currency", "number_format", "found"),
    [
        ("EUR", "#,##0.00 [$€-407]", False),
        ("EUR", '#,##0.00 "EUR"', False),
        ("CAD", "$#,##0.00", False),
        ("EUR", "$#,##0.00", True),
        ("EUR", "[$£-809]#,##0.00", True),
        ("USD", '#,##0.00 "EUR"', True),
        ("ILS", "₪#,##0.00", False),
        ("EUR", "₪#,##0.00", True),
        ("CLP", "[$$-340A]#,##0", False),
    ],
)
def test_prices_shown_in_another_currency_are_found(
    tmp_path: Path, currency: str, number_format: str, *, found: bool
) -> None:
    expected = ["PRICE-IN-OTHER-CURRENCY"] if found else []
    assert codes(tmp_path / "book.xlsx", currency, number_format) == expected


def test_a_format_without_a_currency_names_none() -> None:
    for number_format in ("General", "#,##0.00", "0.0%", "yyyy-mm-dd", '0 "pcs"'):
        assert currency_of_format(RawCell(1.0, "A1", number_format=number_format)) == ""

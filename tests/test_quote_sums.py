"""The Quote tabs of the samples, worked again from their cells in another way: exact fractions."""

from collections import defaultdict
from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook

from sheetcalc import workflows
from sheetcalc.domain.progress import silent
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style
from tests.samples import SAMPLES

NAMES = ("larch-court.xlsx", "alder-street-us.xlsx", "small-room.xlsx")
Sheets = dict[str, list[dict[str, Any]]]


@pytest.fixture(scope="module")
def taken_off(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Workbook]:
    """A sample after a takeoff, with its stored values; to look at, not to change."""
    folder = tmp_path_factory.mktemp("quotes")

    @cache
    def of(name: str) -> Workbook:
        path = folder / name
        path.write_bytes(write_book(SAMPLES[name](), load_house_style(), named_styles=True))
        workflows.takeoff(path, silent, cards=False)
        return load_workbook(path, data_only=True)

    return of


@pytest.fixture(scope="module")
def sheets(taken_off: Callable[[str], Workbook]) -> Callable[[str], Sheets]:
    """Records of every result tab of a sample, by header without its unit."""
    return cache(lambda name: records(taken_off(name)))


def records(book: Workbook) -> Sheets:
    """Rows of every sheet's first table."""
    found: Sheets = {}
    for sheet in book.worksheets:
        for table in sheet.tables.values():
            cells = sheet[table.ref]
            headers = [str(c.value).partition(" (")[0] for c in cells[0]]
            rows = [dict(zip(headers, (c.value for c in row), strict=True)) for row in cells[1:]]
            found.setdefault(sheet.title, rows)
    return found


def cents(value: Fraction) -> Decimal:
    """Half up, in whole numbers only."""
    scaled = value * 100
    whole = (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
    return Decimal(whole) / 100


def exact(value: object) -> Fraction:
    """A cell's number as it is displayed, so that 27.9 is 27.9."""
    return Fraction(str(value))


def ordered(book: Sheets) -> dict[str, Fraction]:
    """Item -> amount over all orders."""
    amounts: dict[str, Fraction] = defaultdict(Fraction)
    for name, rows in book.items():
        if name.startswith("Order - "):
            for row in rows:
                amounts[row["Item"]] += exact(row["Amount"])
    return amounts


@pytest.mark.parametrize("name", NAMES)
def test_materials_of_all_types_add_up_to_the_orders_exactly(
    name: str, sheets: Callable[[str], Sheets]
) -> None:
    book = sheets(name)
    shares = sum(Decimal(str(row["Materials"])) for row in book["Quote"])
    assert shares == cents(sum(ordered(book).values(), Fraction(0)))


@pytest.mark.parametrize("name", NAMES)
def test_each_types_materials_are_its_share_of_every_item_by_gross(
    name: str, sheets: Callable[[str], Sheets]
) -> None:
    book = sheets(name)
    gross: dict[str, Fraction] = defaultdict(Fraction)
    of_type: dict[tuple[int, str], Fraction] = defaultdict(Fraction)
    units: dict[str, set[str]] = defaultdict(set)
    amounts = ordered(book)
    for row in book["Takeoff"]:
        if row["Item"] in amounts and row["Cost"] is not None:
            gross[row["Item"]] += exact(row["Gross"])
            of_type[row["Type"], row["Item"]] += exact(row["Gross"])
            units[row["Item"]].add(row["Unit"])
    assert all(len(words) == 1 for words in units.values()), "the sum below needs one unit each"
    running, before = Fraction(0), Decimal(0)
    for row in book["Quote"]:
        running += sum(
            (amounts[item] * of_type[row["No."], item] / gross[item] for item in gross),
            Fraction(0),
        )
        assert Decimal(str(row["Materials"])) == cents(running) - before
        before = cents(running)


@pytest.mark.parametrize("name", NAMES)
def test_labour_is_every_tasks_quantity_by_hours_by_rate(
    name: str, sheets: Callable[[str], Sheets]
) -> None:
    book = sheets(name)
    total: dict[int, Decimal] = defaultdict(Decimal)
    for row in book["Quote labour"]:
        if row["Task"] is None:  # a job without tasks
            continue
        worked = exact(row["Quantity"]) * exact(row["Hours per unit"]) * exact(row["Hourly rate"])
        assert Decimal(str(row["Amount"])) == cents(worked)
        total[row["Type"]] += cents(worked)
    for row in book["Quote"]:
        assert Decimal(str(row["Labour"])) == total[row["No."]]


@pytest.mark.parametrize("name", NAMES)
def test_from_cost_to_total_the_steps_are_the_decimal_ones(
    name: str, sheets: Callable[[str], Sheets], taken_off: Callable[[str], Workbook]
) -> None:
    sheet = taken_off(name)["Quote"]
    steps = {
        str(row[5].value).partition(" (")[0]: (row[7].value, row[8].value)
        for row in sheet.iter_rows(min_row=14, max_col=9)
        if isinstance(row[5].value, str)
    }
    money = {
        label: Decimal(str(amount)) for label, (_, amount) in steps.items() if amount is not None
    }
    rate = {label: Decimal(str(share)) for label, (share, _) in steps.items() if share is not None}

    def rounded(amount: Decimal) -> Decimal:
        return amount.quantize(Decimal("0.01"), ROUND_HALF_UP)

    cost = money["Materials"] + money["Labour"] + money["Delivery charges"]
    overhead = rounded(cost * rate["Overhead"])
    profit = rounded((cost + overhead) * rate["Profit"])
    contingency = rounded((cost + overhead + profit) * rate["Contingency"])
    price = cost + overhead + profit + contingency
    assert money["Price without tax"] == price
    assert money["Tax"] == rounded(price * rate["Tax"])
    assert money["Total"] == price + rounded(price * rate["Tax"])
    book = sheets(name)
    assert sum(Decimal(str(row["Price"])) for row in book["Quote"]) == price


@pytest.mark.parametrize("name", NAMES)
def test_prices_of_rooms_add_up_to_those_of_their_types(
    name: str, sheets: Callable[[str], Sheets]
) -> None:
    book = sheets(name)
    for header in ("Materials", "Labour", "Price"):
        shares: dict[int, Decimal] = defaultdict(Decimal)
        for row in book["Quote by room"]:
            shares[row["Type"]] += Decimal(str(row[header]))
        of_types = {
            row["No."]: Decimal(str(row[header]))
            for row in book["Quote"]
            if row["Type of room"] != "whole job"
        }
        assert shares == of_types

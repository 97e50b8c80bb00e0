"""What a price of a list is for: said in its header or beside it, and never taken for another."""

import edited_books
import pytest
from typed_books import TypedBook

from sheetcalc.domain.measure import JobUnits
from sheetcalc.domain.price_list import Grid, PricePlan
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.workbook.prices.plan import Wanted, plan_prices
from sheetcalc.workbook.raw import RawBook


@pytest.fixture(scope="module")
def raw(tmp_path_factory: pytest.TempPathFactory) -> RawBook:
    """The smallest sample: tile T-3030 at 21.90 a box, mortar C-FLEX at 18.90 a bag."""

    def edit(made: TypedBook) -> None:
        edited_books.put(made, "Tiles", "Price", 21.9)
        edited_books.put(made, "Tiles", "Price per", "box")

    path = tmp_path_factory.mktemp("prices") / "book.xlsx"
    return start_reading(edited_books.edited(path, edit)).result()


def plan(raw: RawBook, text: str, wanted: Wanted | None = None) -> PricePlan:
    rows = tuple(
        tuple(cell.strip() or None for cell in line.split("|")) for line in text.splitlines()
    )
    return plan_prices((Grid("", rows, comma=False),), raw, JobUnits(), wanted)


def changes(made: PricePlan) -> dict[str, str]:
    return {change.column: change.new for change in made.changes}


def codes(made: PricePlan) -> list[str]:
    return [finding.code for finding in made.findings]


@pytest.mark.parametrize(
    ("unit", "per"), [("m2", "area"), ("M²", "area"), ("sqm", "area"), ("pcs", "piece")]
)
def test_the_unit_beside_a_price_says_what_it_is_for(raw: RawBook, unit: str, per: str) -> None:
    # 24 for a square metre is not 24 for a box of 0.98 m2
    made = plan(raw, f"Code|Unit|Price\nT-3030|{unit}|24")
    assert changes(made) == {"Price": "24", "Price per": per}
    assert [column.meant for column in made.columns] == ["Code", "Price per", "Price"]


@pytest.mark.parametrize("unit", ["box", "Ctn.", "pack", "per box"])
def test_a_unit_that_the_workbook_has_changes_nothing_but_the_price(
    raw: RawBook, unit: str
) -> None:
    rows = (("Code", "Unit", "Price"), ("T-3030", unit, 24))
    made = plan_prices((Grid("", rows, comma=False),), raw, JobUnits(), None)
    assert changes(made) == {"Price": "24"}


def test_a_tile_priced_for_something_unknown_is_asked_about(raw: RawBook) -> None:
    made = plan(raw, "Code|Unit|Price\nT-3030|bundle|24")
    assert codes(made) == ["PRICE-LIST-VALUE"]


def test_a_tile_priced_for_the_other_systems_area_is_refused(raw: RawBook) -> None:
    assert codes(plan(raw, "Code|Unit|Price\nT-3030|sqft|2.4")) == ["PRICE-LIST-UNIT"]


@pytest.mark.parametrize(
    ("text", "said"),
    [("Code|Unit|Price\nC-FLEX|kg|0.95", "kg"), ("Code|Price/m²\nC-FLEX|0.95", "Price/m²")],
)
def test_a_price_by_measure_is_not_taken_for_one_of_a_bag(
    raw: RawBook, text: str, said: str
) -> None:
    made = plan(raw, text)
    assert codes(made) == ["PRICE-LIST-PER"]
    assert made.findings[0].facts["per"] == said


def test_a_bag_priced_by_the_bag_is_taken(raw: RawBook) -> None:
    assert changes(plan(raw, "Code|Unit|Price\nC-FLEX|bag|19.5")) == {"Pack price": "19.5"}


def test_beside_contents_a_unit_is_that_of_the_contents(raw: RawBook) -> None:
    made = plan(raw, "Code|Content|Unit|Price\nC-FLEX|20|kg|19.5")
    assert (codes(made), changes(made)) == ([], {"Pack price": "19.5"})


def test_a_pack_price_of_a_tile_is_that_of_its_box(raw: RawBook) -> None:
    assert changes(plan(raw, "Code|Pack price\nT-3030|24")) == {"Price": "24"}


def test_headers_of_another_language_are_named_by_the_person(raw: RawBook) -> None:
    text = "Artikel|Preis\nT-3030|24"
    assert codes(plan(raw, text)) == ["PRICE-LIST-NO-TABLE"]
    made = plan(raw, text, Wanted(renamed={"artikel": "Code", "Preis": "price"}))
    assert changes(made) == {"Price": "24"}

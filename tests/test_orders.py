"""Order files: written once, revised when something changed, never replaced."""

import json
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from edited_books import add, edited, put
from openpyxl import load_workbook
from order_files import DAY, NUMBER, both, names, packs_of, rows, run, setting, texts, typed
from typed_books import TypedBook

from sheetcalc.workbook.order_csv import HEAD, LINE


def room_twice(book: TypedBook) -> None:
    put(book, "Rooms", "Count", 5)
    put(book, "Rooms", "Copies", "101-105")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return edited(tmp_path / "job.xlsx", lambda _book: None)


@pytest.fixture
def to(tmp_path: Path) -> Path:
    return tmp_path / "orders" / "sent"


@pytest.fixture(scope="module")
def first_order(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the book's order, written once for all tests of this file."""
    folder = tmp_path_factory.mktemp("first")
    result = run(edited(folder / "job.xlsx", lambda _book: None), "--to", folder / "sent",
                 "--date", DAY)  # fmt: skip
    assert result.exit_code == 0, result.output
    return folder / "sent"


@pytest.fixture
def ordered(first_order: Path, to: Path) -> None:
    """The book has been ordered once, on that day."""
    shutil.copytree(first_order, to)


def test_an_order_is_a_workbook_and_a_csv_of_its_number(book: Path, to: Path) -> None:
    result = run(book, "--to", to, "--date", DAY)
    assert result.exit_code == 0, result.output
    assert names(to) == [f"{NUMBER}.csv", f"{NUMBER}.xlsx"]
    assert "1 order: 1 new" in result.output.splitlines()[-1]


@pytest.mark.usefixtures("ordered")
def test_a_word_for_the_total_has_the_room_of_three_columns(to: Path) -> None:
    sheet = load_workbook(to / f"{NUMBER}.xlsx").worksheets[0]
    (label,) = (c for row in sheet.iter_rows() for c in row if str(c.value).startswith("Total ("))
    beside = [label.offset(column=at) for at in (1, 2)]
    assert [cell.value for cell in beside] == [None, None], "what is longer runs on into these"
    widths = [sheet.column_dimensions[cell.column_letter].width for cell in (label, *beside)]
    assert sum(widths) > len("Gesamtbetrag brutto (EUR)"), "in another language it is longer"
    assert isinstance(label.offset(column=3).value, float)


@pytest.mark.usefixtures("ordered")
def test_a_second_run_writes_nothing(book: Path, to: Path) -> None:
    before = {path: path.read_bytes() for path in to.iterdir()}
    result = run(book, "--to", to, "--date", "2027-03-04")
    assert "1 as they were" in result.output.splitlines()[-1]
    assert {path: path.read_bytes() for path in to.iterdir()} == before


@pytest.mark.usefixtures("ordered")
def test_a_changed_order_is_another_revision_that_says_what_changed(book: Path, to: Path) -> None:
    sent = (to / f"{NUMBER}.xlsx").read_bytes()

    def change(changed: TypedBook) -> None:
        put(changed, "Tiles", "Price", 22.5)
        put(changed, "Bags and pails", "Supplier", "Adobe", 7)
        add(changed, "Suppliers", Supplier="Adobe")

    edited(book, change)
    result = run(book, "--to", to, "--date", "2027-02-09")
    assert "1 revised" in result.output.splitlines()[-1]
    assert (to / f"{NUMBER}.xlsx").read_bytes() == sent
    revised = texts(to / f"{NUMBER} rev 1.xlsx")
    assert "Revision 1: it replaces the order before it as a whole." in revised
    assert any("Pack price 22.50, was 21.90" in text for text in revised)
    assert any("S-GREY Sanitary silicone: removed" in text for text in revised)
    listed = {row["Our code"]: row for row in rows(to / f"{NUMBER} rev 1.csv")}
    assert listed["S-GREY"]["Packs"] == "0"
    assert listed["S-GREY"]["Change"].startswith("removed, was ")
    assert listed["T-3030"]["Change"].startswith("Pack price was 21.90")


@pytest.mark.usefixtures("ordered")
def test_revisions_count_on_from_the_last_one(book: Path, to: Path) -> None:
    for price in (22.5, 23.5):
        edited(book, lambda changed, price=price: put(changed, "Tiles", "Price", price))
        run(book, "--to", to, "--date", DAY)
    assert [n for n in names(to) if n.endswith("xlsx")] == [
        f"{NUMBER} rev 1.xlsx", f"{NUMBER} rev 2.xlsx", f"{NUMBER}.xlsx",
    ]  # fmt: skip


@pytest.mark.usefixtures("ordered")
def test_a_csv_that_a_spreadsheet_program_has_saved_is_the_same_order(book: Path, to: Path) -> None:
    path = to / f"{NUMBER}.csv"
    saved = path.read_text(encoding="utf-8-sig").replace(",21.90,", ",21.9,")
    path.write_text(saved.replace("\r\n", "\n"), encoding="utf-8")
    assert "1 as they were" in run(book, "--to", to, "--date", DAY).output.splitlines()[-1]


@pytest.mark.usefixtures("ordered")
def test_a_lost_workbook_of_an_order_is_made_again_as_it_was(book: Path, to: Path) -> None:
    path = to / f"{NUMBER}.xlsx"
    before = path.read_bytes()
    path.unlink()
    run(book, "--to", to, "--date", "2027-05-05")
    assert path.read_bytes() == before


@pytest.mark.usefixtures("ordered")
def test_an_order_without_its_record_gets_another_revision_and_a_warning(
    book: Path, to: Path
) -> None:
    (to / f"{NUMBER}.csv").unlink()
    result = run(book, "--to", to, "--date", DAY)
    assert "ORDER-RECORD-GONE" in result.output
    assert f"{NUMBER} rev 1.xlsx" in names(to)


@pytest.mark.usefixtures("ordered")
def test_an_order_number_of_another_job_is_refused(to: Path, tmp_path: Path) -> None:
    other = edited(tmp_path / "other.xlsx", setting("Job name", "Other house"))
    before = names(to)
    result = run(other, "--to", to, "--date", DAY)
    assert result.exit_code == 1
    assert "ORDER-NUMBER-TAKEN" in result.output
    assert names(to) == before


def test_two_workbooks_of_one_run_may_not_share_a_number(
    book: Path, to: Path, tmp_path: Path
) -> None:
    twin = edited(tmp_path / "twin.xlsx", room_twice)
    result = run(book, twin, "--to", to, "--date", DAY)
    assert result.exit_code == 1
    assert names(to) == [f"{NUMBER}.csv", f"{NUMBER}.xlsx"]


@pytest.mark.usefixtures("ordered")
def test_an_order_that_is_no_longer_made_is_told_and_kept(book: Path, to: Path) -> None:

    def elsewhere(changed: TypedBook) -> None:
        put(changed, "Suppliers", "Supplier", "Adobe")
        put(changed, "Tiles", "Supplier", "Adobe")
        for row in (5, 6, 7):
            put(changed, "Bags and pails", "Supplier", "Adobe", row)

    edited(book, elsewhere)
    result = run(book, "--to", to, "--date", DAY)
    assert "ORDER-NO-LONGER-NEEDED" in result.output
    assert result.exit_code == 0
    assert f"{NUMBER}.xlsx" in names(to)
    assert "PO-ADOBE.xlsx" in names(to)


def test_a_workbook_with_errors_gets_no_orders(book: Path, to: Path) -> None:
    edited(book, lambda changed: put(changed, "Rooms", "Length", -1))
    assert run(book, "--to", to, "--date", DAY).exit_code == 1
    assert names(to) == []


def test_rooms_without_errors_are_ordered_as_incomplete_where_that_is_asked_for(
    book: Path, to: Path
) -> None:
    def second(changed: TypedBook) -> None:
        add(changed, "Rooms", Room="Bath", Length=-1, Width=2, Finish="Plain")

    edited(book, second)
    result = run(book, "--to", to, "--date", DAY, "--leave-out-faulty")
    assert result.exit_code == 1
    assert "INCOMPLETE, left out: Bath" in result.output.splitlines()[-1]
    assert rows(to / f"{NUMBER}.csv")[0]["Note"].startswith("INCOMPLETE")
    assert any(text.startswith("INCOMPLETE") for text in texts(to / f"{NUMBER}.xlsx"))
    edited(book, lambda changed: add(changed, "Rooms", Room="Bath", Length=2, Width=2,
                                     Finish="Plain") and None)  # fmt: skip
    run(book, "--to", to, "--date", DAY)
    revised = texts(to / f"{NUMBER} rev 1.xlsx")
    assert any(text.startswith("Note: none, was INCOMPLETE") for text in revised)


def test_a_sent_order_does_not_shrink_because_a_room_has_an_error(book: Path, to: Path) -> None:
    def second(length: float) -> Callable[[TypedBook], None]:
        def edit(changed: TypedBook) -> None:
            add(changed, "Rooms", Room="Bath", Length=length, Width=3, Finish="Plain")

        return edit

    edited(book, second(4))
    run(book, "--to", to, "--date", DAY)
    sent = names(to)
    edited(book, second(-4))
    result = run(book, "--to", to, "--date", DAY, "--leave-out-faulty")
    assert "ORDER-LEFT-AS-IT-WAS" in result.output
    assert "1 as they were" in result.output.splitlines()[-1]
    assert names(to) == sent
    edited(book, second(2))  # corrected, and smaller: now less is wanted
    assert "1 revised" in run(book, "--to", to, "--date", DAY).output.splitlines()[-1]


def test_orders_do_not_go_where_workbooks_stand(book: Path) -> None:
    result = run(book, "--to", book.parent)
    assert result.exit_code == 2
    assert "a folder of its own" in result.output


def test_a_file_in_place_of_the_folder_ends_with_3(book: Path, tmp_path: Path) -> None:
    place = tmp_path / "place"
    place.write_text("note", encoding="utf-8")
    assert run(book, "--to", place).exit_code == 3


def test_no_text_of_a_csv_is_a_formula(book: Path, to: Path) -> None:
    def tricky(changed: TypedBook) -> None:
        put(changed, "Tiles", "Description", "+cmd|' /C calc'!A0")
        put(changed, "Tiles", "Supplier code", "@SUM(A1)")
        put(changed, "Bags and pails", "Description", "-2+3")

    edited(book, both(tricky, setting("Buyer", "@cmd")))
    run(book, "--to", to, "--date", DAY)
    for row in rows(to / f"{NUMBER}.csv"):
        assert not [v for v in row.values() if v.startswith(("=", "+", "-", "@", "\t", "\r"))]
    assert rows(to / f"{NUMBER}.csv")[0]["Description"] == "'+cmd|' /C calc'!A0"
    # the apostrophe is the file's, not the order's: nothing has changed
    assert "1 as they were" in run(book, "--to", to, "--date", DAY).output.splitlines()[-1]


def test_the_workbook_of_an_order_holds_no_formula_and_none_of_our_working(
    book: Path, to: Path
) -> None:
    # waste, needs, margins, labour and other suppliers stay at home
    def more(changed: TypedBook) -> None:
        add(changed, "Suppliers", Supplier="Secret Stores")
        add(changed, "Labour", Task="Lay", Basis="per room", Hours_per_unit=3, Hourly_rate=777)

    edited(book, both(more, setting("Profit", 0.4321)))
    run(book, "--to", to, "--date", DAY)
    written = texts(to / f"{NUMBER}.xlsx")
    assert not [text for text in written if text.startswith("=")]
    joined = " ".join([*written, (to / f"{NUMBER}.csv").read_text(encoding="utf-8-sig")])
    for word in ("Secret", "777", "432", "waste", "Gross", "margin", "Profit", "Labour"):
        assert word not in joined


UBL = {
    "cbc:ID": "Order number",
    "cbc:IssueDate": "Issue date",
    "cac:BuyerCustomerParty": "Buyer",
    "cbc:CustomerAssignedAccountID": "Account",
    "cac:SellerSupplierParty": "Supplier",
    "cac:Delivery/cac:DeliveryAddress": "Deliver to",
    "cac:Delivery/cac:RequestedDeliveryPeriod": "Deliver on",
    "cac:PaymentTerms": "Terms",
    "cac:TaxTotal": "Tax",
    "cac:AnticipatedMonetaryTotal": "Total",
    "cac:LineItem/cbc:ID": "Line",
    "cac:LineItem/cbc:Quantity": "Packs",
    "cac:LineItem/cbc:Quantity@unitCode": "Package code",
    "cac:LineItem/cbc:LineExtensionAmount": "Amount",
    "cac:Price/cbc:PriceAmount": "Pack price",
    "cac:Item/cbc:Description": "Description",
    "cbc:PackSizeNumeric": "Pack size",
    "cac:SellersItemIdentification": "Supplier code",
    "cac:BuyersItemIdentification": "Our code",
    "currencyID": "Currency",
}
"""UBL Order (OASIS UBL 2.3), its fields, and where an order has them.

SalesOrderID is the seller's; the base quantity of a price is one package.
"""


@pytest.mark.usefixtures("ordered")
def test_an_order_carries_the_fields_of_a_ubl_order(to: Path) -> None:
    (first, *_) = rows(to / f"{NUMBER}.csv")
    assert set(UBL.values()) <= set(first)
    assert {*HEAD, *LINE} <= set(first)
    filled = {k: first[v] for k, v in UBL.items()}
    assert filled["cbc:ID"] == NUMBER
    assert filled["cbc:IssueDate"] == DAY
    # 28 tiles of 300 mm and a few more are 3 boxes of 11, with the spares; codes of
    # Recommendations 21 and 20
    assert (first["Package code"], first["Unit code"], first["Pack size"]) == ("BX", "H87", "11")


def test_json_lists_the_files(book: Path, to: Path) -> None:
    document = json.loads(run(book, "--to", to, "--date", DAY, "--json").output)
    assert document["exit_code"] == 0
    assert [Path(f).name for f in document["books"][0]["files"]] == [
        f"{NUMBER}.csv", f"{NUMBER}.xlsx",
    ]  # fmt: skip


@pytest.mark.usefixtures("ordered")
def test_what_was_ordered_before_stands_beside_what_is_new(book: Path, to: Path) -> None:
    sent = packs_of(to)
    assert {r["Ordered before"] for r in rows(to / f"{NUMBER}.csv")} == {"0"}
    edited(book, typed("Ordered", sent))
    assert "1 as they were" in run(book, "--to", to, "--date", DAY).output
    edited(book, both(typed("Ordered", sent), room_twice))
    run(book, "--to", to, "--date", DAY)
    for row in rows(to / f"{NUMBER} rev 1.csv"):
        before = sent[row["Our code"]]
        assert int(row["Ordered before"]) == before
        assert int(row["To order now"]) == int(row["Packs"]) - before
    shown = texts(to / f"{NUMBER} rev 1.xlsx")
    assert "To order now" in shown
    assert any("Quantity holds what was ordered before" in text for text in shown)


@pytest.mark.usefixtures("ordered")
def test_nothing_is_written_of_an_order_that_was_ordered_otherwise(book: Path, to: Path) -> None:
    edited(book, typed("Ordered", packs_of(to)))
    result = run(book, "--to", to / "another", "--date", DAY)
    assert "1 ordered in full before, without a file" in result.output
    assert names(to / "another") == []


@pytest.mark.usefixtures("ordered")
def test_what_has_come_stays_in_the_order_and_an_order_that_came_in_full_is_not_revised(
    book: Path, to: Path
) -> None:
    sent = packs_of(to)
    dearer = both(typed("Received", sent), lambda b: put(b, "Tiles", "Price", 99))
    edited(book, dearer)
    assert "1 as they were" in run(book, "--to", to, "--date", DAY).output
    # two more of the first code came than are needed: they are in the order, to be paid
    code = next(iter(sent))
    edited(book, typed("Received", {code: sent[code] + 2}))
    run(book, "--to", to, "--date", DAY)
    row = rows(to / f"{NUMBER} rev 1.csv")[0]
    assert (row["Packs"], row["To order now"]) == (str(sent[code] + 2), "0")
    assert float(row["Amount"]) == pytest.approx((sent[code] + 2) * float(row["Pack price"]))
    assert float(row["Goods"]) == pytest.approx(
        sum(float(r["Amount"]) for r in rows(to / f"{NUMBER} rev 1.csv"))
    )


def test_the_date_is_today_unless_it_is_given(book: Path, to: Path) -> None:
    run(book, "--to", to)
    issued = date.fromisoformat(rows(to / f"{NUMBER}.csv")[0]["Issue date"])
    assert abs((date.today() - issued).days) <= 1  # noqa: DTZ011 - midnight may pass


def test_a_run_that_errors_stop_says_nothing_of_the_size_of_orders(
    to: Path, tmp_path: Path
) -> None:
    # too small, and more ordered than is needed: true of the whole job only
    small = both(
        lambda b: put(b, "Suppliers", "Minimum order", 99_999),
        typed("Ordered", {"T-3030": 900, "T-9999": 1}),
    )
    told = run(edited(tmp_path / "whole.xlsx", small), "--to", to).output
    faulty = both(small, lambda b: put(b, "Rooms", "Length", -1))
    stopped = run(edited(tmp_path / "faulty.xlsx", faulty), "--to", to).output
    for code in ("ORDER-BELOW-MINIMUM", "ORDERED-OVER-NEED", "RECEIVED-NOT-ORDERED"):
        assert code in told
        assert code not in stopped

"""Orders of several workbooks together: rounded once, cut once, and what that saves."""

from collections.abc import Callable
from pathlib import Path

import pytest
from edited_books import add, edited, put
from openpyxl import load_workbook
from order_files import DAY, NUMBER, names, rows, run, setting
from typed_books import TypedBook


@pytest.fixture
def to(tmp_path: Path) -> Path:
    return tmp_path / "orders" / "sent"


def test_several_buildings_are_rounded_once_and_the_saving_is_told(
    to: Path, tmp_path: Path
) -> None:
    # no item takes more packs than apart, its parts add up to its packs, and what is saved is
    # what the orders apart cost less what the one together does
    folder = tmp_path / "buildings"
    folder.mkdir()
    for name in ("North", "South", "West"):
        edited(folder / f"{name}.xlsx", setting("Job name", name))
    apart = []
    for path in sorted(folder.iterdir()):
        run(path, "--to", to / path.stem, "--date", DAY)
        apart.append({r["Our code"]: r for r in rows(to / path.stem / f"{NUMBER}.csv")})
    result = run(folder, "--to", to / "all", "--combined", "--date", DAY)
    assert result.exit_code == 0, result.output
    assert names(to / "all") == [
        "ALL-KILNQUAR.csv", "ALL-KILNQUAR.xlsx",
        "Saving by ordering together (not to be sent).xlsx",
    ]  # fmt: skip
    together = {r["Our code"]: r for r in rows(to / "all" / "ALL-KILNQUAR.csv")}
    for code, row in together.items():
        assert int(row["Packs"]) <= sum(int(one[code]["Packs"]) for one in apart)
        in_parts = [int(part.split(": ")[1].split()[0]) for part in row["In parts"].split("; ")]
        assert sum(in_parts) == int(row["Packs"])
    saved = sum(float(one[c]["Amount"]) for one in apart for c in one) - sum(
        float(r["Amount"]) for r in together.values()
    )
    assert saved > 0
    assert f"saves {saved:.2f} EUR" in result.output


def on_underlay(name: str) -> Callable[[TypedBook], None]:
    """Name a building and lay its floors on an underlay, whose rolls are sold from three on."""

    def edit(book: TypedBook) -> None:
        setting("Job name", name)(book)
        add(
            book, "Rolls and sheets", Code="U-1", Supplier="Kiln & Quarry", Description="Underlay",
            Kind="underlay roll", Width=1, Length=30, Package="roll", Price=100,
            Minimum_packs=3,
        )  # fmt: skip
        add(book, "Build-up", Finish="Plain", Surface="floor", Order=1, Role="underlay", Item="U-1")

    return edit


def test_rolls_are_cut_for_all_buildings_together(to: Path, tmp_path: Path) -> None:
    # each building's floors take a part of one roll of 30 m and no order below three: three rolls
    # apart each; together one would do, and three are the least, once
    folder = tmp_path / "buildings"
    folder.mkdir()
    for name in ("North", "South"):
        edited(folder / f"{name}.xlsx", on_underlay(name))
    result = run(folder, "--to", to, "--combined", "--date", DAY)
    assert result.exit_code == 0, result.output
    assert "U-1: cut for all buildings together" in result.output
    (row,) = [r for r in rows(to / "ALL-KILNQUAR.csv") if r["Our code"] == "U-1"]
    assert (row["Packs"], row["In parts"].count("North")) == ("3", 1)
    saving = load_workbook(to / "Saving by ordering together (not to be sent).xlsx")
    (apart,) = [r for r in saving["Saving"].iter_rows(values_only=True) if r[1] == "U-1"]
    assert apart[3:6] == (6, 3, 100)
    cut = list(saving["Roll plan"].iter_rows(min_row=5, values_only=True))
    assert {str(r[9]).split(",")[0] for r in cut if r[9]} == {"North", "South"}
    assert {r[3] for r in cut} == {1}  # the one roll
    # up to Rolls: with its Basis the list came out of the printer at 4 points
    assert saving["Roll plan"].print_area == f"'Roll plan'!$A$1:$O${4 + len(cut)}"


def test_one_faulty_building_stops_the_combined_order(to: Path, tmp_path: Path) -> None:
    folder = tmp_path / "buildings"
    folder.mkdir()
    edited(folder / "North.xlsx", setting("Job name", "North"))
    edited(folder / "South.xlsx", lambda book: put(book, "Rooms", "Length", -1))
    assert run(folder, "--to", to, "--combined").exit_code == 1
    assert names(to) == []


def test_prices_that_differ_between_buildings_stand_apart_with_a_warning(
    to: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "buildings"
    folder.mkdir()
    edited(folder / "North.xlsx", setting("Job name", "North"))
    edited(folder / "South.xlsx", lambda book: put(book, "Tiles", "Price", 20))
    result = run(folder, "--to", to, "--combined", "--date", DAY)
    assert result.exit_code == 0
    assert "COMBINED-BOOKS-DIFFER" in result.output
    codes = [r["Our code"] for r in rows(to / "ALL-KILNQUAR.csv")]
    assert codes.count("T-3030") == 2


def test_terms_that_differ_between_buildings_are_told(to: Path, tmp_path: Path) -> None:
    folder = tmp_path / "buildings"
    folder.mkdir()
    edited(folder / "North.xlsx", setting("Tax", 0.2))
    edited(folder / "South.xlsx", setting("Tax", 0.05))
    result = run(folder, "--to", to, "--combined", "--date", DAY)
    assert result.exit_code == 0
    assert result.output.count("COMBINED-TERMS-DIFFER") == 1
    assert "Tax for orders to Kiln & Quarry differs between the workbooks: 20 %; 5 %" in (
        result.output
    )
    assert {row["Tax %"] for row in rows(to / "ALL-KILNQUAR.csv")} == {"20"}


def test_currencies_are_not_added_up(to: Path, tmp_path: Path) -> None:
    folder = tmp_path / "buildings"
    folder.mkdir()
    edited(folder / "North.xlsx", setting("Job name", "North"))
    edited(folder / "South.xlsx", setting("Currency", "USD"))
    result = run(folder, "--to", to, "--combined", "--date", DAY)
    assert result.exit_code == 1
    assert "COMBINED-CURRENCIES-DIFFER" in result.output

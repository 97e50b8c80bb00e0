"""Sums of squares of records: sorting leaves them, values exchanged between records don't."""

import random
from datetime import date, datetime
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
import recalc
from result_books import Inputted, catalogue, inputs, raw_book, run_of, write

from sheetcalc.workbook.formulas import InputTable
from sheetcalc.workbook.results.record_sums import PRIME, record_sum, weights_of

HEADERS = {"Room": "Room", "Phase": "Phase", "Length": "Length (m)", "Width": "Width (m)"}
ROWS = [
    ["1.01", "North", 2.4, 1.6],
    ["1.02", "North", 2.4, "5' 3 1/2\""],
    [101, "South | end", -0.3, 1.6],
    ["1.10", None, 1 / 3, "1,8 m"],
    [None, None, None, None],
    ["120", "West", 1234.5678, 2],
    ["201", "West", 2, 2],
]
"""Texts and numbers in one column, a blank row, a sign that stands between texts."""


def value(rows: list[list[object]]) -> float:
    table = InputTable(raw_book({"Rooms": Inputted(HEADERS, rows)}).tables["Rooms"])
    return record_sum(table, list(HEADERS), list(HEADERS), date_1904=False).value


def test_records_may_be_sorted_in_any_way() -> None:
    shuffled = ROWS.copy()
    for seed in range(12):
        random.Random(seed).shuffle(shuffled)  # noqa: S311 - nothing secret
        assert value(shuffled) == pytest.approx(value(ROWS), rel=1e-13)


def test_any_two_values_of_a_column_that_change_places_show() -> None:
    """All pairs in all columns, but those after which the same records stand there."""
    unlike = 0
    for column in range(len(HEADERS)):
        for one, other in combinations(range(len(ROWS)), 2):
            rows = [row.copy() for row in ROWS]
            rows[one][column], rows[other][column] = rows[other][column], rows[one][column]
            if sorted(map(str, rows)) != sorted(map(str, ROWS)):
                unlike += 1
                assert abs(value(rows) / value(ROWS) - 1) > 1e-9, (column, one, other)
    assert unlike > 60


def test_a_word_that_moves_to_the_next_column_shows() -> None:
    then = [["1 North", "wing", 2.4, 1.6]]
    assert value([["1", "North wing", 2.4, 1.6]]) != value(then)


def test_exchanges_in_a_thousand_rooms_show_beyond_what_rounding_does() -> None:
    """Each tenth of a millimetre: the live formula compares to 1e-10 of the sum."""
    rows: list[list[object]] = [
        [f"{n // 40}.{n % 40:02}", f"Stage {n % 8}", 1.5 + (n * 37 % 997) / 1e4, 1.6]
        for n in range(1000)
    ]
    whole = value(rows)
    draw = random.Random(7)  # noqa: S311 - nothing secret
    for _ in range(60):
        one, other = draw.sample(range(1000), 2)
        column = draw.choice([1, 2])
        if rows[one][column] == rows[other][column]:
            continue
        rows[one][column], rows[other][column] = rows[other][column], rows[one][column]
        assert abs(value(rows) - whole) > 1e-9 * whole
        rows[one][column], rows[other][column] = rows[other][column], rows[one][column]
    assert value(rows) == whole
    assert 1000 * PRIME**2 < 2**53, "whole numbers add up without rounding"


def test_no_two_letters_nor_three_digits_make_up_for_each_other() -> None:
    """By trying all, in texts of up to 32 letters; a place's weight is the next one's by a factor,
    so what holds from the first place on holds from any.
    """
    weights = weights_of(33)
    factors = [weight * pow(weights[0], -1, PRIME) % PRIME for weight in weights[:32]]
    letters, digits = np.arange(-96, 97), np.arange(-9, 10)
    for second in factors[1:]:
        pairs = (letters[:, None] + letters * second) % PRIME
        assert (pairs == 0).sum() == 1  # nothing changed
    for second, third in combinations(factors[1:], 2):
        threes = (digits[:, None, None] + digits[:, None] * second + digits * third) % PRIME
        assert (threes == 0).sum() == 1


@pytest.mark.libreoffice
def test_the_formula_gives_what_was_worked_out(tmp_path: Path) -> None:
    long = "a text that goes on and on, " * 20
    tabs = {
        "Rooms": Inputted(HEADERS, ROWS),
        "Phases": Inputted(
            {"Phase": "Phase", "Start": "Start", "Deliver to": "Deliver to"},
            [["North", date(2027, 6, 8), "gate 1"], ["South", None, long + long[::-1]]],
        ),
        "Job": Inputted(
            {"Setting": "Setting", "Value": "Value"},
            [["Overhead", 0.1], ["Kerf", 3], ["Aims of the setting-out", "no sliver"]],
        ),
        "Waste factors": Inputted(
            {"Line": "Line", "Waste %": "Waste %"}, [["tile", 0.1], ["grout", 0.2]]
        ),
    }  # fmt: skip
    run = run_of(inputs(catalogue()), [])
    same, moved, followed = (tmp_path / f"{name}.xlsx" for name in ("same", "moved", "followed"))
    write(same, tabs, run)
    rows = [row.copy() for row in ROWS]
    rows[0][2], rows[5][2] = rows[5][2], rows[0][2]
    settings = [["Overhead", 0.1], ["Kerf", "no sliver"], ["Aims of the setting-out", 3]]
    exchanged = {
        "Rooms": Inputted(HEADERS, rows),
        "Phases": Inputted(
            tabs["Phases"].headers,
            [["North", None, "gate 1"], ["South", date(2027, 6, 8), long + long[::-1]]],
        ),
        "Job": Inputted(tabs["Job"].headers, settings),
    }
    write(moved, tabs | exchanged, run, of=tabs)
    live = {
        "Rooms": Inputted(HEADERS, ROWS[::-1]),
        "Job": Inputted(tabs["Job"].headers, [["Overhead", 0.2], *tabs["Job"].rows[1:]]),
        "Waste factors": Inputted(
            tabs["Waste factors"].headers, [["tile", 0.2], ["grout", 0.1]]
        ),
    }  # fmt: skip
    write(followed, tabs | live, run, of=tabs)
    found = recalc.recalculate_all([same, moved, followed])
    assert recalc.differences(recalc.cells(same), found["same"]) == []
    assert states(found["same"]) == dict.fromkeys(tabs, "same")
    assert states(found["moved"]) == dict.fromkeys(tabs, "same") | dict.fromkeys(
        exchanged, "CHANGED"
    )
    assert states(found["followed"]) == dict.fromkeys(tabs, "same") | {"Waste factors": "followed"}


CELLS: list[object] = [
    None, "", " ", 0, 1, -1, 0.1, 1 / 3, 12.7, 1e6, 99_999_999, 1e-7, 2.5e-3, date(2027, 6, 8),
    datetime(2027, 6, 8, 9, 30, 1),  # noqa: DTZ001 - a cell has no zone
    True, "x", "  two  words ", "5' 3\"", "1.5", "1,5", "10%", "1e3", "|", "é", "\u00a0",
    "'quoted'", "=text", "12 mm", "no",
]  # fmt: skip
SETTINGS = [
    "Overhead", "Profit", "Price of energy", "Kerf", "Room lengths", "Resistance tolerance above",
    "Aims of the setting-out",
]  # fmt: skip


def any_tabs(seed: int) -> dict[str, Inputted]:
    """Tabs of few kinds of cells, as people fill them in: columns of numbers, of texts, of both."""
    draw = random.Random(seed)  # noqa: S311 - nothing secret

    def column(length: int) -> list[object]:
        kinds = draw.sample(CELLS, draw.choice((1, 2, 4)))
        return [draw.choice(kinds) for _ in range(length)]

    def records(length: int) -> list[list[object]]:
        return [list(row) for row in zip(*(column(length) for _ in range(3)), strict=True)]

    names = draw.sample(SETTINGS, draw.randint(1, len(SETTINGS)))
    numbers = draw.random() < 0.5
    values = [draw.choice((0.05, 0.1, 3, 20)) if numbers else draw.choice(CELLS) for _ in names]
    rooms = [[f"1.{at:02}", *row] for at, row in enumerate(records(draw.randint(1, 6)))]
    wastes = [[f"line {at}", *row[:1]] for at, row in enumerate(records(draw.randint(1, 3)))]
    return {
        "Rooms": Inputted(HEADERS, rooms),
        "Job": Inputted(
            {"Setting": "Setting", "Value": "Value"},
            [list(row) for row in zip(names, values, strict=True)],
        ),
        "Waste factors": Inputted({"Line": "Line", "Waste %": "Waste %"}, wastes),
    }


@pytest.mark.libreoffice
def test_no_table_that_stays_as_it_is_is_said_to_have_changed(tmp_path: Path) -> None:
    books = []
    for seed in range(12):
        books.append(tmp_path / f"{seed}.xlsx")
        write(books[-1], any_tabs(seed), run_of(inputs(catalogue()), []))
    found = recalc.recalculate_all(books)
    for seed in range(12):
        assert set(states(found[str(seed)]).values()) == {"same"}, any_tabs(seed)


def states(cells: recalc.CellOf) -> dict[str, str]:
    """State by input tab, as Findings tells it."""
    findings = {address: value for (tab, address), value in cells.items() if tab == "Findings"}
    heads = {value: address for address, value in findings.items()}
    tab, state = (heads[header].rstrip("0123456789") for header in ("Input tab", "State"))
    row = int(heads["State"].removeprefix(state)) + 1
    found = {}
    while (name := findings.get(f"{tab}{row}")) is not None:
        if name != "Received":  # looked up whole
            found[str(name)] = str(findings[f"{state}{row}"])
        row += 1
    return found

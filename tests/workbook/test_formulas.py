"""Formulas as text: literals, references, look-ups; nothing that a cell holds can break out."""

import pytest
from msgspec.structs import replace
from result_books import FIRST, Inputted, raw_book

from sheetcalc.workbook.formulas import (
    InputTable,
    is_plain_criterion,
    looked_up,
    number_literal,
    sheet_prefix,
    structured,
    summed_where,
    text_literal,
    this_row,
)

TILES = {
    "Tiles": Inputted(
        {"Code": "Code", "Supplier": "Supplier", "Price": "Price (EUR)"},
        [["T1", "A & B", 1.5], [101, None, "2.50"], ["T1 ", "A & B", 3]],
    )
}


def tiles(**more: object) -> InputTable:
    return InputTable(replace(raw_book(TILES).tables["Tiles"], **more))


def test_quotes_in_text_are_doubled() -> None:
    assert text_literal('=HYPERLINK("x")&"') == '"=HYPERLINK(""x"")&"""'


def test_a_long_text_is_joined_of_pieces_that_programs_accept() -> None:
    literal = text_literal('"' * 600)
    pieces = literal.split('"&"')
    assert [len(piece.strip('"')) for piece in pieces] == [0, 0, 0]
    assert literal.count('"') == 2 * 600 + 2 * 3


def test_empty_text_is_a_literal_too() -> None:
    assert text_literal("") == '""'


@pytest.mark.parametrize(
    ("value", "literal"), [(101, "101"), (2.0, "2"), (0.1, "0.1"), (1e-9, "1E-09"), (-3.5, "-3.5")]
)
def test_numbers_read_as_the_same_number(value: float, literal: str) -> None:
    assert number_literal(value) == literal
    assert float(literal) == value


def test_apostrophes_in_sheet_names_are_doubled() -> None:
    assert sheet_prefix("Bob's [tiles]") == "'Bob''s [tiles]'!"


def test_brackets_hashes_and_apostrophes_in_headers_are_escaped() -> None:
    assert structured("T", "Price [EUR] #1's") == "T[Price '[EUR'] '#1''s]"
    assert this_row("T", "Net") == "T[[#This Row],[Net]]"


def test_rows_are_found_by_what_their_cells_hold_exactly() -> None:
    table = tiles()
    assert table.keys(FIRST, ("Code", "Supplier", "Colour")) == (
        ("InTiles[Code]", "T1"),
        ("InTiles[Supplier]", "A & B"),
    )
    assert table.keys(FIRST + 1, ("Code", "Supplier")) == (
        ("InTiles[Code]", 101),
        ("InTiles[Supplier]", ""),
    )
    assert table.keys(FIRST + 2, ("Code",)) == (("InTiles[Code]", "T1 "),)


def test_a_lookup_divides_by_the_rows_found_so_that_none_is_an_error() -> None:
    assert looked_up([("T[A]", "x"), ("T[B]", 2)], "T[C]") == (
        'SUMPRODUCT(EXACT(T[A],"x")*(T[B]=2),T[C])/SUMPRODUCT(EXACT(T[A],"x")*(T[B]=2))'
    )


def test_only_numbers_are_looked_up_live() -> None:
    table = tiles()
    assert table.number(FIRST, "Price") == 1.5
    assert table.number(FIRST + 1, "Price") is None  # text
    assert table.number(FIRST, "Weight") is None  # no such column
    assert table.number(99, "Price") is None  # no such row


@pytest.mark.parametrize(
    "more",
    [
        {"table": ""},
        {"end_row": FIRST + 1},
        {"beside": ("Price",)},
        {"headers": {"Price": "Price\n(EUR)"}},
        {"headers": {"Price": "@Price"}},
    ],
    ids=["no table", "records under it", "column beside it", "line break", "at sign"],
)
def test_a_plain_range_is_used_where_the_tables_own_would_not_do(more: dict[str, object]) -> None:
    assert tiles(**more).column("Price") == "'Tiles'!$C$5:$C$7"


def test_the_tables_own_range_is_used_where_it_holds_everything() -> None:
    assert tiles(end_row=FIRST + 9).column("Price") == "InTiles[Price (EUR)]"
    assert tiles().column("Colour") is None


def test_links_go_to_the_row_and_column() -> None:
    assert tiles().link(FIRST, "Price") == "internal:'Tiles'!C5"
    assert tiles().link(None) is None


@pytest.mark.parametrize("text", ["tile", "Level", "Standard floor", "T60", "KQ1"])
def test_plain_words_may_be_criteria(text: str) -> None:
    assert is_plain_criterion(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "101",
        "1/2",
        "DEC-12",
        "May 5",
        "Sep1",
        "TRUE",
        "a*",
        "b?",
        "~",
        "<5",
        "=x",
        "é",
        "a" * 251,
    ],
)
def test_texts_that_a_program_would_read_otherwise_may_not(text: str) -> None:
    assert not is_plain_criterion(text)


def test_sums_use_the_quick_function_only_where_every_key_is_plain() -> None:
    plain, odd = [("T[A]", "tile")], [("T[A]", "tile"), ("T[B]", "1/2")]
    assert summed_where("T[C]", plain, plainly=True) == 'SUMIFS(T[C],T[A],"tile")'
    assert summed_where("T[C]", odd, plainly=True).startswith("SUMPRODUCT(EXACT(")
    assert summed_where("T[C]", plain, plainly=False) == 'SUMPRODUCT(EXACT(T[A],"tile")*1,T[C])'
    assert summed_where("T[C]", [], plainly=True) == "SUM(T[C])"

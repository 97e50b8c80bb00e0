"""Renaming within a formula's text, and the form in which formulas are compared."""

import pytest

from sheetcalc.excel.opc.formula_text import (
    GONE,
    has_cells,
    normal_form,
    quote_sheet,
    rename,
    tokens,
)

SHEETS = {"takeoff": "Take off", "my tab": "Plain"}
NAMES = {"outtakeoff": "OutTakeoff_2", "kinds": "Kinds_2"}


@pytest.mark.parametrize(
    ("formula", "renamed"),
    [
        ("SUM(OutTakeoff[Net])", "SUM(OutTakeoff_2[Net])"),
        ("ROWS(outtakeoff)", "ROWS(OutTakeoff_2)"),
        ("OutTakeoff[[#This Row],[OutTakeoff]]", "OutTakeoff_2[[#This Row],[OutTakeoff]]"),
        ('"OutTakeoff[Net]"&Kinds', '"OutTakeoff[Net]"&Kinds_2'),
        ('"a ""Takeoff!A1"" b"&Takeoff!A1', '"a ""Takeoff!A1"" b"&\'Take off\'!A1'),
        ("'My tab'!$A$1+Takeoff!B2", "Plain!$A$1+'Take off'!B2"),
        ("[1]Takeoff!A1+'[1]Takeoff'!A1", "[1]Takeoff!A1+'[1]Takeoff'!A1"),
        ("Kinds(1)+Sheet!Kinds+Kindsly", "Kinds(1)+Sheet!Kinds+Kindsly"),
        ("T['[odd'] Kinds]+Kinds", "T['[odd'] Kinds]+Kinds_2"),
        ("IF(TRUE,#REF!,Takeoff!#REF!)", "IF(TRUE,#REF!,'Take off'!#REF!)"),
        ("1.5e3*OutTakeoff", "1.5e3*OutTakeoff_2"),
        ("SUM(Takeoff:Last!A1:B2)", "SUM('Take off:Last'!A1:B2)"),
        ("SUM('First:My tab'!A1)", "SUM('First:Plain'!A1)"),
        ("SUM([1]Takeoff:Last!A1)", "SUM([1]Takeoff:Last!A1)"),
        ("A1:Takeoff!B2", "A1:'Take off'!B2"),
        ("Last!Kinds:Takeoff!B2", "Last!Kinds:'Take off'!B2"),
    ],
)
def test_only_what_names_a_sheet_or_a_table_is_renamed(formula: str, renamed: str) -> None:
    assert rename(formula, sheets=SHEETS, names=NAMES) == renamed


def test_a_span_of_tabs_of_which_one_is_gone_is_none_any_more() -> None:
    assert rename("SUM(Last:Takeoff!A1)", sheets={"takeoff": GONE}, names={}) == "SUM(#REF!A1)"


@pytest.mark.parametrize("formula", ["SUM(A1:B2)", "'it''s'!A1&\"\"\"\"", "T[[#All],[a]]", "=-1%"])
def test_tokens_joined_are_the_formula(formula: str) -> None:
    assert "".join(token.text for token in tokens(formula)) == formula


@pytest.mark.parametrize(
    ("name", "quoted"),
    [
        ("Takeoff", "Takeoff"),
        ("Order A", "'Order A'"),
        ("Bob's", "'Bob''s'"),
        ("A1", "'A1'"),
        ("R1C1", "'R1C1'"),
        ("2.07", "'2.07'"),
        ("Übersicht", "Übersicht"),
    ],
)
def test_a_sheet_name_is_quoted_where_it_could_be_read_as_something_else(
    name: str, quoted: str
) -> None:
    assert quote_sheet(name) == quoted


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ('if( a1>0 , TRUE, "x y")', 'IF(A1>0,TRUE(),"x y")'),
        ("'Takeoff'!A1", "Takeoff!A1"),
        ("_xlfn.CONCAT(A1)", "CONCAT(A1)"),
        ("T[[#This Row], [Net]]", "T[[#This Row],[Net]]"),
        ("A1*1.50", "A1*1.5"),
    ],
)
def test_what_programs_rewrite_compares_equal(one: str, other: str) -> None:
    assert normal_form(one, 5, 3) == normal_form(other, 5, 3)


@pytest.mark.parametrize(
    ("one", "other"),
    [("A1*2", "A1*3"), ('"a b"', '"ab"'), ('"a"', '"A"'), ("$A$1", "A1"), ("A1", "B1")],
)
def test_what_a_person_changes_compares_different(one: str, other: str) -> None:
    assert normal_form(one, 5, 3) != normal_form(other, 5, 3)


def test_a_formula_filled_down_reads_alike_in_every_row() -> None:
    assert normal_form("A5*$B$1", 5, 3) == normal_form("A6*$B$1", 6, 3)


@pytest.mark.parametrize(
    ("formula", "normal"),
    [
        # worked by hand for a cell in C5 (row 5, column 3)
        ("in1[Net]+in1", "IN1[NET]+R[-4]C[245]"),  # a table's name, and a cell: IN is column 248
        ("in1 [Net]", "IN1[NET]"),
        ('\'6" tile\'!b2&"b2"', '\'6" TILE\'!R[-3]C[-1]&"b2"'),
        ('T[Width ("b2")]&b2', 'T[WIDTH ("B2")]&R[-3]C[-1]'),
        ('true&"true"&b2', 'TRUE()&"true"&R[-3]C[-1]'),
        ('"b2', '"b2'),
    ],
)
def test_what_stands_in_quotes_and_brackets_is_told_from_what_stands_between(
    formula: str, normal: str
) -> None:
    assert normal_form(formula, 5, 3) == normal
    assert has_cells(formula) == ("C[" in normal)

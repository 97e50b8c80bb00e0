"""Texts with a grammar of their own: notches, bonds, runs, turns, copies."""

import pytest

from sheetcalc.domain.finish import Bond, BondKind, Notch, NotchShape, Run
from sheetcalc.domain.measure import INCH, JobUnits
from sheetcalc.workbook.convert import patterns
from sheetcalc.workbook.convert.problem import CellProblem

METRIC = JobUnits()
US = JobUnits(small_length=INCH)
MM = 320
SIXTEENTH = 508


@pytest.mark.parametrize(
    ("text", "units", "notch"),
    [
        ("square 10 x 10 x 10 mm", METRIC, Notch(NotchShape.SQUARE, 3200, 3200, 3200)),
        ("12 x 12 x 12 square", METRIC, Notch(NotchShape.SQUARE, 3840, 3840, 3840)),
        ("SQUARE 8x8x8", METRIC, Notch(NotchShape.SQUARE, 2560, 2560, 2560)),
        ("1/2 x 1/2 x 1/2 in square", METRIC, Notch(NotchShape.SQUARE, 4064, 4064, 4064)),
        ("1/4 x 3/8 x 1/4 square", US, Notch(NotchShape.SQUARE, 2032, 3048, 2032)),
        ("U 1/2 x 1/2", US, Notch(NotchShape.U, 4064, 4064, 4064)),
        ("U 1/2 x 1/2 in", METRIC, Notch(NotchShape.U, 4064, 4064, 4064)),
        ("U 20 x 15 x 10 mm", US, Notch(NotchShape.U, 6400, 4800, 3200)),
        (
            "V 3/16 x 5/32 x 1/16 in",
            METRIC,
            Notch(NotchShape.V, 3 * SIXTEENTH, 1270, SIXTEENTH),
        ),
        ('1/4" x 1/4" x 1/4" square', METRIC, Notch(NotchShape.SQUARE, 2032, 2032, 2032)),
    ],
)
def test_a_notch_is_its_shape_and_width_depth_and_spacing(
    text: str, units: JobUnits, notch: Notch
) -> None:
    assert patterns.notch(text, units) == notch


@pytest.mark.parametrize(
    "text",
    ["", "10 x 10 x 10", "square 1/4", "square 10 x 10 x 10 x 10", "square a x b x c",
     "square 1/4 x 1/4 x 1/4", "square 100 x 100 x 100", "square 0 x 0 x 0", "square 10 x -1 x 3"],
)  # fmt: skip
def test_a_notch_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(CellProblem) as problem:
        patterns.notch(text, METRIC)
    assert problem.value.code == "NOTCH-UNREADABLE"
    assert problem.value.facts["hint"]


@pytest.mark.parametrize(
    ("text", "bond"),
    [
        ("grid", Bond()),
        ("Offset 1/2", Bond(BondKind.OFFSET, 2)),
        ("offset  1/7 alternate", Bond(BondKind.OFFSET, 7, alternate=True)),
        ("Double Herringbone", Bond(BondKind.DOUBLE_HERRINGBONE)),
        ("basket weave", Bond(BondKind.BASKET_WEAVE)),
        ("diagonal grid", Bond(BondKind.DIAGONAL_GRID)),
    ],
)
def test_a_bond_is_read_in_any_case(text: str, bond: Bond) -> None:
    assert patterns.bond(text) == bond


@pytest.mark.parametrize(
    "text", ["1/3", "offset", "offset 1/1", "offset 2/3", "offset 1/0", "brick"]
)
def test_a_bond_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(CellProblem) as problem:
        patterns.bond(text)
    assert problem.value.code == "BOND-UNKNOWN"


def test_every_bond_reads_its_own_label() -> None:
    for bond in (Bond(), Bond(BondKind.OFFSET, 3), Bond(BondKind.OFFSET, 4, alternate=True)):
        assert patterns.bond(bond.label) == bond
    for run in (Run(), Run("short"), Run("degrees", 30.0)):
        assert patterns.run(run.label) == run


def test_a_run_is_along_a_side_or_at_degrees() -> None:
    assert patterns.run("Along the short side") == Run("short")
    assert patterns.run("45°") == Run("degrees", 45.0)
    assert patterns.run("-30") == Run("degrees", 150.0)
    assert patterns.run("190 degrees") == Run("degrees", 10.0)
    with pytest.raises(CellProblem):
        patterns.run("sideways")


def test_a_turn_is_to_the_left_positive() -> None:
    assert [patterns.turn(t) for t in ("left", "Right", "straight", "45", "-22.5°")] == [
        90.0, -90.0, 0.0, 45.0, -22.5,
    ]  # fmt: skip
    for text in ("back", "180", "-180", "300"):
        with pytest.raises(CellProblem):
            patterns.turn(text)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("101-103", ("101", "102", "103")),
        ("101, 103; 105", ("101", "103", "105")),
        ("2.08 - 2.11", ("2.08", "2.09", "2.10", "2.11")),
        ("B1-B3", ("B1", "B2", "B3")),
        ("A to C, 1-2", ("A to C", "1", "2")),
        ("098-101", ("098", "099", "100", "101")),
        ("2-07", ("2-07",)),
        ("East-101, West-101", ("East-101", "West-101")),
        ("101 to 102", ("101", "102")),
        ("Hand and Foot 1, Land 2", ("Hand and Foot 1", "Land 2")),
        ("", ()),
    ],
)
def test_copies_are_ranges_and_lists_of_names(text: str, names: tuple[str, ...]) -> None:
    assert patterns.copies(text) == names


@pytest.mark.parametrize(
    "text", ["108-101", "1-99999999", "101, 101", "101-103, 102", "101 and 102", "101, 102 & 103"]
)
def test_copies_that_are_none_are_refused(text: str) -> None:
    with pytest.raises(CellProblem) as problem:
        patterns.copies(text)
    assert problem.value.code == "COPIES-UNREADABLE"

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetcalc.domain.measure import (
    CUBIC_FOOT,
    EACH,
    FOOT,
    INCH,
    KILOGRAM,
    LITRE,
    METRE,
    MILLIMETRE,
    PIECE,
    POUND,
    SQUARE_FOOT,
    SQUARE_METRE,
    US_FLUID_OUNCE,
    US_GALLON,
)
from sheetcalc.rules.packages import PACKAGE_CODES, package_code
from sheetcalc.rules.packs import packs_needed


@pytest.mark.parametrize(
    ("needed", "pack", "packs"),
    [
        (0, 10, 0),
        (10, 10, 1),
        (9.999, 10, 1),
        (10.001, 10, 2),
        (44, 10, 5),
        (2.3, 1, 3),
        (4.6, 1, 5),  # two jobs of 2.3 together
        (22 * 1.1, 12.1, 2),  # floats alone say 3
        (0.1 + 0.2, 0.1, 3),  # floats alone say 4
    ],
)
def test_packs_of_a_need(needed: float, pack: float, packs: int) -> None:
    assert packs_needed(needed, pack) == packs


@pytest.mark.parametrize(("needed", "pack"), [(-1, 10), (1, 0), (1, -2), (float("nan"), 1)])
def test_a_need_or_a_pack_that_is_none_is_refused(needed: float, pack: float) -> None:
    with pytest.raises(ValueError, match="a pack of"):
        packs_needed(needed, pack)


@given(st.integers(0, 10_000), st.floats(0.01, 1000))
def test_packs_are_never_short_and_never_a_whole_pack_too_many(whole: int, pack: float) -> None:
    needed = whole * pack
    assert packs_needed(needed, pack) == whole


@given(st.floats(0, 1e6), st.floats(0.01, 1000))
def test_packs_hold_the_need(needed: float, pack: float) -> None:
    packs = packs_needed(needed, pack)
    assert packs * pack >= needed - pack * 1e-9
    assert (packs - 1) * pack < needed + pack * 1e-9 or packs == 0


# UN/ECE Recommendation 21 Rev 12, code list read
@pytest.mark.parametrize(
    ("word", "code"),
    [
        ("bag", "BG"), ("box", "BX"), ("carton", "CT"), ("package", "PK"), ("roll", "RO"),
        ("reel", "RL"), ("bottle", "BO"), ("tube", "TU"), ("pallet", "PX"),
    ],
)  # fmt: skip
def test_package_codes_of_recommendation_21(word: str, code: str) -> None:
    assert package_code(word) == code
    assert package_code(f" {word.upper()} ") == code


def test_pf_is_a_pen_for_animals_and_not_a_pallet() -> None:
    # UN/ECE Recommendation 21 Rev 12
    assert "PF" not in PACKAGE_CODES.values()


def test_a_word_that_is_no_package_has_no_code() -> None:
    assert package_code("wheelbarrow") == ""


def test_units_carry_codes_of_recommendation_20() -> None:
    # UN/ECE Recommendation 20 Rev 17
    codes = {
        SQUARE_METRE: "MTK", SQUARE_FOOT: "FTK", FOOT: "FOT", KILOGRAM: "KGM", POUND: "LBR",
        LITRE: "LTR", US_GALLON: "GLL", US_FLUID_OUNCE: "OZA", METRE: "MTR", MILLIMETRE: "MMT",
        INCH: "INH", EACH: "EA", PIECE: "H87",
    }  # fmt: skip
    assert {unit: unit.code for unit in codes} == codes


def test_factors_of_units_against_published_ones() -> None:
    # 16 CFR 500.19 and UN/ECE Recommendation 20; the last three computed from these
    assert SQUARE_FOOT.to_si(1) == pytest.approx(9.290304e-2, rel=1e-12)
    assert POUND.to_si(1) == pytest.approx(0.45359237, rel=1e-12)
    assert US_GALLON.to_si(1) == pytest.approx(3.785412e-3, rel=5e-7)
    assert US_FLUID_OUNCE.to_si(1) == pytest.approx(2.957353e-5, rel=5e-7)
    assert POUND.to_si(1) / SQUARE_FOOT.to_si(1) == pytest.approx(4.882427636, rel=1e-9)
    assert CUBIC_FOOT.to_si(1e3) == pytest.approx(28.316846592, rel=1e-12)  # litres
    assert POUND.to_si(50) == pytest.approx(22.6796185, rel=1e-12)

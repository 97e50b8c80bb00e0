"""Lengths as people type them: the trade's table T9, what is refused, and the way there and back.

T9 ("inputs people type"): common practice, no source; values are arithmetic on the exact factors
of 16 CFR 500.19 (1 in = 25.4 mm, 1 ft = 304.8 mm).
"""

import math
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetcalc.domain.measure import (
    CENTIMETRE,
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
    UNITS,
    US_FLUID_OUNCE,
    US_GALLON,
    JobUnits,
    Unit,
)
from sheetcalc.units import (
    NotReadableError,
    check_with_pint,
    parse_count,
    parse_length,
    parse_money,
    parse_number,
    parse_percent,
    parse_quantity,
    show_length,
    show_measured,
    show_quantity,
    show_tape,
)


def millimetres(text: str | float, plain: Unit = METRE, *, feet_job: bool = False) -> Fraction:
    return Fraction(parse_length(text, plain, feet_job=feet_job), 320)


@pytest.mark.parametrize(
    "text",
    [
        "5' 3 1/2\"", "5'-3 1/2\"", "5'3-1/2\"", "5\u2032 3\u00bd\u2033", "5\u2019 3 1/2\u201d",
        "5'-3½\"",
        "63.5in", "63 1/2 in.", '63-1/2"', '63½"', "63 1/2 in", "5' - 3 1/2\"", "5 FT 3 1/2 IN",
        "5 feet 3.5 inches", "5 3 1/2".replace("5 ", "5' ") + '"', "5''3 1/2".replace("''", "'"),
        "5\u20323\u00a0\u00bd\u2033", "63\u2011\u00bd\u2033", "161,29 cm", "1,6129 m",
    ],
)  # fmt: skip
def test_five_feet_three_and_a_half_is_1612_9_mm(text: str) -> None:
    assert millimetres(text) == Fraction("1612.9")


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("5ft 3in", "1600.2"), ("5'3", "1600.2"), ("5' 3\"", "1600.2"), ('63"', "1600.2"),
        ("1600mm", "1600"), ("1600 mm", "1600"), ("1.6 m", "1600"), ("1,6 m", "1600"),
        ("160 cm", "1600"), ('3/4"', "19.05"), ('12 7/16"', "315.9125"), ('1-1/4"', "31.75"),
        ("7' 11 15/16\"", "2436.8125"), ("2'", "609.6"), ("2'0\"", "609.6"), ("2'-0\"", "609.6"),
        ('24"', "609.6"), ('.5"', "12.7"), ('0.5"', "12.7"), ("0 mm", "0"), ("12 ft 6 in", "3810"),
        ("3,5 m", "3500"), ("5 1/2'", "1676.4"), ("2 metres", "2000"), ("0.1 mm", "0.1"),
    ],
)  # fmt: skip
def test_what_people_type_gives_what_it_means(text: str, mm: str) -> None:
    assert millimetres(text) == Fraction(mm)


def test_five_three_and_a_half_with_hyphens_is_feet_and_inches_in_a_feet_job_only() -> None:
    assert millimetres("5-3-1/2", FOOT, feet_job=True) == Fraction("1612.9")
    for plain in (METRE, MILLIMETRE, INCH):
        assert refusal("5-3-1/2", plain) == "LENGTH-TWO-WAYS"


def test_a_bare_fraction_is_read_in_an_inch_column() -> None:
    assert millimetres("3/4", INCH) == Fraction("19.05")
    assert millimetres("63-1/2", INCH) == Fraction("1612.9")
    assert refusal("3/4", MILLIMETRE) == "LENGTH-FRACTION-WITHOUT-UNIT"
    assert refusal("5 1/2", FOOT) == "LENGTH-FRACTION-WITHOUT-UNIT"


def refusal(
    text: str | float, plain: Unit = METRE, *, feet_job: bool = False, signed: bool = False
) -> str:
    with pytest.raises(NotReadableError) as refused:
        parse_length(text, plain, feet_job=feet_job, signed=signed)
    assert refused.value.hint
    return refused.value.code


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("1,600 mm", "LENGTH-THOUSANDS"), ("0,125 m", "LENGTH-THOUSANDS"),
        ("1,600", "LENGTH-THOUSANDS"), ("1,600.5 mm", "LENGTH-THOUSANDS"),
        ("3,5", "LENGTH-COMMA"), ("5 3 1/2", "LENGTH-TWO-WAYS"), ("1 600 mm", "LENGTH-TWO-WAYS"),
        ("5-3", "LENGTH-TWO-WAYS"), ("1-2", "LENGTH-TWO-WAYS"),
        ("5.3.5", "LENGTH-UNREADABLE"), ('3/0"', "LENGTH-UNREADABLE"),
        ("1/2/4", "LENGTH-UNREADABLE"), ('-4"', "LENGTH-NEGATIVE"),
        ("\u22124 mm", "LENGTH-NEGATIVE"),
        ("5' 13\"", "LENGTH-INCHES-BESIDE-FEET"), ("5' 12\"", "LENGTH-INCHES-BESIDE-FEET"),
        ("5.5' 3\"", "LENGTH-UNREADABLE"), ('3 5/4"', "LENGTH-UNREADABLE"),
        ('3.5 1/2"', "LENGTH-UNREADABLE"), ("2 furlongs", "LENGTH-UNKNOWN-UNIT"),
        ("2 mm2", "LENGTH-UNKNOWN-UNIT"), ("wide", "LENGTH-UNREADABLE"), ("", "LENGTH-UNREADABLE"),
        ("   ", "LENGTH-UNREADABLE"), ("+4 mm", "LENGTH-UNREADABLE"),
        ("1e3 mm", "LENGTH-UNKNOWN-UNIT"),
        ("1'600 mm", "LENGTH-UNREADABLE"), ("5' 3'", "LENGTH-UNREADABLE"),
        ("1" * 200 + " mm", "LENGTH-UNREADABLE"), ("1600 mm 5", "LENGTH-UNKNOWN-UNIT"),
        ("=2+2", "LENGTH-UNREADABLE"), ("١٦٠٠ mm", "LENGTH-UNREADABLE"),
        ("2.0 x 1.0", "LENGTH-UNREADABLE"), ("300\u00d7300 mm", "LENGTH-UNREADABLE"),
        ("9999999999 m", "LENGTH-ABSURD"),
    ],
)  # fmt: skip
def test_what_could_mean_two_things_or_nothing_is_refused_with_a_hint(text: str, code: str) -> None:
    assert refusal(text) == code


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
def test_a_number_that_is_not_finite_is_refused(number: float) -> None:
    assert refusal(number) == "NUMBER-NOT-FINITE"


@pytest.mark.parametrize("number", [1e300, 1.7e308])
def test_a_number_near_the_end_of_all_floats_is_absurd_not_a_breakdown(number: float) -> None:
    assert refusal(number) == "LENGTH-ABSURD"


def test_negative_lengths_are_read_only_where_the_column_may_hold_them() -> None:
    assert refusal(-0.1) == "LENGTH-NEGATIVE"
    assert parse_length(-0.1, METRE, feet_job=False, signed=True) == -32_000
    assert parse_length("-4 in", METRE, feet_job=False, signed=True) == -4 * 8128
    assert refusal("--4 in", signed=True) == "LENGTH-NEGATIVE"


def test_a_yes_or_no_is_no_length() -> None:
    assert refusal(True) == "LENGTH-UNREADABLE"  # noqa: FBT003 (a ticked cell)


def test_plain_numbers_count_in_the_unit_of_the_job() -> None:
    assert parse_length(1600, MILLIMETRE, feet_job=False) == 512_000
    assert parse_length(2.07, METRE, feet_job=False) == 662_400
    assert parse_length("2.07", METRE, feet_job=False) == 662_400
    assert parse_length(5.25, FOOT, feet_job=True) == 63 * 8128
    assert parse_length(63.5, INCH, feet_job=True) == 516_128


@pytest.mark.parametrize(
    ("mm320", "unit", "shown"),
    [
        (5015, INCH, "about 5/8 in"),  # 0.617 in
        (5080, INCH, "5/8 in"),
        (1000, INCH, "about 1/8 in"),  # 0.123 in, to 1/64
        (600, INCH, "about 5/64 in"),  # 0.0738 in
        (3, INCH, "0.0004 in"),
        (515_000, FOOT, "about 5' 3 3/8\""),  # 63.361 in
        (-5015, INCH, "about -5/8 in"),
        (5015, MILLIMETRE, "15.672 mm"),
    ],
)
def test_a_computed_length_reads_as_a_fraction_on_a_tape(
    mm320: int, unit: Unit, shown: str
) -> None:
    assert show_measured(mm320, unit) == shown


def test_what_is_finer_than_the_grid_goes_to_the_nearest_half_up() -> None:
    # 1 mm is 320: 0.0015 mm is 0.48, 0.0016 mm is 0.512, and 0.0015625 mm is exactly a half
    assert parse_length("0.0015 mm", METRE, feet_job=False) == 0
    assert parse_length("0.0016 mm", METRE, feet_job=False) == 1
    assert parse_length("0.0015625 mm", METRE, feet_job=False) == 1
    assert parse_length(0.0015625, MILLIMETRE, feet_job=False) == 1


def test_the_sum_of_floats_reads_as_the_number_meant() -> None:
    assert parse_length(0.1 + 0.2, METRE, feet_job=False) == 96_000


LENGTHS = st.integers(min_value=-30_000 * 320, max_value=30_000 * 320)


@given(LENGTHS, st.sampled_from([MILLIMETRE, CENTIMETRE, METRE, INCH, FOOT]))
def test_what_is_shown_reads_back_as_the_same_length(length: int, unit: Unit) -> None:
    shown = show_length(length, unit)
    assert parse_length(shown, METRE, feet_job=False, signed=True) == length


@given(st.integers(min_value=0, max_value=100_000))
def test_tenths_of_millimetres_and_64ths_of_inches_are_exact(count: int) -> None:
    assert parse_length(f"{count // 10}.{count % 10} mm", INCH, feet_job=False) == 32 * count
    whole, part = divmod(count, 64)
    assert parse_length(f"{whole} {part}/64 in", METRE, feet_job=False) == 127 * count


@given(st.text(max_size=40))
def test_no_text_makes_the_reader_fall_over(text: str) -> None:
    for read in (
        lambda: parse_length(text, METRE, feet_job=True, signed=True),
        lambda: parse_quantity(text, LITRE),
        lambda: parse_number(text),
    ):
        try:
            read()
        except NotReadableError as refused:
            assert refused.hint  # noqa: PT017 (either a value or a refusal with a hint)


@pytest.mark.parametrize(
    ("length_mm320", "unit", "shown"),
    [
        (516_128, FOOT, "5' 3 1/2\""),
        (516_128, INCH, "63 1/2 in"),
        (516_128, METRE, "1.6129 m"),
        (516_128, MILLIMETRE, "1612.9 mm"),
        (512_000, INCH, "62.9921 in"),
        (512_000, METRE, "1.6 m"),
        (6096, INCH, "3/4 in"),
        (0, FOOT, "0' 0\""),
        (-32_000, METRE, "-0.1 m"),
    ],
)
def test_lengths_are_shown_in_their_unit(length_mm320: int, unit: Unit, shown: str) -> None:
    assert show_length(length_mm320, unit) == shown


@pytest.mark.parametrize(
    ("length_mm320", "unit", "shown"),
    [
        (516_128, METRE, "1613 mm"),  # 1612.9 mm
        (1612 * 320 + 160, MILLIMETRE, "1613 mm"),  # 1612.5 mm: half up
        (1612 * 320 + 159, MILLIMETRE, "1612 mm"),
        (512_000, INCH, '63"'),  # 62.9921 in
        (254, INCH, '1/16"'),  # 1/32 in: half up
        (253, INCH, '0"'),
        (512_000, FOOT, "5' 3\""),
        (12 * 8128 - 1, FOOT, "1' 0\""),
    ],
)
def test_a_tape_shows_the_nearest_millimetre_or_sixteenth_half_up(
    length_mm320: int, unit: Unit, shown: str
) -> None:
    assert show_tape(length_mm320, unit) == shown


def test_quantities_take_plain_numbers_or_their_own_unit() -> None:
    # exact factors, 16 CFR 500.19 and UN/ECE Recommendation 20; a gallon of 231 in3 is from memory
    assert parse_quantity(1, SQUARE_FOOT) == 0.09290304
    assert parse_quantity("50 lb", KILOGRAM) == 22.6796185
    assert parse_quantity("1,5 L", US_GALLON) == 0.0015
    assert parse_quantity("1 US gal", LITRE) == 0.003785411784
    assert parse_quantity("1 fl oz", LITRE) == 2.95735295625e-05
    assert parse_quantity("18 sq ft", SQUARE_METRE) == 1.67225472


@pytest.mark.parametrize("text", ["20", "20 furlongs", "50 lb", "1,500 L", "", "-3 L"])
def test_a_quantity_without_a_unit_of_its_own_kind_is_refused(text: str) -> None:
    with pytest.raises(NotReadableError):
        parse_quantity(text, LITRE)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("27.90", "NUMBER-AS-TEXT"),
        ("27,90", "NUMBER-COMMA"),
        ("1,200", "NUMBER-THOUSANDS"),
        ("€ 27.90", "NUMBER-AS-TEXT"),
        ("about thirty", "NUMBER-UNREADABLE"),
        (math.nan, "NUMBER-NOT-FINITE"),
        (True, "NUMBER-UNREADABLE"),
    ],
)
def test_a_price_as_text_is_refused(text: str | float, code: str) -> None:
    with pytest.raises(NotReadableError) as refused:
        parse_money(text)
    assert refused.value.code == code


MARK = "with the decimal mark of your spreadsheet program"
INTO = f"into a cell formatted as percent, {MARK}"


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("7,5 %", f"type 7.5 % {INTO}, so that 0.075 is read"),
        ("7.5%", f"type 7.5 % {INTO}, so that 0.075 is read"),
        (" 10\u00a0% ", f"type 10 % {INTO}, so that 0.1 is read"),
        ("12,5", f"type 12.5 % {INTO}, so that 0.125 is read"),
        ("\u22125 %", f"type -5 % {INTO}, so that -0.05 is read"),
        ("0,075", f"type 7.5 % if that share is meant, or 0.075 %, {MARK}"),
        ("ten", "type a percentage only, such as 10 %"),
        ("7,5 % net", "type a percentage only, such as 10 %"),
    ],
)
def test_a_percentage_as_text_is_told_what_would_be_read(text: str, hint: str) -> None:
    with pytest.raises(NotReadableError) as refused:
        parse_percent(text)
    assert refused.value.hint == hint


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("1.234,50", "type 1234.50 as a number"),
        ("1,234.50", "type 1234.50 as a number"),
        ("1 234,50", "type 1234.50 as a number"),
        ("1\u202f234\u202f567", "type 1234567 as a number"),
        ("CHF 2'100.00", "type 2100.00 as a number"),
        ("2\u2019100", "type 2100 as a number"),
        ("-12.345.678", "type -12345678 as a number"),
        ("1.234", "type 1234 if the point parts thousands, or 1.234 if it is a decimal point"),
        ("1,234 EUR", "type 1234 if the comma parts thousands, or 1.234 if it is a decimal comma"),
        ("0.850", "type 0.850 again as a number, without quotes or units"),
        ("3 weeks", "type a number without words or units: 3, if that is what the column counts"),
        ("1.23.456", "type a number only"),
        ("1,234,50", "type a number only"),
    ],
)
def test_a_price_with_thousands_parted_is_told_what_to_type(text: str, hint: str) -> None:
    with pytest.raises(NotReadableError) as refused:
        parse_money(text)
    assert refused.value.hint == hint


def test_money_is_the_decimal_that_the_cell_shows() -> None:
    assert parse_money(27.9) == Decimal("27.9")
    assert parse_money(2.675) == Decimal("2.675")
    assert parse_money(0.1 + 0.2) == Decimal("0.3")


def test_counts_are_whole() -> None:
    assert parse_count(8.0) == 8
    with pytest.raises(NotReadableError) as refused:
        parse_count(7.5)
    assert refused.value.code == "COUNT-NOT-WHOLE"


@pytest.mark.parametrize(
    ("value_si", "unit", "shown"),
    [
        (1.8, SQUARE_METRE, "1.80 m²"),
        (1.672, SQUARE_FOOT, "18.0 ft²"),
        (22.6796185, POUND, "50.0 lb"),
        (0.0148, LITRE, "14.8 L"),
        (2.95735295625e-05, US_FLUID_OUNCE, "1.0 US fl oz"),
        (44.0, PIECE, "44"),
        (2.5, PIECE, "2.5"),
    ],
)
def test_quantities_are_shown_with_an_estimators_digits(
    value_si: float, unit: Unit, shown: str
) -> None:
    assert show_quantity(value_si, unit) == shown


def test_our_factors_are_pints() -> None:
    quotients = check_with_pint()
    assert set(quotients) == set(UNITS) - {"piece", "each"}
    assert all(abs(quotient - 1) < 1e-12 for quotient in quotients.values())


@pytest.mark.parametrize(
    ("room", "small", "paper"),
    [(METRE, MILLIMETRE, "A4"), (FOOT, INCH, "letter"), (FOOT, MILLIMETRE, "A4")],
)
def test_a_job_prints_on_the_paper_of_those_who_read_small_lengths_as_it_does(
    room: Unit, small: Unit, paper: str
) -> None:
    assert JobUnits(room_length=room, small_length=small).paper == paper

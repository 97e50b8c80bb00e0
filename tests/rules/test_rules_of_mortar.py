import pytest

from sheetcalc.domain.finish import Notch, NotchShape
from sheetcalc.rules.mortar import (
    bed_from_notch_m,
    dry_density_kg_m3,
    least_bed_m,
    least_contact,
    mortar_volume_m3,
)

IN = 8128
MM = 320
INCH = 0.0254
FT2 = 0.09290304


def square(width: int, depth: int | None = None) -> Notch:
    return Notch(NotchShape.SQUARE, width, depth or width, width)


QUARTER = square(IN // 4)
QUARTER_THREE_EIGHTHS = square(IN // 4, 3 * IN // 8)
HALF = square(IN // 2)


# bed in inches, computed from the notch's geometry
@pytest.mark.parametrize(
    ("notch", "angle", "bed_inch"),
    [
        (QUARTER, 90, 0.12500),
        (QUARTER, 60, 0.10825),
        (QUARTER, 45, 0.08839),
        (QUARTER_THREE_EIGHTHS, 90, 0.18750),
        (QUARTER_THREE_EIGHTHS, 60, 0.16238),
        (QUARTER_THREE_EIGHTHS, 45, 0.13258),
        (HALF, 90, 0.25000),
        (HALF, 60, 0.21651),
        (HALF, 45, 0.17678),
        # U 1/2 with a 1/2 in tooth
        (Notch(NotchShape.U, IN // 2, IN // 2, IN // 2), 90, 0.22317),
        (Notch(NotchShape.U, IN // 2, IN // 2, IN // 2), 45, 0.15781),
        # V 3/16 x 5/32 with a 1/16 in tooth
        (Notch(NotchShape.V, 3 * IN // 16, 5 * IN // 32, IN // 16), 90, 0.05859),
    ],
)
def test_inch_notches_leave_the_beds_of_the_derived_table(
    notch: Notch, angle: float, bed_inch: float
) -> None:
    assert bed_from_notch_m(notch, angle) / INCH == pytest.approx(bed_inch, abs=5.1e-6)


# the same as cubic inches on a square foot
@pytest.mark.parametrize(
    ("notch", "angle", "in3_per_ft2"),
    [
        (QUARTER, 90, 18.00),
        (QUARTER, 60, 15.59),
        (QUARTER, 45, 12.73),
        (QUARTER_THREE_EIGHTHS, 90, 27.00),
        (QUARTER_THREE_EIGHTHS, 60, 23.38),
        (QUARTER_THREE_EIGHTHS, 45, 19.09),
        (HALF, 90, 36.00),
        (HALF, 60, 31.18),
        (HALF, 45, 25.46),
    ],
)
def test_mortar_on_a_square_foot(notch: Notch, angle: float, in3_per_ft2: float) -> None:
    volume = mortar_volume_m3(FT2, bed_from_notch_m(notch, angle))
    assert volume / INCH**3 == pytest.approx(in3_per_ft2, abs=0.0051)


# computed likewise: 6, 8, 10, 12 mm square notches [mm]
@pytest.mark.parametrize(
    ("size", "beds"),
    [
        (6, (3, 2.598, 2.121)),
        (8, (4, 3.464, 2.828)),
        (10, (5, 4.330, 3.536)),
        (12, (6, 5.196, 4.243)),
    ],
)
def test_metric_notches_leave_the_beds_of_the_derived_table(
    size: int, beds: tuple[float, ...]
) -> None:
    found = [bed_from_notch_m(square(size * MM), angle) * 1000 for angle in (90, 60, 45)]
    assert found == pytest.approx(beds, abs=5.1e-4)


BAG_50_LB_M3 = 22.6796185 / dry_density_kg_m3(1650, 0.22)


def test_a_50_lb_bag_gives_16_769_litres() -> None:
    # computed: water ratio 0.22, wet density 1.65 kg/L
    bag = BAG_50_LB_M3
    assert bag * 1000 == pytest.approx(16.769, abs=5e-4)
    assert bag / INCH**3 == pytest.approx(1023.3, abs=0.05)
    assert bag / 0.3048**3 == pytest.approx(0.5922, abs=5e-5)


@pytest.mark.parametrize(
    ("thickness_inch", "ft2"), [(0.25, 28.43), (0.3125, 22.74), (0.375, 18.95), (0.39375, 18.05)]
)
def test_what_that_bag_covers(thickness_inch: float, ft2: float) -> None:
    # computed: the bag's yield over the thickness
    area = BAG_50_LB_M3 / (thickness_inch * INCH)
    assert area / FT2 == pytest.approx(ft2, abs=0.0051)


def tiles_a_bag(skim_inch: float, loss: float) -> float:
    """18 x 18 in tiles that a 50 lb bag sets with a 1/2 in notch held upright."""
    bed = bed_from_notch_m(HALF, 90)
    on_a_tile = mortar_volume_m3((18 * INCH) ** 2, bed, skim_inch * INCH) * (1 + loss)
    return BAG_50_LB_M3 / on_a_tile


def test_eight_18_inch_tiles_a_bag() -> None:
    # the trade's fact (common practice, no source): about eight, taken as 7 to 10
    assert 7 <= tiles_a_bag(1 / 8, 0.05) <= 10
    assert tiles_a_bag(1 / 8, 0.05) == pytest.approx(8.02, abs=0.0051)


def test_less_skim_sets_more_tiles() -> None:
    # computed likewise
    assert tiles_a_bag(1 / 16, 0) == pytest.approx(10.1, abs=0.051)
    assert tiles_a_bag(0, 0) == pytest.approx(12.6, abs=0.051)


def test_skim_adds_to_the_bed_and_nothing_else() -> None:
    assert mortar_volume_m3(2.0, 0.003, 0.001) == pytest.approx(0.008)
    assert mortar_volume_m3(2.0, 0.003) == pytest.approx(0.006)


def test_an_upright_trowel_whose_tooth_is_as_wide_as_its_notch_leaves_half_the_depth() -> None:
    assert bed_from_notch_m(square(12 * MM), 90) == pytest.approx(0.006)


@pytest.mark.parametrize("angle", [0, -45, 90.1, 180])
def test_an_angle_that_is_none_is_refused(angle: float) -> None:
    with pytest.raises(ValueError, match="trowel angle"):
        bed_from_notch_m(QUARTER, angle)


@pytest.mark.parametrize("sizes", [(0, 10, 10), (10, 0, 10), (10, 10, 0), (-10, 10, 10)])
def test_a_notch_without_size_is_refused(sizes: tuple[int, int, int]) -> None:
    with pytest.raises(ValueError, match="a notch of"):
        bed_from_notch_m(Notch(NotchShape.SQUARE, *sizes), 45)


def test_a_u_notch_is_at_least_half_as_deep_as_wide() -> None:
    bed_from_notch_m(Notch(NotchShape.U, 20 * MM, 10 * MM, 10 * MM), 45)
    with pytest.raises(ValueError, match="shallower"):
        bed_from_notch_m(Notch(NotchShape.U, 20 * MM, 10 * MM - 1, 10 * MM), 45)


def test_the_least_bed_of_one_unit_system() -> None:
    # ANSI A108.5-2.2.2, as quoted in tile-magazine 91948: 1/4 in square at 45 degrees passes 2 mm
    # and fails 3/32 in
    bed = bed_from_notch_m(QUARTER, 45)
    assert least_bed_m(inches=False) < bed < least_bed_m(inches=True)
    assert least_bed_m(inches=True) * 1000 == pytest.approx(2.381, abs=5e-4)


def test_contact_by_place_and_material() -> None:
    # ANSI A108.5-2.2.3, as quoted in tile-magazine 91948; stone: see the source
    assert least_contact(wet=False, stone=False)[0] == 0.80
    assert least_contact(wet=True, stone=False)[0] == 0.95
    share, source = least_contact(wet=False, stone=True)
    assert share == 0.95
    assert source == "TCNA Handbook 2018 p. 35, as quoted in ceramictilefoundation.org"

"""Waterproofing: coats, upturns, laps, bands, corner pieces and the water test."""

from typing import Final

BAND_SOURCE: Final = "band over seams in wet areas, common practice, no source"

TEST_HEAD_M: Final = 2 * 0.0254
TEST_SOURCE: Final = "IPC/FBC-P 2014 312.9, as quoted in plumbingzone"
TEST_MINUTES: Final = 15
FLOOD_SOURCE: Final = "ASTM D5957-98(2021) sections 1.1, 5.1-5.4 and Note 1"
FLOOD_WAIT_HOURS: Final = 24
FLOOD_WAIT_HOURS_COLD: Final = 48
FLOOD_COLD_C: Final = 10.0
FLOOD_HIGHEST_HEAD: Final = "100 mm (4 in)"
WATER_DENSITY_KG_M3: Final = 1000.0


def water_test_load_kg(area_m2: float, head_m: float = TEST_HEAD_M) -> float:
    """Mass of water that stands on a shower floor during its test.

    ASTM D5957-98(2021) Note 1 gives 5.19 lb/ft2 per inch; here the density of water, 1000 kg/m3
    (the two agree within 0.3 %).

    Parameters
    ----------
    area_m2
        Area under water [m2].
    head_m
        Depth of water [m]; 2 in at the threshold by default (IPC 312.9, as quoted).

    Returns
    -------
    float
        Mass [kg].
    """
    return area_m2 * head_m * WATER_DENSITY_KG_M3


def bands_from_roll(roll_width_mm320: int, band_width_mm320: int) -> tuple[int, int]:
    """Bands cut side by side from a roll's width, and what is left over.

    Derived.

    Parameters
    ----------
    roll_width_mm320, band_width_mm320
        Widths [1/320 mm].

    Returns
    -------
    tuple of int
        Bands from one cross-cut; trim [1/320 mm].
    """
    return divmod(roll_width_mm320, band_width_mm320)

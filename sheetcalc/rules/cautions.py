"""Cautions: lifting, dust, asbestos, waits and the doorway's step, with what backs each."""

from typing import Final

from sheetcalc.rules.materials import is_stone

LIFT_LIMIT_KG: Final = 23.0
LIFT_SOURCE: Final = "NIOSH lifting equation, load constant 23 kg (51 lb), CCOHS page"
TILE_DENSITY_KG_M3: Final = 2350.0
TILE_DENSITY_SOURCE: Final = "2350 kg/m³ for porcelain, from memory, not verified"
STONE_DENSITY_KG_M3: Final = 2700.0
STONE_DENSITY_SOURCE: Final = "2700 kg/m³ for natural stone, from memory, not verified"

ASBESTOS_LAST_YEAR: Final = 1980
ASBESTOS_SOURCE: Final = (
    "29 CFR 1926.1101 as summarised by Cornerstone Training; OSHA letter 18 May 2005 on sanding"
)
SILICA_SOURCE: Final = (
    "29 CFR 1926.1153 Table 1 (i), as quoted in public repositories: a stationary saw with "
    "integrated water delivery; limit 50 µg/m³ over 8 h, action level 25"
)

GROUT_WAIT_HOURS: Final = (24.0, 48.0)
GROUT_WAIT_SOURCE: Final = "common practice, no source"
HEATED_SCREED_WAIT_HOURS: Final = 21 * 24.0
HEATED_SCREED_SOURCE: Final = (
    "screed cured at least 3 weeks, heated at least 3 days and cooled before tiling: BS 5385-4, "
    "as quoted in technical note cts 4a of a UK tiling contractor (old edition)"
)

FLUSH_STEP_M: Final = 0.25 * 0.0254
BEVEL_STEP_M: Final = 0.5 * 0.0254
STEP_SOURCE: Final = "1/4 in upright, 1/2 in bevelled 1:2, from memory, not verified"

LONG_EDGE_MM320: Final = 15 * 8128


def tile_density(material: str) -> tuple[float, str]:
    """Density of a tile [kg/m3], and where it comes from.

    Natural stone 2700 kg/m3, all else as porcelain 2350 kg/m3: from memory, not verified.

    Parameters
    ----------
    material
        As typed in the Tiles tab.
    """
    if is_stone(material):
        return STONE_DENSITY_KG_M3, STONE_DENSITY_SOURCE
    return TILE_DENSITY_KG_M3, TILE_DENSITY_SOURCE


def box_weight_kg(
    area_m2: float, thickness_m: float, density_kg_m3: float = TILE_DENSITY_KG_M3
) -> float:
    """Weight of a box of tile where the maker's is not given.

    Density of porcelain 2350 kg/m3, from memory, not verified.

    Parameters
    ----------
    area_m2
        Face area of the tiles in the box [m2].
    thickness_m
        Thickness of a tile [m].
    density_kg_m3
        Density of the tile [kg/m3].

    Returns
    -------
    float
        Weight without packing [kg].

    Examples
    --------
    >>> round(box_weight_kg(1.44, 0.010), 2)
    33.84
    """
    return area_m2 * thickness_m * density_kg_m3


def needs_two_people(weight_kg: float) -> bool:
    """Whether a lift is above the load constant of the NIOSH lifting equation (CCOHS page).

    Parameters
    ----------
    weight_kg
        Weight lifted [kg].

    Returns
    -------
    bool
        True above 23 kg.  The equation's other multipliers only lower the limit.
    """
    return weight_kg > LIFT_LIMIT_KG


def asbestos_presumed(year_built: int | None) -> bool:
    """Whether resilient flooring, mastic and backing are presumed to hold asbestos.

    29 CFR 1926.1101 as summarised by Cornerstone Training: buildings constructed no later than
    1980.

    Parameters
    ----------
    year_built
        Year of the building, None where the job does not say.

    Returns
    -------
    bool
        True up to and including 1980.
    """
    return year_built is not None and year_built <= ASBESTOS_LAST_YEAR


def threshold_for_step(step_m: float) -> str:
    """Kind of threshold that a step at a doorway asks for.

    1/4 in upright and 1/2 in bevelled: from memory, not verified.

    Parameters
    ----------
    step_m
        Difference between the two finished floors [m]; its sign does not matter.

    Returns
    -------
    str
        Words for the Basis.
    """
    step = abs(step_m)
    if step <= FLUSH_STEP_M:
        return "a flat threshold or edge trim"
    if step <= BEVEL_STEP_M:
        return "a bevelled threshold (reducer)"
    return "a ramped threshold or a step to be designed"

"""Materials: natural stone by its name, densities for weights, coverings that are taken up."""

from typing import Final

from msgspec import Struct

_STONES: Final = (
    "stone", "marble", "granite", "limestone", "travertine", "slate", "sandstone", "onyx",
    "quartzite", "basalt", "schist",
)  # fmt: skip
_MADE: Final = ("porcelain", "ceramic", "engineered", "effect", "look", "imitation")


def is_stone(material: str) -> bool:
    """Whether a tile's material is natural stone, by the trade's names of stones.

    Common practice, no source.  Porcelain or ceramic that imitates a stone is none.

    Parameters
    ----------
    material
        As typed in the Tiles tab.

    Returns
    -------
    bool
        True for natural stone.
    """
    words = material.lower()
    return any(s in words for s in _STONES) and not any(m in words for m in _MADE)


STONE_COATS: Final = 2
STONE_COATS_SOURCE: Final = "before setting and before grouting: common practice, no source"

LEVELLING_DENSITY_KG_M3: Final = 2000.0
BACKER_DENSITY_KG_M3: Final = 1200.0
INSULATION_DENSITY_KG_M3: Final = 60.0
UNDERLAY_DENSITY_KG_M3: Final = 300.0
DENSITY_SOURCE: Final = "densities from memory, not verified"


class Covering(Struct, frozen=True):
    """A floor covering that is taken up: words that name it, and its density [kg/m3]."""

    words: tuple[str, ...]
    density_kg_m3: float


COVERINGS: Final[tuple[Covering, ...]] = (
    Covering(("carpet", "rug"), 300.0),
    Covering(("vinyl", "lino", "resilient", "rubber", "cushion"), 1400.0),
    Covering(("wood", "timber", "parquet", "laminate", "board", "plywood"), 700.0),
    Covering(("tile", "ceramic", "porcelain", "mosaic", "stone", "screed", "concrete"), 2000.0),
)
OTHER_COVERING_KG_M3: Final = 2000.0
COVERING_SOURCE: Final = "densities from memory, not verified"
BULKING: Final = 1.5
BULKING_SOURCE: Final = "common practice, no source"


def covering_density_kg_m3(take_up: str) -> float:
    """Density of what is taken up, by the words that name it.

    From memory, not verified; 2000 kg/m3 where no word is known.

    Parameters
    ----------
    take_up
        As typed in the Rooms tab.

    Returns
    -------
    float
        Density in place [kg/m3].
    """
    words = take_up.lower()
    for covering in COVERINGS:
        if any(word in words for word in covering.words):
            return covering.density_kg_m3
    return OTHER_COVERING_KG_M3

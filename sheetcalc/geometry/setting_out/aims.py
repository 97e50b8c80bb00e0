"""The aims of a setting-out, read from the Job's sentence."""

from enum import StrEnum
from functools import lru_cache


class Aim(StrEnum):
    """What a good setting-out has; the Job orders them."""

    NO_SLIVER = "no sliver"
    FEWEST_SMALL = "fewest small cuts"
    BALANCE = "balance"
    FEWEST_CUTS = "fewest cuts"
    FEWEST_TILES = "fewest tiles"


DEFAULT_AIMS = tuple(Aim)


@lru_cache(maxsize=16)
def aims_of(sentence: str) -> tuple[Aim, ...]:
    """Read the Job's list of aims; aims that it leaves out follow in the default order.

    Examples
    --------
    >>> [a.value for a in aims_of("balance, no sliver")][:3]
    ['balance', 'no sliver', 'fewest small cuts']
    """
    named = []
    for word in sentence.replace(";", ",").split(","):
        text = " ".join(word.lower().split())
        if text in {a.value for a in Aim} and Aim(text) not in named:
            named.append(Aim(text))
    return (*named, *(a for a in DEFAULT_AIMS if a not in named))

"""Names most like one that is unknown, for messages."""

from collections.abc import Iterable
from difflib import get_close_matches


def nearest(name: str, known: Iterable[str], *, most: int = 3) -> str:
    """Return the nearest names in quotes, joined by "or"; "" where none is near."""
    by_key: dict[str, str] = {}
    for one in known:
        by_key.setdefault(one.casefold(), one)
    close = get_close_matches(name.casefold(), by_key, n=most, cutoff=0.5)
    return " or ".join(f'"{by_key[key]}"' for key in close)


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """Return a sentence part for a hint: the nearest names, or "" where none is near."""
    close = nearest(name, known)
    return f"did you mean {close}?" if close else ""

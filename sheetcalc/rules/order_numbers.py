"""Order numbers made of names, so that a re-run gives the same number."""

import zlib
from collections.abc import Iterable
from typing import Final

_SHORT_NAME: Final = 8
"""Letters of a supplier or phase that go into an order number."""


def short_names(names: Iterable[str], blank: str) -> dict[str, str]:
    """Letters and digits of each name; names that would be alike get a few of their checksum."""
    plain = {
        name: "".join(c for c in name.upper() if c.isalnum())[:_SHORT_NAME] if name else blank
        for name in names
    }
    taken = list(plain.values())
    return {
        name: short if (short and taken.count(short) == 1) or not name
        else f"{short}{zlib.crc32(name.encode()) & 0xFFFF:04X}"
        for name, short in plain.items()
    }  # fmt: skip

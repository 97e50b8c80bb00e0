"""Names that a supplier's order tab goes by, in the book and in formulas."""

import zlib
from typing import Final

NO_SUPPLIER: Final = "no supplier"
"""Stands where an item's row names none."""

_LETTERS_OF_A_NAME: Final = 20


def order_table(supplier: str) -> str:
    """Name of a supplier's table: of its name only, so that a person's formulas keep their aim.

    The checksum parts names of the same letters, and those without any that a table may have.
    """
    if not supplier:
        return "OutOrderNoSupplier"
    plain = "".join(c for c in supplier if c.isascii() and c.isalnum())[:_LETTERS_OF_A_NAME]
    checksum = f"{zlib.crc32(supplier.encode()):08X}"
    return f"OutOrder{plain}{checksum[-4:] if plain else checksum}"

r"""Names that are legal and unique: of sheets, tables, defined names.

ECMA-376 part 1, 18.2.19 (sheets: at most 31 characters, none of ``[ ] : * ? / \``), 18.5.1.2
(tables: unique over the workbook, among the defined names too).
"""

import re
from collections.abc import Collection, Iterable
from typing import Final

LONGEST_SHEET_NAME: Final = 31
LONGEST_NAME: Final = 255
_FORBIDDEN = re.compile(r"[\[\]:*?/\\]")
_MARGIN: Final = " '"  # neither begins nor ends a name: an apostrophe may not, a space is not seen


def _cut(text: str, units: int) -> str:
    """At most so many UTF-16 code units, no sign cut in two."""
    while len(text.encode("utf-16-le")) > 2 * units:
        text = text[:-1]
    return text


def legal_sheet_name(name: str) -> str:
    """Make a name that a sheet may have.

    >>> legal_sheet_name("'Order - a/b'")
    'Order - a-b'
    """
    printable = "".join(sign if sign.isprintable() else " " for sign in name)
    plain = _FORBIDDEN.sub("-", printable).strip(_MARGIN)
    plain = _cut(plain, LONGEST_SHEET_NAME).strip(_MARGIN)  # the cut may lay an apostrophe bare
    return f"{plain} tab" if plain.casefold() == "history" else plain or "Tab"


def unique_sheet_name(name: str, taken: Collection[str]) -> str:
    """Find a legal sheet name that none of the taken (casefolded) ones is.

    >>> unique_sheet_name("Rooms", {"rooms", "rooms (2)"})
    'Rooms (3)'
    """
    wanted = legal_sheet_name(name)
    candidate, number = wanted, 1
    while candidate.casefold() in taken:
        number += 1
        tail = f" ({number})"
        candidate = _cut(wanted, LONGEST_SHEET_NAME - len(tail)).rstrip() + tail
    return candidate


def unique_sheet_names(wanted: Iterable[str]) -> list[str]:
    """Names of the sheets of one workbook, in order: the first to want a name gets it."""
    names: list[str] = []
    for name in wanted:
        names.append(unique_sheet_name(name, {made.casefold() for made in names}))
    return names


def unique_name(name: str, taken: Collection[str]) -> str:
    """Find a table's or defined name that none of the taken (casefolded) ones is.

    >>> unique_name("OutTakeoff", {"outtakeoff"})
    'OutTakeoff_2'
    """
    candidate, number = name, 1
    while candidate.casefold() in taken:
        number += 1
        tail = f"_{number}"
        candidate = name[: LONGEST_NAME - len(tail)] + tail
    return candidate

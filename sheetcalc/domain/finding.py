"""A finding: a user's mistake, or a matter to decide, as data.

Detecting and wording are apart: a check yields a code and its facts, one table words them.
"""

from collections.abc import Mapping
from enum import StrEnum
from typing import TypeAlias

from msgspec import Struct, field

from sheetcalc.domain.measure import Length

Fact: TypeAlias = str | int | float | Length
"""What a message may quote: text, a number, or a length to show in the job's units."""


class Severity(StrEnum):
    """An error stops, a warning asks, a note informs."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


class RowRef(Struct, frozen=True):
    """Where a record came from: the tab as declared, and the sheet row (1-based; None: no row)."""

    tab: str
    row: int | None = None


NOWHERE = RowRef("")


class Finding(Struct, frozen=True):
    """One finding.

    Attributes
    ----------
    code
        Key into the table of wordings, such as ``LENGTH-OUT-OF-RANGE``.
    source
        Tab and row that it is about.
    column
        Declared header of the cell that it is about, if one.
    facts
        What the wording fills in.
    room, surface
        What it is about in the model, for Decisions; empty where it concerns the whole book.
    """

    code: str
    source: RowRef = NOWHERE
    column: str | None = None
    facts: Mapping[str, Fact] = field(default_factory=dict)
    room: str = ""
    surface: str = ""


IN_ROOMS = RowRef("Rooms")

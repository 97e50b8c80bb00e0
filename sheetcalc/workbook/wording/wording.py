"""What a wording of a finding is."""

from functools import partial
from typing import Final

from msgspec import Struct

from sheetcalc.domain.finding import Severity

OWN_RULE: Final = "the program's own rule"
PRACTICE: Final = "common practice, no source"


class Wording(Struct, frozen=True):
    """Words of one finding code; ``{fact}`` places are filled from the finding's facts.

    Attributes
    ----------
    severity
        An error stops, a warning asks, a note informs.
    code
        Upper-case, in the trade's words: ``LENGTH-OUT-OF-RANGE``.
    found, expected, what_to_do
        The three parts of a message.
    explain
        The longer text of ``sheetcalc explain CODE``.
    source
        The standard as quoted, or ``PRACTICE``, or ``OWN_RULE``.
    alike
        Facts in which findings have to be alike to be told together in one row; None: they are
        told together where they differ in nothing but the room.
    """

    severity: Severity
    code: str
    found: str
    expected: str
    what_to_do: str
    explain: str
    source: str = OWN_RULE
    alike: tuple[str, ...] | None = None


error: Final = partial(Wording, Severity.ERROR)
"""Words a finding that stops the run."""

warning: Final = partial(Wording, Severity.WARNING)
"""Words a finding that asks."""

note: Final = partial(Wording, Severity.NOTE)
"""Words a finding that informs."""

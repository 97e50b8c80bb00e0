"""What a wording of a finding is."""

from typing import Final

from msgspec import Struct

from sheetcalc.domain.finding import Severity


class Wording(Struct, frozen=True):
    """Words of one finding code; ``{fact}`` places are filled from the finding's facts.

    Attributes
    ----------
    code
        Upper-case, in the trade's words: ``LENGTH-OUT-OF-RANGE``.
    severity
        An error stops, a warning asks, a note informs.
    found, expected, what_to_do
        The three parts of a message.
    explain
        The longer text of ``sheetcalc explain CODE``.
    source
        The standard as quoted, or "common practice, no source", or "the program's own rule".
    alike
        Facts in which findings have to be alike to be told together in one row; None: they are
        told together where they differ in nothing but the room.
    """

    code: str
    severity: Severity
    found: str
    expected: str
    what_to_do: str
    explain: str
    source: str
    alike: tuple[str, ...] | None = None


CONTRACT: Final = "the program's own rule"


def error(  # noqa: PLR0913, PLR0917 - the parts of a message
    code: str, found: str, expected: str, what_to_do: str, explain: str, source: str = CONTRACT
) -> Wording:
    """Word a finding that stops the run."""
    return Wording(code, Severity.ERROR, found, expected, what_to_do, explain, source)


def warning(  # noqa: PLR0913, PLR0917 - as above
    code: str, found: str, expected: str, what_to_do: str, explain: str, source: str = CONTRACT
) -> Wording:
    """Word a finding that asks."""
    return Wording(code, Severity.WARNING, found, expected, what_to_do, explain, source)

"""A cell that is not what its column wants, on its way to becoming a finding."""

from sheetcalc.domain.finding import Fact


class CellProblem(Exception):  # noqa: N818 (a user's mistake on its way to a finding)
    """Raised by the parsers of cells, caught where the row is read, and made a finding there.

    Attributes
    ----------
    code
        Finding code.
    facts
        What the wording fills in, besides what was found.
    """

    def __init__(self, *, code: str, **facts: Fact) -> None:
        super().__init__(code)
        self.code = code
        self.facts = facts

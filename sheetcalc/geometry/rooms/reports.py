"""Findings of one room as they come up, and whether any of them stops the room."""

from difflib import get_close_matches
from typing import Final

from sheetcalc.domain.finding import Fact, Finding, RowRef

_LOOK_ALIKE: Final = str.maketrans("oli", "011")
"""Letters that are taken for digits."""


class Report:
    """Collects the findings of one room; ``stopped`` once one of them is an error.

    The severity that people read stands in the table of wordings; here only is noted whether the
    room can still be measured.
    """

    def __init__(self, room: str) -> None:
        """Begin the report of a room, by its name."""
        self.room = room
        self.findings: list[Finding] = []
        self.stopped = False

    def error(
        self,
        code: str,
        source: RowRef,
        column: str | None = None,
        surface: str = "",
        /,
        **facts: Fact,
    ) -> None:
        """Note an error: the room is not measured."""
        self.stopped = True
        self.remark(code, source, column, surface, **facts)

    def add(self, other: "Report") -> None:
        """Take over what another report says of the same room."""
        self.findings += other.findings
        self.stopped = self.stopped or other.stopped

    def remark(
        self,
        code: str,
        source: RowRef,
        column: str | None = None,
        surface: str = "",
        /,
        **facts: Fact,
    ) -> None:
        """Note a warning or a note: the room is measured all the same."""
        self.findings.append(Finding(code, source, column, facts, self.room, surface))


def nearest_names(name: str, known: list[str]) -> str:
    """Names most like one that is unknown, for a message; all of them where few, or "none".

    A letter typed for a digit that looks alike comes first, and alone.
    """
    if mistaken := [k for k in known if _looks(k) == _looks(name)]:
        return ", ".join(mistaken)
    close = get_close_matches(name.casefold(), [k.casefold() for k in known], n=3, cutoff=0.5)
    likely = [k for k in known if k.casefold() in close]
    few = 6
    return ", ".join(likely or known[:few]) or "none"


def _looks(name: str) -> str:
    return name.casefold().translate(_LOOK_ALIKE)

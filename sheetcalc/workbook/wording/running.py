"""What is said of runs over many workbooks."""

from typing import Final

from sheetcalc.workbook.wording.wording import Wording, error

WORDINGS: Final[tuple[Wording, ...]] = (
    error(
        "PROCESS-ENDED",
        "the process that worked on {file} ended before it was done: {why}",
        "a process that goes on to the end of the workbook",
        "the file is as it was. Run it alone, with more memory free; if it happens again, "
        "keep the workbook and report it",
        "Many workbooks are worked on by a few processes. The system can end one, for want "
        "of memory as a rule, and so can a fault of this program; the other workbooks are "
        "done all the same. A workbook whose process was ended from outside has been tried "
        "twice. Files are replaced in one step when they are complete, so this one is as it "
        "was before.",
    ),
)
"""Words by code."""

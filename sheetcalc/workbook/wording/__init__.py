"""Words of every finding, subject by subject, and their rendering.

A check yields a code and its facts; the subject modules of this package say what is read.  A new
code is a row in one of them.
"""

from sheetcalc.workbook.wording.render import (
    WordedFinding,
    accepted_by,
    as_json,
    as_text,
    severity_of,
    word,
    word_all,
)
from sheetcalc.workbook.wording.table import WORDINGS
from sheetcalc.workbook.wording.wording import Wording

__all__ = [
    "WORDINGS",
    "WordedFinding",
    "Wording",
    "accepted_by",
    "as_json",
    "as_text",
    "severity_of",
    "word",
    "word_all",
]

"""Words of every finding, subject by subject, and their rendering.

A check yields a code and its facts; the subject modules of this package say what is read.  A new
code is a row in one of them.  The names below are loaded when they are asked for, because to
explain a code needs none of what renders a finding.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
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
    from sheetcalc.workbook.wording.together import told_together
    from sheetcalc.workbook.wording.wording import Wording

__all__ = [
    "WORDINGS",
    "WordedFinding",
    "Wording",
    "accepted_by",
    "as_json",
    "as_text",
    "severity_of",
    "told_together",
    "word",
    "word_all",
]

_HOMES = {"WORDINGS": "table", "Wording": "wording", "told_together": "together"}
"""Name -> the module that it stands in; the others stand in ``render``."""


def __getattr__(name: str) -> Any:  # noqa: ANN401 - any of the names above
    if name not in __all__:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_HOMES.get(name, 'render')}"), name)

"""The one table of all wordings, put together from the subject modules of this package."""

import pkgutil
from collections.abc import Iterator, Mapping
from importlib import import_module
from pathlib import Path

from sheetcalc.workbook.wording.wording import Wording

_MACHINERY = frozenset({"explain", "render", "table", "together", "wording"})


def _subjects() -> Iterator[tuple[str, tuple[Wording, ...]]]:
    for module in sorted(m.name for m in pkgutil.iter_modules([str(Path(__file__).parent)])):
        if module not in _MACHINERY:
            yield module, import_module(f"sheetcalc.workbook.wording.{module}").WORDINGS


def _table() -> Mapping[str, Wording]:
    table: dict[str, Wording] = {}
    for module, wordings in _subjects():
        for wording in wordings:
            if wording.code in table:
                message = f"{wording.code} is worded twice, the second time in {module}"
                raise ValueError(message)
            table[wording.code] = wording
    return table


WORDINGS: Mapping[str, Wording] = _table()
"""Wording by code."""

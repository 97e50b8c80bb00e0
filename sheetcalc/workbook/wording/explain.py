"""The longer text of a finding code or a setting, for ``sheetcalc explain``."""

import re
from collections.abc import Mapping
from difflib import get_close_matches

from sheetcalc.workbook.settings import SETTINGS, Setting
from sheetcalc.workbook.wording.table import WORDINGS
from sheetcalc.workbook.wording.wording import Wording

_PLACE = re.compile(r"\{(\w+)[^}]*\}")


def explain(name: str, more: Mapping[str, str] | None = None) -> str | None:
    """Return the longer text of a code, a setting, or a name in ``more``; None if unknown.

    Parameters
    ----------
    name
        In any case, a setting by its label or its key.
    more
        Texts of other things that can be explained, such as the lines of a takeoff, by name.
    """
    wanted = " ".join(name.split()).casefold()
    wording = {code.casefold(): w for code, w in WORDINGS.items()}.get(wanted)
    if wording is not None:
        return _code(wording)
    for setting in SETTINGS:
        if wanted in (setting.label.casefold(), setting.key.casefold()):
            return _setting(setting)
    return {key.casefold(): text for key, text in (more or {}).items()}.get(wanted)


def known_names(more: Mapping[str, str] | None = None) -> tuple[str, ...]:
    """Everything that can be explained, in order."""
    return (*sorted(WORDINGS), *(s.label for s in SETTINGS), *(more or {}))


def nearest_to(name: str, more: Mapping[str, str] | None = None) -> tuple[str, ...]:
    """Names most like one that is unknown."""
    known = {known.casefold(): known for known in known_names(more)}
    return tuple(known[k] for k in get_close_matches(name.casefold(), known, n=3, cutoff=0.5))


def _code(wording: Wording) -> str:
    return (
        f"{wording.code} ({wording.severity.value})\n\n"
        f"{wording.explain.strip()}\n\n"
        f"  found      {_blanks(wording.found)}\n"
        f"  expected   {_blanks(wording.expected)}\n"
        f"  what to do {_blanks(wording.what_to_do)}\n\n"
        f"Source: {wording.source}"
    )


def _blanks(text: str) -> str:
    """Show the places that a finding fills in: ``{low}`` as ``<low>``."""
    return _PLACE.sub(lambda place: f"<{place[1].replace('_', ' ')}>", text)


def _setting(setting: Setting) -> str:
    choices = f"Choices: {', '.join(setting.choices)}.\n" if setting.choices else ""
    return (
        f"{setting.label} (setting of the Job tab)\n\n"
        f"{setting.guidance}\n{choices}\n"
        f"Source: {setting.source}"
    )

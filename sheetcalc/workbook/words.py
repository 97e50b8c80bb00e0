"""The dictionary of an office: ``words.toml``."""

import tomllib
from pathlib import Path
from string import Formatter
from typing import Final

from sheetcalc.domain.words import PLACE, Words
from sheetcalc.templates_folder import template_file

TERMS: Final = "names"
"""Heading of the terms that names are put together from."""

WORKINGS: Final = "workings"
"""Heading of sentences that are looked for in what result tabs tell."""

SAID: Final = ("findings", "drawings")
"""Headings of templates that are never looked for in a text: messages, and what drawings tell."""


def _fills(own: str, english: str) -> bool:
    """Whether everything in the braces of the office's words is among those of the English."""
    try:
        names = {name for _, name, _, _ in Formatter().parse(own) if name is not None}
    except ValueError:  # a brace alone
        return False
    return names <= set(PLACE.findall(english))


def load_words(folder: Path | None = None) -> Words:
    """Read ``words.toml``.

    Parameters
    ----------
    folder
        An office's own templates; None for the program's.

    Raises
    ------
    ValueError
        For words that are no text, or whose braces are not those of the English.
    """
    path = template_file("words.toml", folder)
    with path.open("rb") as file:
        try:
            groups = tomllib.load(file)
        except tomllib.TOMLDecodeError as wrong:
            message = f"{path.name}: {wrong}"
            raise ValueError(message) from wrong
    table: dict[str, str] = {}
    terms: dict[str, str] = {}
    said: dict[str, str] = {}
    workings: dict[str, str] = {}
    apart = {TERMS: terms, WORKINGS: workings, **dict.fromkeys(SAID, said)}
    for heading, group in groups.items():
        for english, own in group.items():
            if not isinstance(own, str):
                message = f"{path.name}: the words for {english!r} are no text"
                raise ValueError(message)  # noqa: TRY004 - a wrong file, not a wrong type of ours
            if not _fills(own, english):
                message = f"{path.name}: braces in {own!r} that {english!r} has not"
                raise ValueError(message)
            apart.get(heading, table)[english] = own
    return Words(table, terms, said, workings)

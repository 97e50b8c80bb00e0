"""Words of what goes out: English in the code, another language from ``words.toml``.

A word is found by its English.  Braces stand for what changes: ``"Total ({currency})"``.
"""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from sheetcalc.templates_folder import template_file

_PLACE = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True)
class Words:
    """A dictionary from English.

    Attributes
    ----------
    table
        English -> the office's words, both with the same braces.
    """

    table: Mapping[str, str] = field(default_factory=dict)
    _patterns: tuple[tuple[re.Pattern[str], str], ...] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        """Make patterns of what has braces."""
        changing = [(english, own) for english, own in self.table.items() if "{" in english]
        patterns = tuple((_pattern(english), own) for english, own in changing)
        object.__setattr__(self, "_patterns", patterns)

    @property
    def english(self) -> bool:
        """Whether every word is its English."""
        return all(english == own for english, own in self.table.items())

    def say(self, english: str) -> str:
        """Return the office's words for a label or a template; the English where it has none."""
        return self.table.get(english, english)

    def shown(self, text: str) -> str:
        """Return the office's words for a text in which the braces are filled in already.

        Examples
        --------
        >>> Words({"Total ({currency})": "Summe ({currency})"}).shown("Total (EUR)")
        'Summe (EUR)'
        """
        if text in self.table:
            return self.table[text]
        for pattern, own in self._patterns:
            found = pattern.fullmatch(text)
            if found:
                return own.format_map(found.groupdict())
        return text


ENGLISH = Words()
"""No dictionary: everything as it stands in the code."""


def _pattern(english: str) -> re.Pattern[str]:
    pieces = _PLACE.split(english)
    texts = [
        re.escape(piece) if at % 2 == 0 else f"(?P<{piece}>.*?)" for at, piece in enumerate(pieces)
    ]
    return re.compile("".join(texts), re.DOTALL)


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
    for group in groups.values():
        for english, own in group.items():
            if not isinstance(own, str):
                message = f"{path.name}: the words for {english!r} are no text"
                raise ValueError(message)  # noqa: TRY004 - a wrong file, not a wrong type of ours
            if not set(_PLACE.findall(own)) <= set(_PLACE.findall(english)):
                message = f"{path.name}: braces in {own!r} that {english!r} has not"
                raise ValueError(message)
            table[english] = own
    return Words(table)

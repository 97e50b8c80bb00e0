"""Words of what goes out: English in the code, another language from an office's dictionary.

A word is found by its English.  Braces stand for what changes: ``"Total ({currency})"``.
"""

import re
from collections.abc import Mapping

from msgspec import Struct, field
from msgspec.structs import force_setattr

PLACE = re.compile(r"\{(\w+)\}")
"""Where something is filled in."""


class Words(Struct, frozen=True):
    """A dictionary from English.

    Attributes
    ----------
    table
        English -> the office's words, both with the same braces.
    terms
        English -> the office's words of names that are put together, such as ``wall far``.
    said
        Templates of messages and drawings; they are said, never looked for in a text.
    """

    table: Mapping[str, str] = field(default_factory=dict)
    terms: Mapping[str, str] = field(default_factory=dict)
    said: Mapping[str, str] = field(default_factory=dict)
    _patterns: tuple[tuple[re.Pattern[str], str], ...] = ()
    _terms: re.Pattern[str] | None = None

    def __post_init__(self) -> None:
        """Make patterns of what has braces."""
        changing = [(english, own) for english, own in self.table.items() if "{" in english]
        patterns = tuple((_pattern(english), own) for english, own in changing)
        force_setattr(self, "_patterns", patterns)
        other = {english for english, own in self.terms.items() if own != english}
        longest_first = "|".join(re.escape(term) for term in sorted(other, key=len, reverse=True))
        pattern = re.compile(rf"\b(?:{longest_first})\b") if other else None
        force_setattr(self, "_terms", pattern)

    @property
    def english(self) -> bool:
        """Whether every word is its English."""
        parts = (self.table, self.terms, self.said)
        return all(english == own for part in parts for english, own in part.items())

    def say(self, english: str) -> str:
        """Return the office's words for a label or a template; the English where it has none."""
        return self.table.get(english) or self.said.get(english, english)

    def fill(self, template: str, **facts: object) -> str:
        """Return the office's words for a template, with its braces filled in.

        Examples
        --------
        >>> Words({"{number} whole": "{number} ganze"}).fill("{number} whole", number=3)
        '3 ganze'
        """
        return self.say(template).format_map(facts)

    def named(self, name: str) -> str:
        """Return a name that is put together, with the terms in it in the office's words.

        Examples
        --------
        >>> Words(terms={"wet area": "Nassbereich", "far": "hinten"}).named("wet area far")
        'Nassbereich hinten'
        """
        if self._terms is None:
            return name
        return self._terms.sub(lambda found: self.terms[found[0]], name)

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
    pieces = PLACE.split(english)
    texts = [
        re.escape(piece) if at % 2 == 0 else f"(?P<{piece}>.*?)" for at, piece in enumerate(pieces)
    ]
    return re.compile("".join(texts), re.DOTALL)

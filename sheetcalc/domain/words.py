"""Words of what goes out: English in the code, another language from an office's dictionary.

A word is found by its English.  Braces stand for what changes: ``"Total ({currency})"``.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Self

from msgspec import Struct, field
from msgspec.structs import force_setattr, replace

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
    workings
        Sentences, and clauses of them, that tell how something was worked out.
    kept
        Names that people typed and that would be taken for words of ours; see ``keeping``.
    """

    table: Mapping[str, str] = field(default_factory=dict)
    terms: Mapping[str, str] = field(default_factory=dict)
    said: Mapping[str, str] = field(default_factory=dict)
    workings: Mapping[str, str] = field(default_factory=dict)
    kept: frozenset[str] = frozenset()
    _patterns: tuple[tuple[re.Pattern[str], str], ...] = ()
    _workings: Mapping[str, Sequence["_Template"]] = field(default_factory=dict)
    _terms: re.Pattern[str] | None = None

    def __post_init__(self) -> None:
        """Make patterns of what has braces."""
        changing = [(english, own) for english, own in self.table.items() if "{" in english]
        patterns = tuple((_pattern(english), own) for english, own in changing)
        force_setattr(self, "_patterns", patterns)
        force_setattr(self, "_workings", _by_beginning(self.workings))
        other = {english for english, own in self.terms.items() if own != english}
        known = sorted(other | self.kept, key=len, reverse=True)
        longest_first = "|".join(map(re.escape, known))
        pattern = re.compile(rf"(?<!\w)(?:{longest_first})(?!\w)") if other else None
        force_setattr(self, "_terms", pattern)

    @property
    def english(self) -> bool:
        """Whether every word is its English."""
        parts = (self.table, self.terms, self.said, self.workings)
        return all(english == own for part in parts for english, own in part.items())

    def keeping(self, typed: Iterable[str]) -> Self:
        """Return the same words, which leave alone what people typed.

        A name that is exactly a term of ours is kept behind another word, as in ``curb curb top``:
        by itself it can't be told from the term.

        Examples
        --------
        >>> words = Words(terms={"bath": "Wanne", "face": "Seite", "curb": "Bord"})
        >>> words.keeping(["Guest bath", "curb"]).named("curb Guest bath face")
        'Bord Guest bath Seite'
        >>> words.keeping(["Guest bath", "curb"]).named("curb curb face")
        'Bord curb Seite'
        """
        kept = {name for name in typed if self.told(name) != name or self.called(name) != name}
        return replace(self, kept=frozenset(kept)) if kept else self

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

    def apart(self, *english: str) -> dict[str, str]:
        """Return the office's words for states that must be told apart, whatever their case.

        A word that would stand for two of them keeps its English beside it.

        Examples
        --------
        >>> Words({"error": "Achtung", "warning": "Achtung"}).apart("error", "warning")
        {'error': 'Achtung', 'warning': 'Achtung (warning)'}
        """
        found: dict[str, str] = {}
        taken: set[str] = set()
        for word in english:
            own = self.say(word)
            found[word] = f"{own} ({word})" if own.casefold() in taken else own
            taken.add(found[word].casefold())
        return found

    def named(self, name: str) -> str:
        """Return a name that is put together, with the terms in it in the office's words.

        Examples
        --------
        >>> Words(terms={"wet area": "Nassbereich", "far": "hinten"}).named("wet area far")
        'Nassbereich hinten'
        """
        if self._terms is None:
            return name

        def own(found: re.Match[str]) -> str:
            term = found[0]
            is_kept = term in self.kept and (found.start() > 0 or term not in self.terms)
            return term if is_kept else self.terms[term]

        return self._terms.sub(own, name)

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

    def told(self, text: str) -> str:
        """Return the office's words for sentences in which the braces are filled in already.

        Each sentence, and each clause of it, is looked for by itself; what is filled in is told
        in turn.  What is not known stays English.

        Examples
        --------
        >>> workings = {"{n} rows along {side}": "{n} Reihen längs {side}"}
        >>> Words(terms={"left wall": "linke Wand"}, workings=workings).told(
        ...     "3 rows along left wall; tight. As laid."
        ... )
        '3 Reihen längs linke Wand; tight. As laid.'
        """
        if text in self.kept:
            return text
        known = self.workings.get(text)
        return known or "".join(self._clause(part) or part for part in _parts(text, _CLAUSES))

    def called(self, name: str) -> str:
        """Return the office's words for a name, a list of them, or a clause that stands for one."""
        if _AS_TYPED.fullmatch(name) or (name in self.kept and name not in self.terms):
            return name
        return self._clause(name) or "".join(
            self._clause(part) or self.named(part) for part in _parts(name, _LISTED)
        )

    def _clause(self, text: str) -> str:
        """Return the words for a clause, which may end a sentence; "" where it is not known."""
        known = self._whole(text)
        if not known and text.endswith("."):
            known = self._whole(text[:-1])
            known = known and f"{known}."
        if not known and ": " in text:  # what it is about, and a clause that is known
            about, _, rest = text.partition(": ")
            known = self._clause(rest)
            known = known and f"{self.called(about)}: {known}"
        return known

    def _whole(self, text: str) -> str:
        for known in (self.workings, self.table, self.terms):
            if text in known:
                return known[text]
        for template in self._workings.get(text[:_BEGINNING]) or self._workings.get("", ()):
            if template.mark in text and (found := template.pattern.fullmatch(text)):
                facts = {
                    name: fact if name in _TYPED else self.called(fact)
                    for name, fact in found.groupdict().items()
                }
                return template.own.format_map(facts)
        return ""


_TYPED = frozenset({"code", "item", "key", "other", "room", "third"})
"""Places for what somebody types, such as the basis of a sundry: it is the same everywhere."""

_FIGURES = frozenset({"number", "area", "length", "share"})
"""Places for figures: so no name that somebody types is taken for a clause."""

_AS_TYPED = re.compile(r'"[^"]*"|(?:(?![a-z]{3}).)*', re.DOTALL)
"""What stands in quotes, and what has no words in it: symbols of units have fewer letters."""

_CLAUSES = re.compile(r"[()]|; |(?<=\.) (?=[A-Z])|(?<=[a-z]{3}\.) (?=[0-9])")
"""Between clauses and sentences; 'no. 2' is no end of one."""

_LISTED = re.compile(r"[()]|, | \+ ")


def _parts(text: str, breaks: re.Pattern[str]) -> Iterator[str]:
    """Parts of a text, and what stands between them; what is in brackets stays whole."""
    begin = depth = 0
    for found in breaks.finditer(text):
        if found[0] in {"(", ")"}:
            depth += 1 if found[0] == "(" else -1
        elif depth == 0:
            yield text[begin : found.start()]
            yield found[0]
            begin = found.end()
    yield text[begin:]


class _Template(Struct, frozen=True):
    """A template to be looked for in texts.

    Attributes
    ----------
    begins
        Its words before the first place; "" where it begins with one.
    mark
        Its longest words between places: that they are in a text is seen soonest.
    said
        Letters of all its words: a template that says more is looked for sooner.
    """

    begins: str
    mark: str
    said: int
    pattern: re.Pattern[str]
    own: str

    @classmethod
    def of(cls, english: str, own: str) -> Self:
        words = PLACE.split(english)[::2]
        pattern = _pattern(english, _FIGURES)
        return cls(words[0], max(words, key=len), sum(map(len, words)), pattern, own)


_BEGINNING = 4
"""Letters by which the templates that may be a text's are found."""


def _by_beginning(workings: Mapping[str, str]) -> Mapping[str, Sequence[_Template]]:
    """Templates by the letters that they begin with, each with those that begin otherwise.

    Those of "" begin with a place, or with too few letters, and may be any text's.
    """
    changing = (_Template.of(english, own) for english, own in workings.items() if "{" in english)
    templates = sorted(changing, key=lambda template: -template.said)
    letters = {t.begins[:_BEGINNING] for t in templates if len(t.begins) >= _BEGINNING}
    return {
        begin: [
            template
            for template in templates
            if len(template.begins) < _BEGINNING or template.begins.startswith(begin)
        ]
        for begin in letters
    } | {"": [template for template in templates if len(template.begins) < _BEGINNING]}


ENGLISH = Words()
"""No dictionary: everything as it stands in the code."""


def _pattern(english: str, figures: Collection[str] = ()) -> re.Pattern[str]:
    """Make a pattern of a template; what stands for ``figures`` begins with one."""
    pieces = PLACE.split(english)
    texts = [
        f"(?P<{piece}>{r'[-+]?[0-9]' if piece in figures else ''}.*?)"
        if at % 2
        else re.escape(piece)
        for at, piece in enumerate(pieces)
    ]
    return re.compile("".join(texts), re.DOTALL)

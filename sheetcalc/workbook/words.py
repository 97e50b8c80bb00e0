"""The dictionary of an office: ``words.toml``."""

import re
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from string import Formatter
from typing import Final

from sheetcalc.domain.words import PLACE, Words
from sheetcalc.templates_folder import template_file

FILE: Final = "words.toml"

TERMS: Final = "names"
"""Heading of the terms that names are put together from."""

WORKINGS: Final = "workings"
"""Heading of sentences that are looked for in what result tabs tell."""

SAID: Final = ("findings", "drawings", "states", "terminal")
"""Headings of words that are never looked for in a text: messages, and what drawings, formulas and
commands tell."""

_COMPLETE: Final = "complete"
"""False at the head of a file that is meant to hold some of the words only."""

_CONTROLS: Final = re.compile(r"[\x00-\x1f\x7f]")
"""Signs that a cell, a header or a name of a file has no place for."""

_LONGEST: Final = 1000
"""Signs of a sentence; a cell has room for 32,767."""

_LONGEST_STATE: Final = 250
"""A formula has room for 8,192 signs, and one names up to seven states."""


def load_words(folder: Path | None = None) -> Words:
    """Read ``words.toml``.

    Parameters
    ----------
    folder
        An office's own templates; None for the program's.

    Raises
    ------
    ValueError
        For words that are no text, whose braces are not those of the English, or that stand twice
        and differ; the message names file and line.
    """
    path = template_file(FILE, folder)
    text, groups = _read(path)
    table: dict[str, str] = {}
    terms: dict[str, str] = {}
    said: dict[str, str] = {}
    workings: dict[str, str] = {}
    apart = {TERMS: terms, WORKINGS: workings, **dict.fromkeys(SAID, said)}
    for heading, english, own in _entries(groups):
        longest = _LONGEST_STATE if heading == "states" else _LONGEST
        trouble = next(_wrong(english, own, longest), "")
        into = apart.get(heading, table)
        others = (table, said) if into is table or into is said else (into,)
        if not trouble and any(part.get(english, own) != own for part in others):
            trouble = f"other words for {english!r} stand further up"
        if trouble:
            message = f"{path.name}, line {_line(text, heading, english)}: {trouble}"
            raise ValueError(message)
        if own:
            into[english] = str(own)
    return Words(table, terms, said, workings)


def notes_on_words(folder: Path) -> tuple[str, ...]:
    """Say which words an office's file lacks, and which it has that nobody asks for.

    Parameters
    ----------
    folder
        An office's own templates, whose words can be read.

    Returns
    -------
    tuple[str, ...]
        Sentences; none where it has no words, or says that others are to stay English.
    """
    path = folder / FILE
    if not path.is_file():
        return ()
    text, groups = _read(path)
    own = {(heading, english) for heading, english, words in _entries(groups) if words}
    shipped = {
        (heading, english) for heading, english, _ in _entries(_read(template_file(FILE))[1])
    }
    there, known = ({english for _, english in some} for some in (own, shipped))
    missing = sorted(known - there)
    strange = [entry for entry in own if entry[1] not in known]
    said = []
    if missing and groups.get(_COMPLETE, True):
        said.append(
            f"{path}: {len(missing)} of {len(known)} words are not in it and stay English, such "
            f"as {missing[0]!r}; '{_COMPLETE} = false' in its first line says that they shall"
        )
    if strange:
        first = min(_line(text, *entry) for entry in strange)
        said.append(
            f"{path}: nothing asks for {len(strange)} of its words, the first in line {first}"
        )
    return tuple(said)


def _read(path: Path) -> tuple[str, Mapping[str, object]]:
    """Text of a file, and what it holds."""
    try:
        text = path.read_bytes().decode("utf-8-sig")
        return text, tomllib.loads(text)
    except UnicodeDecodeError as wrong:
        message = f"{path.name} is no UTF-8 text"
        raise ValueError(message) from wrong
    except tomllib.TOMLDecodeError as wrong:
        message = f"{path.name}: {wrong}"
        raise ValueError(message) from wrong


def _entries(groups: Mapping[str, object]) -> Iterator[tuple[str, str, object]]:
    """Heading, English and own words of each entry."""
    for heading, group in groups.items():
        if isinstance(group, dict):
            for english, own in group.items():
                yield heading, english, own
        elif heading != _COMPLETE:
            message = f"{FILE}: {heading!r} stands above the first heading"
            raise ValueError(message)


def _wrong(english: str, own: object, longest: int) -> Iterator[str]:
    """Say what is wrong with the words for some English."""
    if not isinstance(own, str):
        yield f"the words for {english!r} are no text"
        return
    if len(own) > longest:
        yield f"the words for {english!r} have {len(own)} signs, more than {longest}"
    if _CONTROLS.search(own):
        yield f"the words for {english!r} have a tab, a line break or the like in them"
    try:
        places = [part for part in Formatter().parse(own) if part[1] is not None]
    except ValueError:
        yield f"a brace alone in {own!r}"
        return
    if any(how or conversion for _, _, how, conversion in places):
        yield f"in the braces of {own!r} stands more than a name"
    names, wanted = {name for _, name, _, _ in places}, set(PLACE.findall(english))
    if names - wanted:
        yield f"braces in {own!r} that {english!r} has not"
    if own and wanted - names:
        yield f"{english!r} has {{{min(wanted - names)}}}, and {own!r} has not"


def _line(text: str, heading: str, english: str) -> int:
    """Line of an entry, counted from 1; that of its heading where it is written in another way."""
    under, found = "", 1
    for number, line in enumerate(text.split("\n"), 1):
        try:
            read = tomllib.loads(line)
        except tomllib.TOMLDecodeError:
            continue
        if read == {heading: {}} or (under == heading and english in read):
            found = number
        if under == heading and english in read:
            return found
        if line.lstrip().startswith("["):
            under = next(iter(read), "")
    return found

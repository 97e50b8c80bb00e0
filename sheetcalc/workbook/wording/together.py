"""Findings that say the same of several rooms or surfaces, told once."""

from collections.abc import Iterable, Mapping, Sequence

from msgspec.structs import replace

from sheetcalc.domain.finding import Fact
from sheetcalc.domain.measure import JobUnits, Length
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.workbook.wording.render import WordedFinding, fact_words, facts_in_words
from sheetcalc.workbook.wording.table import WORDINGS

_MOST_NAMED = 12
"""Rooms and surfaces that a message names; what is left is counted."""


def told_together(
    worded: Iterable[WordedFinding],
    units: JobUnits,
    words: Words = ENGLISH,
    copies: Mapping[str, Sequence[str]] | None = None,
) -> tuple[WordedFinding, ...]:
    """Put findings together that a person decides on together; in the order of the first of each.

    Those that differ in nothing but the room always are.  Where a wording says in which facts
    findings have to be alike, others may differ: their words are listed, their numbers become a
    range.  Accepted ones and open ones stay apart.

    Parameters
    ----------
    worded
        In words, room by room.
    units
        The job's units.
    words
        The office's.
    copies
        Rooms that a row of Rooms stands for by its own name, where it names them: they are what a
        person on site knows.
    """
    copies = copies or {}
    groups: dict[tuple[object, ...], list[WordedFinding]] = {}
    for one in worded:
        groups.setdefault(_kind(one), []).append(one)
    return tuple(_as_one(several, units, words, copies) for several in groups.values())


def _kind(one: WordedFinding) -> tuple[object, ...]:
    alike = WORDINGS[one.code].alike
    if alike is None:
        return (one.code, one.accepted, one.sheet, one.cell, one.surface, *_parts(one))
    facts = dict(one.facts)
    return (one.code, one.accepted, *(facts.get(name) for name in alike))


def _parts(one: WordedFinding) -> tuple[str, str, str]:
    return one.found, one.expected, one.what_to_do


def _as_one(
    several: Sequence[WordedFinding],
    units: JobUnits,
    words: Words,
    copies: Mapping[str, Sequence[str]],
) -> WordedFinding:
    first = several[0]
    rows = dict.fromkeys(one.room for one in several if one.room)
    rooms = tuple(name for row in rows for name in copies.get(row, (row,)))
    surfaces = list(dict.fromkeys(one.surface for one in several if one.surface))
    if len({_parts(one) for one in several}) > 1:
        first = _reworded(first, several, units, words)
    named, on = listed(rooms, words), listed(surfaces, words)
    return replace(first, room=named, surface=on, rooms=rooms)


def _reworded(
    first: WordedFinding, several: Sequence[WordedFinding], units: JobUnits, words: Words
) -> WordedFinding:
    """Fill the wording from the facts of all."""
    wording = WORDINGS[first.code]
    facts = [dict(one.facts) for one in several]
    names = dict.fromkeys(name for each in facts for name in each)
    merged = {name: _merged([e[name] for e in facts if name in e], units, words) for name in names}
    merged.setdefault("room", listed(list(dict.fromkeys(one.room for one in several)), words))
    merged.setdefault("surface", listed(list(dict.fromkeys(one.surface for one in several)), words))
    merged = facts_in_words(merged, words)
    return replace(
        first,
        found=words.say(wording.found).format_map(merged),
        expected=words.say(wording.expected).format_map(merged),
        what_to_do=words.say(wording.what_to_do).format_map(merged),
    )


def _merged(values: Sequence[Fact], units: JobUnits, words: Words) -> str:
    """One fact of several findings: a range of numbers and lengths, a list of words."""
    different = list(dict.fromkeys(values))
    lengths = [value for value in different if isinstance(value, Length)]
    if len(lengths) == len(different):
        ends = (lengths[0], lengths[0])
        for value in lengths:
            ends = min(ends[0], value, key=_size), max(ends[1], value, key=_size)
        return _range(ends, units, words)
    numbers = [value for value in different if isinstance(value, int | float)]
    if len(numbers) == len(different):
        return _range(sorted(numbers), units, words)
    shown = (fact_words(value, units) for value in different)
    # some are lists already
    names = dict.fromkeys(name for several in shown for name in several.split(", "))
    return listed(list(names), words)


def _size(length: Length) -> int:
    return length.mm320


def _range(ordered: Sequence[Fact], units: JobUnits, words: Words) -> str:
    least, most = (fact_words(value, units) for value in (ordered[0], ordered[-1]))
    return least if least == most else words.fill("{least} to {most}", least=least, most=most)


def listed(names: Sequence[str], words: Words = ENGLISH) -> str:
    """Name several things one after another; of many the first, and how many more there are."""
    first, more = ", ".join(names[:_MOST_NAMED]), len(names) - _MOST_NAMED
    if more <= 0:
        return first
    return words.fill("{rooms} and {number} more", rooms=first, number=more)

"""A second language for tests: English in which every word of ours is marked.

What comes out without the mark was left in English, or was typed by a person.
"""

import json
import re
from pathlib import Path

from sheetcalc.domain.words import Words
from sheetcalc.workbook.words import load_words

MARK = '="<&>*?~ '
"""Signs that are hard on formulas, searches and XML; a cell that begins so is no formula."""


def marked(words: Words, mark: str = MARK) -> Words:
    """The program's words with a mark before each."""
    parts = (words.table, words.terms, words.said, words.workings)
    return Words(*({english: f"{mark}{english}" for english in part} for part in parts))


def write_office(folder: Path, mark: str = MARK) -> Path:
    """An office whose every word has the mark."""
    return _written(folder, marked(load_words(), mark))


def write_capitals(folder: Path) -> Path:
    """An office whose words are all in capitals."""
    return _written(folder, CAPITALS)


def _written(folder: Path, words: Words) -> Path:
    parts = (("any", words.table), ("names", words.terms), ("states", words.said))
    lines: list[str] = []
    for heading, part in (*parts, ("workings", words.workings)):
        lines.append(f"[{heading}]")
        lines += [f"{json.dumps(english)} = {json.dumps(own)}" for english, own in part.items()]
    folder.mkdir(exist_ok=True)
    (folder / "words.toml").write_text("\n".join(lines), encoding="utf-8")
    return folder


def _in_capitals(english: str) -> str:
    """All but what is filled in."""
    return re.sub(r"\{\w+\}|[^{}]+", lambda p: p[0] if "{" in p[0] else p[0].upper(), english)


_SHIPPED = load_words()
CAPITALS = Words(*({e: _in_capitals(e) for e in part} for part in (
    _SHIPPED.table, _SHIPPED.terms, _SHIPPED.said, _SHIPPED.workings,
)))  # fmt: skip
"""A second language again: what it leaves in small letters was left in English, or typed."""

LOWER = re.compile(r"\b[a-z]{4,}\b")

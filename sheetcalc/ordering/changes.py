"""What is new in an order against the revision that was written before it, in words."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal, InvalidOperation
from typing import Final

from sheetcalc.domain.order_record import OrderRecord
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.rules.packages import counted_noun

_CODE: Final = "Our code"
_NAMED_BY: Final = ("Our code", "Description")
_NOT_COMPARED: Final = frozenset({"Line"})
_NONE: Final = "none"
_OURS: Final = frozenset({"Package", "Unit", "Pack price", "Amount", "Note"})
"""Fields that may hold words of ours."""


def changes(old: OrderRecord, new: OrderRecord, words: Words = ENGLISH) -> tuple[str, ...]:
    """List the differences of two revisions, lines first; empty where they say the same.

    Numbers are compared as numbers, so that a file that a spreadsheet program has saved again
    (48.5 for 48.50) is the same order.

    Parameters
    ----------
    old, new
        As their CSV files hold them.
    words
        The office's.
    """
    return (*_lines(old, new, words), *_heads(old.head, new.head, words))


def _heads(old: Mapping[str, str], new: Mapping[str, str], words: Words) -> Iterator[str]:
    for header, value in new.items():
        before = old.get(header, "")
        if not _same(before, value):
            yield _was("{header}: {value}, was {before}", header, value, before, words)


def _lines(old: OrderRecord, new: OrderRecord, words: Words) -> Iterator[str]:
    before, after = _keyed(old.lines), _keyed(new.lines)
    for key, line in after.items():
        if key not in before:
            amount = _amount(line, words)
            yield words.fill("{item}: added, {amount}", item=_named(line), amount=amount)
            continue
        found = [
            _was("{header} {value}, was {before}", header, value, was, words)
            for header, value in line.items()
            if header not in _NOT_COMPARED and not _same(was := before[key].get(header, ""), value)
        ]
        if found:
            yield f"{_named(line)}: {'; '.join(found)}"
    for key, line in before.items():
        if key not in after:
            amount = _amount(line, words)
            yield words.fill("{item}: removed, was {amount}", item=_named(line), amount=amount)


def _was(template: str, header: str, value: str, before: str, words: Words) -> str:
    """Say what a field holds and what it held, in the office's words."""
    value, before = (
        words.say(said) if header in _OURS or said == _NONE else said
        for said in (_said(value), _said(before))
    )
    return words.fill(template, header=words.say(header), value=value, before=before)


def line_changes(old: OrderRecord, new: OrderRecord) -> dict[int, str]:
    """Words for each line of the new order that is not as it was, by its place."""
    before, after = _keyed(old.lines), _keyed(new.lines)
    found: dict[int, str] = {}
    for at, (key, line) in enumerate(after.items()):
        if key not in before:
            found[at] = "added"
            continue
        was = [
            f"{header} was {_said(before[key].get(header, ''))}"
            for header, value in line.items()
            if header not in _NOT_COMPARED and not _same(before[key].get(header, ""), value)
        ]
        if was:
            found[at] = "; ".join(was)
    return found


def removed_lines(old: OrderRecord, new: OrderRecord) -> list[Mapping[str, str]]:
    """Lines of the old order that the new one has no more."""
    after = _keyed(new.lines)
    return [line for key, line in _keyed(old.lines).items() if key not in after]


def asks_less(old: OrderRecord, new: OrderRecord) -> bool:
    """Whether the new order has fewer packs of anything than the old one, or none."""
    after = _keyed(new.lines)
    return any(
        key not in after or _packs(after[key]) < _packs(line)
        for key, line in _keyed(old.lines).items()
    )


def asks_more(old: OrderRecord, new: OrderRecord) -> bool:
    """Whether the new order has more packs of anything than the old one."""
    return asks_less(new, old)


def _packs(line: Mapping[str, str]) -> Decimal:
    try:
        return Decimal(line.get("Packs", "") or "0")
    except InvalidOperation:  # somebody wrote into the record: nothing is known, so nothing is less
        return Decimal(0)


def _keyed(lines: Sequence[Mapping[str, str]]) -> dict[tuple[str, int], Mapping[str, str]]:
    """Lines by code; a code that stands again is told by its turn."""
    turns: dict[str, int] = {}
    keyed: dict[tuple[str, int], Mapping[str, str]] = {}
    for line in lines:
        code = line.get(_CODE, "")
        turns[code] = turns.get(code, 0) + 1
        keyed[code, turns[code]] = line
    return keyed


def _named(line: Mapping[str, str]) -> str:
    return " ".join(_said(line.get(header, "")) for header in _NAMED_BY)


def _said(text: str) -> str:
    """Text without the apostrophe that keeps it from being a formula in the file."""
    plain = text[1:] if text[:1] == "'" and text[1:2] in {"=", "+", "-", "@"} else text
    return plain or _NONE


def _amount(line: Mapping[str, str], words: Words) -> str:
    packs, package = line.get("Packs", ""), line.get("Package", "")
    noun = package if packs == "1" else counted_noun(2, package)
    return f"{packs} {words.say(noun)}".strip()


def _same(one: str, other: str) -> bool:
    if one == other:
        return True
    try:
        return Decimal(one) == Decimal(other)
    except InvalidOperation:
        return False

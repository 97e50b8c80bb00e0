"""Which item of the catalogue a line orders.

A line orders exactly the item named; if none is named and the catalogue holds one of the kind,
that one, with a warning; if several, an error that lists them (the program's own rule).
"""

from collections.abc import Callable, Iterable, Mapping
from difflib import get_close_matches
from typing import Generic, TypeVar

from msgspec import Struct

from sheetcalc.domain.catalogue import Bag, BagKind, Buyable, Catalogue, Roll, RollKind, Sundry
from sheetcalc.domain.finding import Finding, RowRef

ItemT = TypeVar("ItemT", bound=Buyable)

NO_ITEM_NOTE = "nothing in the catalogue to order it from, so it is listed and not ordered"


class Wanted(Struct, frozen=True):
    """What is looked for, and the cell that names it or leaves it open.

    Attributes
    ----------
    named
        Code typed, or None.
    what
        Words of the kind ("mortar", "underlay").
    finish, surface
        For the message.
    source, column
        Cell that names the item.
    needed
        Nothing of the kind in the catalogue is an error; else a note, and the need is listed
        without an item.
    """

    named: str | None
    what: str
    finish: str
    surface: str
    source: RowRef
    column: str
    needed: bool = False


class Choice(Struct, Generic[ItemT], frozen=True):
    """The item that a line orders, if one, and what is to be said about it.

    Attributes
    ----------
    item
        None where nothing can be ordered.
    findings
        Why not, or what was assumed.
    blocked
        An error was found: the line works out nothing.
    """

    item: ItemT | None
    findings: tuple[Finding, ...] = ()
    blocked: bool = False


def choose_bag(catalogue: Catalogue, kinds: Iterable[BagKind], wanted: Wanted) -> Choice[Bag]:
    """Bag or pail of one of the kinds."""
    allowed = frozenset(kinds)
    of_kind = suitable(catalogue.bags, lambda bag: bag.kind in allowed, wanted)
    return choose(of_kind, catalogue, wanted)


def choose_roll(catalogue: Catalogue, kinds: Iterable[RollKind], wanted: Wanted) -> Choice[Roll]:
    """Roll, mat, band or board of one of the kinds."""
    allowed = frozenset(kinds)
    of_kind = suitable(catalogue.rolls, lambda roll: roll.kind in allowed, wanted)
    return choose(of_kind, catalogue, wanted)


def choose_sundry(catalogue: Catalogue, bases: Iterable[str], wanted: Wanted) -> Choice[Sundry]:
    """Sundry that is measured by one of the bases; a named one may have any basis."""
    allowed = frozenset(bases)
    of_kind = suitable(
        catalogue.sundries, lambda s: s.basis in allowed or s.code == wanted.named, wanted
    )
    return choose(of_kind, catalogue, wanted)


def suitable(
    rows: Mapping[str, ItemT], suits: Callable[[ItemT], bool], wanted: Wanted
) -> Mapping[str, ItemT]:
    """Rows of a catalogue tab that would do; one that is named and would do stands for all."""
    named = wanted.named
    if named and named in rows and suits(rows[named]):
        return {named: rows[named]}
    return {code: row for code, row in rows.items() if suits(row)}


def choose(
    of_kind: Mapping[str, ItemT],
    catalogue: Catalogue,
    wanted: Wanted,
) -> Choice[ItemT]:
    """Item named, or the only one of the kind.

    Parameters
    ----------
    of_kind
        Items that would do.
    catalogue
        All tabs, to tell a wrong kind from an unknown code, and for the nearest codes.
    wanted
        What is looked for.

    Returns
    -------
    Choice
        ``ITEM-NOT-IN-CATALOGUE``, ``ITEM-OF-ANOTHER-KIND`` and ``ITEM-NOT-NAMED-SEVERAL`` block
        the line, ``ITEM-NOT-NAMED-NONE`` only where the item is needed;
        ``ITEM-NOT-NAMED-ONE-TAKEN`` and ``ITEM-NOT-NAMED-NOT-ORDERED`` don't.
    """
    facts = {"what": wanted.what, "finish": wanted.finish, "surface": wanted.surface}
    if wanted.named:
        item = of_kind.get(wanted.named)
        return Choice(item) if item else _wrong_name(wanted.named, of_kind, catalogue, wanted)
    if len(of_kind) == 1:
        (code, item), *_ = of_kind.items()
        taken = Finding(
            "ITEM-NOT-NAMED-ONE-TAKEN", wanted.source, wanted.column, {**facts, "code": code}
        )
        return Choice(item, (taken,))
    if of_kind:
        codes = ", ".join(sorted(of_kind))
        return _blocked("ITEM-NOT-NAMED-SEVERAL", wanted, {"codes": codes})
    if wanted.needed:
        return _blocked("ITEM-NOT-NAMED-NONE", wanted, {})
    note = Finding("ITEM-NOT-NAMED-NOT-ORDERED", wanted.source, wanted.column, facts)
    return Choice(None, (note,))


def nearest(code: str, codes: Iterable[str]) -> str:
    """Codes most like one that is not there, nearest first, as one text ("" for none)."""
    by_lower = {c.lower(): c for c in codes}
    found = get_close_matches(code.lower(), list(by_lower), n=3, cutoff=0.5)
    return ", ".join(by_lower[f] for f in found)


def _wrong_name(
    code: str, of_kind: Mapping[str, ItemT], catalogue: Catalogue, wanted: Wanted
) -> Choice[ItemT]:
    everything = _all_codes(catalogue)
    if code in everything:
        return _blocked("ITEM-OF-ANOTHER-KIND", wanted, {"code": code})
    near = nearest(code, of_kind) or nearest(code, everything) or "nothing like it"
    return _blocked("ITEM-NOT-IN-CATALOGUE", wanted, {"code": code, "nearest": near})


def _blocked(code: str, wanted: Wanted, more: Mapping[str, str]) -> Choice[ItemT]:
    facts = {
        "what": wanted.what, "finish": wanted.finish, "surface": wanted.surface, **more,
    }  # fmt: skip
    return Choice(None, (Finding(code, wanted.source, wanted.column, facts),), blocked=True)


def _all_codes(catalogue: Catalogue) -> list[str]:
    return [
        *catalogue.bags,
        *catalogue.rolls,
        *catalogue.sundries,
        *catalogue.tiles,
        *catalogue.cables,
    ]

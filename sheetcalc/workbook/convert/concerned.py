"""Which rooms an error concerns, so that the others can be taken off without them.

A room is concerned by an error that names it, by one in a row of its finish, and by one in a
catalogue row that its finish names or may come to choose.  Where that can't be told, the whole job
is concerned: nothing is taken off on a guess.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial
from typing import Final

from sheetcalc.domain.catalogue import BagKind
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import codes_named
from sheetcalc.workbook.convert.references import key_of
from sheetcalc.workbook.raw import RawBook, RawRow
from sheetcalc.workbook.shown import displayed

_OF_A_ROOM: Final = frozenset({"Floor pieces", "Wall legs", "Wall faces"})
_OF_A_FINISH: Final = frozenset({"Finishes", "Build-up"})
_FOR_A_FINISH: Final = frozenset({"Sundries", "Waste factors", "Labour"})
_OF_NO_ROOM: Final = frozenset({"Decisions"})
_NAMED_IN: Final[Mapping[str, tuple[tuple[str, str], ...]]] = {
    "Tiles": (("Finishes", "Tile"),),
    "Bags and pails": (
        *(("Finishes", header) for header in ("Mortar", "Grout", "Sealant", "Sealer")),
        ("Build-up", "Item"),
        ("Build-up", "Bed mortar"),
    ),
    "Rolls and sheets": (("Build-up", "Item"),),
    "Heating cables": (("Finishes", "Heating"),),
}
"""Catalogue tab -> columns of finishes that name its rows."""

_KINDS: Final = frozenset(kind.value for kind in BagKind)
_ALWAYS_NAMED: Final = frozenset({"Tiles", "Heating cables"})
"""Tabs of which nothing is chosen that no finish names."""


def rooms_concerned(raw: RawBook, errors: Iterable[Finding]) -> frozenset[str] | None:
    """Rooms that errors concern, in the spelling of the Rooms tab.

    Parameters
    ----------
    raw
        The workbook as found.
    errors
        Findings that are errors.

    Returns
    -------
    frozenset or None
        Names; None where an error concerns the whole job.
    """
    concerned: set[str] = set()
    book = _Book(raw)
    for error in errors:
        rooms = book.concerned(error)
        if rooms is None:
            return None
        concerned |= rooms
    return frozenset(book.spelled(book.with_alike(concerned)))


class _Book:
    """Rows of a workbook by what they are about; names are compared as everywhere."""

    def __init__(self, raw: RawBook) -> None:
        self._raw = raw
        self._rooms = {_key(row, "Room"): row for row in self._rows("Rooms")}
        self._rooms.pop("", None)

    def _rows(self, tab: str) -> Iterator[RawRow]:
        table = self._raw.tables.get(tab)
        yield from table.rows if table else ()

    def _row(self, tab: str, number: int | None) -> RawRow | None:
        return next((row for row in self._rows(tab) if row.row == number), None)

    def spelled(self, keys: Iterable[str]) -> Iterator[str]:
        """Names as they stand in the Rooms tab."""
        return (displayed(self._rooms[key].cells["Room"]) for key in keys if key in self._rooms)

    def with_alike(self, keys: set[str]) -> set[str]:
        """Rooms, and those that take their description from one of them."""
        alike = {key: _key(row, "Same as") for key, row in self._rooms.items()}
        found = set(keys)
        while more := {key for key, same in alike.items() if same in found} - found:
            found |= more
        return found

    def concerned(self, error: Finding) -> set[str] | None:
        """Keys of the rooms that one error concerns; None for all."""
        if error.room:
            # a piece of a room that is not there may belong to any
            return {key_of(error.room)} if key_of(error.room) in self._rooms else None
        row = self._row(error.source.tab, error.source.row)
        return None if row is None else self._of_row(error.source.tab, row)

    def _of_row(self, tab: str, row: RawRow) -> set[str] | None:
        """Rooms that a row concerns that is not to be read."""
        if tab in _OF_NO_ROOM:
            return set()
        if tab == "Rooms":
            return {_key(row, "Room")} - {""}  # a room without a name is no record: it is left out
        if tab in _OF_A_ROOM:
            return {_key(row, "Room")} & set(self._rooms) or None
        if tab == "Phases":
            phase = _key(row, "Phase")
            return {key for key, room in self._rooms.items() if _key(room, "Phase") == phase}
        if tab in _OF_A_FINISH | _FOR_A_FINISH:
            finish = _key(row, "Finish")
            return self._of_finishes({finish}) if finish else None
        return self._of_item(tab, row)

    def _of_finishes(self, finishes: set[str]) -> set[str]:
        return {key for key, row in self._rooms.items() if _key(row, "Finish") in finishes}

    def _of_item(self, tab: str, row: RawRow) -> set[str] | None:
        """Rooms whose finish names a catalogue row, or leaves open what may be that row."""
        code = _key(row, "Range" if tab == "Heating cables" else "Code")
        if tab not in _NAMED_IN or not code:
            return None
        finishes: set[str] = set()
        for place, header in _NAMED_IN[tab]:
            finishes |= self._finishes_where(place, partial(_names, header, code))
        if tab not in _ALWAYS_NAMED:
            finishes |= self._finishes_where("Build-up", lambda r: not _text(r, "Item"))
        if tab == "Bags and pails":
            kind = _key(row, "Kind")
            headers = [h for h in ("Mortar", "Grout", "Sealant", "Sealer") if _may_be(kind, h)]
            finishes |= self._finishes_where(
                "Finishes", lambda r: any(not _text(r, header) for header in headers)
            )
        return self._of_finishes(finishes)

    def _finishes_where(self, tab: str, holds: Callable[[RawRow], bool]) -> set[str]:
        return {_key(row, "Finish") for row in self._rows(tab) if holds(row)} - {""}


def _names(header: str, code: str, row: RawRow) -> bool:
    return code in {key_of(named) for named in codes_named(_text(row, header))}


def _may_be(kind: str, header: str) -> bool:
    """Whether a bag of a kind may be chosen for a column that is empty; an unknown kind may."""
    return header.casefold() in kind or kind not in _KINDS


def _text(row: RawRow, header: str) -> str:
    cell = row.cells.get(header)
    return displayed(cell) if cell is not None else ""


def _key(row: RawRow, header: str) -> str:
    return key_of(_text(row, header))

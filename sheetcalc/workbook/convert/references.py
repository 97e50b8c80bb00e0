"""Names that one tab takes from another: canonical spellings, unknown names, doubled names."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from difflib import SequenceMatcher

from msgspec import Struct, field

from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.convert.nearest import did_you_mean
from sheetcalc.workbook.raw import RawBook
from sheetcalc.workbook.shown import displayed

OPTIONAL_LISTS = frozenset({"Phases.Phase", "Suppliers.Supplier"})
"""Names that may be used without a row of their own, while their tab has no rows at all."""

MOST_SUGGESTIONS = 100
"""Unknown names that the nearest ones are looked for; a column pasted wrong has thousands."""

_ALIKE = 0.88


def key_of(name: str) -> str:
    """Form in which names are compared: without case and surplus spaces."""
    return " ".join(name.split()).casefold()


class Names(Struct):
    """Names that stand in the columns that others refer to."""

    raw: RawBook
    _known: dict[str, Mapping[str, str]] = field(default_factory=dict)
    _suggested: dict[tuple[str, str], str] = field(default_factory=dict)

    def known(self, list_of: str) -> Mapping[str, str]:
        """Names of ``Tab.Header`` as typed there first, by their key."""
        if list_of not in self._known:
            tab, _, header = list_of.partition(".")
            names: dict[str, str] = {}
            table = self.raw.tables.get(tab)
            for row in table.rows if table else ():
                cell = row.cells.get(header)
                if cell is not None and (name := displayed(cell)):
                    names.setdefault(key_of(name), name)
            self._known[list_of] = names
        return self._known[list_of]

    def canonical(self, list_of: str, name: str | None) -> str | None:
        """Spelling of a name in the column that it refers to; as typed where it is unknown."""
        return None if name is None else self.known(list_of).get(key_of(name), name)

    def suggestion(self, list_of: str, name: str) -> str:
        """Hint for a name that is unknown; only so many are looked for in one workbook."""
        key = list_of, key_of(name)
        # every number of a room is near another's
        worth = list_of != "Rooms.Room" or any(c.isalpha() for c in name)
        if worth and key not in self._suggested and len(self._suggested) < MOST_SUGGESTIONS:
            self._suggested[key] = did_you_mean(name, self.known(list_of).values())
        if near := self._suggested.get(key):
            return near
        tab = list_of.partition(".")[0]
        if list_of == "Rooms.Room":
            return f"add it to {tab}, correct the name, or delete these rows if the room is gone"
        return f"add a row with it to {tab}, or correct the name"


def check_references(raw: RawBook, tabs: Sequence[Tab], names: Names) -> Iterator[Finding]:
    """Yield findings on names that are in no row of the tab that they should come from."""
    for tab in tabs:
        table = raw.tables.get(tab.key)
        if table is None:
            continue
        for column in tab.columns:
            # geometry follows Same as to its end, and words what it finds there
            single = column.list_of and not column.several and column.header != "Same as"
            if single and column.header in table.letters:
                yield from _unknown(raw, tab, column.header, column.list_of, names)


def _unknown(raw: RawBook, tab: Tab, header: str, list_of: str, names: Names) -> Iterator[Finding]:
    known = names.known(list_of)
    other, _, other_header = list_of.partition(".")
    if not known and (list_of in OPTIONAL_LISTS or other in _needed_but_absent(raw)):
        return
    table = raw.tables[tab.key]
    lost: defaultdict[str | int, list[int]] = defaultdict(list)
    first: dict[str | int, tuple[str, str]] = {}
    for row in table.rows:
        cell = row.cells.get(header)
        name = displayed(cell) if cell is not None and not cell.error and cell.has_value else ""
        if name and key_of(name) not in known:
            # the parts of a room that is gone are told once: they go, or stay, together
            told = key_of(name) if header == "Room" else row.row
            lost[told].append(row.row)
            room = row.cells.get("Room")
            first.setdefault(told, (name, displayed(room) if room is not None else ""))
    for told, rows in lost.items():
        name, room_name = first[told]
        where = f" ({_cells(table.letters[header], rows)})" if len(rows) > 1 else ""
        yield Finding(
            "NAME-UNKNOWN",
            RowRef(tab.key, rows[0]),
            header,
            {
                "found": f'"{name}"{where}',
                "tab": other,
                "header": other_header,
                "hint": names.suggestion(list_of, name),
            },
            room=room_name,
        )


def _cells(letter: str, rows: Sequence[int]) -> str:
    """Name the cells of a column that stand in some rows, one below the other as a range."""
    ranges: list[list[int]] = []
    for row in rows:
        if ranges and row == ranges[-1][-1] + 1:
            ranges[-1][1:] = [row]
        else:
            ranges.append([row])
    return ", ".join(":".join(f"{letter}{row}" for row in ends) for ends in ranges)


def _needed_but_absent(raw: RawBook) -> frozenset[str]:
    """Tabs whose absence or emptiness is a finding of its own."""
    needed = ("Rooms", "Finishes", "Tiles")
    return frozenset(n for n in needed if n not in raw.tables or not raw.tables[n].rows)


def check_doubles(raw: RawBook, tab: Tab, headers: Sequence[str], code: str) -> Iterator[Finding]:
    """Yield a finding for each row whose key (the given columns together) stood before."""
    table = raw.tables.get(tab.key)
    first: dict[tuple[str, ...], int] = {}
    for row in table.rows if table else ():
        shown = [displayed(row.cells[h]) if h in row.cells else "" for h in headers]
        if not shown[0]:
            continue
        key = tuple(key_of(text) for text in shown)
        if key in first:
            yield Finding(
                code,
                RowRef(tab.key, row.row),
                headers[0],
                {"found": ", ".join(f'"{text}"' for text in shown if text), "row": first[key]},
                room=shown[0] if headers[0] == "Room" else "",
            )
        else:
            first[key] = row.row


def check_spellings(raw: RawBook, tabs: Iterable[Tab], names: Names) -> Iterator[Finding]:
    """Yield findings on suppliers whose names look like one name in two spellings."""
    seen: dict[str, str] = {}
    listed = names.known("Suppliers.Supplier")
    for tab in tabs:
        table = raw.tables.get(tab.key)
        if "Supplier" not in tab.by_header or table is None:
            continue
        for row in table.rows:
            cell = row.cells.get("Supplier")
            name = displayed(cell) if cell is not None else ""
            key = key_of(name)
            # a name that Suppliers lacks is unknown, with the nearest one suggested
            if not name or key in seen or (listed and key not in listed):
                continue
            alike = next((other for k, other in seen.items() if _look_alike(k, key)), None)
            seen[key] = name
            if alike is not None:
                yield Finding(
                    "SUPPLIER-IN-TWO-SPELLINGS",
                    RowRef(tab.key, row.row),
                    "Supplier",
                    {"found": f'"{name}"', "other": alike},
                )


def _look_alike(one: str, other: str) -> bool:
    first, second = _letters(one), _letters(other)
    if first == second:
        return True
    # Merchant 1 and Merchant 2 are two
    same_digits = [c for c in first if c.isdigit()] == [c for c in second if c.isdigit()]
    return same_digits and SequenceMatcher(None, first, second).ratio() >= _ALIKE


def _letters(name: str) -> str:
    return "".join(c for c in name.replace("&", "and") if c.isalnum())

"""What a supplier's list would change in the catalogue tabs; nothing is written here."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from msgspec import Struct, field

from sheetcalc.domain.finding import Fact, Finding, RowRef
from sheetcalc.domain.measure import JobUnits
from sheetcalc.domain.price_list import Grid, ListValue, NewValue, PriceChange, PricePlan
from sheetcalc.workbook.columns import Column, Tab
from sheetcalc.workbook.convert.problem import CellProblem
from sheetcalc.workbook.prices.headers import (
    CATALOGUE,
    Heading,
    ListTable,
    column_for,
    find_table,
    implied_per,
    is_measure,
    matched,
    per_of,
    unit_column,
)
from sheetcalc.workbook.prices.leaps import LEAP, PRICES, are_words, price_leaps, price_ratio
from sheetcalc.workbook.prices.records import CatalogueRecord, catalogue_records, supplier_names
from sheetcalc.workbook.prices.values import value_of
from sheetcalc.workbook.raw import RawBook, RawCell
from sheetcalc.workbook.shown import displayed, plain_number

ALWAYS: Final = frozenset({"Price", "Pack price", "Price per", "Lead days"})
"""Columns that a list changes; in others it only fills empty cells, unless it is told."""

_SAME: Final = 1e-9
_KEYS: Final = ("Code", "Supplier code")


class Wanted(Struct, frozen=True):
    """What a person asks of an import.

    Attributes
    ----------
    supplier
        Whose list it is; "" where the list or the codes say it.
    tab
        Tab for codes that are new; "" for the one whose required columns the list has.
    everything
        Change every column that the list has, not only prices and lead days.
    renamed
        Headers of the list, and which of ours each stands for.
    """

    supplier: str = ""
    tab: str = ""
    everything: bool = False
    renamed: Mapping[str, str] = field(default_factory=dict)


class _Outcome(Struct):
    """What was worked out so far."""

    changes: list[PriceChange] = field(default_factory=list)
    unknown: list[str] = field(default_factory=list)
    kept: list[str] = field(default_factory=list)
    left_out: dict[str, str] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    used: dict[int, str] = field(default_factory=dict)
    same: int = 0
    added: dict[str, int] = field(default_factory=lambda: defaultdict(int))


def plan_prices(
    grids: Sequence[Grid], raw: RawBook, units: JobUnits, wanted: Wanted | None = None
) -> PricePlan:
    """Compare a list with the catalogue tabs.

    Parameters
    ----------
    grids
        The list as read.
    raw
        The workbook as found.
    units
        Of its Job.
    wanted
        What the person asks.

    Returns
    -------
    PricePlan
        With ``PRICE-LIST-NO-TABLE``, ``PRICE-LIST-CODE-TWICE``, ``PRICE-LIST-VALUE``,
        ``PRICE-LIST-UNIT``, ``PRICE-LIST-PER``, ``PRICE-LIST-SUPPLIER-UNCLEAR``,
        ``PRICE-LIST-SUPPLIER-UNKNOWN`` and the warnings ``PRICE-LIST-LEAP`` and
        ``PRICE-LIST-NO-PRICE`` among its findings.
    """
    asked = wanted or Wanted()
    table = find_table(grids, asked.renamed)
    if table is None:
        return PricePlan("", 0, (), (), 0, (), (), (), (Finding("PRICE-LIST-NO-TABLE"),))
    planner = _Planner(table, raw, units, asked)
    outcome = planner.plan()
    return PricePlan(
        sheet=table.grid.name,
        header_row=table.header_row,
        columns=matched(table.headings, outcome.used),
        changes=tuple(outcome.changes),
        same=outcome.same,
        unknown=tuple(outcome.unknown),
        kept=tuple(outcome.kept),
        left_out=tuple(outcome.left_out),
        findings=tuple(outcome.findings),
    )


class _Planner:
    def __init__(self, table: ListTable, raw: RawBook, units: JobUnits, wanted: Wanted) -> None:
        self._list, self._raw, self._units, self._wanted = table, raw, units, wanted
        self._out = _Outcome()
        self._records = catalogue_records(raw)
        self._unit = unit_column(table.headings)
        self._supplier_column = column_for(table.headings, _of(CATALOGUE[0], "Supplier"))
        named = (column_for(table.headings, c) for tab in CATALOGUE for c in tab.columns
                 if c.header in PRICES)  # fmt: skip
        self._prices = {heading.at: heading for heading in named if heading}.values()
        self._key, self._by = self._key_column()
        self._index: dict[str, list[CatalogueRecord]] = defaultdict(list)
        for record in self._records:
            self._index[_same(record.shown(self._by))].append(record)

    def _key_column(self) -> tuple[Heading, str]:
        """Column of the list that tells its items, and ours that it agrees with most often."""
        candidates = [
            (heading, by)
            for meaning in _KEYS
            for heading in self._list.headings
            if column_for((heading,), _of(CATALOGUE[0], meaning))
            for by in (meaning, *(other for other in _KEYS if other != meaning))
        ]
        known = {by: {_same(r.shown(by)) for r in self._records} - {""} for by in _KEYS}

        def agreement(candidate: tuple[Heading, str]) -> int:
            heading, by = candidate
            return sum(_same(_text(_cell(row, heading))) in known[by] for _, row in self._list.rows)

        heading, by = max(candidates, key=agreement)
        self._out.used[heading.at] = by
        return heading, by

    # --- rows -------------------------------------------------------------------------------

    def plan(self) -> _Outcome:
        asked = self._wanted.supplier
        known = {_same(name): name for name in supplier_names(self._raw, self._records)}
        if asked and known and _same(asked) not in known:
            suppliers = ", ".join(known.values())
            self._find("PRICE-LIST-SUPPLIER-UNKNOWN", supplier=asked, suppliers=suppliers)
            return self._out
        rows: dict[tuple[str, str], list[tuple[int, tuple[ListValue, ...]]]] = defaultdict(list)
        names: dict[tuple[str, str], tuple[str, str]] = {}
        for number, row in self._list.rows:
            code = _text(_cell(row, self._key))
            if code:
                supplier = self._supplier_of(row)
                key = (_same(code), _same(supplier))
                names.setdefault(key, (code, supplier))
                rows[key].append((number, row))
        for key, found in rows.items():
            code, supplier = names[key]
            if self._is_twice(code, found):
                continue
            number, row = found[0]
            self._item(code, supplier, number, row)
        leaps = price_leaps(self._out.changes)
        if leaps and not self._out.findings:  # what is wrong comes first, and may explain them
            self._find("PRICE-LIST-LEAP", leaps="; ".join(leaps), times=plain_number(LEAP))
        if self._out.left_out:
            self._find("PRICE-LIST-NO-PRICE", rows="; ".join(self._out.left_out.values()))
        return self._out

    def _supplier_of(self, row: Sequence[ListValue]) -> str:
        if self._wanted.supplier:
            return self._wanted.supplier
        if self._supplier_column is None:
            return ""
        self._out.used[self._supplier_column.at] = "Supplier"
        return _text(_cell(row, self._supplier_column))

    def _is_twice(self, code: str, rows: Sequence[tuple[int, tuple[ListValue, ...]]]) -> bool:
        """Whether a code stands several times and says different things; then none is taken."""
        if all(row == rows[0][1] for _, row in rows[1:]):
            return False
        numbers = ", ".join(str(number) for number, _ in rows)
        self._find("PRICE-LIST-CODE-TWICE", code=code, rows=numbers)
        return True

    def _item(self, code: str, supplier: str, number: int, row: Sequence[ListValue]) -> None:
        records = [
            record
            for record in self._index.get(_same(code), ())
            if not supplier or _same(record.supplier) == _same(supplier)
        ]
        if len({_same(record.supplier) for record in records}) > 1:
            suppliers = ", ".join(record.supplier or "(none)" for record in records)
            self._find("PRICE-LIST-SUPPLIER-UNCLEAR", code=code, suppliers=suppliers)
            return
        if not records:
            fits = self._tab_for_new() is not None
            left_out = fits and self._says_no_price(code, number, row)
            if not left_out and not self._add(code, supplier, number, row):
                self._out.unknown.append(code)
            return
        if self._says_no_price(code, number, row):
            return
        for record in records:
            before = len(self._out.changes)
            self._compare(record, number, row)
            self._out.same += before == len(self._out.changes)

    def _says_no_price(self, code: str, number: int, row: Sequence[ListValue]) -> bool:
        """Note a row that has words for a price, such as on request: it is left out whole."""
        cells = (_text(_cell(row, heading)) for heading in self._prices)
        said = next(filter(are_words, cells), "")
        if said:
            self._out.left_out[code] = f'{code}, row {number} ("{said}")'
        return bool(said)

    def _compare(self, record: CatalogueRecord, number: int, row: Sequence[ListValue]) -> None:
        """Note the cells of a record that the list says otherwise."""
        for column, heading, new in self._values(record.tab, number, row):
            letters = record.table.letters.get(column.header)
            if letters is None:
                continue
            if heading is not None:
                self._out.used[heading.at] = column.header
            cell = record.row.cells.get(column.header)
            if cell is not None and _agree(cell, new):
                continue
            filled = cell is None
            if not filled and column.header not in ALWAYS and not self._wanted.everything:
                continue
            place = f"{letters}{record.row.row}"
            if cell is not None and cell.formula:
                self._out.kept.append(f"{record.table.sheet}!{place}")
                continue
            self._out.changes.append(
                PriceChange(
                    what="filled" if filled else "changed",
                    tab=record.tab.key,
                    sheet=record.table.sheet,
                    cell=place,
                    code=record.shown("Code"),
                    supplier=record.supplier,
                    column=column.header,
                    old="" if cell is None else displayed(cell),
                    new=_shown(new),
                    value=new,
                    ratio=price_ratio(column, cell, new),
                )
            )

    def _values(
        self, tab: Tab, number: int, row: Sequence[ListValue]
    ) -> Iterator[tuple[Column, Heading | None, NewValue]]:
        """Values that a row of the list has for a tab; what can't be read is a finding."""
        for column in tab.columns:
            if column.header in {"Code", "Supplier", "Price per", self._by}:
                continue
            heading = column_for(self._list.headings, column)
            if heading is None or heading.at == self._key.at:
                continue
            found = _cell(row, heading)
            try:
                new = value_of(found, column, heading, self._units, comma=self._list.grid.comma)
            except CellProblem as problem:
                hint = str(problem.facts.get("hint", "")) or _bounds(problem.facts)
                self._find(
                    "PRICE-LIST-VALUE", row=number, header=heading.text, found=f'"{found}"',
                    column=column.header, tab=tab.key, hint=hint,
                )  # fmt: skip
                continue
            if new is None:
                continue
            yield column, heading, new
            if column.header in PRICES:
                yield from self._per(tab, heading, number, row)

    def _per(
        self, tab: Tab, heading: Heading, number: int, row: Sequence[ListValue]
    ) -> Iterator[tuple[Column, Heading | None, NewValue]]:
        """Tell what a price is for, by its header, else by the unit that stands beside it."""
        said, beside = heading.text, None
        per, unit = implied_per(heading)
        if not per and self._unit is not None and (text := _text(_cell(row, self._unit))):
            said, beside = text, self._unit
            per, unit = per_of(text)
        counted = tab.by_header.get("Price per")
        if unit and unit != self._units.area.symbol:
            self._find("PRICE-LIST-UNIT", row=number, header=said, unit=self._units.area.symbol)
        elif (per == "area" and not counted) or (beside and is_measure(said)):
            self._find("PRICE-LIST-PER", row=number, per=said, tab=tab.key)
        elif counted and per:
            yield counted, beside, per
        elif counted and beside:
            self._find(
                "PRICE-LIST-VALUE", row=number, header=beside.text, found=f'"{said}"',
                column=counted.header, tab=tab.key, hint="say box, piece or the unit of area",
            )  # fmt: skip

    # --- new items --------------------------------------------------------------------------

    def _add(self, code: str, supplier: str, number: int, row: Sequence[ListValue]) -> bool:
        """Note a new row, where the list says everything that its tab must have."""
        tab = self._tab_for_new()
        table = self._raw.tables.get(tab.key) if tab else None
        if tab is None or table is None:
            return False
        before = len(self._out.findings)
        values: dict[str, NewValue] = {self._by: code}
        if supplier:
            values["Supplier"] = supplier
        for column, heading, new in self._values(tab, number, row):
            if heading is not None:
                self._out.used[heading.at] = column.header
            values[column.header] = new
        values.setdefault("Code", code)
        required = [column.header for column in tab.columns if column.required]
        if any(header not in values for header in required):
            return False
        if any(header not in table.letters for header in required):
            return False
        if len(self._out.findings) > before:
            return True
        self._out.added[tab.key] += 1
        place = table.last_row + self._out.added[tab.key]
        for header, new in values.items():
            if header in table.letters:
                self._out.changes.append(
                    PriceChange(
                        "added", tab.key, table.sheet, f"{table.letters[header]}{place}",
                        code, supplier, header, "", _shown(new), new,
                    )
                )  # fmt: skip
        return True

    def _tab_for_new(self) -> Tab | None:
        """Find the tab that new codes belong to: the one asked for, or the only one that fits."""
        if self._wanted.tab:
            name = _same(self._wanted.tab)
            return next((tab for tab in CATALOGUE if _same(tab.key) == name), None)
        fits = [
            tab
            for tab in CATALOGUE
            if all(
                column.header == "Code" or column_for(self._list.headings, column)
                for column in tab.columns
                if column.required
            )
        ]
        return fits[0] if len(fits) == 1 else None

    def _find(self, finding: str, /, **facts: Fact) -> None:
        self._out.findings.append(Finding(finding, RowRef(""), facts=facts))


def _of(tab: Tab, header: str) -> Column:
    return tab.by_header[header]


def _cell(row: Sequence[ListValue], heading: Heading) -> ListValue:
    return row[heading.at] if heading.at < len(row) else None


def _text(value: ListValue) -> str:
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return "" if value is None else " ".join(str(value).split())


def _same(text: str) -> str:
    return " ".join(text.split()).casefold()


def _bounds(facts: Mapping[str, Fact]) -> str:
    """Say what would be taken, where a value is out of its column's range."""
    return f"from {facts['low']} to {facts['high']}" if "low" in facts else "see the column's help"


def _agree(cell: RawCell, new: NewValue) -> bool:
    """Whether a cell holds a value already."""
    value = cell.value
    if isinstance(new, int | float) and isinstance(value, int | float):
        return abs(float(value) - float(new)) <= _SAME * max(abs(float(new)), 1.0)
    return _same(displayed(cell)) == _same(_shown(new))


def _shown(value: NewValue) -> str:
    return plain_number(float(value)) if isinstance(value, int | float) else str(value)

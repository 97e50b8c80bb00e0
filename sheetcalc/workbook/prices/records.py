"""Rows of the catalogue tabs, and the suppliers that a workbook knows."""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.prices.headers import CATALOGUE
from sheetcalc.workbook.raw import RawBook, RawRow, RawTable
from sheetcalc.workbook.shown import displayed


class CatalogueRecord(Struct, frozen=True):
    """A row of a catalogue tab."""

    tab: Tab
    table: RawTable
    row: RawRow
    supplier: str

    def shown(self, header: str) -> str:
        """Return a cell as displayed; "" where it is empty."""
        return _displayed(self.row, header)


def catalogue_records(raw: RawBook) -> list[CatalogueRecord]:
    """Rows of all catalogue tabs, tab by tab."""
    return [
        CatalogueRecord(tab, table, row, _displayed(row, "Supplier"))
        for tab in CATALOGUE
        if (table := raw.tables.get(tab.key)) is not None
        for row in table.rows
    ]


def supplier_names(raw: RawBook, records: Sequence[CatalogueRecord]) -> Iterator[str]:
    """Names in Suppliers, then those that the catalogue has."""
    table = raw.tables.get("Suppliers")
    names = [_displayed(row, "Supplier") for row in table.rows] if table else []
    yield from filter(None, (*names, *(record.supplier for record in records)))


def _displayed(row: RawRow, header: str) -> str:
    cell = row.cells.get(header)
    return displayed(cell) if cell else ""

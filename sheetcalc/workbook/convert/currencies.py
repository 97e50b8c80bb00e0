"""One currency a workbook: what the Job says, and what cells of money are formatted as."""

import re
from collections.abc import Iterator, Sequence
from typing import Final

from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.job import Job
from sheetcalc.rules.currencies import CODES, OF_SYMBOL
from sheetcalc.workbook.columns import Kind, Tab
from sheetcalc.workbook.raw import RawBook, RawCell

_SIGN: Final = f"[{re.escape(''.join(OF_SYMBOL))}]"
_CODE: Final = re.compile(rf"(?<![A-Za-z])[A-Z]{{3}}(?![A-Za-z])|{_SIGN}")
_ONE: Final = re.compile(rf"([A-Z]{{3}})? ?(?:[A-Z]{{0,3}}{_SIGN}|\({_SIGN}\))?")
"""A code, a symbol (that may have letters before it, as in US$), or both: ``EUR (€)``."""

_SEVERAL: Final = re.compile(r"[/,;&+]|\band\b|\bor\b")
_SECTION: Final = re.compile(rf"\[\$([^\]-]*)(?:-[0-9A-Fa-f]+)?\]|\"([^\"]*)\"|\\(.)|({_SIGN})")
"""Where a number format names a currency: ``[$€-407]``, ``"USD"``, ``\\€``, ``$``."""


def check_currencies(raw: RawBook, tabs: Sequence[Tab], job: Job) -> Iterator[Finding]:
    """Find a currency that is none, and a second one: in the setting, and in formats of money.

    Parameters
    ----------
    raw
        The workbook as found.
    tabs
        Input tabs, for their columns of money.
    job
        Its currency is what prices should be in.
    """
    named = _named(job.currency)
    source = RowRef("Job", _row_of_currency(raw))
    if len(named) > 1 or (named and _SEVERAL.search(job.currency)):
        yield Finding("TWO-CURRENCIES", source, "Value", {"found": f'"{job.currency}"'})
        return
    one = _ONE.fullmatch(job.currency)
    if one is None or (one[1] and one[1] not in CODES):
        yield Finding("CURRENCY-UNKNOWN", source, "Value", {"found": f'"{job.currency}"'})
    for tab in tabs:
        for column in tab.columns:
            if column.kind is Kind.MONEY:
                yield from _of_column(raw, tab.key, column.header, job.currency)


def as_code(currency: str) -> str:
    """Return the code of a currency in capital letters, as ISO 4217 has it; else the text as it is.

    Examples
    --------
    >>> as_code("eur"), as_code("€")
    ('EUR', '€')
    """
    return currency.upper() if currency.upper() in CODES else currency


def _of_column(raw: RawBook, tab: str, header: str, currency: str) -> Iterator[Finding]:
    """One finding for all cells of a column in another currency, at the first of them."""
    table = raw.tables.get(tab)
    others: dict[str, list[int]] = {}
    for row in table.rows if table else ():
        cell = row.cells.get(header)
        other = currency_of_format(cell) if cell is not None else ""
        if other and not _agree(other, currency):
            others.setdefault(other, []).append(row.row)
    for other, rows in others.items():
        yield Finding(
            "PRICE-IN-OTHER-CURRENCY", RowRef(tab, rows[0]), header,
            {"other": other, "currency": currency, "count": len(rows)},
        )  # fmt: skip


def currency_of_format(cell: RawCell) -> str:
    """Currency that a number's format shows with it; "" for none.

    Examples
    --------
    >>> currency_of_format(RawCell(12.5, "A1", number_format="#,##0.00 [$€-407]"))
    '€'
    """
    if not isinstance(cell.value, int | float) or isinstance(cell.value, bool):
        return ""
    for match in _SECTION.finditer(cell.number_format.split(";")[0]):
        words = next((group for group in match.groups() if group), "")
        found = _CODE.search(words)
        if found:
            return found[0]
    return ""


def _agree(shown: str, currency: str) -> bool:
    """Whether a code or symbol may be the Job's currency."""
    wanted = currency.strip()
    if not wanted or shown == wanted:
        return True
    own = _named(wanted)
    codes = set(OF_SYMBOL.get(shown, (shown,)))
    return not own or any(codes & set(OF_SYMBOL.get(name, (name,))) for name in own)


def _named(text: str) -> list[str]:
    """Currencies that a text names, each once; ``EUR (€)`` is one."""
    found: list[str] = []
    for name in _CODE.findall(text):
        codes = set(OF_SYMBOL.get(name, (name,)))
        if not any(codes & set(OF_SYMBOL.get(other, (other,))) for other in found):
            found.append(name)
    return found


def _row_of_currency(raw: RawBook) -> int | None:
    table = raw.tables.get("Job")
    for row in table.rows if table else ():
        name = row.cells.get("Setting")
        if name is not None and str(name.value).strip().casefold() == "currency":
            return row.row
    return None

"""Which column of a supplier's list is which of ours: by the words of its header."""

import re
from collections.abc import Mapping, Sequence
from typing import Final

from msgspec import Struct

from sheetcalc.domain.measure import UNITS
from sheetcalc.domain.price_list import Grid, ListValue, Matched
from sheetcalc.workbook.columns import LENGTH_KINDS, Column
from sheetcalc.workbook.inputs.catalogue import BAGS, CABLES, ROLLS, SUNDRIES, TILES

CATALOGUE: Final = (TILES, BAGS, ROLLS, CABLES, SUNDRIES)
"""The tabs that a list may fill."""

ROWS_SEARCHED: Final = 60

ALIASES: Final[Mapping[str, tuple[str, ...]]] = {
    "Code": (
        "code", "our code", "your code", "customer code", "buyer code", "item", "item code",
    ),
    "Supplier code": (
        "supplier code", "supplier item", "article", "article no", "article number", "art no",
        "item no", "item number", "sku", "product code", "product no", "part no", "part number",
        "catalogue no", "catalog no", "reference", "ref", "ean", "gtin",
    ),
    "Supplier": ("supplier", "vendor", "seller", "merchant"),
    "Description": (
        "description", "designation", "name", "product", "product name", "article name", "text",
        "title",
    ),
    "Price": (
        "price", "unit price", "net price", "list price", "trade price", "price per box",
        "price/box", "box price", "pack price", "carton price", "price per roll", "price/roll",
        "cost", "your price",
    ),
    "Pack price": (
        "pack price", "price", "unit price", "net price", "list price", "trade price",
        "price per pack", "price/pack", "price per bag", "price/bag", "cost", "your price",
    ),
    "Price per": ("price per", "per", "price unit", "priced by"),
    "Pieces per box": (
        "pieces per box", "pieces/box", "pcs per box", "pcs/box", "tiles per box", "box quantity",
        "qty per box", "pack quantity",
    ),
    "Box weight": ("box weight", "weight per box", "weight/box", "weight"),
    "Pack weight": ("pack weight", "weight per pack", "gross weight", "weight"),
    "Weight": ("weight", "gross weight", "roll weight"),
    "Pack size": ("pack size", "content", "contents", "net content", "size of pack"),
    "Pack unit": ("pack unit", "unit of content", "content unit"),
    "Lead days": ("lead days", "lead time", "delivery days", "delivery time"),
    "Length": ("length",),
    "Width": ("width",),
    "Thickness": ("thickness", "depth"),
    "Kind": ("kind", "type"),
    "Material": ("material",),
    "Watts": ("watts", "power", "output"),
    "Volts": ("volts", "voltage"),
    "Resistance": ("resistance",),
}  # fmt: skip
"""Declared header -> what suppliers call it; every declared header is known by its own name."""

_UNIT_COLUMNS: Final = (
    *ALIASES["Price per"], "unit", "units", "uom", "unit of measure", "sales unit", "order unit",
    "sold by",
)  # fmt: skip
"""Headers of a column beside the prices that says what each is for."""

_PER: Final = {
    "box": "box", "boxes": "box", "bx": "box", "carton": "box", "ctn": "box", "case": "box",
    "pack": "box", "pk": "box",
    "piece": "piece", "pieces": "piece", "pcs": "piece", "pce": "piece", "pc": "piece",
    "each": "piece", "ea": "piece", "tile": "piece", "sheet": "piece",
    "area": "area", "m²": "area", "m2": "area", "sqm": "area", "sq m": "area",
    "ft²": "area", "ft2": "area", "sqft": "area", "sq ft": "area",
}  # fmt: skip
_AREA_UNITS: Final = {
    "m²": "m²", "m2": "m²", "sqm": "m²", "sq m": "m²",
    "ft²": "ft²", "ft2": "ft²", "sqft": "ft²", "sq ft": "ft²",
}  # fmt: skip
_MEASURES: Final = frozenset(
    {unit.casefold() for unit in UNITS}
    | {"lm", "rm", "metre", "meter", "ltr", "litre", "liter", "kilo", "foot", "lin ft", "lbs"}
) - frozenset(_PER)  # fmt: skip
_PER_WORDS: Final = re.compile(r"(?:.*\b(?:price|cost)\s*(?:per\b|/)\s*|.*/\s*)(?P<per>[\w ²]+)")

_BRACKETS: Final = re.compile(r"[\(\[]([^\(\)\[\]]*)[\)\]]")
_PRICES: Final = frozenset({"Price", "Pack price"})
CURRENCY: Final = re.compile(
    r"\b(?:EUR|USD|GBP|CHF|SEK|NOK|DKK|ISK|PLN|CZK|HUF|RON|BGN|CAD|AUD|NZD|JPY|CNY|INR|TRY|ZAR|BRL"
    r"|MXN|SGD|HKD|KRW|ILS|AED)\b|[€£$¥₹₺]"
)
"""Codes (ISO 4217, from memory, not verified) and signs of currencies that stand with prices."""


class Heading(Struct, frozen=True):
    """One header of the list.

    Attributes
    ----------
    at
        0-based column.
    text
        As found.
    words
        In small letters, without units, currencies and marks.
    unit
        Unit in its brackets, "" for none.
    """

    at: int
    text: str
    words: str
    unit: str


class ListTable(Struct, frozen=True):
    """The table of a list: headers, and the rows below them with their sheet rows."""

    grid: Grid
    header_row: int
    headings: tuple[Heading, ...]
    rows: tuple[tuple[int, tuple[ListValue, ...]], ...]


def find_table(grids: Sequence[Grid], renamed: Mapping[str, str] | None = None) -> ListTable | None:
    """Find the row with the most known headers over all sheets; None without a key and a value.

    Parameters
    ----------
    grids
        The list as read.
    renamed
        Headers of the list, in another language for example, and which of ours each stands for.
    """
    other = {_plain(header): _plain(ours) for header, ours in (renamed or {}).items()}
    best: tuple[int, ListTable] | None = None
    for grid in grids:
        for number, row in enumerate(grid.rows[:ROWS_SEARCHED], 1):
            headings = tuple(
                _heading(at, cell, other) for at, cell in enumerate(row) if _is_text(cell)
            )
            known = [heading for heading in headings if _meanings(heading)]
            keys = {m for h in known for m in _meanings(h)} & {"Code", "Supplier code"}
            if not keys or len(known) < 2 or (best and best[0] >= len(known)):  # noqa: PLR2004 - a key and a value
                continue
            below = tuple(
                (at, cells)
                for at, cells in enumerate(grid.rows[number:], number + 1)
                if any(cell not in (None, "") for cell in cells)
            )
            best = len(known), ListTable(grid, number, headings, below)
    return best[1] if best else None


def _is_text(cell: ListValue) -> bool:
    return isinstance(cell, str) and bool(cell.strip())


def _heading(at: int, cell: ListValue, other: Mapping[str, str]) -> Heading:
    text = " ".join(str(cell).split())
    inside = [part.strip() for part in _BRACKETS.findall(text)]
    unit = next((part for part in inside if part in UNITS), "")
    plain = CURRENCY.sub(" ", _BRACKETS.sub(" ", text)).casefold()
    words = " ".join(re.sub(r"[^\w/]+", " ", plain).split())
    return Heading(at, text, other.get(_plain(text), other.get(words, words)), unit)


def _meanings(heading: Heading) -> tuple[str, ...]:
    """Give the declared headers that a heading may stand for."""
    declared = {c.header for tab in CATALOGUE for c in tab.columns}
    return tuple(header for header in declared if _stands_for(heading, header))


def _stands_for(heading: Heading, header: str) -> bool:
    own = heading.words == _plain(header) or heading.words in ALIASES.get(header, ())
    return own or (header in _PRICES and bool(implied_per(heading)[0]))


def is_ours(header: str) -> bool:
    """Whether a catalogue tab has a column of that name."""
    return _plain(header) in {_plain(c.header) for tab in CATALOGUE for c in tab.columns}


def _plain(header: str) -> str:
    return " ".join(re.sub(r"[^\w/]+", " ", header.casefold()).split())


def implied_per(heading: Heading) -> tuple[str, str]:
    """Tell what a header says that a price is for, and the unit of area; "" for nothing.

    Examples
    --------
    >>> implied_per(Heading(0, "Price per m²", "price per m²", ""))
    ('area', 'm²')
    """
    match = _PER_WORDS.fullmatch(heading.words)
    words = match["per"].strip() if match else ""
    if heading.words in {"price each", "cost each"}:
        words = "each"
    if heading.words in {"box price", "pack price", "carton price"}:
        words = "box"
    return _PER.get(words, ""), _AREA_UNITS.get(words, "")


def per_of(said: str) -> tuple[str, str]:
    """Tell what a cell beside a price says that it is for, as ``implied_per`` does of a header.

    Examples
    --------
    >>> per_of("Sq. m"), per_of("ctn"), per_of("roll")
    (('area', 'm²'), ('box', ''), ('', ''))
    """
    words = _unit_words(said)
    return _PER.get(words, ""), _AREA_UNITS.get(words, "")


def is_measure(said: str) -> bool:
    """Whether a cell beside a price says a length, a weight or a volume: no pack is priced so."""
    return _unit_words(said) in _MEASURES


def _unit_words(said: str) -> str:
    return " ".join(said.replace(".", " ").casefold().split()).removeprefix("per ")


def unit_column(headings: Sequence[Heading]) -> Heading | None:
    """Column that says what each price is for; beside contents a unit is that of the contents."""
    packs = column_for(headings, BAGS.by_header["Pack size"])
    names = ALIASES["Price per"] if packs else _UNIT_COLUMNS
    return next((h for name in names for h in headings if h.words == name), None)


def column_for(headings: Sequence[Heading], column: Column) -> Heading | None:
    """Heading that stands for a column: by its own name first, then by what suppliers call it."""
    own = _plain(column.header)
    names = (own, *ALIASES.get(column.header, ()))
    found = [h for name in names for h in headings if h.words == name]
    if column.header in _PRICES:
        found += [h for h in headings if implied_per(h)[0] and h not in found]
    if column.kind in LENGTH_KINDS and found:
        with_unit = [h for h in found if h.unit]
        return (with_unit or found)[0]
    return found[0] if found else None


def matched(headings: Sequence[Heading], used: Mapping[int, str]) -> tuple[Matched, ...]:
    """Columns of the list as a preview shows them."""
    return tuple(
        Matched(heading.text, used.get(heading.at, ""), _first_meaning(heading))
        for heading in headings
    )


def _first_meaning(heading: Heading) -> str:
    meanings = set(_meanings(heading))
    return next((c.header for tab in CATALOGUE for c in tab.columns if c.header in meanings), "")

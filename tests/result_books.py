"""Invented workbooks for the tests of result tabs: input sheets, and the same as a reader finds."""

from collections.abc import Callable, Collection, Mapping, Sequence
from datetime import date
from decimal import Decimal
from pathlib import Path

from msgspec import Struct
from recalc import CellOf

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.catalogue import Bag, BagKind, Catalogue, PricePer, Supplier, Tile
from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.inputs import Inputs, Phase, Reading
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import KILOGRAM, LITRE, PIECE, SQUARE_METRE, Unit
from sheetcalc.domain.order import Order
from sheetcalc.domain.quantity import PackBy, QuantityLine, WasteUsed
from sheetcalc.domain.rolls import RollPlan
from sheetcalc.domain.run import Run
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.ordering import order_everything
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.raw import RawBook, RawCell, RawRow, RawTable
from sheetcalc.workbook.results import ResultTabs
from sheetcalc.workbook.results.findings import Worded
from sheetcalc.workbook.results.room_cards import Cards
from sheetcalc.workbook.sheet import BookModel, Cell, SheetColumn, SheetModel, TableModel

FIRST = 5
"""Sheet row of the first record."""

TABLES = {
    "Tiles": "InTiles",
    "Bags and pails": "InBags",
    "Rolls and sheets": "InRolls",
    "Heating cables": "InCables",
    "Sundries": "InSundries",
    "Waste factors": "InWaste",
    "Rooms": "InRooms",
    "Suppliers": "InSuppliers",
    "Phases": "InPhases",
    "Labour": "InLabour",
    "Holidays": "InHolidays",
    "Received": "InReceived",
    "Job": "InJob",
}


class Inputted(Struct, frozen=True):
    """One input tab: headers as shown by declared name, and the values of its records."""

    headers: Mapping[str, str]
    rows: Sequence[Sequence[object]]
    with_table: bool = True


def sheets(tabs: Mapping[str, Inputted]) -> tuple[SheetModel, ...]:
    """Input sheets as a person has them."""
    return tuple(
        SheetModel(
            key=name,
            name=name,
            title=name,
            purpose="invented",
            tables=(
                TableModel(
                    TABLES[name],
                    FIRST - 1,
                    1,
                    tuple(SheetColumn(h) for h in tab.headers.values()),
                    tuple(tuple(_cell(v) for v in row) for row in tab.rows),
                ),
            ),
        )
        for name, tab in tabs.items()
    )


def _cell(value: object) -> Cell:
    return Cell(value, "input_date" if isinstance(value, date) else "text")  # type: ignore[arg-type]


def raw_book(tabs: Mapping[str, Inputted]) -> RawBook:
    """The same as a reader hands it over."""
    tables = {}
    for name, tab in tabs.items():
        letters = dict(zip(tab.headers, "ABCDEFGHIJKLMNOPQRSTUVWXYZ", strict=False))
        rows = tuple(
            RawRow(
                at,
                {h: RawCell(v, f"{letters[h]}{at}") for h, v in zip(tab.headers, row, strict=True)},
            )
            for at, row in enumerate(tab.rows, start=FIRST)
        )
        last = FIRST - 1 + len(rows)
        tables[name] = RawTable(
            tab=name,
            sheet=name,
            table=TABLES[name] if tab.with_table else "",
            header_row=FIRST - 1,
            last_row=last,
            headers=tab.headers,
            letters=letters,
            unknown=(),
            missing=(),
            duplicated=(),
            rows=rows,
        )
    return RawBook("invented.xlsx", tables, (), tuple(tabs))


def tile(code: str, at: int, **more: object) -> Tile:
    """A 600 x 300 mm tile in the Tiles row of that sheet row."""
    fields: dict[str, object] = {
        "code": code,
        "supplier": "Kiln & Quarry",
        "supplier_code": f"KQ-{code}",
        "description": f"tile {code}",
        "material": "porcelain",
        "edge": "rectified",
        "length_mm320": 600 * 320,
        "width_mm320": 300 * 320,
        "thickness_mm320": 9 * 320,
        "chip_length_mm320": None,
        "chip_width_mm320": None,
        "size_spread_mm320": None,
        "edge_warpage_mm320": None,
        "pieces_per_box": 10,
        "price": Decimal("48.50"),
        "price_per": PricePer.BOX,
        "box_weight_kg": 22.5,
        "one_batch": False,
        "lead_days": None,
        "source": RowRef("Tiles", at),
    }
    return Tile(**{**fields, **more})  # type: ignore[arg-type]


def bag(code: str, at: int, **more: object) -> Bag:
    """A 20 kg bag that yields 12.1 L in the Bags and pails row of that sheet row."""
    fields: dict[str, object] = {
        "code": code,
        "supplier": "Kiln & Quarry",
        "supplier_code": f"KQ-{code}",
        "description": f"bag {code}",
        "kind": BagKind.MORTAR,
        "pack_size": 20.0,
        "pack_unit": KILOGRAM,
        "package": "bag",
        "yield_m3": 0.0121,
        "coverage_m2": None,
        "pack_price": Decimal("27.90"),
        "pack_weight_kg": 20.0,
        "lead_days": None,
        "source": RowRef("Bags and pails", at),
    }
    return Bag(**{**fields, **more})  # type: ignore[arg-type]


def supplier(name: str, **more: object) -> Supplier:
    """A supplier with an address in two lines."""
    fields: dict[str, object] = {
        "name": name,
        "address": "1 Clay Lane\nPotters Row",
        "email": "",
        "account": "",
        "minimum_order": None,
        "delivery_charge": None,
        "lead_days": None,
        "terms": "",
        "tax": None,
        "source": RowRef("Suppliers", FIRST),
    }
    return Supplier(**{**fields, **more})  # type: ignore[arg-type]


def catalogue(*items: Tile | Bag, **more: object) -> Catalogue:
    """A catalogue of tiles and bags."""
    fields: dict[str, object] = {
        "tiles": {x.code: x for x in items if isinstance(x, Tile)},
        "bags": {x.code: x for x in items if isinstance(x, Bag)},
        "rolls": {},
        "cables": {},
        "sundries": {},
        "waste_factors": (),
        "labour": (),
        "suppliers": {"Kiln & Quarry": supplier("Kiln & Quarry")},
        "alternatives": {},
    }
    return Catalogue(**{**fields, **more})  # type: ignore[arg-type]


def inputs(
    goods: Catalogue,
    *,
    job: Job | None = None,
    phases: Mapping[str, date | None] | None = None,
    holidays: frozenset[date] = frozenset(),
    readings: Sequence[Reading] = (),
) -> Inputs:
    """Inputs with a catalogue, phases by name and start."""
    stages = {
        name: Phase(name, start, "", "", RowRef("Phases", FIRST))
        for name, start in (phases or {}).items()
    }
    return Inputs(
        job=job or Job(),
        phases=stages,
        rooms=(),
        finishes={},
        catalogue=goods,
        holidays=holidays,
        received=(),
        decisions=(),
        readings=tuple(readings),
    )


def line(item: str, each_si: float, unit: Unit = PIECE, **more: object) -> QuantityLine:
    """A quantity line of one room."""
    ways = {PIECE: PackBy.PIECES_PER_BOX, LITRE: PackBy.YIELD, SQUARE_METRE: PackBy.COVERAGE}
    fields: dict[str, object] = {
        "line": "tile" if unit == PIECE else "mortar",
        "phase": "",
        "room": "1",
        "count": 1,
        "surface": "floor",
        "item": item,
        "description": f"{item} for the floor",
        "each_si": each_si,
        "unit": unit,
        "waste": None,
        "pack_by": ways.get(unit, PackBy.PACK_SIZE),
        "basis": "invented",
        "source": RowRef("Rooms", FIRST),
    }
    return QuantityLine(**{**fields, **more})  # type: ignore[arg-type]


def run_of(
    given: Inputs,
    lines: Sequence[QuantityLine],
    *,
    rolls: Sequence[RollPlan] = (),
    cables: Sequence[CablePlan] = (),
    left_out: Sequence[str] = (),
) -> Run:
    """A run with these lines and the orders that follow."""
    orders, findings = make_orders(given, lines, rolls)
    return Run(
        inputs=given,
        works=(),
        lines=tuple(lines),
        setting_outs=(),
        roll_plans=tuple(rolls),
        cable_plans=tuple(cables),
        orders=orders,
        findings=findings,
        left_out=tuple(left_out),
    )


def write(
    path: Path, tabs: Mapping[str, Inputted], run: Run, *, of: Mapping[str, Inputted] | None = None
) -> tuple[SheetModel, ...]:
    """Write a workbook with the result tabs of a run; return those.

    ``of`` are the inputs that the run was made from, where they differ from what the sheets hold
    by now.
    """
    results = result_sheets(run, (), raw_book(of or tabs))
    book = BookModel((*sheets(tabs), *results), {})
    path.write_bytes(write_book(book, load_house_style()))
    return results


def make_orders(
    inputs: Inputs, lines: Sequence[QuantityLine], rolls: Sequence[RollPlan] = ()
) -> tuple[tuple[Order, ...], tuple[Finding, ...]]:
    """Orders and findings, without the comparison of suppliers."""
    orders, _, findings = order_everything(inputs, lines, rolls)
    return orders, findings


def result_sheets(
    run: Run,
    findings: Sequence[Worded],
    raw: RawBook,
    cards: Callable[[], Cards] | None = None,
    kept: Collection[str] = (),
) -> tuple[SheetModel, ...]:
    """Every result tab of a run, made here one after the other."""
    tabs = ResultTabs(run, findings, raw, kept=kept)
    return tabs.all(tabs.made_long, cards)


def waste(share: float, at: int, *criteria: str) -> WasteUsed:
    """The waste factor of a row of Waste factors."""
    four = (*criteria, "", "", "", "")[:4]
    return WasteUsed(share, RowRef("Waste factors", at), four, "by row")  # type: ignore[arg-type]


def status_of(cells: CellOf, sheet: str) -> str:
    """What stands in row 1 to the right of the title."""
    (status,) = (v for (s, a), v in cells.items() if s == sheet and a != "A1" and a[1:] == "1")
    return str(status)


def rows_of(cells: CellOf, sheet: str, header: str) -> list[dict[str, object]]:
    """Records of a written table by header, found by the first header's text."""
    heads = {a: v for (s, a), v in cells.items() if s == sheet}
    top = next(int("".join(filter(str.isdigit, a))) for a, v in heads.items() if v == header)
    letters = {
        "".join(filter(str.isalpha, a)): v
        for a, v in heads.items()
        if int("".join(filter(str.isdigit, a))) == top
    }
    records = []
    row = top + 1
    while any(f"{letter}{row}" in heads for letter in letters):
        records.append({v: heads.get(f"{k}{row}") for k, v in letters.items()})
        row += 1
    return records


def exact_cells(sheets: tuple[SheetModel, ...], cells: CellOf) -> frozenset[tuple[str, str]]:
    """Cells with packs and money: they must not differ by a billionth."""
    found = set()
    for sheet in sheets:
        for table in sheet.tables:
            for at, column in enumerate(table.columns):
                if column.header in {"Packs", "Pack price", "Amount"}:
                    letter = chr(ord("A") + at)
                    found |= {(sheet.name, f"{letter}{r}") for r in range(1, 200)}
    return frozenset(found & cells.keys())

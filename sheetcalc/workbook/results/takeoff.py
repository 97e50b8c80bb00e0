"""The Takeoff tab: every quantity line, with waste looked up live."""

from collections.abc import Callable, Sequence
from typing import Final

from sheetcalc.domain.quantity import PackBy, QuantityLine, WasteUsed
from sheetcalc.workbook.formulas import looked_up, number_literal, this_row
from sheetcalc.workbook.results.frame import (
    BLANK,
    Frame,
    count,
    quantity,
    shared,
    sheet_of,
    table_of,
    text,
)
from sheetcalc.workbook.results.order_formulas import TO_BE_PRICED
from sheetcalc.workbook.results.quote_formulas import LinePrices
from sheetcalc.workbook.results_tabs import TAKEOFF
from sheetcalc.workbook.sheet import Cell, SheetModel

KEY: Final = "takeoff"
IN_PLAN: Final = "in plan"
WHOLE_JOB: Final = "whole job"
MOST_LINKS: Final = 60_000
"""Links on one sheet; spreadsheet programs take 65,530."""

WASTE_KEYS: Final = ("Line", "Finish", "Bond", "Counted by")

_NET: Final = f"{this_row(TAKEOFF.table, 'Each')}*{this_row(TAKEOFF.table, 'Count')}"
_GROSS: Final = f"{this_row(TAKEOFF.table, 'Net')}*(1+{this_row(TAKEOFF.table, 'Waste %')})"
_GROSS_WITHOUT_WASTE: Final = this_row(TAKEOFF.table, "Net")


def begin_takeoff(
    lines: Sequence[QuantityLine], frame: Frame, part: range
) -> Callable[[LinePrices | None], SheetModel]:
    """Make the Takeoff tab but for money; what is returned finishes it with what lines cost.

    Net is each times count, gross is net with waste; both live.  Lines whose packs come from a
    plan are values throughout: what they depend on is not on this tab, and changing it turns the
    status to out of date.

    Parameters
    ----------
    lines
        Quantity lines of the run.
    frame
        Shared by the result tabs of the run.
    part
        Places of the lines that are wanted; others stand above and below.

    Returns
    -------
    callable
        Takes what lines cost, by type of room; of a run without a quote None, and then those
        columns stay blank.
    """
    wanted = lines[part.start : part.stop]
    rows = _rows(wanted, _rooms(wanted, MOST_LINKS - part.start, frame), frame)

    def finish(prices: LinePrices | None) -> SheetModel:
        if prices:
            _price(rows, wanted, prices.of(part), frame.words.say(TO_BE_PRICED))
        return sheet_of(
            KEY, TAKEOFF, frame, [table_of(TAKEOFF, rows, nothing="nothing to take off")]
        )

    return finish


def _rows(
    lines: Sequence[QuantityLine], rooms: Sequence[Cell], frame: Frame
) -> list[dict[str, Cell]]:
    wastes = {used: _waste(used, frame) for used in {line.waste for line in lines} if used}
    rows = []
    for line, room in zip(lines, rooms, strict=True):
        planned = line.pack_by is PackBy.PLAN
        waste = BLANK if planned or line.waste is None else wastes[line.waste]
        net, gross = line.net_and_gross_shown
        live_gross = _GROSS_WITHOUT_WASTE if waste is BLANK else _GROSS
        rows.append(
            {
                "Phase": text(line.phase, wrap=True),
                "Room": room,
                "Count": count(line.count),
                "Line": text(line.line),
                "Item": text(line.item, wrap=True),
                "Description": text(line.description, wrap=True),
                "Each": quantity(line.each_shown, line.unit, _each(line, frame)),
                "Unit": text(line.unit.symbol),
                "Net": quantity(net, line.unit, None if planned else _NET),
                "Waste %": text(IN_PLAN) if planned else waste,
                "Gross": (
                    quantity(net, line.unit) if planned else quantity(gross, line.unit, live_gross)
                ),
                "Basis": text(line.basis, wrap=True),
            }
        )
    return rows


def _price(
    rows: Sequence[dict[str, Cell]],
    lines: Sequence[QuantityLine],
    prices: LinePrices,
    unpriced: str,
) -> None:
    """Put the type of room into each row, and the share in the order of its item."""
    for row, line, kind, n in zip(rows, lines, prices.types, prices.materials, strict=True):
        if kind is not None:
            row["Type"] = count(kind)
        if n is not None:
            rate = prices.rates[n]
            cost = unpriced if rate is None else line.gross_shown * rate
            row["Cost"] = shared(cost, "result_money", prices.formulas[n])


def _rooms(lines: Sequence[QuantityLine], links: int, frame: Frame) -> list[Cell]:
    """Room of each line, the first of them with a link to the row that the line came from."""
    links = max(0, links)
    places = [(line.room or WHOLE_JOB, line.source.tab, line.source.row) for line in lines]
    linked: dict[tuple[str, str, int | None], Cell] = {}
    for room, tab, row in set(places[:links]):
        link = frame.link(tab, row)
        linked[room, tab, row] = Cell(room, "result_link" if link else "result", link=link)
    return [linked[place] if at < links else text(place[0]) for at, place in enumerate(places)]


def _each(line: QuantityLine, frame: Frame) -> str | None:
    """Make the formula of a quantity that rests on the pieces of a box; None for any other."""
    tiles = frame.inputs.get("Tiles")
    if line.by_box is None or tiles is None:
        return None
    source, share = line.by_box
    pieces, values = tiles.number(source.row, "Pieces per box"), tiles.column("Pieces per box")
    keys = tiles.keys(source.row, ("Code", "Supplier"))
    if not pieces or values is None or not keys:
        return None
    part = line.each_shown * share
    rest, boxed = number_literal(line.each_shown - part), number_literal(part * pieces)
    return f"{rest}+{boxed}/({looked_up(keys, values)})"


def _waste(waste: WasteUsed, frame: Frame) -> Cell:
    """Share of waste: live from the row that won, a constant where it is a line's default."""
    table = frame.inputs.get("Waste factors")
    source = waste.source
    if table is None or source is None or table.number(source.row, "Waste %") != waste.share:
        return Cell(waste.share, "result_percent")
    values = table.column("Waste %")
    keys = table.keys(source.row, WASTE_KEYS)
    if values is None or not keys:
        return Cell(waste.share, "result_percent")
    return Cell(waste.share, "result_percent", looked_up(keys, values))

"""Long result tabs made by copies of this process, each of which keeps the records and writes them.

Those that tell of the rooms' plans are begun before lines are taken off, the Takeoff and what else
is left while orders and quote are worked out, of which it is told what lines cost.
"""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

import sys
from typing import TYPE_CHECKING, Final, Self, TypeVar

from sheetcalc.workflows.spreading import OverCores
from sheetcalc.workflows.staying import Staying, shares_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from sheetcalc.domain.run import Run
    from sheetcalc.excel.generating.elsewhere import CellsElsewhere, Filled, Wanted
    from sheetcalc.excel.generating.sheet_cells import SheetCells
    from sheetcalc.excel.grafting.filling import FilledPart
    from sheetcalc.workbook.house_style import HouseStyle
    from sheetcalc.workbook.office import Office
    from sheetcalc.workbook.raw import RawBook
    from sheetcalc.workbook.results import ResultTabs
    from sheetcalc.workbook.results.frame import Frame
    from sheetcalc.workbook.results.long_tabs import Finish, LongTab
    from sheetcalc.workbook.results.quote_formulas import LinePrices
    from sheetcalc.workbook.sheet import SheetModel

Made = TypeVar("Made")

FEWEST_CELLS: Final = 20_000
"""Fewer are made and written sooner here than a process is started for some of them."""


class LongTabs:
    """The long tabs of a run, made and written by copies of this process.

    The copies keep the records of what they have made; where there are none, the tabs are as any
    others.  There are nearly twice as many copies as processes: half of them have made their tabs,
    and wait to write them, while the others are at work.

    Parameters
    ----------
    raw
        The workbook as found.
    spread
        Says how many processes there are.
    office
        Its house style.  In another language than English all tabs are made here: formulas are
        put into its words when every header is known.
    """

    def __init__(self, raw: "RawBook", spread: OverCores, office: "Office") -> None:
        forked = sys.platform == "linux"  # a copy has in memory what they are made from
        self._copies = spread.processes if forked and office.words.english else 1
        self._raw = raw
        self._style = office.style
        self._things: dict[str, _LongTab] = {}
        self._of: Run | None = None
        self._at_work: Staying[LinePrices | None, CellsElsewhere, Wanted, Filled | FilledPart]
        self._at_work = Staying()
        self._wanted: Mapping[str, Wanted] = {}
        self.sheets: dict[str, CellsElsewhere] = {}

    def planned(self, run: "Run") -> None:
        """Begin to make the tabs that tell of the rooms' plans."""
        self._at_work.end()  # rooms of an earlier run may have been left out since
        self._things.clear()
        self._of = None
        tabs = [tab for tab in self._tabs(run) if tab.of_plans]
        if sum(tab.cells for tab in tabs) >= FEWEST_CELLS:
            self._begin(tabs, self._copies - 1)

    def taken_off(self, run: "Run") -> None:
        """Begin to make the other tabs of the run, which lacks its orders and its quote yet."""
        tabs = self._tabs(run)
        if sum(tab.cells for tab in tabs) >= FEWEST_CELLS:
            self._begin([tab for tab in tabs if _name(tab) not in self._things], self._copies)
            self._of = run if self._things else None

    def priced(self, run: "Run") -> None:
        """Tell what lines cost, when the run is whole."""
        from sheetcalc.workbook.results.long_tabs import line_prices

        if self._has(run):
            self._at_work.tell(line_prices(run, self._frame(run)))

    def made(self, run: "Run", results: "ResultTabs") -> "list[SheetModel]":
        """Wait for the tabs; those of copies have empty rows in place of their records."""
        from msgspec.structs import replace

        from sheetcalc.excel.generating.elsewhere import together
        from sheetcalc.workbook.results.frame import with_status

        if not self._has(run):
            return results.made_long()
        for key, parts in self._by_sheet(self._at_work.first()).items():
            cells = together(parts, self._style)
            sheet = with_status(cells.sheet, results.status)
            self.sheets[key] = replace(cells, sheet=sheet)
        return [self.sheets[tab.key].sheet for tab in results.long()]

    def ask(self, wanted: "Mapping[str, Wanted]") -> None:
        """Say what is wanted of each sheet, by its key; the work begins."""
        self._wanted = wanted
        self._at_work.ask({name: wanted[thing.key] for name, thing in self._things.items()})

    def filled(self) -> "Mapping[str, Filled]":
        """Wait for the sheets, by their keys."""
        from sheetcalc.excel.generating.elsewhere import Filled
        from sheetcalc.excel.grafting.filling import FilledPart, fill_together

        filled: dict[str, Filled] = {}
        for key, made in self._by_sheet(self._at_work.last()).items():
            parts = [part for part in made if isinstance(part, FilledPart)]
            whole = [sheet for sheet in made if isinstance(sheet, Filled)]
            signature = self.sheets[key].sheet.signature
            [filled[key]] = whole or [fill_together(parts, self._wanted[key], signature)]
        return filled

    def _by_sheet(self, made: "Mapping[str, Made]") -> "dict[str, list[Made]]":
        """Put what was made of each sheet together, in the order of its parts."""
        parts: dict[str, list[Made]] = {}
        for name, thing in self._things.items():
            parts.setdefault(thing.key, []).append(made[name])
        return parts

    def _tabs(self, run: "Run") -> "Sequence[LongTab]":
        from sheetcalc.excel.generating.sheet_cells import ROWS_A_BLOCK
        from sheetcalc.workbook.results.long_tabs import long_tabs

        blocks = -(-len(run.lines) // ROWS_A_BLOCK)
        each = -(-blocks // self._copies)
        return long_tabs(run, self._frame(run), each * ROWS_A_BLOCK)

    def _begin(self, tabs: "Sequence[LongTab]", copies: int) -> None:
        if self._copies > 1:
            things = {_name(tab): _LongTab(tab, self._style) for tab in tabs}
            weights = {_name(tab): tab.cells for tab in tabs}
            self._at_work.begin(things, shares_of(weights, copies))
            self._things |= things

    def _frame(self, run: "Run") -> "Frame":
        from sheetcalc.workbook.results.frame import AWAITED, Frame

        return Frame(self._raw, run.inputs.job.units, AWAITED)

    def _has(self, run: "Run") -> bool:
        """Whether it was of this run that tabs were begun."""
        return self._of is not None and self._of.works is run.works

    def __enter__(self) -> Self:
        """Use as a context: ends the copies at its end."""
        return self

    def __exit__(self, *_: object) -> None:
        """End the copies."""
        self._at_work.end()


class _LongTab:
    """One of them, in the process that makes and writes it."""

    def __init__(self, tab: "LongTab", style: "HouseStyle") -> None:
        self.key = tab.key
        self._tab = tab
        self._style = style
        self._finish: Finish | None = None
        self._cells: SheetCells | None = None

    def begin(self) -> None:
        self._finish = self._tab.begin()

    def first(self, known: "LinePrices | None") -> "CellsElsewhere":
        from sheetcalc.excel.generating.elsewhere import kept_here
        from sheetcalc.excel.generating.sheet_cells import SheetCells

        sheet = _there(self._finish)(known)
        self._cells = SheetCells(sheet, self._style, self._tab.before)
        self._finish = None
        told = kept_here(self._cells)
        _ = self._cells.heights  # while others make what this process will wait for
        return told

    def last(self, asked: "Wanted") -> "Filled | FilledPart":
        from sheetcalc.excel.grafting.filling import fill, fill_part

        kept, self._cells = _there(self._cells), None
        cells = kept.among(asked.loose or {})
        return fill(cells, asked) if self._tab.before is None else fill_part(cells, asked)


def _name(tab: "LongTab") -> str:
    """Tell a tab, or a part of one, from all others."""
    return f"{tab.key} from {tab.before}"


def _there(made: Made | None) -> Made:
    if made is None:
        message = "a tab is begun, made and written once, in this order"
        raise ValueError(message)
    return made

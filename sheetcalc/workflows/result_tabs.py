"""Long result tabs made by copies of this process, each of which keeps the records and writes them.

They are begun while orders and quote are worked out, of which the Takeoff is told what lines cost.
"""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

import sys
from typing import TYPE_CHECKING, Final, Self, TypeVar

from sheetcalc.workflows.spreading import OverCores
from sheetcalc.workflows.staying import Staying, shares_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sheetcalc.domain.run import Run
    from sheetcalc.excel.generating.elsewhere import CellsElsewhere, Filled, Wanted
    from sheetcalc.excel.generating.sheet_cells import SheetCells
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
    others.

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
        self._of: Run | None = None
        self._at_work: Staying[LinePrices | None, CellsElsewhere, Wanted, Filled] = Staying()
        self.sheets: dict[str, CellsElsewhere] = {}

    def planned(self, run: "Run") -> None:
        """Begin to make the tabs of a run that lacks its orders and its quote yet."""
        from sheetcalc.workbook.results.long_tabs import long_tabs

        self._at_work.end()  # rooms of an earlier run may have been left out since
        self._of = None
        tabs = long_tabs(run, self._frame(run))
        cells = {tab.key: tab.cells for tab in tabs}
        if self._copies > 1 and sum(cells.values()) >= FEWEST_CELLS:
            self._of = run
            things = {tab.key: _LongTab(tab, self._style) for tab in tabs}
            self._at_work.begin(things, shares_of(cells, self._copies))

    def priced(self, run: "Run") -> None:
        """Tell what lines cost, when the run is whole."""
        from sheetcalc.workbook.results.long_tabs import line_prices

        if self._has(run):
            self._at_work.tell(line_prices(run, self._frame(run)))

    def made(self, run: "Run", results: "ResultTabs") -> "list[SheetModel]":
        """Wait for the tabs; those of copies have empty rows in place of their records."""
        from msgspec.structs import replace

        from sheetcalc.workbook.results.frame import with_status

        if not self._has(run):
            return results.made_long()
        self.sheets = {
            key: replace(cells, sheet=with_status(cells.sheet, results.status))
            for key, cells in self._at_work.first().items()
        }
        return [self.sheets[tab.key].sheet for tab in results.long()]

    def ask(self, wanted: "Mapping[str, Wanted]") -> None:
        """Say what is wanted of each sheet, by its key; the work begins."""
        self._at_work.ask(wanted)

    def filled(self) -> "Mapping[str, Filled]":
        """Wait for the sheets, by their keys."""
        return self._at_work.last()

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
        self._tab = tab
        self._style = style
        self._finish: Finish | None = None
        self._cells: SheetCells | None = None

    def begin(self) -> None:
        self._finish = self._tab.begin()

    def first(self, known: "LinePrices | None") -> "CellsElsewhere":
        from sheetcalc.excel.generating.elsewhere import kept_here
        from sheetcalc.excel.generating.sheet_cells import SheetCells

        self._cells = SheetCells(_there(self._finish)(known), self._style)
        self._finish = None
        told = kept_here(self._cells)
        _ = self._cells.heights  # while others make what this process will wait for
        return told

    def last(self, asked: "Wanted") -> "Filled":
        from sheetcalc.excel.grafting.filling import fill

        cells, self._cells = _there(self._cells), None
        return fill(cells.among(asked.loose or {}), asked, beside=True)


def _there(made: Made | None) -> Made:
    if made is None:
        message = "a tab is begun, made and written once, in this order"
        raise ValueError(message)
    return made

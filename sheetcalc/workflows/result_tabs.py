"""Long result tabs made by copies of this process, each of which keeps the records and writes them.

They are begun as soon as what they are made from is there: those of the plans while orders and
quote are worked out, the Takeoff while findings are put into words.
"""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

import sys
from functools import partial
from typing import TYPE_CHECKING, Final, Self

from sheetcalc.workflows.spreading import OverCores
from sheetcalc.workflows.staying import Staying, shares_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from sheetcalc.domain.run import Run
    from sheetcalc.excel.generating.elsewhere import CellsElsewhere, Filled, Wanted
    from sheetcalc.excel.generating.sheet_cells import SheetCells
    from sheetcalc.workbook.house_style import HouseStyle
    from sheetcalc.workbook.office import Office
    from sheetcalc.workbook.raw import RawBook
    from sheetcalc.workbook.results.frame import Frame
    from sheetcalc.workbook.results.long_tabs import LongTab
    from sheetcalc.workbook.sheet import Cell, SheetModel

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
        others = spread.processes - 1
        self._others = others if forked and office.words.english else 0
        self._raw = raw
        self._style = office.style
        self._of: Run | None = None
        self._at_work: Staying[CellsElsewhere, Wanted, Filled] = Staying()
        self.sheets: dict[str, CellsElsewhere] = {}

    def planned(self, run: "Run") -> None:
        """Begin to make what needs no orders and no quote."""
        from sheetcalc.workbook.results.long_tabs import tabs_of_plans

        self._at_work.end()  # rooms of an earlier run may have been left out since
        self._of = run
        self._begin(tabs_of_plans(run, self._frame(run)))

    def priced(self, run: "Run") -> None:
        """Begin to make the Takeoff, which says what lines cost."""
        from sheetcalc.workbook.results.long_tabs import own_formulas, takeoff_tab

        frame = self._frame(run)
        if self._has(run):
            self._begin([takeoff_tab(run, frame, partial(own_formulas, run, frame))])

    def made(self, run: "Run", tabs: "Iterable[LongTab]", status: "Cell") -> "list[SheetModel]":
        """Wait for the tabs; those of copies have empty rows in place of their records."""
        from msgspec.structs import replace

        from sheetcalc.workbook.results.frame import with_status

        told = self._at_work.first() if self._has(run) else {}
        self.sheets = {
            key: replace(cells, sheet=with_status(cells.sheet, status))
            for key, cells in told.items()
        }
        return [
            self.sheets[tab.key].sheet if tab.key in self.sheets else tab.make() for tab in tabs
        ]

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
        """Whether it was this run of which tabs were begun."""
        return self._of is not None and self._of.works is run.works

    def _begin(self, tabs: "Sequence[LongTab]") -> None:
        cells = {tab.key: tab.cells for tab in tabs}
        if self._others and sum(cells.values()) >= FEWEST_CELLS:
            things = {tab.key: _LongTab(tab, self._style) for tab in tabs}
            self._at_work.begin(things, shares_of(cells, self._others))

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
        self._cells: SheetCells | None = None

    def first(self) -> "CellsElsewhere":
        from sheetcalc.excel.generating.elsewhere import kept_here
        from sheetcalc.excel.generating.sheet_cells import SheetCells

        self._cells = SheetCells(self._tab.make(), self._style)
        told = kept_here(self._cells)
        _ = self._cells.heights  # while others make what this process will wait for
        return told

    def last(self, asked: "Wanted") -> "Filled":
        from sheetcalc.excel.grafting.filling import fill

        cells, self._cells = self._cells, None
        if cells is None:
            message = "a tab is written once, after it is made"
            raise ValueError(message)
        return fill(cells.among(asked.loose or {}), asked, beside=True)

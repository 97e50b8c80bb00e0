"""Long result tabs made by several processes, each of which keeps the records and writes them."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

import sys
from typing import TYPE_CHECKING, Final, Self

from sheetcalc.workflows.spreading import OverCores
from sheetcalc.workflows.staying import Staying, shares_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from sheetcalc.excel.generating.elsewhere import CellsElsewhere, Filled, Wanted
    from sheetcalc.excel.generating.sheet_cells import SheetCells
    from sheetcalc.workbook.house_style import HouseStyle
    from sheetcalc.workbook.office import Office
    from sheetcalc.workbook.results import LongTab
    from sheetcalc.workbook.sheet import SheetModel

FEWEST_CELLS: Final = 20_000
"""Fewer are made and written sooner here than a process is started for some of them."""

_CELLS_OF_A_ROOM: Final = 300
"""What the short tabs of a room take to be made, in cells of long ones: its findings, the
fingerprints of its inputs, its prices.  Chosen so that shares end together; only the time depends
on it."""


class LongTabs:
    """The long tabs of a run, made and written by this process and by copies of it.

    The copies keep the records of what they have made; where there are none, the tabs are as any
    others.

    Parameters
    ----------
    spread
        Says how many processes there are.
    office
        Its house style.  In another language than English all tabs are made here: formulas are
        put into its words when every header is known.
    """

    def __init__(self, spread: OverCores, office: "Office") -> None:
        self._processes = spread.processes if office.words.english else 1
        self._style = office.style
        self._tabs: Sequence[LongTab] = ()
        self._at_work: Staying[CellsElsewhere, Wanted, Filled] | None = None
        self._places: dict[str, int] = {}
        self.sheets: dict[str, CellsElsewhere] = {}

    def begin(self, tabs: "Sequence[LongTab]", rooms: int) -> None:
        """Begin to make the tabs of so many rooms, where several processes are worth it."""
        self._tabs = tabs
        cells = [tab.cells for tab in tabs]
        forked = sys.platform == "linux"  # a copy has in memory what they are made from
        if forked and self._processes > 1 and sum(cells) >= FEWEST_CELLS:
            shares = shares_of(cells, self._processes, here=rooms * _CELLS_OF_A_ROOM)
            self._at_work = Staying([_LongTab(tab, self._style) for tab in tabs], shares)

    def made(self) -> "list[SheetModel]":
        """Wait for the tabs; those of copies have empty rows in place of their records."""
        if self._at_work is None:
            return [tab.make() for tab in self._tabs]
        told = [cells for _, cells in sorted(self._at_work.first().items())]
        self._places = {cells.sheet.key: at for at, cells in enumerate(told)}
        self.sheets |= {cells.sheet.key: cells for cells in told}
        return [cells.sheet for cells in told]

    def ask(self, wanted: "Mapping[str, Wanted]") -> None:
        """Say what is wanted of each sheet, by its key; the work begins."""
        if self._at_work:
            self._at_work.ask({self._places[key]: what for key, what in wanted.items()})

    def filled(self) -> "Mapping[str, Filled]":
        """Wait for the sheets, by their keys."""
        made = self._at_work.last() if self._at_work else {}
        return {key: made[at] for key, at in self._places.items()}

    def __enter__(self) -> Self:
        """Use as a context: ends the copies at its end."""
        return self

    def __exit__(self, *_: object) -> None:
        """End the copies."""
        if self._at_work:
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
        return fill(cells, asked, beside=True)

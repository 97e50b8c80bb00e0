"""Steps from cell to cell over free floor, counted as far as they are asked for."""

from functools import reduce
from operator import xor
from typing import Final

import numpy as np
from numpy.typing import NDArray

from sheetcalc.geometry.heating.floor_cells import Grid

NOT_REACHED: Final = 1_000_000_000
"""Steps to a cell that was not reached."""

_NO_END: Final = -1
_BYTE: Final = 8


class Flood:
    """Free cells of a grid, reached step by step from some of them.

    Cells are the bits of whole numbers: all cells next to a set of them are four shifts of it.
    """

    def __init__(self, free: Grid, starts: Grid) -> None:
        """Begin; no cell on the grid's edge may be free, or a step would leave it."""
        self._grid = free
        self._free = self._left = _bits_of(free)
        self._front = _bits_of(starts) & self._free
        self._lefts: list[int] = []

    @property
    def ended(self) -> bool:
        """Whether every cell that can be reached was."""
        return not self._front

    @property
    def steps_taken(self) -> int:
        """Every cell that takes fewer steps than this was reached."""
        return len(self._lefts)

    def spread(self, wanted: Grid | None = None, beyond: int = 0) -> None:
        """Go on, in all directions, as far as anything can be reached.

        Parameters
        ----------
        wanted
            Once one of these cells is reached, that is far enough.
        beyond
            Steps to go on from there.
        """
        sought = 0 if wanted is None else _bits_of(wanted)
        left, front, lefts = self._left, self._front, self._lefts
        width = self._grid.shape[1]
        to_go = beyond if sought & (self._free ^ left) else _NO_END
        while front and to_go:
            lefts.append(left)
            left ^= front
            if to_go != _NO_END:
                to_go -= 1
            elif front & sought:
                to_go = beyond
            front = (front << 1 | front >> 1 | front << width | front >> width) & left
        self._left, self._front = left, front

    def steps(self) -> NDArray[np.int32]:
        """Count the steps to every cell; ``NOT_REACHED`` where there is no telling.

        They are read off in binary: a digit changes every so many steps, so the cells that have
        it are those that were still left at an odd number of its changes.
        """
        left, lefts = self._left, self._lefts
        last = max(len(lefts) - 1, 0)
        steps = np.zeros(self._grid.shape, dtype=np.int32)
        for low in range(0, last.bit_length(), _BYTE):
            byte = np.zeros(self._grid.shape, dtype=np.uint8)
            for place in range(low, min(low + _BYTE, last.bit_length())):
                every = 1 << place
                digit = reduce(xor, lefts[every::every], left if last & every else 0)
                byte |= self._cells_of(digit) << (place - low)
            steps |= byte.astype(np.int32) << low
        reached = self._cells_of(self._free ^ left).view(np.bool_)
        return np.where(reached, steps, np.int32(NOT_REACHED))

    def _cells_of(self, bits: int) -> NDArray[np.uint8]:
        """Cells of a whole number's bits, 0 or 1."""
        size = self._grid.size
        packed = np.frombuffer(bits.to_bytes(-(-size // 8), "little"), dtype=np.uint8)
        cells = np.unpackbits(packed, count=size, bitorder="little")
        return cells.reshape(self._grid.shape)


def _bits_of(cells: Grid) -> int:
    """Whole number with a bit for every cell, row by row."""
    return int.from_bytes(np.packbits(cells, bitorder="little").tobytes(), "little")

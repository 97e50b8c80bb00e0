"""Boards and mats over a region: laid in a grid, both ways, pieces not used twice."""

from dataclasses import dataclass

from sheetcalc.domain.room import Region
from sheetcalc.geometry.regions import components, intersection, is_rectangle, rectangle


@dataclass(frozen=True, slots=True)
class Boards:
    """Boards that cover a region.

    Attributes
    ----------
    whole, cut
        Boards laid whole, and boards cut at an edge.
    lower_bound
        No laying needs fewer: area by area, rounded up.
    """

    whole: int
    cut: int
    lower_bound: int

    @property
    def count(self) -> int:
        """Boards to buy where no rest of a board is used again."""
        return self.whole + self.cut


def boards_over(region: Region, length_mm320: int, width_mm320: int) -> Boards:
    """Count boards or mats in a grid from the near left corner of each connected part.

    Both directions are tried and the one with fewer boards is kept; common practice, no source.

    Parameters
    ----------
    region
        What is covered.
    length_mm320, width_mm320
        Size of a board, both above 0 [1/320 mm].
    """
    whole = cut = 0
    for part in components(region):
        ways = [_grid(part, length_mm320, width_mm320), _grid(part, width_mm320, length_mm320)]
        best = min(ways, key=sum)
        whole, cut = whole + best[0], cut + best[1]
    bound = -(-round(region.area_mm320) // (length_mm320 * width_mm320))
    return Boards(whole, cut, bound)


def _grid(part: Region, across: int, deep: int) -> tuple[int, int]:
    """Whole and cut boards of a grid over a connected part."""
    x0, y0, x1, y1 = part.bounds
    columns, rows = -(-(x1 - x0) // across), -(-(y1 - y0) // deep)
    if is_rectangle(part):
        whole = ((x1 - x0) // across) * ((y1 - y0) // deep)
        return whole, columns * rows - whole
    whole = cut = 0
    board = across * deep
    for i in range(columns):
        for j in range(rows):
            covered = intersection(part, rectangle(x0 + i * across, y0 + j * deep, across, deep))
            area = covered.area_mm320
            whole += area == board
            cut += 0 < area < board
    return whole, cut

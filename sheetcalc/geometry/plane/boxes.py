"""Rectangles round the connected parts that a rectangle cuts out of a region."""

from collections.abc import Sequence
from typing import TypeAlias

from sheetcalc.domain.room import Region
from sheetcalc.geometry.plane.regions import (
    components,
    intersection,
    is_rectilinear,
    rectangle,
    slabs_of,
)
from sheetcalc.geometry.plane.slabs import Slab

Box: TypeAlias = tuple[int, int, int, int]
"""Smallest left, smallest front, largest left, largest front [1/320 mm]."""


def boxes_within(region: Region, box: Box) -> list[Box]:
    """Bounds of the connected parts of a region within a box, by their near left corners.

    Parts that only touch in a point are apart.

    Parameters
    ----------
    region
        Rectilinear ones are looked through slab by slab, without making regions of the parts.
    box
        Its bounds.
    """
    if is_rectilinear(region):
        return _in_slabs(slabs_of(region), box)
    left, front, right, far = box
    cut = intersection(region, rectangle(left, front, right - left, far - front))
    return [part.bounds for part in components(cut)]


def _in_slabs(slabs: Sequence[Slab], box: Box) -> list[Box]:
    cells: list[Box] = []
    part_of: list[int] = []  # the first cell of each cell's part
    last: list[int] = []  # cells of the slab before
    for slab_left, slab_right, intervals in slabs:
        left, right = max(slab_left, box[0]), min(slab_right, box[2])
        if left >= right:
            continue
        beside = [at for at in last if cells[at][2] == left]
        last = []
        for low, high in intervals:
            front, far = max(low, box[1]), min(high, box[3])
            if front >= far:
                continue
            joined = {part_of[at] for at in beside if cells[at][1] < far and front < cells[at][3]}
            part = min(joined, default=len(cells))
            part_of = [part if other in joined else other for other in part_of]
            last.append(len(cells))
            cells.append((left, front, right, far))
            part_of.append(part)
    boxes: dict[int, Box] = {}
    for part, (left, front, right, far) in zip(part_of, cells, strict=True):
        x0, y0, x1, y1 = boxes.get(part, (left, front, right, far))
        boxes[part] = x0, min(y0, front), max(x1, right), max(y1, far)
    return list(boxes.values())

"""A part of free floor split into shares for several cables side by side [mm]."""

from collections.abc import Sequence
from math import ceil
from typing import Final

import shapely
from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

from sheetcalc.geometry.heating.cable_strips import Lattice

_STEPS: Final = 30
_HALVED_EVERY: Final = 3
_SAME_SHARE: Final = 1e-6
_EXACT: Final = 1e-9


def split(
    part: Polygon, weights: Sequence[float], apart_mm: float, knobs: Lattice | None = None
) -> list[Polygon]:
    """Split a part of free floor into shares, side by side along its longer direction.

    Parameters
    ----------
    part
        Free floor [mm].
    weights
        Shares of its area, in any unit.
    apart_mm
        Kept between the shares [mm].
    knobs
        Lattice of the underlay, on which shares then end; None where the spacing is free.

    Returns
    -------
    list of shapely.Polygon
        The largest piece of each share; empty where nothing is left.
    """
    if len(weights) == 1:
        return [part]
    left, front, right, back = part.bounds
    along_x = right - left >= back - front
    start, end = (left, right) if along_x else (front, back)
    total = sum(weights)
    done = 0.0
    edges = [start]
    for weight in weights[:-1]:
        done += weight
        cut = _cut_at(part, done / total, start, end, along_x=along_x)
        edges += _edges(cut, apart_mm, knobs, along_x=along_x)
    edges.append(end)
    shares = []
    for a, b in zip(edges[::2], edges[1::2], strict=True):
        if b <= a:
            shares.append(Polygon())
            continue
        frame = box(a, front, b, back) if along_x else box(left, a, right, b)
        pieces = polygons_of(shapely.intersection(part, frame))
        shares.append(max(pieces, key=lambda p: p.area, default=Polygon()))
    return shares


def _edges(
    cut_mm: float, apart_mm: float, knobs: Lattice | None, *, along_x: bool
) -> tuple[float, float]:
    """Where the share before a cut ends and the next begins [mm]; on knobs on their lattice."""
    if knobs is None:
        return cut_mm - apart_mm / 2, cut_mm + apart_mm / 2
    pitch, origin = knobs.pitch_mm, knobs.left_mm if along_x else knobs.front_mm
    gap = ceil(apart_mm / pitch - _EXACT)
    last = round((cut_mm - origin) / pitch - gap / 2)
    return origin + last * pitch, origin + (last + gap) * pitch


def _cut_at(part: Polygon, share: float, start: float, end: float, *, along_x: bool) -> float:
    """Place where a cut leaves a share of the area before it [mm]."""
    left, front, right, back = part.bounds
    low, high = start, end
    # areas before the two places less what is wanted: the false position between them is exact
    # where the part is as wide all the way
    less, more = -share * part.area, (1 - share) * part.area
    middle = low
    for step in range(1, _STEPS):
        halved = step % _HALVED_EVERY == 0
        middle = (low + high) / 2 if halved else low - less * (high - low) / (more - less)
        frame = box(left, front, middle, back) if along_x else box(left, front, right, middle)
        off = shapely.intersection(part, frame).area - share * part.area
        if abs(off) <= _SAME_SHARE * part.area:
            break
        if off < 0:
            low, less = middle, off
        else:
            high, more = middle, off
    return middle


def polygons_of(shape: BaseGeometry) -> list[Polygon]:
    """Polygons of a shape, without points and lines that an intersection may leave."""
    return [g for g in shapely.get_parts(shape) if g.geom_type == "Polygon" and not g.is_empty]

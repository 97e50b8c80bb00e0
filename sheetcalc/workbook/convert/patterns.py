"""Texts with a grammar of their own: notches, bonds, runs, turns, copies of a room."""

import re
from typing import Final

from sheetcalc.domain.finish import Bond, BondKind, Notch, NotchShape, Run
from sheetcalc.domain.measure import JobUnits
from sheetcalc.units import NotReadableError, parse_length
from sheetcalc.workbook.convert.problem import CellProblem

MOST_DIVISIONS: Final = 99
_NOTCH_RANGE_MM: Final = (0.5, 60.0)
_MOST_COPIES: Final = 10_000

_SHAPES: Final = {"square": NotchShape.SQUARE, "u": NotchShape.U, "v": NotchShape.V}
_SHAPE = re.compile(r"^(square|u|v)\b[\s:-]*|[\s,-]*\b(square|u|v)$")
_TIMES = re.compile(r"\s*[x\u00d7*]\s*")
_UNIT_AT_END = re.compile(r"""\s*(mm|cm|in\.?|inch|inches|")$""")

_OFFSET = re.compile(r"(?:offset\s+)1\s*/\s*([0-9]{1,3})(\s+alternate)?")
_DEGREES = re.compile(r"([+-]?[0-9]+(?:\.[0-9]+)?)\s*(?:°|degrees?|deg)?")
_RANGE = re.compile(r"(.*?)([0-9]+)\s*(?:-|\u2013|to)\s*(.*?)([0-9]+)")

_JOINED = re.compile(r"[0-9]\S*\s*(?:\band\b|[&+])\s*\S*[0-9]", re.IGNORECASE)
"""101 and 102, which would else be the name of one room."""


def notch(text: str, units: JobUnits) -> Notch:
    """Read a trowel's notch: shape, then width x depth x spacing.

    ``square 10 x 10 x 10 mm``, ``12 x 12 x 12 square``, ``V 3/16 x 5/32 x 1/16 in``; with two
    sizes the spacing is the width.  A size without a unit has the unit that stands last, or the
    Job's unit for small lengths.

    Raises
    ------
    CellProblem
        ``NOTCH-UNREADABLE`` or ``NOTCH-OUT-OF-RANGE``.
    """
    tidy = " ".join(text.casefold().split())
    shape = _SHAPE.search(tidy)
    if shape is None:
        raise CellProblem(code="NOTCH-UNREADABLE", hint="say the shape: square, U or V")
    sizes = _TIMES.split((tidy[: shape.start()] + tidy[shape.end() :]).strip())
    if len(sizes) == 2:  # noqa: PLR2004 (width and depth; the tooth is as wide as the notch)
        unit = _UNIT_AT_END.search(sizes[1])
        first = sizes[0] if _UNIT_AT_END.search(sizes[0]) or unit is None else sizes[0] + unit[0]
        sizes.append(first)
    if len(sizes) != 3:  # noqa: PLR2004 (width, depth and spacing)
        raise CellProblem(code="NOTCH-UNREADABLE", hint="give width x depth x spacing")
    last = _UNIT_AT_END.search(sizes[-1])
    read: list[int] = []
    for size in sizes:
        with_unit = size if last is None or _UNIT_AT_END.search(size) else f"{size} {last[1]}"
        try:
            found = parse_length(with_unit, units.small_length, feet_job=False)
        except NotReadableError as refusal:
            raise CellProblem(code="NOTCH-UNREADABLE", hint=refusal.hint) from refusal
        if not _NOTCH_RANGE_MM[0] * 320 <= found <= _NOTCH_RANGE_MM[1] * 320:
            raise CellProblem(
                code="NOTCH-UNREADABLE", hint="each size is from 0.5 mm to 60 mm; type the unit"
            )
        read.append(found)
    return Notch(_SHAPES[shape[1] or shape[2]], read[0], read[1], read[2])


def bond(text: str) -> Bond:
    """Read a tile pattern: ``grid``, ``offset 1/3 alternate``, ``herringbone``."""
    tidy = " ".join(text.casefold().split())
    for kind in BondKind:
        if tidy == kind.value and kind is not BondKind.OFFSET:
            return Bond(kind)
    found = _OFFSET.fullmatch(tidy)
    if found is not None and 1 < int(found[1]) <= MOST_DIVISIONS:
        return Bond(BondKind.OFFSET, int(found[1]), alternate=bool(found[2]))
    fraction = re.fullmatch(r"1\s*/\s*([0-9]+)", tidy)
    hint = (
        f"type offset 1/{fraction[1]}"
        if fraction
        else "type grid, offset 1/2, offset 1/3, any offset 1/n with or without alternate, "
        "diagonal grid, herringbone, double herringbone or basket weave"
    )
    raise CellProblem(code="BOND-UNKNOWN", hint=hint)


def run(text: str) -> Run:
    """Read the direction of the tile's long side."""
    tidy = " ".join(text.casefold().split())
    for side in ("long", "short"):
        if tidy == f"along the {side} side":
            return Run(side)
    if tidy == "with the floor":
        return Run("floor")
    found = _DEGREES.fullmatch(tidy)
    if found is None:
        raise CellProblem(code="RUN-UNKNOWN")
    return Run("degrees", float(found[1]) % 180)


def turn(text: str) -> float:
    """Read a turn in degrees, to the left positive: left, right, straight, or a number."""
    tidy = " ".join(text.casefold().split())
    words = {"left": 90.0, "right": -90.0, "straight": 0.0}
    if tidy in words:
        return words[tidy]
    found = _DEGREES.fullmatch(tidy)
    if found is None or abs(float(found[1])) >= 180:  # noqa: PLR2004 (degrees of a turn back)
        raise CellProblem(code="TURN-UNKNOWN")
    return float(found[1])


def copies(text: str) -> tuple[str, ...]:
    """Read the names of alike rooms: ``101-108``, ``101, 103, 105``, or both mixed.

    Raises
    ------
    CellProblem
        ``COPIES-UNREADABLE`` for a range that runs backwards or is too long, a name twice, or
        names that are joined by "and".
    """
    names: list[str] = []
    for piece in re.split(r"[,;\n]", text):
        part = piece.strip()
        if not part:
            continue
        span = _RANGE.fullmatch(part)
        other_name = span is not None and (
            (span[3] and span[3] != span[1])
            or (span[4].startswith("0") and len(span[4]) != len(span[2]))  # 2-07 is one room
        )
        if span is None or other_name:
            if _JOINED.search(part):
                raise CellProblem(code="COPIES-UNREADABLE", hint="part all names with commas")
            names.append(part)
            continue
        first, last, width = int(span[2]), int(span[4]), len(span[2])
        if last < first or last - first >= _MOST_COPIES:
            raise CellProblem(
                code="COPIES-UNREADABLE", hint="a range runs upwards, such as 101-108"
            )
        names.extend(f"{span[1]}{number:0{width}d}" for number in range(first, last + 1))
    if len({name.casefold() for name in names}) != len(names):
        raise CellProblem(code="COPIES-UNREADABLE", hint="each room stands once")
    return tuple(names)

"""Tile, mortar, grout, primer and sealer of invented rooms, worked anew from their rows.

Areas by shapely, from the rows and not from the program's outline; formulas of the trade (module,
share of joint, bed of a square notch) written out here.
"""

import random
from collections import defaultdict

import pytest
from msgspec import Struct
from shapely.geometry import Polygon, box
from shapely.ops import unary_union
from workbook.raw_books import book

from sheetcalc.takeoff import calculate
from sheetcalc.workbook.convert import to_inputs

Row = dict[str, str | float]

_TILES: dict[str, tuple[str, float, float, float]] = {
    "floor": ("T", 597, 297, 9),
    "shower floor": ("M", 47, 47, 6),
    "inset": ("T", 597, 297, 9),
    "wall": ("W", 298, 198, 7),
    "wet area": ("W", 298, 198, 7),
    "niche": ("W", 298, 198, 7),
}
"""Surface -> tile, and its face (of the mosaic a chip's) and thickness [mm]."""

_JOINT = 3
_NOTCH = 8
_SKIM = 1
_CHIPS = 36
"""Chips of a sheet."""

_PLACE = ("Left", "Front", "Length", "Width")


class Invented(Struct):
    """Rows of one room, and what they come to."""

    room: Row
    pieces: list[Row]
    faces: list[Row]


def invented(seed: int) -> Invented:
    """Invent a rectangle with an alcove, a duct, what stands in it, and a wall, all or some."""
    dice = random.Random(seed)  # noqa: S311 - rooms to try, no secret
    length, width = round(dice.uniform(2.6, 4), 2), round(dice.uniform(1.8, 3.5), 2)
    room: Row = {"Room": "R", "Length": length, "Width": width, "Finish": "F"}
    return Invented(room, _pieces(dice, length, width), _faces(dice, length))


def _pieces(dice: random.Random, length: float, width: float) -> list[Row]:
    always = dice.choice(["shower floor", "bath", "shower tray"])
    some = {
        "floor": (length, dice.uniform(0, width - 0.7), dice.uniform(0.3, 1), 0.6),
        "void": (0, 0, dice.uniform(0.1, 0.4), dice.uniform(0.1, 0.4)),
        "cabinet": (length - 0.5, 0, 0.5, 0.6),
        "column": (length - 0.5, width - 0.4, 0.2, 0.2),
        "inset": (1.1, 0.7, 0.6, 0.3),
    }
    taken = {kind: place for kind, place in some.items() if dice.random() < 0.5}
    return [
        {"Room": "R", "Piece": kind, "Kind": kind}
        | {h: round(x, 2) for h, x in zip(_PLACE, place, strict=True)}
        for kind, place in {**taken, always: (0, width - 0.9, 0.9, 0.9)}.items()
    ]


def _faces(dice: random.Random, length: float) -> list[Row]:
    faces = [_part("face", 0, 0, length, 2.1)]
    some = (
        _part("wet area", 0, 0, 0.9, 2),
        {**_part("niche", 0.2, 1, 0.3, 0.4), "Depth": 90},
        _part("opening", 1.1, 1, 0.5, 0.6),
        {**_part("opening", 1.7, 1, 0.5, 0.6), "Depth": 120},
    )
    return faces + [part for part in some if dice.random() < 0.5]


def _part(part: str, left: float, bottom: float, length: float, height: float) -> Row:
    return {
        "Room": "R", "Wall": "far", "Part": part, "Left": left, "Bottom": bottom,
        "Length": length, "Height": height,
    }  # fmt: skip


def areas(of: Invented) -> dict[str, float]:
    """Area of each kind of surface [m2]."""
    shapes: dict[str, list[Polygon]] = defaultdict(list)
    for row in of.pieces:
        shapes[str(row["Kind"])].append(_box(row, "Front", "Width"))
    room = box(0, 0, float(of.room["Length"]), float(of.room["Width"]))
    floor = unary_union([room, *shapes.pop("floor", [])]) - unary_union(shapes.pop("void", []))
    found = {
        "shower floor": unary_union(shapes.get("shower floor", [])).area,
        "inset": unary_union(shapes.get("inset", [])).area,
        "floor": (floor - unary_union([s for several in shapes.values() for s in several])).area,
        "niche": 0.0,
    }
    parts: dict[str, list[Polygon]] = defaultdict(list)
    for row in of.faces:
        parts[str(row["Part"])].append(_box(row, "Bottom", "Height"))
    wet, holes = unary_union(parts["wet area"]), unary_union(parts["niche"] + parts["opening"])
    found["wall"] = (unary_union(parts["face"]) - wet - holes).area
    found["wet area"] = (wet - holes).area
    for row in of.faces:
        round_it = 2 * (float(row["Length"]) + float(row["Height"]))
        reveals = round_it * float(row.get("Depth", 0)) / 1000
        if row["Part"] == "niche":
            found["niche"] += float(row["Length"]) * float(row["Height"]) + reveals
        elif row["Part"] == "opening":  # it stands beside the wet area
            found["wall"] += reveals
    return found


def _box(row: Row, front: str, width: str) -> Polygon:
    left, low = float(row["Left"]), float(row[front])
    return box(left, low, left + float(row["Length"]), low + float(row[width]))


def by_hand(of: Invented) -> dict[tuple[str, str], float]:
    """Amounts by line and item: pieces, cubic metres, kilograms, square metres of a coat."""
    found: dict[tuple[str, str], float] = defaultdict(float)
    for surface, area in areas(of).items():
        item, long, wide, thick = _TILES[surface]
        module = (long + _JOINT) * (wide + _JOINT)
        found["tile", item] += area * 1e6 / module / (_CHIPS if item == "M" else 1)
        found["mortar", "C"] += area * (_NOTCH / 2 + _SKIM) / 1000
        share = _JOINT * (long + wide + _JOINT) / module
        found["grout", "G"] += area * share * thick / 1000 * 1600
        found["sealer", "X"] += area
        if surface != "niche":
            found["primer", "P"] += 2 * area
    return found


def worked_out(of: Invented) -> dict[tuple[str, str], float]:
    """The same by the program, with tiles counted by area."""
    settings = {"Job name": "Invented", "Tiles counted by": "area"}
    inputs, found = to_inputs(
        book(**{
            "Job": [{"Setting": label, "Value": value} for label, value in settings.items()],
            "Rooms": [of.room],
            "Floor pieces": of.pieces,
            "Wall faces": of.faces,
            **_CATALOGUE,
        })
    )  # fmt: skip
    assert inputs is not None, found
    amounts: dict[tuple[str, str], float] = defaultdict(float)
    for line in calculate(inputs).lines:
        amounts[line.line, line.item] += line.each_si
    return amounts


_CATALOGUE: dict[str, list[Row]] = {
    "Finishes": [
        {
            "Finish": "F", "Surface": surface, "Tile": of[0], "Joint": _JOINT, "Skim": _SKIM,
            "Trowel notch": f"square {_NOTCH} x {_NOTCH} x {_NOTCH} mm", "Trowel angle": 90,
            "Mortar": "C", "Grout": "G", "Sealant": "S", "Sealer": "X",
        }
        for surface, of in _TILES.items()
    ],
    "Build-up": [
        {"Finish": "F", "Surface": s, "Order": 1, "Role": "primer", "Item": "P", "Coats": 2}
        for s in ("floor", "shower floor", "wall", "wet area")
    ],
    "Tiles": [
        {
            "Code": code, "Description": code, "Length": long, "Width": wide, "Thickness": thick,
            "Pieces per box": 10,
        }
        for code, long, wide, thick in dict.fromkeys(_TILES.values())
        if code != "M"
    ] + [
        {
            "Code": "M", "Description": "Mosaic", "Length": 300, "Width": 300, "Thickness": 6,
            "Chip length": 47, "Chip width": 47, "Pieces per box": 10,
        }
    ],
    "Bags and pails": [
        {"Description": "it", "Pack size": 5, "Pack unit": "kg", "Package": "bag", **row}
        for row in (
            {"Code": "C", "Kind": "mortar", "Yield": 3.7},
            {"Code": "G", "Kind": "grout"},
            {"Code": "S", "Kind": "sealant", "Pack size": 310, "Pack unit": "mL"},
            {"Code": "X", "Kind": "sealer", "Coverage": 15},
            {"Code": "P", "Kind": "primer", "Coverage": 50},
        )
    ],
}  # fmt: skip


@pytest.mark.parametrize("seed", range(25))
def test_amounts_are_those_worked_from_the_rows_anew(seed: int) -> None:
    of = invented(seed)
    expected = {key: amount for key, amount in by_hand(of).items() if amount}
    lines = {line for line, _ in expected}
    done = {key: amount for key, amount in worked_out(of).items() if key[0] in lines}
    assert done == pytest.approx(expected, rel=1e-9)

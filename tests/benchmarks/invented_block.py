"""An invented block of any number of bathrooms, in as many shapes as wanted.

``python tests/benchmarks/invented_block.py OUT.xlsx [ROOMS [SHAPES]]`` writes its workbook.  The
shapes are those of the sample Larch Court, each stretched a little to the right and away from
the door, so that fixtures keep to their walls.
"""

import sys
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.blank import filled_book
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.sheet import BookModel
from sheetcalc.workbook.template_data import Record, template_records
from tests.samples.larch_court import (
    _FACES,
    _FINISHES,
    _MIXES,
    _PIECES,
    _SIZES,
    _STARTS,
    _layers,
    _sundries,
)
from tests.samples.rows import records

PHASES = 8
KINDS = 6
STEPS = 10
"""Stretches to the right that are tried before a room is stretched away from the door."""

STRETCH_M = 0.02

_STAYS_LEFT_OF = {1: 1.65, 2: 1.5, 3: 2.6, 4: 1.5, 5: 9.0, 6: 0.95}
_STAYS_BEFORE = {1: 1.0, 2: 0.9, 3: 1.0, 4: 1.3, 5: 9.0, 6: 1.2}
"""Kind -> how far from the origin things stay where they are [m]; what is beyond moves."""


def invented_block(rooms: int, shapes: int) -> BookModel:
    """Inputs of a block of ``rooms`` bathrooms in ``shapes`` shapes, all six kinds in turn."""
    office = template_records("metric")
    pieces, faces = records("Floor pieces", _PIECES), records("Wall faces", _FACES)
    own: dict[str, list[Record]] = {
        "Phases": [
            {"Phase": f"Stage {n + 1}", "Start": start, "Deliver to": f"gate {n + 1}"}
            for n, start in enumerate((_STARTS * PHASES)[:PHASES])
        ],
        "Rooms": [_room(number, shapes, rooms) for number in range(rooms)],
        "Floor pieces": [_piece(p, n) for n in range(shapes) for p in _of_kind(pieces, n)],
        "Wall faces": [_face(f, n) for n in range(shapes) for f in _of_kind(faces, n)],
        "Finishes": [{**r, **_MIXES} for r in records("Finishes", _FINISHES)],
        "Build-up": _layers(),
        "Sundries": _sundries(),
    }
    settings: dict[str, object] = {"name": f"{rooms} rooms", "order_prefix": "IB", "tax": 0.2}
    return filled_book("metric", office | own, settings, title=f"invented block, {rooms} rooms")


def _name(number: int) -> str:
    return f"{number // 100:02}.{number % 100:02}"


def _kind(number: int) -> int:
    return number % KINDS + 1


def _stretch(number: int) -> tuple[float, float]:
    """How much a shape is stretched to the right, and away from the door [m]."""
    step = number // KINDS
    return STRETCH_M * (step % STEPS), STRETCH_M * (step // STEPS)


def _room(number: int, shapes: int, rooms: int) -> Record:
    length, width, finish = _SIZES[_kind(number % shapes)]
    phase = f"Stage {number * PHASES // rooms + 1}"
    row: Record = {"Room": _name(number), "Phase": phase, "Finish": finish}
    if number >= shapes:
        return row | {"Same as": _name(number % shapes)}
    right, away = _stretch(number)
    return row | {"Length": round(length + right, 3), "Width": round(width + away, 3)}


def _of_kind(rows: list[Record], number: int) -> list[Record]:
    return [row for row in rows if row["Room"] == f"1.{_kind(number):02}"]


def _moved(row: Record, header: str, limit: float, by: float) -> None:
    place = row[header]
    if isinstance(place, int | float) and place >= limit:
        row[header] = round(place + by, 3)


def _piece(piece: Record, number: int) -> Record:
    row, kind = {**piece, "Room": _name(number)}, _kind(number)
    right, away = _stretch(number)
    if row["Kind"] == "shower floor" and row["Left"] == row["Front"] == 0:
        return row | {
            "Length": round(_SIZES[kind][0] + right, 3),
            "Width": round(_SIZES[kind][1] + away, 3),
        }
    _moved(row, "Left", _STAYS_LEFT_OF[kind], right)
    _moved(row, "Front", _STAYS_BEFORE[kind], away)
    return row


def _face(face: Record, number: int) -> Record:
    row, kind = {**face, "Room": _name(number)}, _kind(number)
    along_far = row["Wall"] == "far"
    by = _stretch(number)[0 if along_far else 1]
    wall_m = _SIZES[kind][0 if along_far else 1]
    length = row["Length"]
    if isinstance(length, int | float) and length >= wall_m:
        row["Length"] = round(length + by, 3)
    elif row["Wall"] != "right":  # seen from inside, a right wall begins at its far end
        limits = _STAYS_LEFT_OF if along_far else _STAYS_BEFORE
        _moved(row, "Left", limits[kind], by)
    return row


def write_block(path: Path, rooms: int, shapes: int) -> None:
    """Write the workbook of an invented block."""
    path.write_bytes(
        write_book(invented_block(rooms, shapes), load_house_style(), named_styles=True)
    )


if __name__ == "__main__":
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 1000
    write_block(Path(sys.argv[1]), count, int(sys.argv[3]) if len(sys.argv) > 3 else count // 2)

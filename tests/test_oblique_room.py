"""A bathroom with an oblique wall, from Wall legs to every result: measured, heated, set out."""

from collections.abc import Mapping
from pathlib import Path

import pytest
from openpyxl import load_workbook
from samples.rows import records

from sheetcalc import workflows
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.takeoff import calculate
from sheetcalc.workbook.blank import filled_book
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.template_data import template_records

_LEGS = """
Room|Leg|Turn|Length
Attic|1|straight|2.40
Attic|2|left|1.40
Attic|slope|45|0.849
Attic|4|45|1.80
Attic|5|left|2.00
"""
"""2.4 x 2.0 m less a corner of 0.6 x 0.6 m: the oblique leg is 0.6 x sqrt 2 = 0.8485 m, typed to
1 mm, so that the walk closes but for 0.5 mm."""

_PIECES = """
Room|Piece|Kind|Wall|Left|Front|Length|Width|Diameter
Attic|Door|doorway|1|0.30||0.80||
Attic|WC|toilet outlet||0.40|1.50|||110
Attic|Thermostat|thermostat|1|1.60||||
Attic|Vanity|cabinet||1.95|0|0.45|0.80|
"""

_FACES = """
Room|Wall|Part|Left|Bottom|Length|Height
Attic|slope|face|0|0|0.848|2.10
Attic|4|face|0|0|1.80|2.10
"""

_FINISHES = """
Finish|Surface|Tile|Bond|Run|Joint|Trowel notch|Mortar|Grout|Sealant|Heating
Attic|floor|T-3030|grid||3|square 10 x 10 x 10 mm|C-FLEX|G-GREY|S-GREY|Ember 12
Attic|wall|W-3020|offset 1/2||3|square 8 x 8 x 8 mm|C-FLEX|G-GREY|S-GREY|
Attic|base|B-6010|grid||3|square 6 x 6 x 6 mm|C-FLEX|G-GREY|S-GREY|
"""

_LAYERS = """
Finish|Surface|Order|Role|Item|Bed mortar|Trowel notch
Attic|floor|1|underlay|U-KNOB|C-FLEX|square 6 x 6 x 6 mm
"""


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    own = {
        "Rooms": [{"Room": "Attic", "Finish": "Attic"}],
        "Wall legs": records("Wall legs", _LEGS),
        "Floor pieces": records("Floor pieces", _PIECES),
        "Wall faces": records("Wall faces", _FACES),
        "Finishes": records("Finishes", _FINISHES),
        "Build-up": records("Build-up", _LAYERS),
    }
    model = filled_book("metric", template_records("metric") | own, {"name": "Attic"})
    path = tmp_path_factory.mktemp("oblique") / "attic.xlsx"
    path.write_bytes(write_book(model, load_house_style(), named_styles=True))
    return path


@pytest.fixture(scope="module")
def run(book: Path) -> Run:
    inputs, findings = to_inputs(start_reading(book).result())
    assert inputs is not None, findings
    return calculate(inputs)


@pytest.fixture(scope="module")
def attic(run: Run) -> RoomWork:
    (work,) = run.works
    return work


def test_the_outline_is_that_of_the_walk(attic: RoomWork) -> None:
    # 2.4 x 2.0 m less half of 0.6 x 0.6 m; the walk is closed within 0.5 mm
    assert attic.room.measures.outline_perimeter_m == pytest.approx(
        2.4 + 1.4 + 0.849 + 1.8 + 2.0, abs=2e-3
    )
    assert attic.room.outline.area_m2 == pytest.approx(2.4 * 2.0 - 0.18, abs=2e-3)
    assert sorted(wall.name for wall in attic.room.walls) == ["1", "2", "4", "5", "slope"]


def test_the_floor_has_oblique_cuts_and_adds_up(attic: RoomWork) -> None:
    out = attic.setting_outs["floor"]
    assert any(piece.shape.value == "oblique" for piece in out.pieces)
    assert out.holed >= 1
    assert out.lower_bound <= out.tiles_opened
    # the vanity is not tiled under; tile and joints fill what is left but for the 6 mm gap
    assert out.area_m2 == pytest.approx(2.4 * 2.0 - 0.18 - 0.45 * 0.8, abs=2e-3)
    assert "not proven" in out.searched
    assert "leg 5" in out.start
    assert "leg 1" in out.start


def test_walls_of_legs_are_set_out_square(attic: RoomWork) -> None:
    slope = attic.setting_outs["wall slope"]
    assert slope.area_m2 == pytest.approx(0.848 * 2.1)
    assert all(piece.shape.value != "oblique" for piece in slope.pieces)


def test_the_base_runs_along_every_leg_that_is_free_and_not_tiled(attic: RoomWork) -> None:
    # 8.449 m round, less a door of 0.8 m, the vanity's 0.45 m and 0.8 m, and the tiled walls
    courses = [out for key, out in attic.setting_outs.items() if key.startswith("base")]
    length = sum(out.region.bounds[2] - out.region.bounds[0] for out in courses) / 320_000
    assert length == pytest.approx(8.449 - 0.8 - 0.45 - 0.8 - 0.848 - 1.8, abs=5e-3)


def test_the_cable_is_laid_and_checked(attic: RoomWork, run: Run) -> None:
    (cable,) = attic.cables
    assert cable.path
    assert not [f for f in run.findings if f.code.startswith("NO-CABLE")]


def test_the_whole_takeoff_is_written_with_a_card(book: Path) -> None:
    report = workflows.takeoff(book, lambda *_: None)
    assert [f.code for f in report.findings if f.status == "error"] == []
    assert report.exit_code == 0
    found = load_workbook(book, data_only=True)
    assert "Room cards" in found.sheetnames
    oblique = [row for row in _records(found, "Cut list") if row["Shape"] == "oblique"]
    assert oblique
    assert all(str(row["Cut out"]).startswith("corners at") for row in oblique)
    floor = next(row for row in _records(found, "Setting out") if row["Surface"] == "floor")
    assert float(floor["From the left (mm)"]).is_integer()  # type: ignore[arg-type]


def _records(found: object, tab: str) -> list[Mapping[str, object]]:
    rows = list(found[tab].iter_rows(min_row=4, values_only=True))  # type: ignore[index]
    return [dict(zip(rows[0], row, strict=True)) for row in rows[1:]]

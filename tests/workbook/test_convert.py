"""Rows become records: lengths in 1/320 mm, names in one spelling, defaults as stated."""

from datetime import date, datetime
from decimal import Decimal

import pytest
from raw_books import PLAIN_FINISH, PLAIN_ROOM, PLAIN_TILE, Values, book, us_units

from sheetcalc.domain.catalogue import BagKind, PricePer, RollKind
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import BondKind, LayerRole, NotchShape, SurfaceKind
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.measure import KILOGRAM, PIECE
from sheetcalc.domain.room import PartKind, PieceKind
from sheetcalc.workbook.convert import named_rooms, to_inputs
from sheetcalc.workbook.raw import RawBook, RawCell
from sheetcalc.workbook.wording import severity_of

MM = 320
INCH = 8128


def read(raw: RawBook) -> Inputs:
    """The inputs of a book without errors."""
    inputs, findings = to_inputs(raw)
    assert inputs is not None
    assert not [f for f in findings if severity_of(f.code) == "error"]
    return inputs


def findings_of(raw: RawBook) -> list[Finding]:
    """Findings but for the note on settings that are not there."""
    return [f for f in to_inputs(raw)[1] if f.code != "SETTINGS-NOT-THERE"]


def codes(raw: RawBook) -> list[str]:
    return [f.code for f in findings_of(raw)]


def test_a_sound_small_book_has_no_findings() -> None:
    assert findings_of(book()) == []


def test_a_room_is_read_with_its_defaults() -> None:
    (room,) = read(book()).rooms
    assert (room.name, room.finish, room.count, room.copies) == ("1", "Plain", 1, ())
    assert (room.length_mm320, room.width_mm320) == (2400 * MM, 1800 * MM)
    assert (room.handed, room.phase, room.same_as, room.take_up) == (False, None, None, None)
    assert (room.source.tab, room.source.row) == ("Rooms", 5)


def test_signs_that_nobody_sees_are_no_part_of_a_name() -> None:
    """They come along from web pages; a family emoji is held together by signs that stay."""
    rooms: list[Values] = [
        {**PLAIN_ROOM, "Room": "Bath\u200b 1\ufeff"},
        {**PLAIN_ROOM, "Room": "\u2060Spa \U0001f468\u200d\U0001f467"},
    ]
    names = [r.name for r in read(book(Rooms=rooms)).rooms]
    assert names == ["Bath 1", "Spa \U0001f468\u200d\U0001f467"]


def test_a_number_in_a_name_counts_as_displayed() -> None:
    rooms: list[Values] = [
        {**PLAIN_ROOM, "Room": 101},
        {**PLAIN_ROOM, "Room": RawCell(2.1, "A6", number_format="0.00")},
        {**PLAIN_ROOM, "Room": 7.0},
        {**PLAIN_ROOM, "Room": RawCell(7, "A8", number_format="000")},
    ]
    assert [r.name for r in read(book(Rooms=rooms)).rooms] == ["101", "2.10", "7", "007"]


def test_names_are_compared_without_case_and_surplus_spaces() -> None:
    inputs = read(book(Rooms=[{**PLAIN_ROOM, "Finish": "  plain "}]))
    assert inputs.rooms[0].finish == "Plain"
    assert "Plain" in inputs.finishes


def test_copies_name_the_rooms_and_give_the_count_where_it_is_empty() -> None:
    (room,) = read(book(Rooms=[{**PLAIN_ROOM, "Copies": "101-104, 107"}])).rooms
    assert room.copies == ("101", "102", "103", "104", "107")
    assert room.count == 5


def test_pieces_legs_and_faces_come_with_their_room() -> None:
    raw = book(
        Floor_pieces=[
            {"Room": "1", "Piece": "Reveal", "Kind": "floor", "Left": -0.1, "Front": "2'",
             "Length": 0.8, "Width": 0.1},
            {"Room": "1", "Piece": "WC", "Kind": "Toilet outlet", "Left": 0.3, "Front": 1,
             "Diameter": 110},
        ],
        Wall_legs=[{"Room": "1", "Leg": "a", "Turn": "Left", "Length": 2},
                   {"Room": "1", "Leg": "b", "Turn": -45, "Length": 1.5}],
        Wall_faces=[{"Room": 1, "Wall": "far", "Part": "niche", "Length": 0.3, "Height": 0.4,
                     "Depth": 90}],
    )  # fmt: skip
    (room,) = read(raw).rooms
    reveal, outlet = room.pieces
    assert (reveal.left_mm320, reveal.front_mm320) == (-100 * MM, 24 * INCH)
    assert (outlet.kind, outlet.diameter_mm320) == (PieceKind.TOILET_OUTLET, 110 * MM)
    assert [leg.turn_degrees for leg in room.legs] == [90.0, -45.0]
    (face,) = room.faces
    assert (face.part, face.left_mm320, face.depth_mm320) == (PartKind.NICHE, 0, 90 * MM)


def test_a_room_with_a_faulty_piece_is_left_out_and_so_is_one_that_is_the_same() -> None:
    raw = book(
        Rooms=[PLAIN_ROOM, {"Room": "2", "Same as": "1", "Finish": "Plain"},
               {**PLAIN_ROOM, "Room": "3"}],
        Floor_pieces=[{"Room": "1", "Piece": "Bath", "Kind": "bath", "Length": "wide"}],
    )  # fmt: skip
    inputs, _ = to_inputs(raw)
    assert inputs is not None
    assert [room.name for room in inputs.rooms] == ["3"]
    assert codes(raw) == ["LENGTH-UNREADABLE", "SAME-AS-FAULTY"]
    assert [f.room for f in findings_of(raw)] == ["1", "2"]
    assert named_rooms(raw) == ("1", "2", "3")


def test_a_circle_of_same_as_is_told_beside_the_error_of_one_of_its_rows() -> None:
    alike = {"Finish": "Plain", "Count": 1}
    raw = book(
        Rooms=[{**alike, "Room": "1", "Same as": "2", "Count": "many"},
               {**alike, "Room": "2", "Same as": "3"},
               {**alike, "Room": "3", "Same as": "1"},
               {**alike, "Room": "4", "Same as": "2"},
               {**PLAIN_ROOM, "Room": "5"}],
    )  # fmt: skip
    inputs, findings = to_inputs(raw)
    assert inputs is not None
    assert [room.name for room in inputs.rooms] == ["5"]
    chains = {f.room: f.facts["chain"] for f in findings if f.code == "SAME-AS-CIRCULAR"}
    assert chains == {
        "1": "1 → 2 → 3 → 1",
        "2": "2 → 3 → 1 → 2",
        "3": "3 → 1 → 2 → 3",
        "4": "4 → 2 → 3 → 1 → 2",
    }
    assert {f.code for f in findings if f.room} == {"NUMBER-UNREADABLE", "SAME-AS-CIRCULAR"}


def test_a_circle_without_a_faulty_row_is_left_to_geometry_and_no_name_is_no_circle() -> None:
    raw = book(
        Rooms=[{"Room": "1", "Same as": "2", "Finish": "Plain"},
               {"Room": "2", "Same as": "1", "Finish": "Plain"},
               {"Same as": "3", "Finish": "Plain"},
               {**PLAIN_ROOM, "Room": "3", "Length": "wide"}],
    )  # fmt: skip
    inputs, findings = to_inputs(raw)
    assert inputs is not None
    assert [room.name for room in inputs.rooms] == ["1", "2"]
    assert "SAME-AS-CIRCULAR" not in {f.code for f in findings}


def test_a_room_whose_name_cannot_be_read_takes_no_other_room_along() -> None:
    # a formula without a stored value shows no name; room 3 says Same as of nobody
    unread = RawCell(None, "A5", formula="=1+1", has_value=False)
    raw = book(Rooms=[{**PLAIN_ROOM, "Room": unread}, {**PLAIN_ROOM, "Room": "3"}])
    assert codes(raw) == ["FORMULA-WITHOUT-VALUE"]
    inputs, _ = to_inputs(raw)
    assert inputs is not None
    assert [room.name for room in inputs.rooms] == ["3"]


def test_a_room_is_left_out_with_its_finish_and_a_finish_with_its_tile() -> None:
    raw = book(Tiles=[{**PLAIN_TILE, "Thickness": "thin"}])
    inputs, _ = to_inputs(raw)
    assert inputs is not None
    assert (inputs.rooms, dict(inputs.finishes)) == ((), {})
    assert codes(raw) == ["LENGTH-UNREADABLE"]


def test_all_findings_of_a_workbook_come_at_once() -> None:
    raw = book(
        Rooms=[{"Room": "1", "Length": "1,600 mm", "Width": -1, "Finish": "Plian"}],
        Finishes=[{"Finish": "Plain", "Surface": "flor", "Tile": "T-9"}],
        Tiles=[{**PLAIN_TILE, "Price": "12 EUR", "Thickness": RawCell(None, "I5", error="#N/A")}],
    )
    assert sorted(codes(raw)) == [
        "CELL-IS-AN-ERROR", "CHOICE-UNKNOWN", "LENGTH-NEGATIVE", "LENGTH-THOUSANDS",
        "NAME-UNKNOWN", "NAME-UNKNOWN", "NUMBER-AS-TEXT", "TILE-WITHOUT-JOINT",
    ]  # fmt: skip


def test_a_finish_is_read_with_its_bond_run_and_notch() -> None:
    raw = book(
        Finishes=[{**PLAIN_FINISH, "Bond": "Offset 1/3 alternate", "Run": "30 degrees",
                   "Trowel notch": "U 20 x 15 x 10 mm", "Trowel angle": 60, "Skim": "1/16 in"}],
    )  # fmt: skip
    spec = read(raw).finishes["Plain"].surfaces[SurfaceKind.FLOOR]
    assert (spec.bond.kind, spec.bond.divisor, spec.bond.alternate) == (BondKind.OFFSET, 3, True)
    assert (spec.run.along, spec.run.degrees) == ("degrees", 30.0)
    assert spec.notch is not None
    assert (spec.notch.shape, spec.notch.width_mm320, spec.notch.depth_mm320) == (
        NotchShape.U, 20 * MM, 15 * MM,
    )  # fmt: skip
    assert (spec.trowel_angle_deg, spec.skim_mm320, spec.joint_mm320) == (60.0, 508, 3 * MM)


def test_layers_come_in_their_order_with_the_items_that_they_name() -> None:
    raw = book(
        Build_up=[
            {"Finish": "Plain", "Surface": "floor", "Order": 2, "Role": "underlay",
             "Item": "u-1", "Bed mortar": "C-1", "Trowel notch": "square 6 x 6 x 6"},
            {"Finish": "Plain", "Surface": "floor", "Order": 1, "Role": "screed", "Item": "C-1",
             "Mean depth": 40},
        ],
        Bags_and_pails=[{"Code": "C-1", "Description": "Mortar", "Kind": "mortar",
                         "Pack size": 20, "Pack unit": "kg"}],
        Rolls_and_sheets=[{"Code": "U-1", "Description": "Knobs", "Kind": "underlay roll",
                           "Width": 1, "Length": 12.5, "Fill": 3.2}],
    )  # fmt: skip
    inputs = read(raw)
    layers = inputs.finishes["Plain"].layers[SurfaceKind.FLOOR]
    assert [x.role for x in layers] == [LayerRole.SCREED, LayerRole.UNDERLAY]
    assert layers[1].item == "U-1"
    assert layers[0].mean_depth_mm320 == 40 * MM
    roll = inputs.catalogue.rolls["U-1"]
    # 3.2 L/m2 is 0.0032 m3/m2
    assert (roll.kind, roll.fill_m) == (RollKind.UNDERLAY_ROLL, pytest.approx(0.0032))
    assert (roll.overlap_mm320, roll.package, roll.width_mm320) == (0, "roll", 1000 * MM)


def test_a_catalogue_row_is_read_with_its_defaults() -> None:
    raw = book(
        Tiles=[{**PLAIN_TILE, "Price": 27.9, "Box weight": 28}],
        Bags_and_pails=[{"Code": "G-1", "Description": "Grout", "Kind": "Grout", "Pack size": 5,
                         "Pack unit": "KG", "Yield": 3.1}],
        Sundries=[{"Code": "Z-1", "Description": "Clip", "Basis": "per joint crossing",
                   "Rate": 1, "Pack size": 250}],
    )  # fmt: skip
    catalogue = read(raw).catalogue
    tile = catalogue.tiles["T-1"]
    assert (tile.material, tile.edge, tile.price_per) == ("ceramic", "calibrated", PricePer.BOX)
    assert (tile.price, tile.box_weight_kg, tile.one_batch) == (Decimal("27.9"), 28.0, False)
    bag = catalogue.bags["G-1"]
    assert (bag.kind, bag.pack_unit, bag.package) == (BagKind.GROUT, KILOGRAM, "bag")
    assert bag.yield_m3 == pytest.approx(0.0031)
    assert catalogue.sundries["Z-1"].pack_unit == PIECE


def test_a_pack_without_a_package_is_called_what_its_kind_comes_in() -> None:
    # a supplier's clerk reads TU for sealant and ST for boards, not BG and RO
    bags = {"mortar": "bag", "sealant": "cartridge", "liquid waterproofing": "pail"}
    rolls = {"underlay roll": "roll", "underlay mat": "sheet", "backer board": "sheet"}
    raw = book(
        Bags_and_pails=[
            {"Code": kind, "Description": kind, "Kind": kind, "Pack size": 5, "Pack unit": "kg"}
            for kind in bags
        ],
        Rolls_and_sheets=[
            {"Code": kind, "Description": kind, "Kind": kind, "Width": 1, "Length": 2}
            for kind in rolls
        ],
    )
    catalogue = read(raw).catalogue
    assert {code: bag.package for code, bag in catalogue.bags.items()} == bags
    assert {code: roll.package for code, roll in catalogue.rolls.items()} == rolls


def test_a_code_again_from_another_supplier_is_an_alternative_source() -> None:
    raw = book(
        Tiles=[{**PLAIN_TILE, "Supplier": "North"},
               {**PLAIN_TILE, "Supplier": "South", "Price": 20}],
    )  # fmt: skip
    catalogue = read(raw).catalogue
    assert catalogue.tiles["T-1"].supplier == "North"
    assert [tile.supplier for tile in catalogue.alternatives["T-1"]] == ["South"]


def test_the_longer_side_of_a_tile_is_its_length() -> None:
    raw = book(Tiles=[{**PLAIN_TILE, "Length": 300, "Width": 600}])
    tile = read(raw).catalogue.tiles["T-1"]
    assert (tile.length_mm320, tile.width_mm320) == (600 * MM, 300 * MM)
    assert codes(raw) == ["TILE-WIDER-THAN-LONG"]


def test_plain_numbers_of_a_us_job_are_feet_inches_gallons_and_pounds() -> None:
    raw = book(
        Job=us_units(),
        Rooms=[{**PLAIN_ROOM, "Length": 8.5, "Width": "5-3-1/2"}],
        Finishes=[{**PLAIN_FINISH, "Joint": "1/8", "Trowel notch": "1/2 x 1/2 x 1/2 square"}],
        Tiles=[{**PLAIN_TILE, "Length": 18, "Width": 18, "Thickness": "3/8", "Box weight": 50}],
    )
    inputs = read(raw)
    room = inputs.rooms[0]
    assert (room.length_mm320, room.width_mm320) == (102 * INCH, 516_128)
    spec = inputs.finishes["Plain"].surfaces[SurfaceKind.FLOOR]
    assert spec.joint_mm320 == INCH // 8
    assert spec.notch is not None
    assert spec.notch.tooth_mm320 == INCH // 2
    assert inputs.catalogue.tiles["T-1"].box_weight_kg == pytest.approx(22.6796185)
    # defaults of US work: 1/4 in, 25 ft, 103 lb/ft3, 120 V
    assert inputs.job.perimeter_gap_mm320 == INCH // 4
    assert inputs.job.movement_joint_spacing_mm320 == 300 * INCH
    assert inputs.job.supply_volts == 120.0
    assert inputs.job.mortar_wet_density_kg_m3 == pytest.approx(1649.90, abs=0.01)


def test_settings_are_found_by_label_with_their_own_unit() -> None:
    raw = book(
        Job=[
            {"Setting": "perimeter  gap", "Value": 1, "Unit": "cm"},
            {"Setting": "Saw kerf", "Value": '1/8"'},
            {"Setting": "Wet density of mortar", "Value": 100, "Unit": "lb/ft3"},
            {"Setting": "Tile under cabinets", "Value": "Yes"},
            {"Setting": "Aims of the setting-out", "Value": "balance; fewest cuts"},
            {"Setting": "Circuit sizes", "Value": "32, 16"},
            {"Setting": "Tax", "Value": RawCell(0.2, "B5", number_format="0%")},
            {"Setting": "Quote date", "Value": datetime(2027, 3, 1)},  # noqa: DTZ001 (a cell)
            {"Setting": "Job name"},
        ]
    )
    job = read(raw).job
    assert job.perimeter_gap_mm320 == 10 * MM
    assert job.kerf_mm320 == INCH // 8
    # 100 lb/ft3 = 100 x 0.45359237 / 0.028316846592 kg/m3
    assert job.mortar_wet_density_kg_m3 == pytest.approx(1601.846, abs=1e-3)
    assert job.tile_under_cabinets is True
    assert job.aims == "balance, fewest cuts"
    assert job.circuit_amperes == (16.0, 32.0)
    assert (job.tax, job.quote_date, job.name) == (0.2, date(2027, 3, 1), "")


@pytest.mark.parametrize(
    ("typed", "watts_m2"), [(10, 107.639), (12, 129.167), (15, 161.459), (33, 355.209)]
)
def test_watts_a_square_foot_are_read_as_watts_a_square_metre(
    typed: float, watts_m2: float
) -> None:
    # arithmetic from 1 ft2 = 929.0304 cm2 (16 CFR 500.19)
    raw = book(Job=[{"Setting": "Heating: target power", "Value": typed, "Unit": "W/ft²"}])
    assert read(raw).job.target_density_w_m2 == pytest.approx(watts_m2, abs=5e-4)


def test_a_setting_with_a_wrong_value_is_a_finding_and_the_rest_is_read_all_the_same() -> None:
    raw = book(Job=[{"Setting": "Perimeter gap", "Value": 600}, {"Setting": "Tax", "Value": 20}])
    assert sorted(codes(raw)) == ["LENGTH-OUT-OF-RANGE", "PERCENT-ABOVE-ONE"]


def test_dates_are_dates_or_year_month_day() -> None:
    raw = book(
        Phases=[{"Phase": "A", "Start": date(2027, 3, 1)}, {"Phase": "B", "Start": "2027-04-01"}],
        Holidays=[{"Date": datetime(2027, 5, 3)}],  # noqa: DTZ001 (a cell)
    )
    inputs = read(raw)
    assert [p.start for p in inputs.phases.values()] == [date(2027, 3, 1), date(2027, 4, 1)]
    assert inputs.holidays == frozenset({date(2027, 5, 3)})


def test_a_phase_or_supplier_may_be_used_before_its_tab_is_filled() -> None:
    raw = book(
        Rooms=[{**PLAIN_ROOM, "Phase": "Floor 1"}], Tiles=[{**PLAIN_TILE, "Supplier": "North"}]
    )
    assert read(raw).rooms[0].phase == "Floor 1"
    assert codes(book(Rooms=[{**PLAIN_ROOM, "Phase": "B"}], Phases=[{"Phase": "A"}])) == [
        "NAME-UNKNOWN"
    ]


def test_parts_of_a_room_that_is_gone_are_told_once_with_their_cells() -> None:
    pieces: list[Values] = [
        {"Room": room, "Piece": f"P{n}", "Kind": "bath"}
        for n, room in enumerate(("1.01", "1.01", "1.02", "1.01"))
    ]
    raw = book(Rooms=[{**PLAIN_ROOM, "Room": "1.02"}], Floor_pieces=pieces)
    (gone,) = (f for f in to_inputs(raw)[1] if f.code == "NAME-UNKNOWN")
    assert gone.facts["found"] == '"1.01" (A5:A6, A8)'
    assert "delete these rows" in str(gone.facts["hint"])  # and no 'did you mean "1.02"?'


def test_a_room_like_one_that_is_gone_is_not_told_to_correct_its_errors() -> None:
    pieces: list[Values] = [{"Room": "1.01", "Piece": "P", "Kind": "bath"}]
    room = {"Room": "1.02", "Same as": "1.01", "Finish": "Plain"}
    inputs, findings = to_inputs(book(Rooms=[room], Floor_pieces=pieces))
    assert "SAME-AS-FAULTY" not in {f.code for f in findings}
    assert inputs is not None
    assert [r.name for r in inputs.rooms] == ["1.02"]  # geometry says SAME-AS-UNKNOWN


def test_thousands_of_unknown_names_do_not_take_long() -> None:
    rooms: list[Values] = [{**PLAIN_ROOM, "Room": f"R{n}"} for n in range(2000)]
    pieces: list[Values] = [{"Room": f"Q{n}", "Piece": "P", "Kind": "bath"} for n in range(2000)]
    raw = book(Rooms=rooms, Floor_pieces=pieces)
    assert codes(raw).count("NAME-UNKNOWN") == 2000


def test_a_book_without_our_tabs_has_no_inputs() -> None:
    inputs, findings = to_inputs(RawBook("x.xlsx", {}, ("Rooms",), ("Letter",)))
    assert inputs is None
    assert [f.code for f in findings] == ["WORKBOOK-WITHOUT-OUR-TABS"]

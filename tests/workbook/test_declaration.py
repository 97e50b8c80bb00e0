"""The declaration of tabs, columns and settings agrees with itself and with the domain."""

import re
from collections.abc import Callable

import pytest

from sheetcalc.domain.finish import BondKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import UNITS, JobUnits
from sheetcalc.workbook.columns import LENGTH_KINDS, Column, Kind, Tab
from sheetcalc.workbook.headers import METRIC, US, shown_header
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.inputs.words import BONDS, NOTCHES_METRIC, NOTCHES_US
from sheetcalc.workbook.results_tabs import RESULT_TABS
from sheetcalc.workbook.settings import SETTINGS

# The tabs and columns that people have filled in: a change breaks their workbooks.  Required ones
# are marked with *.
KEPT = {
    "Job": "Setting*, Value, Unit, Guidance, Source",
    "Phases": "Phase*, Start, Deliver to, Note",
    "Rooms": "Room*, Phase, Count, Copies, Length, Width, Same as, Handed, Finish*, Take up, "
    "Take up thickness, Note",
    "Floor pieces": "Room*, Piece*, Kind*, Wall, Left, Front, Length, Width, Diameter, Height, "
    "Through to, Note",
    "Wall legs": "Room*, Leg*, Turn*, Length*, Note",
    "Wall faces": "Room*, Wall*, Part*, Left, Bottom, Length*, Height*, Depth, Note",
    "Finishes": "Finish*, Surface*, Tile, Bond, Run, Joint, Trowel notch, Trowel angle, Skim, "
    "Mortar, Grout, Sealant, Sealer, Heating",
    "Build-up": "Finish*, Surface*, Order*, Role*, Item*, Bed mortar, Trowel notch, Mean depth, "
    "Coats, Up walls, Note",
    "Tiles": "Code*, Supplier, Supplier code, Description*, Material, Edge, Length*, Width*, "
    "Thickness*, Chip length, Chip width, Size spread, Edge warpage, Pieces per box*, Price, "
    "Price per, Box weight, One batch, Lead days, "
    "Minimum packs, Returnable",
    "Bags and pails": "Code*, Supplier, Supplier code, Description*, Kind*, Pack size*, "
    "Pack unit*, Package, Yield, Coverage, Pack price, Pack weight, Lead days, "
    "Minimum packs, Returnable",
    "Rolls and sheets": "Code*, Supplier, Supplier code, Description*, Kind*, Width*, Length*, "
    "Thickness, Overlap, Knob pitch, Fill, One way, Package, Price, Weight, Lead days, "
    "Minimum packs, Returnable",
    "Heating cables": "Code*, Supplier, Supplier code, Description*, Range*, Length*, "
    "Length tolerance, Watts*, Volts*, Resistance, Temperature coefficient, Leads, Cold lead, "
    "Smallest spacing, Bend radius, Price, Lead days, "
    "Minimum packs, Returnable",
    "Sundries": "Code*, Supplier, Supplier code, Description*, Basis*, Of, Rate*, Finish, "
    "Surface, Pack size*, Pack unit, Package, Pack price, Pack weight, Lead days, "
    "Minimum packs, Returnable",
    "Waste factors": "Line*, Finish, Bond, Counted by, Waste %*, Note",
    "Labour": "Task*, Basis*, Finish, Surface, Hours per unit*, Hourly rate, Day, Wait hours, "
    "Uses, Note",
    "Suppliers": "Supplier*, Address, E-mail, Account, Minimum order, Delivery charge, "
    "Lead days, Terms, Tax, Deliveries",
    "Holidays": "Date*, Note",
    "Received": "Phase, Supplier*, Code*, Ordered, Received, Date",
    "Decisions": "Code*, Room, Surface, Decision*, By*, Date*, Reason",
}

COLUMNS = [(f"{tab.key}.{column.header}", column) for tab in INPUT_TABS for column in tab.columns]
NUMBERS = LENGTH_KINDS | {Kind.COUNT, Kind.MONEY, Kind.PERCENT, Kind.NUMBER}


def columns_where(wrong: Callable[[Column], object]) -> list[str]:
    """Names of the input columns of which something is true that must not be."""
    return [name for name, column in COLUMNS if wrong(column)]


def test_the_input_tabs_keep_their_order() -> None:
    assert [tab.key for tab in INPUT_TABS] == list(KEPT)


@pytest.mark.parametrize("tab", INPUT_TABS, ids=lambda tab: tab.key)
def test_every_tab_keeps_its_columns(tab: Tab) -> None:
    declared = [c.header + "*" * c.required for c in tab.columns]
    assert declared == KEPT[tab.key].split(", ")


def test_only_job_rooms_finishes_and_tiles_must_be_there() -> None:
    assert [tab.key for tab in INPUT_TABS if tab.needed] == ["Job", "Rooms", "Finishes", "Tiles"]


@pytest.mark.parametrize("tab", [*INPUT_TABS, *RESULT_TABS], ids=lambda tab: tab.key)
def test_headers_are_unique_without_case_and_names_are_legal(tab: Tab) -> None:
    headers = [c.header.casefold() for c in tab.columns]
    assert len(set(headers)) == len(headers)
    assert len(tab.key) <= 31
    assert not set("[]:*?/\\") & set(tab.key)
    assert re.fullmatch(r"(In|Out)[A-Z][A-Za-z]+", tab.table)


def test_table_names_are_unique() -> None:
    names = [tab.table for tab in (*INPUT_TABS, *RESULT_TABS)]
    assert len(set(names)) == len(names)


def test_help_fits_an_input_message_and_ends_a_sentence() -> None:
    assert columns_where(lambda c: not 0 < len(c.help) <= 255) == []
    assert columns_where(lambda c: not c.help.endswith(".")) == []


def test_an_optional_cell_says_what_empty_means() -> None:
    def says_nothing(column: Column) -> bool:
        words_only = column.kind is Kind.TEXT and not column.choices and not column.list_of
        return not (column.required or column.default or words_only)

    unsaid = columns_where(says_nothing)
    assert [name for name in unsaid if not name.startswith("Job.")] == []


def test_bounds_are_in_order_and_the_usual_lies_within() -> None:
    def out_of_order(column: Column) -> bool:
        bounds = (column.low, column.usual_low, column.usual_high, column.high)
        ends = [end for end in bounds if end is not None]
        return ends != sorted(ends)

    assert columns_where(out_of_order) == []


def test_numbers_have_bounds_and_choices_have_words() -> None:
    assert columns_where(lambda c: c.kind in NUMBERS and None in {c.low, c.high}) == []
    assert columns_where(lambda c: c.kind in {Kind.CHOICE, Kind.YES_NO} and not c.choices) == []


def test_references_point_at_a_column_that_is_there() -> None:
    there = {name for name, _ in COLUMNS}
    assert columns_where(lambda c: c.list_of and c.list_of not in there) == []


def test_an_example_of_a_choice_is_one_of_the_choices() -> None:
    def is_none_of_them(column: Column) -> bool:
        us = column.example if column.example_us is None else column.example_us
        return column.kind is Kind.CHOICE and not {column.example, us} <= set(column.choices)

    assert columns_where(is_none_of_them) == []


def test_every_field_of_the_job_is_a_setting_and_the_other_way_round() -> None:
    fields = set(Job.__struct_fields__) - {"units"}
    units = {f"units.{name}" for name in JobUnits.__struct_fields__}
    assert {s.key for s in SETTINGS} == fields | units


def test_settings_have_labels_of_their_own_and_say_where_they_come_from() -> None:
    labels = [s.label.casefold() for s in SETTINGS]
    assert len(set(labels)) == len(labels)
    for setting in SETTINGS:
        assert setting.source
        assert 0 < len(setting.guidance) <= 255, setting.label


def test_a_setting_default_is_one_of_its_choices() -> None:
    for setting in SETTINGS:
        if setting.kind is Kind.CHOICE:
            assert setting.metric_default in setting.choices, setting.label
            assert setting.us_default in setting.choices, setting.label


def test_the_aims_of_the_default_are_all_known() -> None:
    aims = next(s for s in SETTINGS if s.key == "aims")
    assert tuple(str(aims.metric_default).split(", ")) == aims.choices


def test_metric_defaults_are_those_of_the_domain() -> None:
    """Lengths in the metric unit of their kind against whole 1/320 mm, others as they are."""
    job = Job()
    per_unit = {Kind.SMALL_LENGTH: 320, Kind.ROOM_LENGTH: 320_000, Kind.LONG_LENGTH: 320_000}
    for setting in SETTINGS:
        default = setting.metric_default
        if setting.kind in per_unit and default is not None:
            assert round(float(default) * per_unit[setting.kind]) == getattr(job, setting.key)
        elif setting.kind in {Kind.NUMBER, Kind.PERCENT, Kind.COUNT}:
            assert default == getattr(job, setting.key), setting.label


def test_headers_show_the_unit_of_plain_numbers() -> None:
    by_key = {tab.key: tab.by_header for tab in INPUT_TABS}
    assert shown_header(by_key["Rooms"]["Length"], METRIC) == "Length (m)"
    assert shown_header(by_key["Rooms"]["Length"], US) == "Length (ft)"
    assert shown_header(by_key["Tiles"]["Length"], US) == "Length (in)"
    assert shown_header(by_key["Rolls and sheets"]["Fill"], METRIC) == "Fill (L/m²)"
    assert shown_header(by_key["Heating cables"]["Resistance"], METRIC) == "Resistance (Ω)"
    assert shown_header(by_key["Rooms"]["Room"], METRIC) == "Room"


def test_every_kind_of_bond_is_suggested() -> None:
    assert {b.value for b in BondKind} == {re.sub(r" 1/\d.*", "", bond) for bond in BONDS}


def test_notches_are_suggested_in_the_units_of_the_job() -> None:
    assert all(notch.endswith(" mm") for notch in NOTCHES_METRIC)
    assert all(notch.endswith(" in") for notch in NOTCHES_US)


def test_pack_units_are_in_the_closed_vocabulary() -> None:
    pack_unit = next(t for t in INPUT_TABS if t.key == "Sundries").by_header["Pack unit"]
    assert set(pack_unit.choices) <= set(UNITS)


def test_only_the_resistance_log_is_typed_in_by_people() -> None:
    typed = {t.key: [c.header for c in t.columns if c.typed] for t in RESULT_TABS}
    assert {key: headers for key, headers in typed.items() if headers} == {
        "Resistance log": ["Reading", "Insulation reading", "By", "Date"]
    }

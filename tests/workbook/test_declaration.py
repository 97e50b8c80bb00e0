"""The declaration of tabs, columns and settings agrees with itself and with the domain."""

import re

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

COLUMNS = [
    pytest.param(tab, column, id=f"{tab.key}.{column.header}")
    for tab in INPUT_TABS
    for column in tab.columns
]


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


@pytest.mark.parametrize(("tab", "column"), COLUMNS)
def test_help_fits_an_input_message_and_ends_a_sentence(tab: Tab, column: Column) -> None:
    assert tab.key
    assert 0 < len(column.help) <= 255
    assert column.help.endswith(".")


@pytest.mark.parametrize(("tab", "column"), COLUMNS)
def test_an_optional_cell_says_what_empty_means(tab: Tab, column: Column) -> None:
    words_only = column.kind is Kind.TEXT and not column.choices and not column.list_of
    assert column.required or column.default or words_only or tab.key == "Job", column.header


@pytest.mark.parametrize(("tab", "column"), COLUMNS)
def test_bounds_are_in_order_and_the_usual_lies_within(tab: Tab, column: Column) -> None:
    assert tab.key
    ends = [e for e in (column.low, column.usual_low, column.usual_high, column.high)
            if e is not None]  # fmt: skip
    assert ends == sorted(ends)


@pytest.mark.parametrize(("tab", "column"), COLUMNS)
def test_numbers_have_bounds_and_choices_have_words(tab: Tab, column: Column) -> None:
    assert tab.key
    if column.kind in LENGTH_KINDS | {Kind.COUNT, Kind.MONEY, Kind.PERCENT, Kind.NUMBER}:
        assert column.low is not None
        assert column.high is not None
    if column.kind in {Kind.CHOICE, Kind.YES_NO}:
        assert column.choices


@pytest.mark.parametrize(("tab", "column"), COLUMNS)
def test_references_point_at_a_column_that_is_there(tab: Tab, column: Column) -> None:
    assert tab.key
    if column.list_of:
        key, header = column.list_of.split(".")
        assert header in next(t for t in INPUT_TABS if t.key == key).by_header


@pytest.mark.parametrize(("tab", "column"), COLUMNS)
def test_an_example_of_a_choice_is_one_of_the_choices(tab: Tab, column: Column) -> None:
    assert tab.key
    if column.kind is Kind.CHOICE:
        assert column.example in column.choices
        assert column.example_us is None or column.example_us in column.choices


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

"""Whatever a book is made of, the graft keeps it and a second run changes nothing."""

import tempfile
from pathlib import Path

from grafting import assert_kept, graft_into, parts
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from odd_packages import Features, write_book

from sheetcalc.excel.opc import guards
from sheetcalc.excel.tabs.own_tabs import find_in_file

_NAMES = st.sampled_from(
    [
        "Takeoff",
        "FINDINGS",
        "Order A",
        "Prices",
        "it''s",
        "2.07",
        "Übersicht",
        "\U0001f6bf",
        "x" * 31,
    ]
)
_TABLES = st.lists(
    st.sampled_from(["OutTakeoff", "outfindings", "OutTakeoff_2", "Prices", "Rates", "OutOrderA"]),
    unique_by=str.lower,
    max_size=4,
)
_DEFINED = st.dictionaries(
    st.sampled_from(
        ["Rate", "sheetcalc_tab_1", "sheetcalc_tab_7", "OutOrderA", "sheetcalc_in_Rooms"]
    ),
    st.sampled_from(["1.5", "#REF!$A$1", '"text"', "Takeoff!$A$3", "SUM(1,2)"]),
    max_size=4,
)
_FOLDERS = st.sampled_from(["xl", "", "XL", "parts/office", "a/b/c"])
_YES_NO = st.booleans()


def _is_plain(comment: bytes) -> bool:
    """Whether the standard library reads a file that ends so: it takes the mark for the end."""
    return b"PK\x05\x06" not in comment


@st.composite
def features(draw: st.DrawFn) -> Features:
    """Features of a book, in any combination."""
    states = draw(st.lists(st.sampled_from(["visible", "hidden", "veryHidden"]), max_size=5))
    states.append("visible")
    folder = draw(_FOLDERS)
    return Features(
        folder=folder,
        workbook_name=draw(st.sampled_from(["workbook.xml", "book.xml", "Main.Part.xml"])),
        prefix=draw(st.sampled_from(["", "x", "main"])),
        strict=draw(_YES_NO),
        targets=draw(st.sampled_from(["relative", "absolute", "backslash", "percent"])),
        states=tuple(states),
        sheet_names=tuple(draw(st.lists(_NAMES, unique_by=str.lower, max_size=len(states)))),
        styles=draw(st.sampled_from(["plain", "none", "redefined", "empty"])),
        names=draw(_DEFINED),
        local_names=draw(st.sampled_from([{}, {"_xlnm.Print_Area": "A!$A$1"}, {"Mine": "7"}])),
        tables=tuple(draw(_TABLES)),
        active_tab=draw(st.integers(0, len(states) - 1)),
        case=draw(st.sampled_from(["as is", "upper"])),
        comment=draw(st.binary(max_size=30).filter(_is_plain)),
        **{
            name: draw(_YES_NO)
            for name in (
                "shared_strings",
                "properties",
                "calc_chain",
                "date_1904",
                "macros",
                "chart_sheet",
                "dialog_sheet",
                "comments",
                "threaded",
                "controls",
                "slicer",
                "pivot",
                "external_link",
                "data_model",
                "custom_xml",
                "locked",
                "signed",
                "stored",
                "zip64",
                "descriptors",
                "folders",
                "rels_default",
                "utf16",
                "extension_lists",
                "alternate_content",
            )
        },
    )


def edited(kind: Features) -> frozenset[str]:
    base = f"{kind.folder}/" if kind.folder else ""
    book = kind.workbook_name
    names = {"[content_types].xml", base + book, f"{base}_rels/{book}.rels", f"{base}styles.xml"}
    return frozenset(name.lower() for name in names)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(features(), st.lists(st.sampled_from(["takeoff", "order:A", "order:B"]), unique=True))
def test_a_graft_keeps_every_part_and_running_again_changes_nothing(
    kind: Features, more: list[str]
) -> None:
    keys = ["findings", *more]
    with tempfile.TemporaryDirectory() as folder:
        book = write_book(Path(folder) / "book.xlsx", kind)
        once, twice = Path(folder) / "once.xlsx", Path(folder) / "twice.xlsx"
        guards.inspect(book)
        graft_into(book, keys, out=once)
        assert_kept(book, once, edited(kind))
        guards.inspect(once)
        graft_into(once, keys, out=twice)
        assert once.read_bytes() == twice.read_bytes()
        tabs = [t for t in find_in_file(once).tabs if not t.key.startswith("input:")]
        assert sorted(tab.key for tab in tabs) == sorted(keys)
        assert not any(tab.edited for tab in tabs)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    features(),
    st.lists(
        st.lists(st.sampled_from(["takeoff", "order:A", "order:B", "order:C"]), unique=True),
        min_size=2,
        max_size=4,
    ),
)
def test_suppliers_come_and_go_and_nothing_is_left_behind(
    kind: Features, runs: list[list[str]]
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        book = write_book(Path(folder) / "book.xlsx", kind)
        last, alone = Path(folder) / "last.xlsx", Path(folder) / "alone.xlsx"
        last.write_bytes(book.read_bytes())
        for more in runs:
            graft_into(last, ["findings", *more], retire_others=True)
            assert_kept(book, last, edited(kind))
        graft_into(book, ["findings", *runs[-1]], out=alone)
        assert len(parts(last)) == len(parts(alone))
        keys = [t.key for t in find_in_file(last).tabs if not t.key.startswith("input:")]
        assert sorted(keys) == sorted(["findings", *runs[-1]])

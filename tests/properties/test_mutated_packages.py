"""A damaged workbook is refused with a code, or taken as it is; never a traceback, never a change.

Parts are deleted, renamed, doubled and cut, their XML bent, their content types exchanged, bytes of
the zip flipped.  ``SHEETCALC_MUTATIONS`` says how many books are tried (40 by default; thousands
before a release).
"""

import os
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from mutated_packages import KINDS, Mutation, mutated
from odd_packages import Features, write_book
from whole_program import example, quiet

from sheetcalc import workflows
from sheetcalc.workbook.wording import WORDINGS
from sheetcalc.workflows import BookReport

TRIES = int(os.environ.get("SHEETCALC_MUTATIONS", "40"))

_RICH = Features(
    comments=True,
    threaded=True,
    controls=True,
    slicer=True,
    pivot=True,
    external_link=True,
    custom_xml=True,
    chart_sheet=True,
    calc_chain=True,
    tables=("Prices",),
    names={"Rate": "1.5", "Here": "'Data 1'!$B$1"},
    local_names={"_xlnm.Print_Area": "'Data 1'!$A$1:$C$9"},
    states=("visible", "hidden"),
    extension_lists=True,
    alternate_content=True,
)
_MUTATIONS = st.lists(
    st.builds(
        Mutation, st.sampled_from(KINDS), st.floats(0, 1, exclude_max=True), st.integers(0, 10**9)
    ),
    min_size=1,
    max_size=3,
)


@cache
def _bytes_of(which: str) -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.xlsx"
        book = write_book(path, _RICH) if which == "theirs" else example(path)
        return book.read_bytes()


def blank_into(path: Path) -> BookReport:
    return workflows.blank_into(path, units="metric", example=False)


def check(path: Path) -> BookReport:
    return workflows.check(path, quiet)


def takeoff(path: Path) -> BookReport:
    return workflows.takeoff(path, quiet, cards=False)


def hold(which: str, mutations: list[Mutation], *commands: Callable[[Path], BookReport]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.xlsx"
        path.write_bytes(_bytes_of(which))
        damaged = mutated(path, mutations)
        for command in commands:
            path.write_bytes(damaged)
            report = command(path)
            assert report.exit_code in {0, 1, 3}
            if report.exit_code == 3:
                assert [f.code for f in report.findings if f.code in WORDINGS] != []
                assert report.written is None
            if report.exit_code == 3 or command is check:
                assert path.read_bytes() == damaged
                assert [p.name for p in Path(folder).iterdir()] == ["book.xlsx"]
            for leftover in set(Path(folder).iterdir()) - {path}:
                leftover.unlink()


@settings(max_examples=TRIES, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(_MUTATIONS)
def test_somebodys_damaged_workbook_is_refused_or_taken_as_it_is(
    mutations: list[Mutation],
) -> None:
    hold("theirs", mutations, check, takeoff, blank_into)


@settings(max_examples=TRIES // 4, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(_MUTATIONS)
def test_a_damaged_workbook_with_tabs_of_ours_is_refused_or_taken_as_it_is(
    mutations: list[Mutation],
) -> None:
    hold("ours", mutations, check, takeoff)


@settings(max_examples=TRIES // 4, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(_MUTATIONS)
def test_what_is_written_into_a_damaged_workbook_is_the_same_at_the_next_run(
    mutations: list[Mutation],
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.xlsx"
        path.write_bytes(_bytes_of("theirs"))
        path.write_bytes(mutated(path, mutations))
        report = takeoff(path)
        if report.written is not None:
            once = report.written.read_bytes()
            again = takeoff(report.written)
            assert again.written == report.written
            assert again.written.read_bytes() == once

"""No text of a person becomes a formula, whatever it looks like and wherever it ends up.

The example's names are exchanged for odd ones: of rooms, phases, finishes, suppliers and goods.
Then every formula that the program writes, anywhere in the file, must be made of the very words
that the plain example's formulas are made of; odd text may stand in it only within quotes, or as
the quoted name of a tab.
"""

import csv
import re
import tempfile
import zipfile
from collections.abc import Iterator
from datetime import date
from functools import cache
from pathlib import Path
from xml.sax.saxutils import escape

import pytest
import recalc
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from lxml import etree
from whole_program import example as example_book
from whole_program import quiet

from sheetcalc import workflows
from sheetcalc.excel.opc.formula_text import tokens

PLACES = (
    "1.02", "Floor 1", "Standard", "Kiln & Quarry", "Ferrow Mortars", "T-6030",
    "Floor tile 600 x 300 flint", "Flexible tile mortar, grey", "KQ-60301", "KQ-30204",
)  # fmt: skip
"""Texts of the example that are exchanged: a room, a phase, a finish, suppliers, goods."""

LISTED = (0, 1, 5, 6)
"""Those of them that the Takeoff lists as texts: a room, a phase, a tile and its description."""

CALC = "=cmd|'/c calc'!A1"
ODD = (
    CALC, "+1+1", "-2+3", "@SUM(1,1)", "\u200b=1+1", "'=1+1", '"&1+1&"', '=HYPERLINK("http://x")',
    "{=1+1}", "#REF!", "TRUE", "1e3", "A1", "R1C1", "<b>&amp;", "]]>", "🛁 بلاط", "\u202egnihtab",
    "6\" tile, Bob's *best*? ~1", "[Net]", "OutTakeoff[Gross]", "=" + "x" * 254, "_x0041_",
)  # fmt: skip
SOME = (*ODD[:9], ODD[17])
_ALPHABET = st.characters(exclude_categories=["Cs", "Cc", "Cn", "Co"])
_TEXTS = st.one_of(
    st.sampled_from(ODD),
    st.builds("{}{}".format, st.sampled_from("=+-@'\"&|!#"), st.text(_ALPHABET, max_size=40)),
)


def odd_name(number: int, text: str) -> str:
    """What a text of ``PLACES`` is exchanged for."""
    return f"{text.strip()} {number}"


def made(folder: Path, texts: tuple[str, ...]) -> Path:
    """The example, not taken off, with other names; each ends in a number, so they differ."""
    path = example_book(folder / "book.xlsx", taken_off=False)
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    strings = parts["xl/sharedStrings.xml"].decode()
    for number, (place, text) in enumerate(zip(PLACES, texts, strict=True)):
        new = odd_name(number, text).replace("_x", "_x005F_x")
        pattern = rf"(<t(?: xml:space=\"preserve\")?>){re.escape(escape(place))}</t>"
        strings, count = re.subn(pattern, lambda m, n=new: f"{m[1]}{escape(n)}</t>", strings)
        assert count == 1, place
    parts["xl/sharedStrings.xml"] = strings.encode()
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in parts.items():
            package.writestr(name, content)
    return path


_NUMBER = re.compile(r"-[0-9.]+")
_FORMULAS = {"f", "formula", "formula1", "formula2", "calculatedColumnFormula", "definedName"}


def formulas(path: Path) -> Iterator[str]:
    """Every formula of a file: of cells, rules, validations, columns, names, and of links."""
    with zipfile.ZipFile(path) as package:
        for name in package.namelist():
            if name.endswith(".xml") and not name.startswith(("xl/sharedStrings", "docProps")):
                for element in etree.fromstring(package.read(name)).iter():
                    tag = etree.QName(element).localname if isinstance(element.tag, str) else ""
                    if tag in _FORMULAS and element.text:
                        yield element.text
                    elif tag == "hyperlink" and (place := element.get("location")):
                        yield place


def words(path: Path) -> set[str]:
    """What formulas are made of, texts and quoted names of tabs aside."""
    found: set[str] = set()
    for formula in set(formulas(path)):
        for token in tokens(formula):
            if token.kind == "text":
                assert re.fullmatch(r'"(?:[^"]|"")*"', token.text), formula
            elif token.kind not in {"quoted", "number", "space"}:
                # the table of an order is named by the letters of its supplier, and nothing else
                plain_word = re.sub(r"^OutOrder[A-Za-z0-9]*$", "OutOrder", token.text)
                # where a table ends depends on how many columns it has
                plain_word = re.sub(r"^\$[A-Z]{1,3}\$\d+$", "$A$1", plain_word)
                found.add(re.sub(r"\d+", "1", plain_word))
    return found


def outside(path: Path) -> set[str]:
    """Targets of links that lead out of the file."""
    with zipfile.ZipFile(path) as package:
        rels = [package.read(name) for name in package.namelist() if name.endswith(".rels")]
    return {
        element.get("Target") or ""
        for rel in rels
        for element in etree.fromstring(rel)
        if element.get("TargetMode") == "External"
    }


@cache
def plain() -> tuple[set[str], set[str]]:
    with tempfile.TemporaryDirectory() as folder:
        path = example_book(Path(folder) / "plain.xlsx")
        return words(path), outside(path)


def hold(path: Path) -> None:
    """Odd names bring no new word into any formula, and no new link."""
    allowed, links = plain()
    assert words(path) <= allowed
    assert outside(path) <= links


@settings(max_examples=3, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.tuples(*[_TEXTS] * len(PLACES)))
@example(ODD[: len(PLACES)])
@example(ODD[-len(PLACES) :])
def test_odd_names_stay_text_through_a_takeoff(texts: tuple[str, ...]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = made(Path(folder), texts)
        report = workflows.takeoff(path, quiet)
        assert report.exit_code in {0, 1}
        assert report.written == path
        hold(path)
        once = path.read_bytes()
        workflows.takeoff(path, quiet)
        assert path.read_bytes() == once


@pytest.mark.libreoffice
def test_a_program_that_recalculates_sees_the_same_texts_and_numbers(tmp_path: Path) -> None:
    path = made(tmp_path, SOME)
    report = workflows.takeoff(path, quiet)
    assert report.exit_code == 0, [f.found for f in report.findings if f.status == "error"]
    recalculated = recalc.recalculate(path)
    assert recalc.differences(recalc.cells(path), recalculated) == []
    listed = {value for (tab, _), value in recalculated.items() if tab == "Takeoff"}
    assert {odd_name(at, SOME[at]) for at in LISTED} <= listed


def test_files_that_are_sent_hold_no_formula_of_odd_names(tmp_path: Path) -> None:
    path = made(tmp_path, SOME)
    folder = tmp_path / "sent"
    (report,) = workflows.orders([path], folder, quiet, issued=date(2026, 1, 31))
    assert report.exit_code == 0, report.summary
    quoted = workflows.quote(path, quiet, to=folder)
    assert quoted.exit_code == 0, quoted.summary
    sent = sorted(folder.rglob("*"))
    allowed, _ = plain()
    for file in sent:
        if file.suffix == ".xlsx":
            assert words(file) <= allowed
        elif file.suffix == ".csv":
            with file.open(encoding="utf-8-sig", newline="") as text:
                cells = [cell for row in csv.reader(text) for cell in row]
            assert len(cells) > 100
            assert not [c for c in cells if c.startswith(("=", "+", "@", "\t", "\r"))]
            assert not [c for c in cells if c.startswith("-") and not _NUMBER.fullmatch(c)]
    assert {file.suffix for file in sent} >= {".xlsx", ".csv"}

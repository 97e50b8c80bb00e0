"""How quantities were worked out, in another language: every clause is known and none is changed.

The language here is English with a sign before each entry, and English itself.
"""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from another_language import CAPITALS, LOWER

from sheetcalc import workflows
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.rules.allowances import ALLOWANCES
from sheetcalc.rules.bases import BASES, Basis
from sheetcalc.rules.electrical import ELECTRICAL_RULES
from sheetcalc.rules.heat_output import ESTIMATES
from sheetcalc.workbook.columns import Tells
from sheetcalc.workbook.sheet import SheetModel
from sheetcalc.workbook.wording.render import facts_in_words
from sheetcalc.workbook.words import load_words
from sheetcalc.workflows.calculation import calculate_book

SAMPLES = Path(__file__).parents[2] / "sample_workbooks"
SIGN = "\N{SECTION SIGN}"
SHIPPED = load_words()
SIGNED = Words(*({e: f"{SIGN}{e}" for e in part} for part in (
    SHIPPED.table, SHIPPED.terms, SHIPPED.said, SHIPPED.workings,
)))  # fmt: skip


KEYS = re.compile(r"(?<=RATE, )[^()]*|(?<=WASTE FACTORS )\([^()]*\)")
"""A basis and the criteria of a waste factor are as somebody types them."""

TYPED_WORDS = {"bath"}
"""What rooms of these jobs are called by."""

TYPED = {"Description", "Thermostat"}
"""Columns in which most is as somebody typed it."""


def quiet(_stage: str, _done: int, _of: int) -> None:
    """Nobody listens."""


def sheets_of(book: Path) -> tuple[SheetModel, ...]:
    raw = start_reading(book).result()
    work = calculate_book(raw, quiet, leave_out_faulty=False)
    return work.sheets(raw, quiet, cards=False)


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> dict[str, set[str]]:
    """Sentences of three jobs, by their column."""
    example = tmp_path_factory.mktemp("told") / "example.xlsx"
    workflows.blank(example, units="us", example=True)
    found: dict[str, set[str]] = {}
    for book in (example, SAMPLES / "alder-street-us.xlsx", SAMPLES / "larch-court.xlsx"):
        for header, text in _told(sheets_of(book)):
            found.setdefault(header, set()).add(text)
    return found


def _told(sheets: tuple[SheetModel, ...]) -> Iterator[tuple[str, str]]:
    for table in (table for sheet in sheets for table in sheet.tables):
        for at, column in enumerate(table.columns):
            if column.tells is Tells.SENTENCES:
                texts = (row[at].value for row in table.rows)
                yield from ((column.header, text) for text in texts if isinstance(text, str))


def test_every_word_of_them_is_in_the_file(told: dict[str, set[str]]) -> None:
    assert set(told) > {"Basis", "Start", "How found", "Cut out", "Taken from", "Estimates"}
    texts = {text for header, of in told.items() if header not in TYPED for text in of}
    assert len(texts) > 500
    left = {text: LOWER.findall(KEYS.sub("", CAPITALS.told(text))) for text in texts}
    assert {text: words for text, words in left.items() if set(words) - TYPED_WORDS} == {}


def test_in_english_nothing_is_changed_by_looking_it_up(told: dict[str, set[str]]) -> None:
    texts = {text for of in told.values() for text in of}
    assert {text for text in texts if SHIPPED.told(text) != text} == set()


def test_nothing_but_signs_is_added(told: dict[str, set[str]]) -> None:
    texts = {text for of in told.values() for text in of}
    assert {text for text in texts if SIGNED.told(text).replace(SIGN, "") != text} == set()


RULED = [
    *(text for allowance in ALLOWANCES for text in (allowance.note, allowance.source) if text),
    *(text for rule in (*ELECTRICAL_RULES, *ESTIMATES) for text in (rule.text, rule.status)),
]


def test_what_the_rules_say_is_in_the_file() -> None:
    assert set(RULED) - {*SHIPPED.workings, *SHIPPED.table} == set()


@pytest.mark.parametrize("basis", [b for b in BASES.values() if not b.once_a_job])
def test_a_basis_is_told_with_its_amount_but_stays_as_it_is_typed(basis: Basis) -> None:
    what = basis.key.removeprefix("per ").removeprefix("area ")
    amount = {"count": f"2 {what}s", "area": f"2.5 m² {what}"}.get(basis.unit, f"2.5 {what}")
    if basis.needs_of:
        amount = f"2.5 {basis.unit} of GROUT-1, net"
    if basis.taken:
        amount += f" ({basis.taken})"
    told = SIGNED.told(f"{amount} x 3 pieces (Rate, {basis.key}) = 7.5 pieces")
    assert told.startswith(f"{SIGN}{SIGN}2")
    assert told.endswith(f" x {SIGN}3 pieces (Rate, {basis.key}) = {SIGN}7.5 pieces")


@pytest.mark.parametrize(
    "typed", ["Guest bath", "Large tile", "Box of tile", "Mosaic 30 x 30 on mesh", "M-12 x 3"]
)
def test_what_somebody_typed_is_not_taken_for_a_clause(typed: str) -> None:
    assert SIGNED.told(typed) == typed


def test_words_may_stand_in_another_order() -> None:
    words = Words(
        terms={"wall far": "Wand hinten", "niche": "Nische"},
        workings={
            "{number} cuts in {surface}": "in {surface} {number} Schnitte",
            "as laid": "wie verlegt",
            "Bought {key}": "Gekauft {key}",
        },
    )
    told = words.told("niche: 3 cuts in wall far; as laid. Bought per niche.")
    assert told == "Nische: in Wand hinten 3 Schnitte; wie verlegt. Gekauft per niche."


def test_a_clause_in_brackets_is_no_clause_of_its_own() -> None:
    words = Words(workings={"{number} m (laid; cut)": "{number} m (verlegt; geschnitten)"})
    assert words.told("2 m (laid; cut); 3 m (laid; cut).") == (
        "2 m (verlegt; geschnitten); 3 m (verlegt; geschnitten)."
    )


def hints() -> Iterator[str]:
    """What the code says a person may have meant; 7 stands for what is filled in."""
    package = Path(workflows.__file__).parents[1]
    for folder in ("units", "workbook/convert", "workbook/prices"):
        for module in sorted((package / folder).glob("*.py")):
            for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
                match node:
                    case ast.Call(ast.Name("refuse"), [_, said]) | ast.keyword("hint", said):
                        yield from spoken(said)


def spoken(said: ast.expr) -> Iterator[str]:
    match said:
        case ast.Constant(str(words)):
            yield words
        case ast.JoinedStr(parts):
            yield "".join(p.value if isinstance(p, ast.Constant) else "7" for p in parts)
        case ast.BoolOp(values=values):
            for value in values:
                yield from spoken(value)


def test_what_a_person_may_have_meant_is_told_in_the_offices_words() -> None:
    texts = {text for text in hints() if text}
    assert len(texts) > 30
    thousands = "type 77 if the 7 parts thousands, or 7.7 if it is a decimal 7"
    assert {text for text in texts if LOWER.search(CAPITALS.told(text))} <= {
        "the unit is 7", "use mm, cm, m, in or ft", thousands,
    }  # fmt: skip
    for mark in ("comma", "point"):  # languages bend it, so each has a sentence of its own
        said = thousands.replace("the 7", f"the {mark}").replace("decimal 7", f"decimal {mark}")
        assert not LOWER.search(CAPITALS.told(said))


def test_a_finding_names_surfaces_in_the_offices_words_and_typed_text_as_it_is() -> None:
    facts = {"surface": "wet area far", "way": "higher", "code": "higher", "found": '"wet area"'}
    told = facts_in_words(facts, SIGNED)
    assert told == {
        "surface": f"{SIGN}wet area {SIGN}far", "way": f"{SIGN}higher", "code": "higher",
        "found": '"wet area"',
    }  # fmt: skip
    assert facts_in_words(facts, ENGLISH) is facts

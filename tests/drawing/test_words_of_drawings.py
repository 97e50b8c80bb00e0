"""Drawings in another language: every word of them is in the file, fits, or stays English."""

import ast
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest
from drawing.drawn_rooms import JOB, LEGEND, work

from sheetcalc.domain.finish import BondKind, SurfaceKind
from sheetcalc.domain.room import PieceKind
from sheetcalc.domain.words import Words
from sheetcalc.drawing.canvas import Canvas, shortened, width_of
from sheetcalc.drawing.labels import Labels
from sheetcalc.drawing.plan import PlanDrawing
from sheetcalc.drawing.room import room_plans
from sheetcalc.drawing.words import Legend
from sheetcalc.workbook.words import load_words

DRAWING = Path(__file__).parents[2] / "sheetcalc" / "drawing"
SHIPPED = load_words()
SIGN = "\N{SECTION SIGN}"


def in_signs(sign: str) -> Legend:
    """English with a sign before each entry of the file."""
    parts = (SHIPPED.table, SHIPPED.terms, SHIPPED.said)
    return Legend(JOB, Words(*({english: f"{sign}{english}" for english in p} for p in parts)))


def plans_in(legend: Legend) -> list[PlanDrawing]:
    return [plan for kind in room_plans(work(), legend) for plan in kind]


def written(plan: PlanDrawing) -> Iterator[str]:
    """Words that are written on a drawing and are no figure or number."""
    texts = [plan.title, plan.short_title]
    texts += [mark.words for marks in (plan.sides, plan.points, plan.lines) for mark in marks]
    texts += [name for _, name in (*plan.fixtures, *plan.circles)]
    return (text for text in texts if text)


def said_in(module: Path) -> Iterator[str]:
    """Literals that a module fills in, and those that it says as they are."""
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        match node:
            case ast.Call(ast.Attribute(attr="write" | "tell" | "name"), [said, *_]):
                yield from _literals(said)
    for value in vars(import_module(f"sheetcalc.drawing.{module.stem}")).values():
        for one in value.values() if isinstance(value, dict) else [value]:
            if isinstance(one, str) and "{" in one and not one.startswith('"""'):
                yield one


def _literals(said: ast.expr) -> Iterator[str]:
    """Of an expression that is said: a literal, either of two, or one with a name put in."""
    match said:
        case ast.Constant(str(words)):
            yield words
        case ast.IfExp(body=one, orelse=other):
            yield from (*_literals(one), *_literals(other))
        case ast.JoinedStr(parts):
            yield from (w.strip() for part in parts for w in _literals(part) if w.strip())


MODULES = [path for path in sorted(DRAWING.glob("*.py")) if path.stem != "__init__"]


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.stem)
def test_what_a_drawing_says_is_in_the_file(module: Path) -> None:
    known = {*SHIPPED.table, *SHIPPED.said, *SHIPPED.terms}
    assert {words for words in said_in(module) if words not in known} == set()


def test_kinds_of_things_and_bonds_are_in_the_file() -> None:
    kinds = {kind.value for of in (PieceKind, SurfaceKind, BondKind) for kind in of}
    assert kinds - set(SHIPPED.terms) == set()


def test_everything_written_on_a_drawing_is_in_the_offices_words() -> None:
    signed, plain = plans_in(in_signs("~")), plans_in(LEGEND)
    for own, english in zip(signed, plain, strict=True):
        told = list(zip(written(own), written(english), strict=True))
        assert len(told) > 2
        typed = {"Vanity", "WC outlet", "Door"}
        assert {a for a, b in told if a == b} <= typed
        assert [a.replace("~", "").lower() for a, _ in told] == [b.lower() for _, b in told]
        assert own.description.count("~") > 2
        assert own.description.replace("~", "")[:200] == english.description[:200]


def test_what_has_no_letters_in_the_font_stays_english_but_is_told() -> None:
    for own, english in zip(plans_in(in_signs("\u5929")), plans_in(LEGEND), strict=True):
        assert list(written(own)) == list(written(english))
        assert own.description.startswith("\u5929")


@pytest.mark.parametrize("width", [40, 60, 90, 400])
def test_words_wider_than_their_place_are_cut_and_say_so(width: int) -> None:
    words = "B Rückwand hinter der Dusche"
    cut = shortened(words, 20, width)
    assert width_of(cut, 20) < width
    assert cut == words or (cut.endswith("...") and words.startswith(cut[:-3]))
    letters = len(cut.removesuffix("..."))
    following = words[: letters + 2] + "..."  # a blank before it may have been left out
    assert cut == words or width_of(following, 20) >= width


def test_a_panel_with_no_room_for_its_name_keeps_its_letter() -> None:
    canvas = Canvas((300, 100))
    labels = Labels(canvas, 17, ((0, 100), (300, 0)))
    labels.above((100, 60), "K rechte Stirnseite", "K")
    labels.above((200, 60), "L linke Stirnseite", "L")
    first, second = labels._taken  # noqa: SLF001
    assert second[2] - second[0] == pytest.approx(width_of("L", 17) + 6)
    assert first[2] <= second[0]

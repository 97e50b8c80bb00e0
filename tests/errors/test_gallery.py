"""Every finding code has a wrong workbook in the gallery, and says what it should."""

import os
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import wrong_catalogue
import wrong_files
import wrong_heating
import wrong_lines
import wrong_orders
import wrong_prices
import wrong_reading
import wrong_rooms
from another_language import CAPITALS, LOWER
from gallery import Said, Wrong, read_words

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.measure import JobUnits
from sheetcalc.workbook.wording import WORDINGS, WordedFinding, as_text, word
from sheetcalc.workbook.wording.render import NAMES_TOLD, SENTENCES_TOLD

SUBJECTS = (
    wrong_reading,
    wrong_catalogue,
    wrong_rooms,
    wrong_lines,
    wrong_orders,
    wrong_prices,
    wrong_heating,
    wrong_files,
)
ENTRIES: tuple[Wrong | Said, ...] = tuple(e for subject in SUBJECTS for e in subject.ENTRIES)

GALLERY = Path(__file__).with_name("gallery.txt")
FILE = "wrong.xlsx"

NOT_YET: frozenset[str] = frozenset()
"""Codes without a wrong workbook so far; a code leaves this list and never enters it."""


pytestmark = pytest.mark.usefixtures("no_child_left")


@pytest.fixture(scope="module")
def gallery() -> Iterator[dict[str, str]]:
    """Messages by code as they were reviewed; written anew where that is asked for."""
    texts = GALLERY.read_text(encoding="utf-8").split("\n\n") if GALLERY.exists() else []
    messages = {text.split()[1]: text.strip() for text in texts if text.strip()}
    yield messages
    if os.environ.get("SHEETCALC_UPDATE_GOLDEN"):
        known = [messages[code] for code in sorted(messages) if code in WORDINGS]
        GALLERY.write_text("\n\n".join(known) + "\n", encoding="utf-8")


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.code)
def test_a_wrong_workbook_says_what_is_wrong_with_it(
    entry: Wrong | Said, gallery: dict[str, str], tmp_path: Path
) -> None:
    worded = read_words(entry, tmp_path)
    message = as_text(worded, FILE)
    if os.environ.get("SHEETCALC_UPDATE_GOLDEN"):
        gallery[entry.code] = message
    assert message == gallery.get(entry.code, "")
    assert left_in_english(worded) == set()


ENGLISH_EVERYWHERE = frozenset({"source", "rule", "why", "wall"})
"""Facts that quote a rule and its source, or say what a damaged file, the system or a person said.
"""

OF_HEADERS = frozenset({"weight"})
"""Words of columns that a fact names."""


def left_in_english(worded: WordedFinding) -> set[str]:
    """Words of a finding that another language does not reach, and nobody typed."""
    facts = dict(worded.facts)
    told = word(Finding(worded.code, facts=facts), JobUnits(), words=CAPITALS)
    as_typed = facts.keys() - ((NAMES_TOLD | SENTENCES_TOLD) - ENGLISH_EVERYWHERE)
    typed = " ".join(str(facts[name]) for name in as_typed)
    text = f"{told.found} {told.expected} {told.what_to_do}"
    english = set(LOWER.findall(re.sub('"[^"]*"', "", text)))
    return english - OF_HEADERS - set(LOWER.findall(typed))


def test_every_finding_code_has_a_wrong_workbook() -> None:
    shown = {entry.code for entry in ENTRIES}
    assert shown <= set(WORDINGS), "the gallery shows codes that have no words"
    missing = sorted(set(WORDINGS) - shown - NOT_YET)
    assert not missing, f"add a wrong workbook to tests/errors for: {', '.join(missing)}"
    done = sorted(NOT_YET & shown)
    assert not done, f"take off the list of codes without a wrong workbook: {', '.join(done)}"

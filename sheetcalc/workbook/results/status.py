"""The master status in row 1 of every result tab: a formula that reads the Findings tab."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.workbook.formulas import structured, text_literal
from sheetcalc.workbook.results import fingerprints
from sheetcalc.workbook.results.status_words import (
    ERROR,
    INCOMPLETE,
    OK,
    OUT_OF_DATE,
    PRINTED_BEFORE,
    SEE_FINDINGS,
    WARNING,
    Counted,
    severity_words,
)
from sheetcalc.workbook.results_tabs import FINDINGS
from sheetcalc.workbook.sheet import Cell
from sheetcalc.workbook.text_formulas import counted, filled

_MOST_NAMES: Final = 1000
"""Characters of room names in a status; more rooms are counted."""


def master_status(
    severities: Sequence[str],
    left_out: Sequence[str] = (),
    *,
    live: bool = True,
    words: Words = ENGLISH,
) -> Cell:
    """Live status of a run.

    Parameters
    ----------
    severities
        Severity of every finding.
    left_out
        Rooms that were left out because of errors.
    live
        Amounts on the tab follow when waste or a pack is changed; on what is printed and carried
        away they don't, and the status says so.
    words
        The office's, in which the Findings tab tells severities too.

    Returns
    -------
    Cell
        Errors come first, then inputs that have changed since, then rooms left out, then
        warnings; else OK.
    """
    severity = structured(FINDINGS.table, "Severity")
    state = structured(fingerprints.TABLE, fingerprints.STATE)
    states = fingerprints.states(words)
    incomplete = _incomplete(left_out, words)
    errors, warnings = (counted(severity, severity_words(words)[kind]) for kind in (ERROR, WARNING))
    fine = text_literal(words.say(OK))
    warned = f"IF({warnings}>0,{Counted.of(WARNING, words).formula(warnings)},{fine})"
    settled = text_literal(incomplete) if incomplete else warned
    followed = counted(state, states[fingerprints.FOLLOWED])
    if not live:
        printed = text_literal(words.say(PRINTED_BEFORE))
        settled = f"IF({followed}>0,{printed},{settled})"
    same = text_literal(states[fingerprints.SAME])
    dated = (
        f"IF(IFERROR(SUMPRODUCT(({state}<>{same})*1)-{followed},1)>0,"
        f"{text_literal(words.say(OUT_OF_DATE))},{settled})"
    )
    found = filled(words.say(SEE_FINDINGS), errors=Counted.of(ERROR, words).formula(errors))
    formula = f"IF({errors}>0,{found},{dated})" if not incomplete else dated
    return Cell(_value(severities, incomplete, words), "status", formula)


def _value(severities: Sequence[str], incomplete: str, words: Words) -> str:
    if incomplete:
        return incomplete
    if errors := severities.count(ERROR):
        return words.fill(SEE_FINDINGS, errors=Counted.of(ERROR, words).said(errors))
    if warnings := severities.count(WARNING):
        return Counted.of(WARNING, words).said(warnings)
    return words.say(OK)


def _incomplete(left_out: Sequence[str], words: Words) -> str:
    if not left_out:
        return ""
    named: list[str] = []
    for room in left_out:
        if sum(len(n) + 2 for n in named) + len(room) > _MOST_NAMES:
            break
        named.append(room)
    rest = len(left_out) - len(named)
    rooms = ", ".join(named)
    if rest:
        rooms = words.fill("{rooms} and {number} more", rooms=rooms, number=rest)
    return words.fill(INCOMPLETE, rooms=rooms)

"""Findings in words: the cell, what was found, what was expected, what to do."""

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from sheetcalc.domain.finding import Fact, Finding, RowRef, Severity
from sheetcalc.domain.inputs import Decision
from sheetcalc.domain.measure import JobUnits, Length
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.units import show_measured
from sheetcalc.workbook.raw import RawBook, RawRow, RawTable
from sheetcalc.workbook.shown import displayed, plain_number
from sheetcalc.workbook.wording.table import WORDINGS

RECORDS: Mapping[str, str] = {
    "Job": 'setting "{Setting}"',
    "Phases": 'phase "{Phase}"',
    "Rooms": 'room "{Room}"',
    "Floor pieces": 'piece "{Piece}" of room "{Room}"',
    "Wall legs": 'leg "{Leg}" of room "{Room}"',
    "Wall faces": '{Part} on wall "{Wall}" of room "{Room}"',
    "Finishes": '{Surface} of finish "{Finish}"',
    "Build-up": 'layer {Order} under {Surface}, finish "{Finish}"',
    "Tiles": 'tile "{Code}"',
    "Bags and pails": 'item "{Code}"',
    "Rolls and sheets": 'item "{Code}"',
    "Heating cables": 'cable "{Code}"',
    "Sundries": 'item "{Code}"',
    "Waste factors": 'line "{Line}"',
    "Labour": 'task "{Task}"',
    "Suppliers": 'supplier "{Supplier}"',
    "Holidays": 'day "{Date}"',
    "Received": 'item "{Code}"',
    "Decisions": 'decision on "{Code}"',
    "Resistance log": 'cable "{Cable}" of room "{Room}"',
}
"""What a row of a tab is called in a message, from its own cells."""


class WordedFinding(Struct, frozen=True):
    """A finding as people read it.

    Attributes
    ----------
    severity
        An error stops, a warning asks, a note informs.
    accepted
        A row of Decisions accepts this warning; it stays listed.
    code
        For ``sheetcalc explain``.
    tab, sheet, cell
        Declared tab, the sheet it stands on, and the address; "" where there is none.
    about
        What the cell is: ``Length of room "2.07"``.
    found, expected, what_to_do
        The three parts of the message.
    room, surface
        What it is about in the model; several are listed.
    rooms
        All of them where several findings are told together.
    facts
        What the words were filled from.
    """

    severity: Severity
    accepted: bool
    code: str
    tab: str
    sheet: str
    cell: str
    about: str
    found: str
    expected: str
    what_to_do: str
    room: str = ""
    surface: str = ""
    rooms: tuple[str, ...] = ()
    facts: tuple[tuple[str, Fact], ...] = ()

    @property
    def status(self) -> str:
        """``error``, ``warning``, ``accepted`` or ``note``."""
        return "accepted" if self.accepted else self.severity.value

    @property
    def place(self) -> str:
        """Sheet and cell as people write them: ``Rooms!D14``."""
        return f"{self.sheet}!{self.cell}" if self.cell else self.sheet


def severity_of(code: str) -> Severity:
    """Severity of a finding code.

    Raises
    ------
    KeyError
        When no subject module words the code: a mistake of ours.
    """
    return WORDINGS[code].severity


def accepted_by(finding: Finding, decisions: Iterable[Decision]) -> Decision | None:
    """Return the row of Decisions that accepts a warning; errors and notes are never accepted."""
    if severity_of(finding.code) is not Severity.WARNING:
        return None
    for decision in decisions:
        if (
            decision.code.casefold() == finding.code.casefold()
            and _covers(decision.room, finding.room)
            and _covers(decision.surface, finding.surface)
        ):
            return decision
    return None


def _covers(cell: str, name: str) -> bool:
    """Whether a cell of Decisions means a room or surface: empty for all, one, or a list."""
    named = cell.casefold()
    listed = {part.strip() for part in named.split(",")}
    return not named or name.casefold() == named or name.casefold() in listed


def word_all(
    findings: Iterable[Finding],
    raw: RawBook | None,
    units: JobUnits,
    decisions: Sequence[Decision] = (),
    words: Words = ENGLISH,
) -> tuple[WordedFinding, ...]:
    """Put findings into words: errors first, then warnings and notes, each in workbook order.

    Parameters
    ----------
    findings
        From any check; alike ones are listed once.
    raw
        The book as read, for cell addresses; None when it could not be read.
    units
        The job's units, that lengths are shown in.
    decisions
        Rows of Decisions.
    words
        The office's.
    """
    places = _Places(raw, words)
    order = {tab: number for number, tab in enumerate(RECORDS)}
    ranks = {severity: rank for rank, severity in enumerate(Severity)}
    worded: dict[tuple[int, int, int, WordedFinding], WordedFinding] = {}
    for finding in findings:
        accepted = accepted_by(finding, decisions) is not None
        said = _worded(finding, places, units, accepted=accepted)
        place = (
            ranks[severity_of(finding.code)],
            order.get(finding.source.tab, len(order)),
            finding.source.row or 0,
            replace(said, facts=()),  # what reads alike is alike, whatever it was filled from
        )
        worded.setdefault(place, said)
    return tuple(worded[place] for place in sorted(worded, key=lambda place: place[:-1]))


def word(
    finding: Finding, units: JobUnits, raw: RawBook | None = None, words: Words = ENGLISH
) -> WordedFinding:
    """Put one finding into words, as not accepted."""
    return _worded(finding, _Places(raw, words), units, accepted=False)


def _worded(
    finding: Finding, places: "_Places", units: JobUnits, *, accepted: bool
) -> WordedFinding:
    wording = WORDINGS[finding.code]
    facts = {name: fact_words(fact, units) for name, fact in finding.facts.items()}
    facts.setdefault("room", finding.room)
    facts.setdefault("surface", finding.surface)
    facts = facts_in_words(facts, places.words)
    say = places.words.say
    place = places.of(finding)
    return WordedFinding(
        severity=wording.severity,
        accepted=accepted,
        code=finding.code,
        tab=finding.source.tab,
        sheet=place.sheet,
        cell=place.cell,
        about=place.about,
        found=say(wording.found).format_map(facts),
        expected=say(wording.expected).format_map(facts),
        what_to_do=say(wording.what_to_do).format_map(facts),
        room=finding.room,
        surface=finding.surface,
        facts=tuple(finding.facts.items()),
    )


NAMES_TOLD = frozenset({"bond", "package", "strip", "surface", "wall", "where", "zone"})
SENTENCES_TOLD = frozenset({
    "cuts", "flatness", "found", "high", "hint", "how", "lies", "low", "nearest", "other", "parts",
    "places", "reason", "record", "remedies", "returns", "rule", "shape", "source", "threshold",
    "values", "way", "why",
})  # fmt: skip
"""Facts that are names, and those that tell something; others are as somebody typed them."""

_QUOTED = '"'
"""Before what somebody typed, in a fact that may tell something else too."""


def facts_in_words(facts: dict[str, str], words: Words) -> dict[str, str]:
    """Put the facts that tell something into the office's words."""
    if not words.workings and not words.terms:
        return facts
    names = {name: words.called(facts[name]) for name in NAMES_TOLD & facts.keys()}
    told = {
        name: words.told(facts[name])
        for name in SENTENCES_TOLD & facts.keys()
        if name != "found" or not facts[name].startswith(_QUOTED)
    }
    return facts | names | told


def fact_words(fact: Fact, units: JobUnits) -> str:
    """Show a fact as messages do."""
    if isinstance(fact, Length):
        return show_measured(fact.mm320, units.small_length if fact.small else units.room_length)
    if isinstance(fact, float):
        return plain_number(float(f"{fact:.6g}"))
    return str(fact)


class _Place(Struct, frozen=True):
    """A cell or a row, and the record that stands there."""

    sheet: str
    cell: str
    about: str


class _Places(Struct):
    """Where findings stand in a book as read: many in a few places."""

    raw: RawBook | None
    words: Words
    _rows: dict[str, dict[int, RawRow]] = field(default_factory=dict)
    _known: dict[tuple[RowRef, str | None], _Place] = field(default_factory=dict)

    def of(self, finding: Finding) -> _Place:
        """Place of a finding."""
        key = finding.source, finding.column
        place = self._known.get(key)
        if place is None:
            place = _Place(self._sheet(finding), self._cell(finding), self._about(finding))
            self._known[key] = place
        return place

    def _table(self, finding: Finding) -> RawTable | None:
        return self.raw.tables.get(finding.source.tab) if self.raw else None

    def _sheet(self, finding: Finding) -> str:
        table = self._table(finding)
        return table.sheet if table else finding.source.tab

    def _cell(self, finding: Finding) -> str:
        table, row = self._table(finding), finding.source.row
        if table is None or row is None:
            return ""
        letters = table.letters.get(finding.column or "")
        return f"{letters or next(iter(table.letters.values()), 'A')}{row}"

    def _about(self, finding: Finding) -> str:
        table, row = self._table(finding), finding.source.row
        pattern = RECORDS.get(finding.source.tab)
        if table is None or row is None or pattern is None:
            return finding.column or ""
        if table.tab not in self._rows:
            self._rows[table.tab] = {r.row: r for r in table.rows}
        record = self._rows[table.tab].get(row)
        if record is None:
            return finding.column or ""
        found = {header: record.cells.get(header) for header in _fields(pattern)}
        cells = {header: displayed(cell) if cell else "" for header, cell in found.items()}
        if finding.column and not any(cells.values()):  # a row without a name
            return finding.column
        named = self.words.say(pattern).format_map(cells)
        # a supplier's Supplier cell is the supplier
        own_name = finding.column is None or pattern.startswith(f"{finding.column.casefold()} ")
        if own_name:
            return named
        return self.words.fill("{column} of {record}", column=finding.column, record=named)


@lru_cache
def _fields(pattern: str) -> tuple[str, ...]:
    return tuple(piece.partition("}")[0] for piece in pattern.split("{")[1:])


def as_text(worded: WordedFinding, file: str = "", words: Words = ENGLISH) -> str:
    """Return the message as printed: a heading and three indented lines."""
    heading = [f"{words.say(worded.status)} {worded.code}", file, worded.place]
    rooms = ""
    if len(worded.rooms) > 1:
        rooms = words.fill("rooms {name}", name=worded.room)
    elif f'"{worded.room}"' not in worded.about:  # about a finish or a cable, say
        rooms = words.fill("room {name}", name=worded.room) if worded.room else ""
    where = "; ".join(part for part in (worded.about, rooms) if part)
    about = f" ({where})" if where else ""
    parts = (
        (words.say("found"), worded.found),
        (words.say("expected"), worded.expected),
        (words.say("what to do"), worded.what_to_do),
    )
    width = max(len(label) for label, _ in parts)
    lines = [
        "  ".join(part for part in heading if part) + ("  " + about if about else ""),
        *(f"  {label:{width}} {text}" for label, text in parts),
    ]
    return "\n".join(lines)


def as_json(worded: WordedFinding) -> dict[str, Any]:
    """Return the message as plain data."""
    return {
        "severity": worded.severity.value,
        "status": worded.status,
        "code": worded.code,
        "tab": worded.tab,
        "sheet": worded.sheet,
        "cell": worded.cell,
        "about": worded.about,
        "room": worded.room,
        "rooms": list(worded.rooms or ([worded.room] if worded.room else [])),
        "surface": worded.surface,
        "found": worded.found,
        "expected": worded.expected,
        "what_to_do": worded.what_to_do,
    }

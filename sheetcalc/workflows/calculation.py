"""The middle of every command: cells as found to one run, or to the errors that stop it."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from functools import cached_property, partial
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.progress import Progress
from sheetcalc.domain.spread import Spread, alone

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from pathlib import Path

    from sheetcalc.domain.finding import Finding
    from sheetcalc.domain.inputs import Inputs
    from sheetcalc.domain.run import Run
    from sheetcalc.domain.words import Words
    from sheetcalc.excel.generating.elsewhere import Elsewhere
    from sheetcalc.excel.generating.fresh_book import FreshBook
    from sheetcalc.excel.tabs.own_tabs import FoundTabs
    from sheetcalc.workbook.office import Office
    from sheetcalc.workbook.raw import RawBook
    from sheetcalc.workbook.results.room_cards import Cards
    from sheetcalc.workbook.sheet import BookModel, SheetModel
    from sheetcalc.workbook.wording import WordedFinding
    from sheetcalc.workflows.result_tabs import LongTabs

    Notes = Callable[[Run | None], tuple[Finding, ...]]

ONLY_FINDINGS = ("findings",)
"""Keys of the tabs that a run makes anew when errors stop it."""


class Work(Struct, frozen=True):
    """One workbook calculated.

    Attributes
    ----------
    run
        None where errors stopped it.
    findings
        In words, those that say the same of several rooms together.
    by_room
        The same, each of one room.
    """

    inputs: "Inputs | None"
    run: "Run | None"
    findings: "tuple[WordedFinding, ...]"
    by_room: "tuple[WordedFinding, ...]" = ()

    @property
    def has_errors(self) -> bool:
        """Whether any finding is an error."""
        return any(finding.status == "error" for finding in self.findings)

    def sheets(  # noqa: PLR0913 - what the tabs are made of, and where
        self,
        raw: "RawBook",
        progress: Progress,
        *,
        cards: bool = True,
        office: "Office | None" = None,
        spread: Spread = alone,
        tabs: "TabsOf | None" = None,
        long: "LongTabs | None" = None,
    ) -> "tuple[SheetModel, ...]":
        """Make the result tabs: all of a run, or Findings alone where errors stopped it.

        Room cards are asked for after everything else, and can be left out.  Tabs that are there
        and that a person's formulas point at stay, even empty.  Of the long tabs others may keep
        the records.
        """
        from sheetcalc.domain.job import Job
        from sheetcalc.workbook.office import PLAIN
        from sheetcalc.workbook.results import ResultTabs, findings_only

        office = office or PLAIN
        if self.run is None:
            job = self.inputs.job if self.inputs else Job()
            return (findings_only(self.findings, raw, job, office),)
        kept = tabs.kept(self.run) if tabs else ()
        results = ResultTabs(self.run, self.findings, raw, office, kept)
        drawn = _cards(self.run, self.by_room, progress, spread, office) if cards else None
        made = partial(long.made, self.run, results) if long else None
        return results.all(made or results.made_long, drawn)


def _cards(
    run: "Run",
    findings: "tuple[WordedFinding, ...]",
    progress: Progress,
    spread: Spread,
    office: "Office",
) -> "Callable[[], Cards]":
    """Plan the cards and begin to draw what each has room for; what is returned waits for it."""
    from sheetcalc.cards import Space, begin_drawings
    from sheetcalc.workbook.results.cable_plans import plan_cable_pages
    from sheetcalc.workbook.results.card_layout import plan_cards
    from sheetcalc.workbook.results.room_cards import Cards, drawing_heights

    planned = plan_cards(run, findings, office.words)
    pages = plan_cable_pages(run, office.words)
    space = Space(drawing_heights(planned), {page.room: page.drawing_mm for page in pages})
    drawn = begin_drawings(run, space, office.words, progress, spread)

    def made() -> Cards:
        drawings = drawn()
        return Cards(planned, drawings.cards, pages, drawings.cable_plans)

    return made


def calculate_book(  # noqa: PLR0913 - the book, what is done with it, and how it is told
    raw: "RawBook",
    progress: Progress,
    *,
    leave_out_faulty: bool,
    notes: "Notes" = lambda _run: (),
    spread: Spread = alone,
    words: "Words | None" = None,
    long: "LongTabs | None" = None,
) -> Work:
    """Convert and calculate; with errors there is no run, unless faulty rooms may be left out.

    Parameters
    ----------
    raw
        The book as found.
    progress
        Told of every stage.
    leave_out_faulty
        Take off the rooms that have no errors.
    notes
        Findings about the file itself, by the run whose results are written to it; None where
        there is none.
    spread
        Where rooms are planned.
    words
        The office's; English where None.
    long
        Told of a run without errors as there is enough of it for some tabs, and when it is whole.
    """
    from sheetcalc.ordering.checks import OF_AN_ORDER
    from sheetcalc.takeoff import calculate
    from sheetcalc.workbook.convert import to_inputs

    inputs, findings = to_inputs(raw)
    if inputs is None:
        told = (*findings, *notes(None))
        return Work(None, None, *_worded(told, raw, None, words))

    awaiting = _Sound(long) if long else None

    def work_out(inputs: "Inputs") -> "Run":
        return calculate(inputs, progress, spread, awaiting)

    run = work_out(inputs) if not _errors(findings) else calculate(inputs, progress, spread)
    kept: Run | None = run
    told = (*findings, *run.findings)
    if _errors(told):
        kept = None
        if leave_out_faulty and (done := _without_faulty(raw, inputs, findings, run, work_out)):
            kept, told = done
        else:
            told = tuple(f for f in told if f.code not in OF_AN_ORDER)
    if long and kept:
        long.priced(kept)
    return Work(inputs, kept, *_worded((*told, *notes(kept)), raw, inputs, words))


class _Sound(Struct, frozen=True):
    """Tells of a run as long as there are no errors, which may come to nothing."""

    long: "LongTabs"

    def planned(self, run: "Run") -> None:
        if not _errors(run.findings):
            self.long.planned(run)

    def taken_off(self, run: "Run") -> None:
        if not _errors(run.findings):
            self.long.taken_off(run)


def _errors(findings: "Iterable[Finding]") -> "list[Finding]":
    from sheetcalc.workbook.wording import severity_of

    return [finding for finding in findings if severity_of(finding.code) == "error"]


def _without_faulty(
    raw: "RawBook",
    inputs: "Inputs",
    found: "tuple[Finding, ...]",
    run: "Run",
    work_out: "Callable[[Inputs], Run]",
) -> "tuple[Run, tuple[Finding, ...]] | None":
    """Calculate the rooms that no error concerns; None where one concerns the whole job.

    What rooms share is planned anew without those left out, which may bring errors of its own: so
    until there are none.

    Parameters
    ----------
    raw, inputs
        The book as found, and its sound records.
    found
        What reading them has found.
    run
        Of all of them.
    work_out
        Calculates again.

    Returns
    -------
    tuple
        The run, and the findings: of reading, every error on the way, and those of the run.
    """
    from sheetcalc.lines.takeoff import unique
    from sheetcalc.ordering.checks import OF_THE_WHOLE
    from sheetcalc.workbook.convert import named_rooms, rooms_concerned

    told = list(found)
    rooms = inputs.rooms
    while rooms:
        told += _errors(run.findings)
        faulty = rooms_concerned(raw, _errors(told))
        if faulty is None:
            return None
        sound = tuple(room for room in rooms if room.name not in faulty)
        if len(sound) == len(rooms):
            break
        rooms = sound
        run = work_out(replace(inputs, rooms=rooms))
    if not rooms:
        return None
    taken = {room.name for room in rooms}
    left_out = tuple(name for name in dict.fromkeys(named_rooms(raw)) if name not in taken)
    own = (f for f in run.findings if f.code not in OF_THE_WHOLE)
    return replace(run, left_out=left_out), unique([*told, *own])


def _worded(
    findings: "Iterable[Finding]",
    raw: "RawBook",
    inputs: "Inputs | None",
    words: "Words | None",
) -> "tuple[tuple[WordedFinding, ...], tuple[WordedFinding, ...]]":
    """Put findings into words, together where they say the same, and room by room."""
    from sheetcalc.domain.measure import JobUnits
    from sheetcalc.domain.words import ENGLISH
    from sheetcalc.workbook.wording import told_together, word_all

    units = inputs.job.units if inputs else JobUnits()
    said = words or ENGLISH
    by_room = word_all(findings, raw, units, inputs.decisions if inputs else (), said)
    rooms = inputs.rooms if inputs else ()
    copies = {r.name: r.copies for r in rooms if 1 < len(r.copies) == r.count}
    return told_together(by_room, units, said, copies), by_room


class TabsOf:
    """Our tabs in a workbook's file, looked for once, when they are first asked about.

    Parameters
    ----------
    book
        The file.
    cards
        Whether room cards and cable plans are made.
    """

    def __init__(self, book: "Path", *, cards: bool = True) -> None:
        self._book = book
        self._cards = cards

    @cached_property
    def found(self) -> "FoundTabs":
        """The tabs, good for as long as the file is as it was."""
        from sheetcalc.excel.tabs.own_tabs import find_in_file
        from sheetcalc.workbook.results import TYPED_HEADERS

        return find_in_file(self._book, TYPED_HEADERS)

    def notes(self, run: "Run | None") -> "tuple[Finding, ...]":
        """Tell about the file's tabs before a run's results are written; None for a stopped one.

        A run that was stopped makes only the Findings tab anew, so what a person changed on the
        others is not touched yet.
        """
        from sheetcalc.excel.tabs.tab_notes import book_notes

        if run is None:
            return book_notes(self._book, self.found.tabs, ONLY_FINDINGS)
        return book_notes(self._book, self.found.tabs, None, self._idle(run))

    def kept(self, run: "Run") -> tuple[str, ...]:
        """Keys of tabs that the run has nothing for, and that something of a person's points at."""
        from sheetcalc.excel.tabs.tab_notes import kept_tabs

        return kept_tabs(self._book, self.found.tabs, self._idle(run))

    def _idle(self, run: "Run") -> frozenset[str]:
        from sheetcalc.workbook.results.optional import idle_keys

        return idle_keys(run, (tab.key for tab in self.found.tabs), cards=self._cards)


def framed(
    model: "BookModel",
    *,
    office: "Office | None" = None,
    elsewhere: "Elsewhere | None" = None,
) -> "FreshBook":
    """Sheets that are described as data, ready to be carried over into a workbook.

    Parameters
    ----------
    model
        The sheets.
    office
        Its house style.
    elsewhere
        Has the records of some of them.
    """
    from sheetcalc.excel.generating.generate import write_frames
    from sheetcalc.workbook.office import PLAIN

    return write_frames(model, (office or PLAIN).style, elsewhere)


def generated(
    model: "BookModel", *, named_styles: bool = False, office: "Office | None" = None
) -> bytes:
    """Workbook file of sheets that are described as data, in the house style."""
    from sheetcalc.excel.generating.generate import write_book
    from sheetcalc.workbook.office import PLAIN

    return write_book(model, (office or PLAIN).style, named_styles=named_styles)

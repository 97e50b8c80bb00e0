"""What each command does, in three visible steps: read, calculate, write.

Libraries are imported inside the functions: a process that only explains stays quick, and the
reading child works while the others are loaded.
"""

# ruff: noqa: PLC0415 -- late imports are what this module is about, as its docstring says

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

if TYPE_CHECKING:
    from sheetcalc.domain.finding import Finding
    from sheetcalc.domain.inputs import Inputs
    from sheetcalc.domain.run import Run
    from sheetcalc.excel.errors import FileTrouble
    from sheetcalc.excel.write_back import WriteReport
    from sheetcalc.workbook.raw import RawBook
    from sheetcalc.workbook.sheet import BookModel, SheetModel
    from sheetcalc.workbook.wording import WordedFinding

Progress: TypeAlias = Callable[[str, int, int], None]
"""Told the stage, how many are done, and of how many."""

Units: TypeAlias = Literal["metric", "us"]

DONE, HAS_ERRORS = 0, 1
"""Exit codes; 3 and 4 come with the trouble itself, 2 (wrong usage) is the command line's own."""

SUFFIXES = frozenset({".xlsx", ".xlsm"})


@dataclass(frozen=True, slots=True)
class BookReport:
    """What became of one workbook.

    Attributes
    ----------
    path
        The workbook.
    exit_code
        As in the contract: 0, 1, 3 or 4.
    summary
        One line for people.
    findings
        In words.
    written
        The file that holds the results, or None.
    backup
        The workbook as it was, or None.
    left_out
        Rooms left out because of errors.
    """

    path: Path
    exit_code: int
    summary: str
    findings: "tuple[WordedFinding, ...]" = ()
    written: Path | None = None
    backup: Path | None = None
    left_out: tuple[str, ...] = ()

    def as_dict(self) -> dict[str, Any]:
        """Return the report as plain data for JSON."""
        from sheetcalc.workbook.wording import as_json

        return {
            "path": str(self.path),
            "exit_code": self.exit_code,
            "summary": self.summary,
            "written": str(self.written) if self.written else None,
            "backup": str(self.backup) if self.backup else None,
            "left_out": list(self.left_out),
            "findings": [as_json(finding) for finding in self.findings],
        }

    def messages(self, *, errors_only: bool = False) -> "Iterable[tuple[str, str]]":
        """Return the findings as text, each with its status."""
        from sheetcalc.workbook.wording import as_text

        for finding in self.findings:
            if not errors_only or finding.status == "error":
                yield finding.status, as_text(finding, self.path.name)


def find_books(places: Sequence[Path]) -> list[Path]:
    """Workbooks that arguments name: files as they are, folders by what they hold.

    Lock files, unfinished files and backups in a folder are passed over.
    """
    from sheetcalc.excel.backups import is_backup

    books: dict[Path, None] = {}
    for place in places:
        if not place.is_dir():
            books[place] = None
            continue
        for file in sorted(place.iterdir()):
            if (
                file.suffix.lower() in SUFFIXES
                and file.is_file()
                and not file.name.startswith(("~$", "."))
                and not is_backup(file)
            ):
                books[file] = None
    return list(books)


# ---------------------------------------------------------------------------------------- blank


def blank(out: Path, *, units: Units, example: bool) -> BookReport:
    """Write the blank input workbook; a file that is there already is left alone."""
    from sheetcalc.excel.errors import FileTrouble
    from sheetcalc.excel.new_file import create
    from sheetcalc.workbook.blank import blank_book

    try:
        create(out, _generated(blank_book(units, example=example), named_styles=True))
    except FileTrouble as trouble:
        return _in_trouble(out, trouble)
    return BookReport(
        out, DONE, f"{out}: written; open it and begin with the Guide tab", written=out
    )


def blank_into(book: Path, *, units: Units, example: bool) -> BookReport:
    """Add the input tabs to a workbook that exists; tabs of ours that are there stay."""
    from sheetcalc.excel.errors import FileTrouble
    from sheetcalc.excel.graft import Placement
    from sheetcalc.excel.safe_save import fingerprint
    from sheetcalc.excel.write_back import add_tabs
    from sheetcalc.workbook.blank import blank_book

    model = blank_book(units, example=example)
    placements = [Placement(f"input:{sheet.key}", sheet.name) for sheet in model.sheets]
    try:
        report = add_tabs(book, _generated(model), placements, expected=fingerprint(book))
    except FileTrouble as trouble:
        return _in_trouble(book, trouble)
    added = len(report.graft.added)
    what = f"{added} input tabs added" if added else "the input tabs are there already"
    return BookReport(
        book, DONE, f"{report.path}: {what}", written=report.path, backup=report.backup
    )


# ---------------------------------------------------------------------------------------- check


def check(book: Path, progress: Progress) -> BookReport:
    """Read and calculate, write nothing, tell the findings."""
    from sheetcalc.excel.errors import FileTrouble
    from sheetcalc.excel.read import start_reading

    try:
        pending = start_reading(book)
        _load_calculation()
        raw = pending.result()
    except FileTrouble as trouble:
        return _in_trouble(book, trouble)
    work = _calculate(raw, progress, leave_out_faulty=False)
    code = HAS_ERRORS if work.has_errors else DONE
    return BookReport(book, code, f"{book}: {_counted(work.findings)}", work.findings)


# -------------------------------------------------------------------------------------- takeoff


def takeoff(book: Path, progress: Progress, *, leave_out_faulty: bool = False) -> BookReport:
    """Read, calculate, and write the result tabs back into the same file."""
    from sheetcalc.excel.errors import FileTrouble
    from sheetcalc.excel.read import start_reading
    from sheetcalc.excel.safe_save import fingerprint

    try:
        before = fingerprint(book)
        pending = start_reading(book)
        _load_calculation()
        raw = pending.result()
        work = _calculate(raw, progress, leave_out_faulty=leave_out_faulty)
        progress("writing", 0, 0)
        sheets = work.sheets(raw)
        written = _write_back(book, sheets, before, work, everything=work.run is not None)
    except FileTrouble as trouble:
        return _in_trouble(book, trouble)
    return BookReport(
        book,
        HAS_ERRORS if work.has_errors else DONE,
        f"{written.path}: {_told(work, sheets)}{_where(written)}",
        work.findings,
        written=written.path,
        backup=written.backup,
        left_out=work.run.left_out if work.run else (),
    )


@dataclass(frozen=True, slots=True)
class _Work:
    """One workbook calculated; ``run`` is None where errors stopped it."""

    inputs: "Inputs | None"
    run: "Run | None"
    findings: "tuple[WordedFinding, ...]"

    @property
    def has_errors(self) -> bool:
        return any(finding.status == "error" for finding in self.findings)

    def sheets(self, raw: "RawBook") -> "tuple[SheetModel, ...]":
        from sheetcalc.domain.job import Job
        from sheetcalc.workbook.results import findings_only, result_sheets

        if self.run is not None:
            return result_sheets(self.run, self.findings, raw)
        job = self.inputs.job if self.inputs else Job()
        return (findings_only(self.findings, raw, job),)


def _calculate(raw: "RawBook", progress: Progress, *, leave_out_faulty: bool) -> _Work:
    """Convert and calculate; with errors there is no run, unless faulty rooms may be left out."""
    from sheetcalc.takeoff import calculate
    from sheetcalc.workbook.convert import to_inputs

    inputs, findings = to_inputs(raw)
    if inputs is None:
        return _Work(None, None, _worded(findings, raw, None))
    run = calculate(inputs, progress)
    findings = (*findings, *run.findings)
    worded = _worded(findings, raw, inputs)
    if not any(finding.status == "error" for finding in worded):
        return _Work(inputs, run, worded)
    if leave_out_faulty:
        kept = _without_faulty(inputs, findings)
        if kept is not None:
            sound, left_out = kept
            run = replace(calculate(sound, progress), left_out=left_out)
            return _Work(inputs, run, worded)
    return _Work(inputs, None, worded)


def _without_faulty(
    inputs: "Inputs", findings: "Iterable[Finding]"
) -> "tuple[Inputs, tuple[str, ...]] | None":
    """Leave out the rooms that errors name; None where one names no room, or none is left."""
    from sheetcalc.takeoff import faulty_rooms
    from sheetcalc.workbook.wording import severity_of

    errors = [f for f in findings if severity_of(f.code) == "error"]
    faulty = faulty_rooms(inputs, errors)
    if faulty is None:
        return None
    rooms = tuple(room for room in inputs.rooms if room.name not in faulty)
    if not rooms:
        return None
    return replace(inputs, rooms=rooms), tuple(sorted(faulty))


def _worded(
    findings: "Iterable[Finding]", raw: "RawBook", inputs: "Inputs | None"
) -> "tuple[WordedFinding, ...]":
    from sheetcalc.domain.measure import JobUnits
    from sheetcalc.workbook.wording import word_all

    if inputs is None:
        return word_all(findings, raw, JobUnits())
    return word_all(findings, raw, inputs.job.units, inputs.decisions)


def _write_back(
    book: Path,
    sheets: "Sequence[SheetModel]",
    before: Any,  # noqa: ANN401 - safe_save's Fingerprint, imported late
    work: _Work,
    *,
    everything: bool,
) -> "WriteReport":
    from sheetcalc.domain.job import Job
    from sheetcalc.excel.graft import Placement
    from sheetcalc.excel.write_back import add_tabs
    from sheetcalc.workbook.results import TYPED_HEADERS
    from sheetcalc.workbook.sheet import BookModel

    job = work.inputs.job if work.inputs else Job()
    placements = [Placement(s.key, s.name, TYPED_HEADERS.get(s.key, ())) for s in sheets]
    return add_tabs(
        book,
        _generated(BookModel(tuple(sheets), {})),
        placements,
        expected=before,
        backups_kept=job.backups_kept,
        retire_others=everything,
    )


# -------------------------------------------------------------------------------------- explain


@dataclass(frozen=True, slots=True)
class Explanation:
    """The longer text of a name, or the nearest names."""

    name: str
    known: bool
    text: str

    def as_dict(self) -> dict[str, Any]:
        """Return the explanation as plain data for JSON."""
        return {"name": self.name, "known": self.known, "text": self.text}


def explain(name: str) -> Explanation:
    """Explain a finding's code, a line of the takeoff, a basis or a setting, with its source."""
    from sheetcalc.workbook.wording import explain as texts

    more = _more_texts()
    text = texts.explain(name, more)
    if text is not None:
        return Explanation(name, known=True, text=text)
    nearest = texts.nearest_to(name, more)
    hint = f"; nearest: {', '.join(nearest)}" if nearest else ""
    return Explanation(name, known=False, text=f"nothing is called {name!r}{hint}")


def _more_texts() -> dict[str, str]:
    """Lines and bases, by name."""
    from sheetcalc.lines import JOB_LINES, LINES
    from sheetcalc.rules.bases import BASES

    texts = {basis.key: f"{basis.key} (basis): {basis.about}" for basis in BASES.values()}
    for line in (*LINES, *JOB_LINES):
        texts[line.key] = f"{line.key} (line of the takeoff): {line.title}\n\n{line.about}"
    return texts


# --------------------------------------------------------------------------------------- shared


def _load_calculation() -> None:
    """Import what the calculation needs while the child reads."""
    import sheetcalc.excel.generate
    import sheetcalc.excel.write_back
    import sheetcalc.takeoff
    import sheetcalc.workbook.convert
    import sheetcalc.workbook.results  # noqa: F401 - imported so that it is loaded


def _generated(model: "BookModel", *, named_styles: bool = False) -> bytes:
    from sheetcalc.excel.generate import write_book
    from sheetcalc.workbook.house_style import load_house_style

    return write_book(model, load_house_style(), named_styles=named_styles)


def _in_trouble(book: Path, trouble: "FileTrouble") -> BookReport:
    from sheetcalc.domain.finding import Finding
    from sheetcalc.domain.measure import JobUnits
    from sheetcalc.workbook.wording import word

    worded = word(Finding(trouble.code, facts=trouble.facts), JobUnits())
    return BookReport(book, trouble.exit_code, f"{book}: not touched ({trouble.code})", (worded,))


def _counted(findings: "Sequence[WordedFinding]") -> str:
    counts = [
        (sum(f.status == status for f in findings), status)
        for status in ("error", "warning", "accepted", "note")
    ]
    words = [
        f"{n} {word if n == 1 or word == 'accepted' else word + 's'}" for n, word in counts if n
    ]
    return ", ".join(words) or "nothing to report"


def _told(work: _Work, sheets: "Sequence[SheetModel]") -> str:
    if work.run is None:
        return f"stopped by errors, only the Findings tab was written: {_counted(work.findings)}"
    rooms = sum(w.room.count for w in work.run.works)
    left = work.run.left_out
    incomplete = f"INCOMPLETE, left out: {', '.join(left)}; " if left else ""
    return (
        f"{incomplete}{rooms} {'room' if rooms == 1 else 'rooms'}, {len(work.run.lines)} lines, "
        f"{len(work.run.orders)} orders on {len(sheets)} tabs; {_counted(work.findings)}"
    )


def _where(written: "WriteReport") -> str:
    if written.is_copy:
        return "; written to this copy, the book itself may not be changed"
    if not written.changed:
        return "; nothing had changed"
    return f"; the file as it was: {written.backup.name}" if written.backup else ""

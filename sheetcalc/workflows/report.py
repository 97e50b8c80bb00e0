"""What a command tells of one workbook, and which workbooks it is about."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from msgspec import Struct

if TYPE_CHECKING:
    from sheetcalc.domain.words import Words
    from sheetcalc.excel.opc.errors import FileTrouble
    from sheetcalc.workbook.wording import WordedFinding

Units: TypeAlias = Literal["metric", "us"]

DONE, HAS_ERRORS = 0, 1
"""Exit codes; 3 and 4 come with the trouble itself, 2 (wrong usage) is the command line's own."""

ASKING = frozenset({"error", "warning"})
"""Status of the findings that ask for something; the others inform."""

_MOST_NAMED = 5

SUFFIXES = frozenset({".xlsx", ".xlsm"})


class BookReport(Struct, frozen=True):
    """What became of one workbook.

    Attributes
    ----------
    path
        The workbook.
    exit_code
        As in the README: 0, 1, 3 or 4.
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
    files
        Files of their own that were written, such as orders.
    repeated
        Those of the findings that the book's Findings tab tells already: not printed again.
    """

    path: Path
    exit_code: int
    summary: str
    findings: "tuple[WordedFinding, ...]" = ()
    written: Path | None = None
    backup: Path | None = None
    left_out: tuple[str, ...] = ()
    files: tuple[Path, ...] = ()
    repeated: "tuple[WordedFinding, ...]" = ()

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
            "files": [str(file) for file in self.files],
            "findings": [as_json(finding) for finding in self.findings],
        }

    def messages(
        self, *, errors_only: bool = False, notes: bool = True, words: "Words | None" = None
    ) -> "Iterable[tuple[str, str]]":
        """Return the findings as text, each with its status; errors are told each time.

        ``words`` are those that the findings are told in; English where None.  Without ``notes``
        errors and warnings alone.
        """
        from sheetcalc.domain.words import ENGLISH
        from sheetcalc.workbook.wording import as_text

        said = words or ENGLISH
        repeated = frozenset(self.repeated)
        for finding in self.findings:
            if not notes and finding.status not in ASKING:
                continue
            if finding.status == "error" or not (errors_only or finding in repeated):
                yield finding.status, as_text(finding, self.path.name, said)


def notes_of(reports: "Sequence[BookReport]") -> list[str]:
    """Sum up what informs only: a line for each code, with the workbooks that have it."""
    books: dict[str, list[str]] = {}
    for report in reports:
        for finding in report.findings:
            if finding.status not in ASKING:
                books.setdefault(finding.code, []).append(report.path.name)
    lines = []
    for code, names in sorted(books.items()):
        times = f"{len(names)} times" if len(names) > 1 else "once"
        named = list(dict.fromkeys(names))
        more = f" and {len(named) - _MOST_NAMED} more" if len(named) > _MOST_NAMED else ""
        lines.append(f"{code}  {times}: {', '.join(named[:_MOST_NAMED])}{more}")
    return lines


def find_books(places: Sequence[Path]) -> list[Path]:
    """Workbooks that arguments name: files as they are, folders by what they hold.

    Lock files, unfinished files and backups in a folder are passed over, and backups of a workbook
    that is named too: ``*.xlsx`` is a list of files when it comes here.
    """
    from sheetcalc.excel.saving.backups import book_of, is_backup

    books: dict[Path, None] = {}
    for place in places:
        if not place.is_dir():
            if book_of(place) not in places:
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


def trouble_with_templates(folder: Path) -> str:
    """Say why an office's folder of templates can't be used; "" where it can."""
    from sheetcalc.workbook.office import load_office
    from sheetcalc.workbook.template_data import template_records

    try:
        office = load_office(folder)
        _ = office.style
        for system in ("metric", "us"):
            template_records(system, folder)
    except (OSError, ValueError, KeyError) as trouble:
        return str(trouble)
    return ""


def words_of(folder: Path) -> "Words":
    """Return the words of an office's folder of templates."""
    from sheetcalc.workbook.office import load_office

    return load_office(folder).words


def notes_on_templates(folder: Path) -> tuple[str, ...]:
    """Say what an office's folder of templates lacks without being wrong."""
    from sheetcalc.workbook.words import notes_on_words

    return notes_on_words(folder)


def in_trouble(book: Path, trouble: "FileTrouble", templates: Path | None = None) -> BookReport:
    """Report of a workbook that was refused, or could not be read or written.

    Parameters
    ----------
    book, trouble
        The workbook, and what is the matter with it.
    templates
        An office's own, whose words it is told in.
    """
    from sheetcalc.domain.finding import Finding
    from sheetcalc.domain.measure import JobUnits
    from sheetcalc.domain.words import ENGLISH
    from sheetcalc.workbook.wording import word

    words = words_of(templates) if templates else ENGLISH
    worded = word(Finding(trouble.code, facts=trouble.facts), JobUnits(), words=words)
    told = words.fill("{book}: not touched ({code})", book=book, code=trouble.code)
    return BookReport(book, trouble.exit_code, told, (worded,))


def counted(
    findings: "Sequence[WordedFinding]",
    words: "Words | None" = None,
    repeated: "Sequence[WordedFinding]" = (),
) -> str:
    """How many findings of each status, in words, and how many the Findings tab tells already.

    Parameters
    ----------
    findings
        Of a workbook.
    words
        The office's; English where None.
    repeated
        Those of them that its Findings tab tells.
    """
    from sheetcalc.domain.words import ENGLISH

    said = words or ENGLISH
    counts = [
        (sum(f.status == status for f in findings), one, many) for status, one, many in _COUNTED
    ]
    told = ", ".join(said.fill(one if n == 1 else many, number=n) for n, one, many in counts if n)
    found = told or said.say("nothing to report")
    if not repeated:
        return found
    if len(repeated) == len(findings):
        return said.fill("{found}, all told on the Findings tab", found=found)
    return said.fill(
        "{found}, {number} told on the Findings tab", found=found, number=len(repeated)
    )


_COUNTED = (
    ("error", "{number} error", "{number} errors"),
    ("warning", "{number} warning", "{number} warnings"),
    ("accepted", "{number} accepted", "{number} accepted"),
    ("note", "{number} note", "{number} notes"),
)
"""A status, and how one finding and several of it are counted."""

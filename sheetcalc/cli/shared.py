"""What the commands share: options, exit codes, printing, the progress bar."""

import json
import os
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from sheetcalc import __version__, workflows
from sheetcalc.domain.progress import silent

if TYPE_CHECKING:
    from sheetcalc.workflows import BookReport, Progress

EXIT_WRONG_USAGE = 2
EXIT_INTERRUPTED = 130
"""What shells return for a command that a person stopped."""

BOOKS = click.argument(
    "books",
    nargs=-1,
    required=True,
    metavar="BOOK...",
    type=click.Path(path_type=Path),
)
AS_JSON = click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")


_WORDS = "sheetcalc.words"
"""Key of a command's context: the office's words."""


def _checked_templates(
    context: click.Context, _option: click.Parameter, folder: Path | None
) -> Path | None:
    """Refuse a folder of templates that can't be used, before anything is done."""
    trouble = workflows.trouble_with_templates(folder) if folder else ""
    if trouble:
        raise click.BadParameter(trouble)
    if folder:
        context.meta[_WORDS] = workflows.words_of(folder)
        for note in workflows.notes_on_templates(folder):
            click.secho(note, err=True, fg="yellow")
    return folder


TEMPLATES = click.option(
    "--templates",
    metavar="DIR",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    callback=_checked_templates,
    envvar="SHEETCALC_TEMPLATES",
    show_envvar=True,
    help="The office's own templates: logo, words, house style, price lists.",
)


def new_workbook(
    _context: click.Context, _option: click.Parameter, file: Path | None
) -> Path | None:
    """Refuse a name that spreadsheet programs would not open a new workbook by."""
    if file is not None and file.suffix.lower() != ".xlsx":
        message = f"{file}: a workbook's name ends in .xlsx, so call it {file.with_suffix('.xlsx')}"
        raise click.BadParameter(message)
    return file


QUIET = click.option("--quiet", "-q", is_flag=True, help="Print errors and the summary only.")


class _Commands(click.Group):
    """The commands, of which each may be stopped by a person."""

    def invoke(self, context: click.Context) -> Any:  # noqa: ANN401 - as click declares it
        """Run a command; stopped, it leaves as shells expect, not as if a workbook had errors."""
        try:
            return super().invoke(context)
        except KeyboardInterrupt:
            click.echo("interrupted: every file is as it was or complete", err=True)
            context.exit(EXIT_INTERRUPTED)


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="sheetcalc")
def main() -> None:
    """Takeoff and purchase orders for bathroom floors, inside your own workbook.

    Make an input workbook with `blank`, fill it in, run `takeoff`: the quantities, the setting
    out, the cable schedule and an order for each supplier come back into the same file.
    """
    # colours only on a terminal, and not where a person has said so (no-color.org)
    if os.environ.get("NO_COLOR"):
        click.get_current_context().color = False


def each(
    books: tuple[Path, ...],
    run: Callable[[Path, "Progress"], "BookReport"],
    *,
    as_json: bool,
    quiet: bool,
) -> None:
    """Run over every workbook that the arguments name, then report and leave."""
    reports: list[BookReport] = []
    paths = workflows.find_books(books)
    with progress_bar(len(paths), as_json=as_json, quiet=quiet) as bar:
        for path in paths:
            report = run(path, bar(path.name))
            reports.append(report)
            if not as_json:
                print_report(report, quiet=quiet)
    if not reports:
        click.echo("no workbook found: name .xlsx or .xlsm files, or folders that hold them")
        sys.exit(EXIT_WRONG_USAGE)
    finish(reports, as_json=as_json, quiet=quiet, printed=True)


def finish(  # noqa: PLR0913 - what is told, and how
    reports: "list[BookReport]",
    *,
    as_json: bool,
    quiet: bool,
    printed: bool = False,
    summary: bool = True,
    least: int = 0,
    of: int = 0,
) -> None:
    """Print what became of the books, or one JSON document, and leave with the highest code.

    ``of`` counts those that were to be done, where a run was interrupted.
    """
    code = max([least, *(report.exit_code for report in reports)])
    if as_json:
        document = {"exit_code": code, "books": [report.as_dict() for report in reports]}
        click.echo(json.dumps(document, ensure_ascii=False, indent=2))
    else:
        if not printed:
            for report in reports:
                print_report(report, quiet=quiet)
        if summary and max(of, len(reports)) > 1:
            _print_summary(reports, max(of, len(reports)))
    sys.exit(code)


def print_report(report: "BookReport", *, quiet: bool, notes: bool = True) -> None:
    """Print the findings of one book, with or without those that inform only, and its summary."""
    words = click.get_current_context().meta.get(_WORDS)
    for status, message in report.messages(errors_only=quiet, notes=notes, words=words):
        heading, _, body = message.partition("\n")
        click.secho(heading, bold=True, fg=COLOUR.get(status))
        click.echo(body)
    click.echo(report.summary)


COLOUR = {"error": "red", "warning": "yellow"}


def _print_summary(reports: "list[BookReport]", of: int) -> None:
    failed = [report for report in reports if report.exit_code]
    click.echo(f"{len(reports) - len(failed)} of {of} workbooks done")
    for report in failed:
        click.echo(f"  not done, exit {report.exit_code}: {report.summary}")


@contextmanager
def progress_bar(
    total: int, *, as_json: bool, quiet: bool, verbose: bool = False
) -> Iterator[Callable[[str], "Progress"]]:
    """Show a bar on a terminal, nothing in a pipe; lines where they are asked for."""
    if verbose:
        yield _stages()
        return
    if as_json or quiet or not sys.stderr.isatty():
        yield lambda _name: silent
        return
    # Imported here: a pipe and --help need no bar.
    from rich import progress as rich_progress  # noqa: PLC0415
    from rich.console import Console  # noqa: PLC0415 -- see above

    bar: Any = rich_progress.Progress(
        rich_progress.TextColumn("{task.description}"),
        rich_progress.BarColumn(),
        rich_progress.MofNCompleteColumn(),
        console=Console(stderr=True),
        transient=True,
    )
    with bar:
        whole = bar.add_task("workbooks", total=total)
        started: list[object] = []

        def for_book(name: str) -> "Progress":
            if started:
                bar.advance(whole)
            started.append(name)

            def step(stage: str, done: int, of: int) -> None:
                bar.update(whole, description=f"{name}: {stage} {done}/{of}" if of else name)

            return step

        yield for_book


def _stages() -> Callable[[str], "Progress"]:
    """Tell each stage of each workbook, with the seconds since the start."""
    start = time.monotonic()

    def say(words: str) -> None:
        click.echo(f"{time.monotonic() - start:8.2f} s  {words}", err=True)

    def for_book(name: str) -> "Progress":
        say(name)
        told = [""]

        def step(stage: str, done: int, of: int) -> None:
            if stage != told[0] or (of and done == of):
                say(f"{name}: {stage}" + (f" {done}/{of}" if of else ""))
                told[0] = stage

        return step

    return for_book

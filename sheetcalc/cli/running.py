"""The commands that run over many workbooks: check, takeoff, watch."""

import json
import sys
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetcalc import workflows
from sheetcalc.cli.shared import (
    AS_JSON,
    BOOKS,
    EXIT_INTERRUPTED,
    EXIT_WRONG_USAGE,
    QUIET,
    TEMPLATES,
    finish,
    main,
    print_report,
    progress_bar,
)

if TYPE_CHECKING:
    from sheetcalc.workflows import BookCommand, BookReport

VERBOSE = click.option(
    "--verbose", "-v", is_flag=True, help="Say on standard error what is being done, and when."
)
WORKERS = click.option(
    "--workers",
    metavar="N",
    type=click.IntRange(min=1),
    help="Processes that share the work; by default one for each core.",
)
CLUSTER = click.option(
    "--cluster",
    metavar="ADDRESS",
    help="Work on a dask cluster whose workers see the same files (sheetcalc[cluster]).",
)
LEAVE_OUT_FAULTY = click.option(
    "--leave-out-faulty",
    is_flag=True,
    help="Take off the rooms without errors; every result then says INCOMPLETE.",
)
NO_CARDS = click.option(
    "--no-cards", is_flag=True, help="Leave out Room cards and Cable plans, with their drawings."
)


@main.command()
@BOOKS
@TEMPLATES
@WORKERS
@CLUSTER
@AS_JSON
@QUIET
@VERBOSE
def check(  # noqa: PLR0913 - a command's options, each by its name
    books: tuple[Path, ...],
    *,
    templates: Path | None,
    workers: int | None,
    cluster: str | None,
    as_json: bool,
    quiet: bool,
    verbose: bool,
) -> None:
    """Check workbooks (files or folders); write nothing."""
    command = workflows.BookCommand("check", templates=templates.absolute() if templates else None)
    _each(books, command, (workers, cluster), as_json=as_json, quiet=quiet, verbose=verbose)


@main.command()
@BOOKS
@LEAVE_OUT_FAULTY
@NO_CARDS
@TEMPLATES
@WORKERS
@CLUSTER
@AS_JSON
@QUIET
@VERBOSE
def takeoff(  # noqa: PLR0913 - a command's options, each by its name
    books: tuple[Path, ...],
    *,
    leave_out_faulty: bool,
    no_cards: bool,
    templates: Path | None,
    workers: int | None,
    cluster: str | None,
    as_json: bool,
    quiet: bool,
    verbose: bool,
) -> None:
    """Take off workbooks (files or folders), into the same files.

    Findings, quantities, setting out, cables, rolls, orders and the quote become tabs after the
    workbook's own; a dated backup stands beside it.
    """
    command = _takeoff(templates, leave_out_faulty=leave_out_faulty, no_cards=no_cards)
    _each(books, command, (workers, cluster), as_json=as_json, quiet=quiet, verbose=verbose)


@main.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False, exists=True))
@LEAVE_OUT_FAULTY
@NO_CARDS
@TEMPLATES
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document a line.")
@QUIET
def watch(  # noqa: PLR0913 - a command's options, each by its name
    folder: Path,
    *,
    leave_out_faulty: bool,
    no_cards: bool,
    templates: Path | None,
    as_json: bool,
    quiet: bool,
) -> None:
    """Take off each workbook in FOLDER once saved and closed.

    Until Ctrl-C; folders within it are not watched.
    """

    def tell(report: "BookReport") -> None:
        if as_json:
            click.echo(json.dumps(report.as_dict(), ensure_ascii=False))
        elif report.exit_code or not quiet:
            now = datetime.now()  # noqa: DTZ005 - the clock on the wall
            click.secho(f"{now:%H:%M:%S}  {report.summary}", fg="red" if report.exit_code else None)

    command = _takeoff(templates, leave_out_faulty=leave_out_faulty, no_cards=no_cards)
    workflows.watch(folder, command, tell, say=_note)


def _takeoff(templates: Path | None, *, leave_out_faulty: bool, no_cards: bool) -> "BookCommand":
    return workflows.BookCommand(
        "takeoff",
        leave_out_faulty=leave_out_faulty,
        cards=not no_cards,
        templates=templates.absolute() if templates else None,
    )


def _note(message: str) -> None:
    click.secho(message, err=True, fg="yellow")


def _each(  # noqa: PLR0913 - what is done, by whom, and how it is told
    books: tuple[Path, ...],
    command: "BookCommand",
    by: tuple[int | None, str | None],
    *,
    as_json: bool,
    quiet: bool,
    verbose: bool,
) -> None:
    """Run over every workbook that the arguments name, then report and leave."""
    workers, cluster = by
    if workers is not None and cluster is not None:
        message = "--workers counts processes here, --cluster works elsewhere: give one of them"
        raise click.UsageError(message)
    reports: list[BookReport] = []
    paths = workflows.find_books(books)
    interrupted = False
    try:
        with progress_bar(len(paths), as_json=as_json, quiet=quiet, verbose=verbose) as bar:
            for report in workflows.run_books(
                paths, command, for_book=bar, workers=workers, cluster=cluster, warn=_note
            ):
                reports.append(report)
                if not as_json:
                    print_report(report, quiet=quiet, notes=len(paths) == 1)
    except workflows.NoClusterError as missing:
        raise click.UsageError(str(missing)) from missing
    except (workflows.InterruptedRunError, KeyboardInterrupt):
        interrupted = True
        _note(
            f"interrupted: {len(paths) - len(reports)} of {len(paths)} workbooks were not done; "
            "every file is as it was or complete"
        )
    if not reports and not interrupted:
        click.echo("no workbook found: name .xlsx or .xlsm files, or folders that hold them")
        sys.exit(EXIT_WRONG_USAGE)
    if len(paths) > 1 and not (as_json or quiet):
        _sum_up(reports)
    least = EXIT_INTERRUPTED if interrupted else 0
    finish(reports, as_json=as_json, quiet=quiet, printed=True, least=least, of=len(paths))


def _sum_up(reports: "list[BookReport]") -> None:
    """Tell the notes of many workbooks together: hundreds of lines would hide the warnings."""
    notes = workflows.notes_of(reports)
    if notes:
        click.echo("notes, whole where a workbook is run alone; after takeoff on its Findings tab:")
        for line in notes:
            click.echo(f"  {line}")

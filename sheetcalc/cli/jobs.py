"""The commands round the job: blank, orders, explain."""

import json
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetcalc import workflows
from sheetcalc.cli.shared import (
    AS_JSON,
    BOOKS,
    EXIT_WRONG_USAGE,
    QUIET,
    TEMPLATES,
    finish,
    main,
    new_workbook,
    progress_bar,
)

if TYPE_CHECKING:
    from sheetcalc.workflows import Units


@main.command()
@click.argument(
    "out",
    required=False,
    metavar="[OUT.xlsx]",
    type=click.Path(path_type=Path, dir_okay=False),
    callback=new_workbook,
)
@click.option(
    "--into",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Add the input tabs to a workbook that exists.",
)
@click.option(
    "--units",
    type=click.Choice(["metric", "us"]),
    default="metric",
    show_default=True,
    help="Units of the job: m, mm, L and kg, or ft, in, ft³ and lb.",
)
@click.option("--example", is_flag=True, help="Fill in an invented example.")
@TEMPLATES
@AS_JSON
@QUIET
def blank(  # noqa: PLR0913 - a command's options, each by its name
    out: Path | None,
    into: Path | None,
    units: "Units",
    *,
    example: bool,
    templates: Path | None,
    as_json: bool,
    quiet: bool,
) -> None:
    """Write the blank input workbook OUT, or add its tabs with --into."""
    if (out is None) == (into is None):
        message = "give either a file to write, or --into with a workbook that exists"
        raise click.UsageError(message)
    if into is not None:
        report = workflows.blank_into(into, units=units, example=example, templates=templates)
    else:
        report = workflows.blank(_given(out), units=units, example=example, templates=templates)
    finish([report], as_json=as_json, quiet=quiet)


def _day(_context: click.Context, _option: click.Parameter, text: str | None) -> date | None:
    """Read a date that can be read in one way only."""
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        message = f"{text!r}: want year-month-day, such as 2027-03-01"
        raise click.BadParameter(message) from None


@main.command()
@BOOKS
@click.option(
    "--to",
    required=True,
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="Folder for the orders; what stands in it is never replaced.",
)
@click.option(
    "--leave-out-faulty", is_flag=True, help="Order for the rooms without errors, as INCOMPLETE."
)
@click.option(
    "--combined",
    is_flag=True,
    help="One order a supplier for all the workbooks, rounded up once on the whole.",
)
@click.option(
    "--prefix",
    default=workflows.TOGETHER,
    show_default=True,
    help="Of the numbers of combined orders.",
)
@click.option(
    "--date",
    "issued",
    metavar="YEAR-MONTH-DAY",
    callback=_day,
    help="Date of new orders and revisions. Default: today.",
)
@TEMPLATES
@AS_JSON
@QUIET
def orders(  # noqa: PLR0913 - a command's options, each by its name
    books: tuple[Path, ...],
    *,
    to: Path,
    leave_out_faulty: bool,
    combined: bool,
    prefix: str,
    issued: date | None,
    templates: Path | None,
    as_json: bool,
    quiet: bool,
) -> None:
    """Write each supplier's orders as files to send.

    A workbook and a CSV for each supplier and phase; the books are only read.  Orders that are as
    they were are left alone; a changed one gets another revision, which says what has changed.
    """
    paths = workflows.find_books(books)
    if any(path.resolve().parent == to.resolve() for path in paths):
        message = "--to must be a folder of its own, not one that the workbooks stand in"
        raise click.UsageError(message)
    if not paths:
        click.echo("no workbook found: name .xlsx or .xlsm files, or folders that hold them")
        sys.exit(EXIT_WRONG_USAGE)
    if combined and leave_out_faulty:
        message = "--combined rounds over whole jobs: nothing can be left out of it"
        raise click.UsageError(message)
    day = issued or date.today()  # noqa: DTZ011 - an order's date is the office's own
    with progress_bar(len(paths), as_json=as_json, quiet=quiet) as bar:
        step = bar(paths[0].name)
        if combined:
            reports = workflows.orders_together(
                paths, to, step, issued=day, prefix=prefix, templates=templates
            )
        else:
            reports = workflows.orders(
                paths,
                to,
                step,
                issued=day,
                leave_out_faulty=leave_out_faulty,
                templates=templates,
            )
    finish(reports, as_json=as_json, quiet=quiet, summary=not combined)


def _names_like(_context: click.Context, _argument: click.Parameter, incomplete: str) -> list[str]:
    """Complete what can be explained, in any case."""
    begun = incomplete.casefold()
    return [name for name in workflows.names_to_explain() if name.casefold().startswith(begun)]


@main.command()
@click.argument("name", nargs=-1, required=True, shell_complete=_names_like)
@AS_JSON
def explain(name: tuple[str, ...], *, as_json: bool) -> None:
    """Explain a finding, line, basis, setting, tab or column.

    It is told with its source.  A name of several words needs no quotation marks.
    """
    explanation = workflows.explain(" ".join(name))
    if as_json:
        click.echo(json.dumps(explanation.as_dict(), ensure_ascii=False, indent=2))
    else:
        click.echo(explanation.text)
    sys.exit(0 if explanation.known else EXIT_WRONG_USAGE)


def _given(path: Path | None) -> Path:
    if path is None:  # the caller has checked
        raise click.UsageError("no file given")  # noqa: EM101, TRY003 -- one short sentence
    return path

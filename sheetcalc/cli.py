"""The command line: arguments, exit codes, progress.  Everything it does is in ``workflows``."""

import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from sheetcalc import __version__, workflows

if TYPE_CHECKING:
    from sheetcalc.workflows import BookReport, Progress, Units

EXIT_WRONG_USAGE = 2

_BOOKS = click.argument(
    "books",
    nargs=-1,
    required=True,
    metavar="BOOK...",
    type=click.Path(path_type=Path),
)
_JSON = click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")


def _checked_templates(
    _context: click.Context, _option: click.Parameter, folder: Path | None
) -> Path | None:
    """Refuse a folder of templates that can't be used, before anything is done."""
    trouble = workflows.trouble_with_templates(folder) if folder else ""
    if trouble:
        raise click.BadParameter(trouble)
    return folder


_TEMPLATES = click.option(
    "--templates",
    metavar="DIR",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    callback=_checked_templates,
    help="The office's own templates: logo, words, house style, price lists.",
)
_QUIET = click.option("--quiet", "-q", is_flag=True, help="Print errors and the summary only.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="sheetcalc")
def main() -> None:
    """Takeoff and purchase orders for bathroom floors, inside your own workbook.

    Make an input workbook with `blank`, fill it in, run `takeoff`: the quantities, the setting
    out, the cable schedule and an order for each supplier come back into the same file.
    """


@main.command()
@click.argument("out", required=False, type=click.Path(path_type=Path, dir_okay=False))
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
@_TEMPLATES
@_JSON
def blank(  # noqa: PLR0913 - a command's options, each by its name
    out: Path | None,
    into: Path | None,
    units: "Units",
    *,
    example: bool,
    templates: Path | None,
    as_json: bool,
) -> None:
    """Write the blank input workbook OUT, or add its tabs to a workbook with --into."""
    if (out is None) == (into is None):
        message = "give either a file to write, or --into with a workbook that exists"
        raise click.UsageError(message)
    if into is not None:
        report = workflows.blank_into(into, units=units, example=example, templates=templates)
    else:
        report = workflows.blank(_given(out), units=units, example=example, templates=templates)
    _finish([report], as_json=as_json, quiet=False)


@main.command()
@_BOOKS
@_JSON
@_QUIET
def check(books: tuple[Path, ...], *, as_json: bool, quiet: bool) -> None:
    """Read and check workbooks (files or folders); print the findings, write nothing."""
    _each(books, workflows.check, as_json=as_json, quiet=quiet)


@main.command()
@_BOOKS
@click.option(
    "--leave-out-faulty",
    is_flag=True,
    help="Take off the rooms without errors; every result then says INCOMPLETE.",
)
@click.option("--no-cards", is_flag=True, help="Leave out the Room cards tab and its drawings.")
@_TEMPLATES
@_JSON
@_QUIET
def takeoff(  # noqa: PLR0913 - a command's options, each by its name
    books: tuple[Path, ...],
    *,
    leave_out_faulty: bool,
    no_cards: bool,
    templates: Path | None,
    as_json: bool,
    quiet: bool,
) -> None:
    """Calculate workbooks (files or folders) and write the result tabs back into each."""

    def run(path: Path, progress: "Progress") -> "BookReport":
        return workflows.takeoff(
            path,
            progress,
            leave_out_faulty=leave_out_faulty,
            cards=not no_cards,
            templates=templates,
        )

    _each(books, run, as_json=as_json, quiet=quiet)


@main.command()
@_BOOKS
@click.option(
    "--to",
    required=True,
    metavar="FOLDER",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder for the quotes.",
)
@click.option(
    "--leave-out-faulty", is_flag=True, help="Quote the rooms without errors, as INCOMPLETE."
)
@_TEMPLATES
@_JSON
@_QUIET
def quote(  # noqa: PLR0913 - a command's options, each by its name
    books: tuple[Path, ...],
    *,
    to: Path,
    leave_out_faulty: bool,
    templates: Path | None,
    as_json: bool,
    quiet: bool,
) -> None:
    """Write the quote for the client, without costs and margins, as a file of its own."""

    def run(path: Path, progress: "Progress") -> "BookReport":
        return workflows.quote(
            path, progress, to=to, leave_out_faulty=leave_out_faulty, templates=templates
        )

    _each(books, run, as_json=as_json, quiet=quiet)


@main.command()
@_BOOKS
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
    type=click.DateTime(["%Y-%m-%d"]),
    help="Date of new orders and revisions. Default: today.",
)
@_TEMPLATES
@_JSON
@_QUIET
def orders(  # noqa: PLR0913 - a command's options, each by its name
    books: tuple[Path, ...],
    *,
    to: Path,
    leave_out_faulty: bool,
    combined: bool,
    prefix: str,
    issued: datetime | None,
    templates: Path | None,
    as_json: bool,
    quiet: bool,
) -> None:
    """Write each supplier's orders as workbooks and CSV, to send; the books are only read.

    Orders that are as they were are left alone; a changed one gets another revision, which says
    what has changed.
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
    day = (issued or datetime.now()).date()  # noqa: DTZ005 - an order's date is the office's own
    with _progress(len(paths), as_json=as_json, quiet=quiet) as bar:
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
    _finish(reports, as_json=as_json, quiet=quiet, summary=not combined)


@main.command()
@click.argument("old", metavar="A", type=click.Path(path_type=Path))
@click.argument("new", metavar="B", type=click.Path(path_type=Path))
@click.option(
    "--to",
    metavar="FILE.xlsx",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write the comparison to a new workbook as well.",
)
@_JSON
def compare(old: Path, new: Path, *, to: Path | None, as_json: bool) -> None:
    """Compare two workbooks, or a workbook with a backup: inputs, quantities, packs, money."""
    with _progress(2, as_json=as_json, quiet=False) as bar:
        report = workflows.compare(old, new, bar(new.name), to=to)
    if as_json:
        click.echo(json.dumps(report.as_dict(), ensure_ascii=False, indent=2))
    else:
        for book in report.books:
            _print_report(book, quiet=True)
        click.echo(report.text)
        if report.written:
            click.echo(f"\n{report.written}: written")
    sys.exit(report.exit_code)


@main.command()
@click.argument("book", type=click.Path(path_type=Path))
@click.option(
    "--from",
    "price_list",
    required=True,
    metavar="LIST",
    type=click.Path(path_type=Path),
    help="The supplier's list: a workbook, or text with separators.",
)
@click.option("--supplier", default="", help="Whose list it is, as in Suppliers.")
@click.option("--tab", default="", help="Catalogue tab for codes that are new.")
@click.option(
    "--everything",
    is_flag=True,
    help="Change every column that the list has; otherwise prices and lead days, and empty cells.",
)
@click.option("--apply", is_flag=True, help="Write the changes; without it they are only shown.")
@_JSON
def prices(  # noqa: PLR0913 - a command's options, each by its name
    book: Path,
    price_list: Path,
    *,
    supplier: str,
    tab: str,
    everything: bool,
    apply: bool,
    as_json: bool,
) -> None:
    """Show what a supplier's price list changes in the catalogue tabs, and write it if told."""
    report = workflows.prices(
        book, price_list, apply=apply, supplier=supplier, tab=tab, everything=everything
    )
    if as_json:
        click.echo(json.dumps(report.as_dict(), ensure_ascii=False, indent=2))
    else:
        if report.text:
            click.echo(report.text + "\n")
        for status, message in report.messages():
            heading, _, body = message.partition("\n")
            click.secho(heading, bold=True, fg=_COLOUR.get(status))
            click.echo(body)
        click.echo(report.summary)
    sys.exit(report.exit_code)


@main.command()
@click.argument("code")
@_JSON
def explain(code: str, *, as_json: bool) -> None:
    """Explain a finding, a line of the takeoff, a basis or a setting, with its source."""
    explanation = workflows.explain(code)
    if as_json:
        click.echo(json.dumps(explanation.as_dict(), ensure_ascii=False, indent=2))
    else:
        click.echo(explanation.text)
    sys.exit(0 if explanation.known else EXIT_WRONG_USAGE)


def _given(path: Path | None) -> Path:
    if path is None:  # the caller has checked
        raise click.UsageError("no file given")  # noqa: EM101, TRY003 -- one short sentence
    return path


def _each(
    books: tuple[Path, ...],
    run: Callable[[Path, "Progress"], "BookReport"],
    *,
    as_json: bool,
    quiet: bool,
) -> None:
    """Run over every workbook that the arguments name, then report and leave."""
    reports: list[BookReport] = []
    paths = workflows.find_books(books)
    with _progress(len(paths), as_json=as_json, quiet=quiet) as bar:
        for path in paths:
            report = run(path, bar(path.name))
            reports.append(report)
            if not as_json:
                _print_report(report, quiet=quiet)
    if not reports:
        click.echo("no workbook found: name .xlsx or .xlsm files, or folders that hold them")
        sys.exit(EXIT_WRONG_USAGE)
    _finish(reports, as_json=as_json, quiet=quiet, printed=True)


def _finish(
    reports: "list[BookReport]",
    *,
    as_json: bool,
    quiet: bool,
    printed: bool = False,
    summary: bool = True,
) -> None:
    code = max(report.exit_code for report in reports)
    if as_json:
        document = {"exit_code": code, "books": [report.as_dict() for report in reports]}
        click.echo(json.dumps(document, ensure_ascii=False, indent=2))
    else:
        if not printed:
            for report in reports:
                _print_report(report, quiet=quiet)
        if summary and len(reports) > 1:
            _print_summary(reports)
    sys.exit(code)


def _print_report(report: "BookReport", *, quiet: bool) -> None:
    for status, message in report.messages(errors_only=quiet):
        heading, _, body = message.partition("\n")
        click.secho(heading, bold=True, fg=_COLOUR.get(status))
        click.echo(body)
    click.echo(report.summary)


_COLOUR = {"error": "red", "warning": "yellow"}


def _print_summary(reports: "list[BookReport]") -> None:
    failed = [report for report in reports if report.exit_code]
    click.echo(f"{len(reports) - len(failed)} of {len(reports)} workbooks done")
    for report in failed:
        click.echo(f"  not done: {report.path} (exit {report.exit_code}): {report.summary}")


@contextmanager
def _progress(total: int, *, as_json: bool, quiet: bool) -> Iterator[Callable[[str], "Progress"]]:
    """Show a bar on a terminal, nothing in a pipe."""
    if as_json or quiet or not sys.stderr.isatty():
        yield lambda _name: _silent
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


def _silent(_stage: str, _done: int, _of: int) -> None:
    """No progress wanted."""

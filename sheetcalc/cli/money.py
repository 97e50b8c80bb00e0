"""The commands about money: quote, compare, prices."""

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetcalc import workflows
from sheetcalc.cli.shared import (
    AS_JSON,
    BOOKS,
    COLOUR,
    QUIET,
    TEMPLATES,
    each,
    main,
    new_workbook,
    print_report,
    progress_bar,
)

if TYPE_CHECKING:
    from sheetcalc.workflows import BookReport, Progress


def _renamed(columns: tuple[str, ...]) -> dict[str, str]:
    """Headers of a list by what they stand for; wrong usage where that is no column of ours."""
    if not columns:
        return {}
    from sheetcalc.workbook.prices.headers import is_ours  # noqa: PLC0415 - only where it is asked

    renamed = {}
    for column in columns:
        theirs, sign, ours = column.partition("=")
        if not sign or not theirs.strip() or not is_ours(ours):
            message = f"{column!r}: want THEIRS=OURS, with OURS a header of a catalogue tab"
            raise click.BadParameter(message, param_hint="'--column'")
        renamed[theirs.strip()] = ours.strip()
    return renamed


def _catalogue_tab(_context: click.Context, _option: click.Parameter, tab: str) -> str:
    """Refuse a tab that no price stands on: what is new would be left out without a word."""
    if tab:
        from sheetcalc.workbook.prices.headers import CATALOGUE  # noqa: PLC0415 - as above

        names = [catalogue.key for catalogue in CATALOGUE]
        if tab.strip().casefold() not in {name.casefold() for name in names}:
            message = f"{tab!r} is no catalogue tab: want one of {', '.join(names)}"
            raise click.BadParameter(message)
    return tab


@main.command()
@BOOKS
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
@TEMPLATES
@AS_JSON
@QUIET
def quote(  # noqa: PLR0913 - a command's options, each by its name
    books: tuple[Path, ...],
    *,
    to: Path,
    leave_out_faulty: bool,
    templates: Path | None,
    as_json: bool,
    quiet: bool,
) -> None:
    """Write the client's quote, without costs and margins."""

    def run(path: Path, progress: "Progress") -> "BookReport":
        return workflows.quote(
            path, progress, to=to, leave_out_faulty=leave_out_faulty, templates=templates
        )

    each(books, run, as_json=as_json, quiet=quiet)


@main.command()
@click.argument("old", metavar="A", type=click.Path(path_type=Path))
@click.argument("new", metavar="B", type=click.Path(path_type=Path))
@click.option(
    "--to",
    metavar="FILE.xlsx",
    type=click.Path(path_type=Path, dir_okay=False),
    callback=new_workbook,
    help="Write the comparison to a new workbook as well.",
)
@TEMPLATES
@AS_JSON
@QUIET
def compare(  # noqa: PLR0913 - a command's options, each by its name
    old: Path, new: Path, *, to: Path | None, templates: Path | None, as_json: bool, quiet: bool
) -> None:
    """Tell what changed between two workbooks, or since a backup.

    In the inputs, and what that did to quantities, packs and money.
    """
    with progress_bar(2, as_json=as_json, quiet=quiet) as bar:
        report = workflows.compare(old, new, bar(new.name), to=to, templates=templates)
    if as_json:
        click.echo(json.dumps(report.as_dict(), ensure_ascii=False, indent=2))
    else:
        if report.text and not quiet:
            click.echo(f"{report.text}\n")
        for book in report.books:  # below the tables, which may be long: what went wrong is seen
            print_report(book, quiet=True)
        if report.summary:
            click.echo(report.summary)
        if report.written:
            click.echo(f"{report.written}: written")
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
@click.option(
    "--tab", default="", callback=_catalogue_tab, help="Catalogue tab for codes that are new."
)
@click.option(
    "--everything",
    is_flag=True,
    help="Change every column that the list has; otherwise prices and lead days, and empty cells.",
)
@click.option(
    "--column",
    "columns",
    multiple=True,
    metavar="THEIRS=OURS",
    help="What a header of the list stands for, such as Preis=Price; as often as needed.",
)
@click.option("--apply", is_flag=True, help="Write the changes; without it they are only shown.")
@AS_JSON
@QUIET
def prices(  # noqa: PLR0913 - a command's options, each by its name
    book: Path,
    price_list: Path,
    *,
    supplier: str,
    tab: str,
    everything: bool,
    columns: tuple[str, ...],
    apply: bool,
    as_json: bool,
    quiet: bool,
) -> None:
    """Take a supplier's price list over; first only shown.

    What it changes in the catalogue tabs is listed, and written with --apply.
    """
    report = workflows.prices(
        book,
        price_list,
        apply=apply,
        supplier=supplier,
        tab=tab,
        everything=everything,
        renamed=_renamed(columns),
    )
    if as_json:
        click.echo(json.dumps(report.as_dict(), ensure_ascii=False, indent=2))
    else:
        if report.text and not quiet:
            click.echo(f"{report.text}\n")
        for status, message in report.messages(errors_only=quiet):
            heading, _, body = message.partition("\n")
            click.secho(heading, bold=True, fg=COLOUR.get(status))
            click.echo(body)
        click.echo(report.summary)
    sys.exit(report.exit_code)

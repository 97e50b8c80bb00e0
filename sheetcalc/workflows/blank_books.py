"""``sheetcalc blank``: the input workbook, new or inside one that exists."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from pathlib import Path

from sheetcalc.workflows.calculation import generated
from sheetcalc.workflows.report import DONE, BookReport, Units, in_trouble


def blank(out: Path, *, units: Units, example: bool, templates: Path | None = None) -> BookReport:
    """Write the blank input workbook; a file that is there already is left alone."""
    from sheetcalc.excel.opc.errors import FileTrouble
    from sheetcalc.excel.saving.new_file import create
    from sheetcalc.workbook.blank import blank_book
    from sheetcalc.workbook.office import load_office
    from sheetcalc.workbook.translate_inputs import inputs_in_words

    try:
        office = load_office(templates)
        model = blank_book(units, example=example, folder=templates, buyer=office.name)
        model = inputs_in_words(model, office.words)
        create(out, generated(model, named_styles=True, office=office))
    except FileTrouble as trouble:
        return in_trouble(out, trouble, templates)
    told = office.words.fill("{book}: written; open it and begin with the Guide tab", book=out)
    return BookReport(out, DONE, told, written=out)


def blank_into(
    book: Path, *, units: Units, example: bool, templates: Path | None = None
) -> BookReport:
    """Add the input tabs to a workbook that exists; tabs of ours that are there stay."""
    from sheetcalc.excel.grafting.graft import Placement
    from sheetcalc.excel.opc.errors import FileTrouble
    from sheetcalc.excel.saving.safe_save import fingerprint
    from sheetcalc.excel.saving.write_back import add_tabs
    from sheetcalc.workbook.blank import blank_book
    from sheetcalc.workbook.office import load_office
    from sheetcalc.workbook.translate_inputs import inputs_in_words

    office = load_office(templates)
    model = blank_book(units, example=example, folder=templates, buyer=office.name)
    model = inputs_in_words(model, office.words)
    placements = [Placement(f"input:{sheet.key}", sheet.name) for sheet in model.sheets]
    try:
        report = add_tabs(
            book, generated(model, office=office), placements, expected=fingerprint(book)
        )
    except FileTrouble as trouble:
        return in_trouble(book, trouble, templates)
    added = len(report.graft.added)
    there, made = "{book}: the input tabs are there already", "{book}: {number} input tabs added"
    told = office.words.fill(made if added else there, book=report.path, number=added)
    return BookReport(book, DONE, told, written=report.path, backup=report.backup)

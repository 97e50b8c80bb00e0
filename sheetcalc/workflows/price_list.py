"""``sheetcalc prices``: a supplier's list into the catalogue tabs; a preview unless told to."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from sheetcalc.workflows.report import DONE, HAS_ERRORS, in_trouble

if TYPE_CHECKING:
    from sheetcalc.domain.price_list import PricePlan
    from sheetcalc.workbook.wording import WordedFinding


class PricesReport(Struct, frozen=True):
    """What a price list does, or would do.

    Attributes
    ----------
    exit_code
        As in the README; 1 where something is wrong with the list: then nothing was written.
    text
        The preview: columns, changes, what is not in the workbook.
    summary
        One line for people.
    findings
        In words.
    data
        The preview for JSON.
    written, backup
        The workbook, and its copy as it was, where it was written.
    """

    exit_code: int
    text: str
    summary: str
    findings: "tuple[WordedFinding, ...]" = ()
    data: dict[str, Any] | None = None
    written: Path | None = None
    backup: Path | None = None

    def messages(self, *, errors_only: bool = False) -> "list[tuple[str, str]]":
        """Return the findings as text, each with its status."""
        from sheetcalc.workbook.wording import as_text

        return [
            (finding.status, as_text(finding))
            for finding in self.findings
            if finding.status == "error" or not errors_only
        ]

    def as_dict(self) -> dict[str, Any]:
        """Return the report as plain data for JSON."""
        from sheetcalc.workbook.wording import as_json

        return {
            "exit_code": self.exit_code,
            "summary": self.summary,
            "written": str(self.written) if self.written else None,
            "backup": str(self.backup) if self.backup else None,
            "findings": [as_json(finding) for finding in self.findings],
            **(self.data or {}),
        }


def prices(  # noqa: PLR0913 - the parts of an import, each by its name
    book: Path,
    price_list: Path,
    *,
    apply: bool = False,
    supplier: str = "",
    tab: str = "",
    everything: bool = False,
    renamed: Mapping[str, str] | None = None,
) -> PricesReport:
    """Match a supplier's list with the catalogue tabs; write the changes where that is asked.

    Parameters
    ----------
    book
        The workbook.
    price_list
        The supplier's workbook or text file; it is only read.
    apply
        Write; without it nothing is.
    supplier
        Whose list it is.
    tab
        Catalogue tab for codes that are new.
    everything
        Change every column that the list has, not only prices and lead days.
    renamed
        Headers of the list, and which column of the catalogue tabs each stands for.
    """
    from sheetcalc.domain.measure import JobUnits
    from sheetcalc.excel.opc.errors import FileTrouble
    from sheetcalc.excel.reading.price_list import read_price_list
    from sheetcalc.excel.reading.read import start_reading
    from sheetcalc.excel.saving.safe_save import fingerprint
    from sheetcalc.workbook.convert.job import read_job
    from sheetcalc.workbook.prices.plan import Wanted, plan_prices
    from sheetcalc.workbook.wording import word

    try:
        before = fingerprint(book)
        raw = start_reading(book).result()
    except FileTrouble as trouble:
        return _trouble(book, trouble)
    try:
        grids = read_price_list(price_list)
    except FileTrouble as trouble:
        return _trouble(price_list, trouble)
    job, _ = read_job(raw)
    plan = plan_prices(grids, raw, job.units, Wanted(supplier, tab, everything, renamed or {}))
    findings = tuple(word(finding, JobUnits()) for finding in plan.findings)
    text, data = _shown(plan, price_list), _data(plan)
    told = _counted(plan)
    if any(finding.status == "error" for finding in findings):
        summary = f"{book}: nothing written, the list has errors; without them: {told}"
        return PricesReport(HAS_ERRORS, text, summary, findings, data)
    if not apply or not plan.changes:
        hint = "; nothing written, add --apply to write this" if plan.changes else ""
        return PricesReport(DONE, text, f"{book}: {told}{hint}", findings, data)
    try:
        saved = _apply(book, plan, before, job.backups_kept)
    except FileTrouble as trouble:
        return _trouble(book, trouble)
    backup = f"; the file as it was: {saved.backup.name}" if saved.backup else ""
    summary = f"{book}: {told}{backup}; run takeoff to bring its results up to date"
    return PricesReport(DONE, text, summary, findings, data, book, saved.backup)


def _apply(book: Path, plan: "PricePlan", before: Any, backups_kept: int) -> Any:  # noqa: ANN401 - records of excel, imported late
    from sheetcalc.excel.saving.cell_edits import CellEdit, edit_cells

    edits = [
        CellEdit(change.sheet, change.cell, change.value, empty=change.what != "changed")
        for change in plan.changes
    ]
    return edit_cells(book, edits, expected=before, backups_kept=backups_kept)


def _trouble(path: Path, trouble: Any) -> PricesReport:  # noqa: ANN401 - of excel.errors, imported late
    report = in_trouble(path, trouble)
    return PricesReport(report.exit_code, "", report.summary, report.findings)


def _counted(plan: "PricePlan") -> str:
    items = {(c.tab, c.code, c.supplier) for c in plan.changes if c.what != "added"}
    added = {(c.tab, c.code, c.supplier) for c in plan.changes if c.what == "added"}
    counts = (
        (len(items), "changed"), (len(added), "added"), (plan.same, "unchanged"),
        (len(plan.unknown), "not in the workbook"),
        (len(plan.left_out), "left out without a price"),
    )  # fmt: skip
    told = [
        f"{number} {'item' if number == 1 else 'items'} {what}" for number, what in counts if number
    ]
    return ", ".join(told) or "no items"


def _shown(plan: "PricePlan", price_list: Path) -> str:
    from sheetcalc.workbook.text_table import aligned

    place = f"{plan.sheet}, row {plan.header_row}" if plan.sheet else f"row {plan.header_row}"
    parts = []
    if plan.columns:
        columns = [(c.found, c.meant or _unused(c.known)) for c in plan.columns]
        parts.append(f"Columns of {price_list.name} ({place})")
        parts.append(aligned(("In the list", "In the workbook"), columns))
    if plan.changes:
        rows = [
            (c.what, c.tab, c.cell, c.code, c.supplier, c.column, c.old, c.new, _percent(c.ratio))
            for c in plan.changes
        ]
        headers = ("What", "Tab", "Cell", "Code", "Supplier", "Column", "Now", "List", "Change")
        parts += ["", "Changes", aligned(headers, rows)]
    if plan.unknown:
        why = "added once the list has every column that their tab (--tab) must have"
        parts += ["", f"Not in the workbook, {why}: {', '.join(plan.unknown)}"]
    if plan.kept:
        parts += ["", f"Left alone, because they hold a formula: {', '.join(plan.kept)}"]
    return "\n".join(parts)


def _percent(ratio: float | None) -> str:
    return "" if ratio is None else f"{ratio - 1:+.1%}"


def _unused(known: str) -> str:
    return f"{known} (nothing taken)" if known else "(not used)"


def _data(plan: "PricePlan") -> dict[str, Any]:
    return {
        "columns": [{"found": c.found, "meant": c.meant} for c in plan.columns],
        "changes": [
            {
                "what": c.what, "tab": c.tab, "sheet": c.sheet, "cell": c.cell, "code": c.code,
                "supplier": c.supplier, "column": c.column, "old": c.old, "new": c.new,
            }
            for c in plan.changes
        ],
        "same": plan.same,
        "unknown": list(plan.unknown),
        "kept": list(plan.kept),
        "left_out": list(plan.left_out),
    }  # fmt: skip

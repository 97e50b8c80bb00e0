"""Results to sheets of typed cells, one file a result tab."""

from collections.abc import Callable, Collection, Mapping, Sequence

from msgspec.structs import replace

from sheetcalc.domain.job import Job
from sheetcalc.domain.order import empty
from sheetcalc.domain.run import Run
from sheetcalc.workbook.office import PLAIN, Office
from sheetcalc.workbook.raw import RawBook
from sheetcalc.workbook.results import call_offs, heating_rules, resistance_log, sources
from sheetcalc.workbook.results.cable_plans import cable_plans_sheets
from sheetcalc.workbook.results.call_offs import call_offs_sheets
from sheetcalc.workbook.results.deliveries import deliveries_sheet
from sheetcalc.workbook.results.findings import Worded, findings_sheet, severity_of
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.results.heating_rules import heating_rules_sheets
from sheetcalc.workbook.results.house import in_office_style
from sheetcalc.workbook.results.long_tabs import LongTab, long_tabs
from sheetcalc.workbook.results.optional import kept_pages
from sheetcalc.workbook.results.order import order_sheets, supplier_of
from sheetcalc.workbook.results.order_formulas import OrderFormulas
from sheetcalc.workbook.results.quote import quote_sheets
from sheetcalc.workbook.results.quote_formulas import QuoteFormulas
from sheetcalc.workbook.results.room_cards import Cards, room_cards_sheets
from sheetcalc.workbook.results.sources import sources_sheets
from sheetcalc.workbook.results.status import master_status
from sheetcalc.workbook.sheet import Cell, SheetModel

TYPED_HEADERS: Mapping[str, tuple[str, ...]] = {resistance_log.KEY: resistance_log.TYPED_HEADERS}
"""Key of a result tab -> headers, as written, of the columns that people fill in."""


class ResultTabs:
    """The result tabs of a run; long ones can be made apart from the others, all at the same time.

    Parameters
    ----------
    run
        What was calculated.
    findings
        All findings of the run, in words.
    raw
        The workbook as found, whose tables the live formulas look up.
    office
        Logo, terms and words of its own.
    kept
        Keys of tabs that are made though the run has nothing for them.
    """

    def __init__(
        self,
        run: Run,
        findings: Sequence[Worded],
        raw: RawBook,
        office: Office = PLAIN,
        kept: Collection[str] = (),
    ) -> None:
        self._run, self._findings, self._office = run, findings, office
        self._kept = kept
        suppliers = [s for key in kept if (s := supplier_of(key)) is not None]
        self._ordered = (*run.orders, *map(empty, suppliers))
        units = run.inputs.job.units
        severities = [severity_of(f) for f in findings]
        words = office.words
        status = master_status(severities, run.left_out, words=words)
        self._frame = Frame(raw, units, status, words)
        printed = master_status(severities, run.left_out, live=False, words=words)
        self._printed = replace(self._frame, status=printed)
        self._formulas = OrderFormulas(run.orders, run.lines, run.inputs, self._frame)
        quote, frame = run.quote, self._frame
        self._prices = QuoteFormulas(run, quote, frame, self._formulas) if quote else None

    @property
    def status(self) -> Cell:
        """The live status, which stands on every tab."""
        return self._frame.status

    def long(self) -> tuple[LongTab, ...]:
        """Tabs that grow with the job, in their order in the workbook."""
        return long_tabs(self._run, self._frame)

    def made_long(self) -> list[SheetModel]:
        """Make the long ones here."""
        prices = self._prices.line_prices() if self._prices else None
        return [tab.begin()(prices) for tab in self.long()]

    def all(
        self,
        long: Callable[[], Sequence[SheetModel]],
        cards: Callable[[], Cards] | None = None,
    ) -> tuple[SheetModel, ...]:
        """Every result tab, in their order in the workbook.

        Parameters
        ----------
        long
            The long ones, asked for when the others are made.
        cards
            Room cards with their pictures, asked for when everything else is made; None to leave
            them out.
        """
        run, job, frame, formulas = self._run, self._run.inputs.job, self._frame, self._formulas
        first = findings_sheet(self._findings, frame, job)
        rules, calls, choices = (
            tab.KEY in self._kept for tab in (heating_rules, call_offs, sources)
        )
        others = [
            *heating_rules_sheets(run.cable_plans, job, frame, kept=rules),
            *order_sheets(self._ordered, formulas, run.inputs, frame),
            deliveries_sheet(run.orders, run.inputs, frame),
            *call_offs_sheets(run.orders, formulas, run.inputs, frame, kept=calls),
            *sources_sheets(run.sourcing, run.orders, formulas, run.inputs, frame, kept=choices),
        ]
        if run.quote and self._prices:
            others += quote_sheets(run, run.quote, self._prices, frame, self._office)
        sheets = [first, *long(), *others]
        if cards:
            drawn = cards()
            sheets += room_cards_sheets(drawn, self._printed)
            sheets += cable_plans_sheets(drawn.cable_pages, drawn.cable_pictures, frame)
        sheets += kept_pages(self._kept, frame)
        return in_office_style(sheets, self._office)


def findings_only(
    findings: Sequence[Worded], raw: RawBook, job: Job, office: Office = PLAIN
) -> SheetModel:
    """Make the Findings tab of a run that errors have stopped; other result tabs stay.

    Parameters
    ----------
    findings
        All findings, in words.
    raw
        The workbook as found.
    job
        As far as it could be read; the default job where it could not.
    office
        Its words.
    """
    words = office.words
    status = master_status([severity_of(f) for f in findings], words=words)
    made = findings_sheet(findings, Frame(raw, job.units, status, words), job, stopped=True)
    (sheet,) = in_office_style((made,), office)
    return sheet

"""Results to sheets of typed cells, one file a result tab."""

from collections.abc import Callable, Mapping, Sequence

from sheetcalc.domain.job import Job
from sheetcalc.domain.order import empty
from sheetcalc.domain.run import Run
from sheetcalc.workbook.office import PLAIN, Office
from sheetcalc.workbook.raw import RawBook
from sheetcalc.workbook.results import resistance_log
from sheetcalc.workbook.results.cable_plans import cable_plans_sheets
from sheetcalc.workbook.results.cable_schedule import cable_schedule_sheet
from sheetcalc.workbook.results.call_offs import call_offs_sheets
from sheetcalc.workbook.results.cut_list import cut_list_sheet
from sheetcalc.workbook.results.deliveries import deliveries_sheet
from sheetcalc.workbook.results.findings import Worded, findings_sheet, severity_of
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.results.heating_rules import heating_rules_sheets
from sheetcalc.workbook.results.house import in_office_style
from sheetcalc.workbook.results.order import key_of, order_sheets
from sheetcalc.workbook.results.order_formulas import OrderFormulas
from sheetcalc.workbook.results.quote import quote_sheets
from sheetcalc.workbook.results.quote_formulas import QuoteFormulas
from sheetcalc.workbook.results.resistance_log import resistance_log_sheet
from sheetcalc.workbook.results.roll_plan import roll_plan_sheet
from sheetcalc.workbook.results.room_cards import Cards, room_cards_sheets
from sheetcalc.workbook.results.setting_out import setting_out_sheet
from sheetcalc.workbook.results.sources import sources_sheets
from sheetcalc.workbook.results.status import master_status
from sheetcalc.workbook.results.takeoff import takeoff_sheet
from sheetcalc.workbook.sheet import SheetModel

TYPED_HEADERS: Mapping[str, tuple[str, ...]] = {resistance_log.KEY: resistance_log.TYPED_HEADERS}
"""Key of a result tab -> headers, as written, of the columns that people fill in."""


def result_sheets(  # noqa: PLR0913 - what a workbook's results are made of
    run: Run,
    findings: Sequence[Worded],
    raw: RawBook,
    cards: Callable[[], Cards] | None = None,
    office: Office = PLAIN,
    *,
    kept_orders: Sequence[str] = (),
) -> tuple[SheetModel, ...]:
    """Every result tab of a run, in their order in the workbook.

    Parameters
    ----------
    run
        What was calculated.
    findings
        All findings of the run, in words.
    raw
        The workbook as found, whose tables the live formulas look up.
    cards
        Room cards with their pictures, asked for when everything else is made; None to leave them
        out.
    office
        Logo, terms and words of its own.
    kept_orders
        Suppliers whose order tab is made though nothing is ordered from them.
    """
    job = run.inputs.job
    severities = [severity_of(f) for f in findings]
    frame = Frame(raw, job.units, master_status(severities, run.left_out))
    printed = Frame(raw, job.units, master_status(severities, run.left_out, live=False))
    quote = run.quote
    formulas = OrderFormulas(run.orders, run.lines, run.inputs, frame)
    prices = QuoteFormulas(run, quote, frame, formulas) if quote else None
    sheets = [
        findings_sheet(findings, frame, job),
        takeoff_sheet(run.lines, frame, quote, prices),
        setting_out_sheet(run.works, frame),
        cut_list_sheet(run.works, frame),
        roll_plan_sheet(run.roll_plans, run.inputs.catalogue, frame),
        cable_schedule_sheet(run.cable_plans, job, frame),
        resistance_log_sheet(run.cable_plans, run.inputs.readings, job, frame),
        *heating_rules_sheets(run.cable_plans, job, frame),
        *order_sheets((*run.orders, *map(empty, kept_orders)), formulas, run.inputs, frame),
        deliveries_sheet(run.orders, run.inputs, frame),
        *call_offs_sheets(run.orders, formulas, run.inputs, frame),
        *sources_sheets(run.sourcing, run.orders, formulas, run.inputs, frame),
        *(quote_sheets(run, quote, prices, frame, office) if quote and prices else ()),
    ]
    if cards:
        drawn = cards()
        sheets += room_cards_sheets(drawn, printed)
        sheets += cable_plans_sheets(drawn.cable_pages, drawn.cable_pictures, frame)
    return in_office_style(sheets, office)


def order_keys(run: Run) -> frozenset[str]:
    """Keys of the order tabs of a run."""
    return frozenset(key_of(order.supplier) for order in run.orders)


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
    status = master_status([severity_of(f) for f in findings])
    made = findings_sheet(findings, Frame(raw, job.units, status), job, stopped=True)
    (sheet,) = in_office_style((made,), office)
    return sheet

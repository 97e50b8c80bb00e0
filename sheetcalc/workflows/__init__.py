"""What each command does, in three visible steps: read, calculate, write.

One file a command.  Libraries are imported inside the functions: a process that only explains
stays quick, and the reading child works while the others are loaded.
"""

from sheetcalc.domain.progress import Progress
from sheetcalc.workflows.blank_books import blank, blank_into
from sheetcalc.workflows.check_book import check
from sheetcalc.workflows.compare_books import CompareReport, compare
from sheetcalc.workflows.explain_name import Explanation, explain, names_to_explain
from sheetcalc.workflows.many_books import (
    BookCommand,
    InterruptedRunError,
    NoClusterError,
    run_books,
)
from sheetcalc.workflows.order_books import TOGETHER, orders, orders_together
from sheetcalc.workflows.price_list import PricesReport, prices
from sheetcalc.workflows.quote_book import quote
from sheetcalc.workflows.report import (
    DONE,
    HAS_ERRORS,
    SUFFIXES,
    BookReport,
    Units,
    find_books,
    notes_of,
    notes_on_templates,
    trouble_with_templates,
    words_of,
)
from sheetcalc.workflows.take_off import takeoff
from sheetcalc.workflows.watch_folder import watch

__all__ = [
    "DONE",
    "HAS_ERRORS",
    "SUFFIXES",
    "TOGETHER",
    "BookCommand",
    "BookReport",
    "CompareReport",
    "Explanation",
    "InterruptedRunError",
    "NoClusterError",
    "PricesReport",
    "Progress",
    "Units",
    "blank",
    "blank_into",
    "check",
    "compare",
    "explain",
    "find_books",
    "names_to_explain",
    "notes_of",
    "notes_on_templates",
    "orders",
    "orders_together",
    "prices",
    "quote",
    "run_books",
    "takeoff",
    "trouble_with_templates",
    "watch",
    "words_of",
]

"""What keeps a quote from being complete, as findings."""

from collections.abc import Iterator

from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.quote import Quote


def check_labour(quote: Quote) -> Iterator[Finding]:
    """Find tasks that the job needs and that have no rate; goods are found with the orders.

    Yields
    ------
    Finding
        ``TASK-WITHOUT-RATE``, once for each row of Labour.
    """
    told: set[RowRef] = set()
    for line in quote.labour:
        row = line.task.source
        if line.amount is None and row not in told:
            told.add(row)
            yield Finding("TASK-WITHOUT-RATE", row, "Hourly rate", {"task": line.task.task})

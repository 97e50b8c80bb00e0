"""Sheet columns of an order tab, for what stands above and below its table."""

from typing import Final

from sheetcalc.workbook.results_tabs import ORDER

COLUMN: Final = {column.header: at for at, column in enumerate(ORDER.columns, start=1)}
"""Header -> column, 1-based."""

LABEL, VALUE = COLUMN["Phase"], COLUMN["Order number"]
RIGHT_LABEL, RIGHT_VALUE = COLUMN["Description"], COLUMN["Needed"]

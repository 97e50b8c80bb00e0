"""What a calculation needs is imported while something else is waited for."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

import gc
from functools import cache


def load_calculation() -> None:
    """Import what the calculation needs while the child reads."""
    import sheetcalc.excel.generating.generate
    import sheetcalc.excel.saving.write_back
    import sheetcalc.takeoff
    import sheetcalc.workbook.convert
    import sheetcalc.workbook.results  # noqa: F401 - imported so that it is loaded

    _set_modules_aside()


@cache
def _set_modules_aside() -> None:
    """Keep the collector from looking through modules, which stay for good."""
    gc.freeze()

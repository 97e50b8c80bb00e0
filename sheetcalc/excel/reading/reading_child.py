"""The process that opens a workbook: with limits, and with nothing else of ours in it.

A file may be damaged or hostile, and one reader tried in trials could abort its whole process on
a far-away cell.  So reading happens here: one request a line on standard input, one answer a line
on standard output, both JSON.  Started with ``python -m sheetcalc.excel.reading.reading_child``.
"""

import gc
import json
import sys
from pathlib import Path
from typing import Any

import msgspec

# openpyxl imports these where they are installed; reading cells needs neither, and both are slow
sys.modules["numpy"] = None  # type: ignore[assignment]
sys.modules["PIL"] = None  # type: ignore[assignment]
gc.disable()  # see ``main``

from sheetcalc.excel.opc.book import Book  # noqa: E402 (after the two lines above)
from sheetcalc.excel.opc.errors import Refused  # noqa: E402
from sheetcalc.excel.opc.guards import open_inspected  # noqa: E402
from sheetcalc.excel.reading.reduced import SourcePackage  # noqa: E402
from sheetcalc.excel.reading.tables import WantedTab, read_grids, read_tabs  # noqa: E402

MOST_MEMORY = 1 << 30
"""Address space of the reading process [bytes]."""


def limit_memory() -> None:
    """Limit the address space, where the system can."""
    try:
        import resource  # noqa: PLC0415 (not on every system)
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


def limit_time(seconds: int) -> None:
    """Give the next workbook its processor time [s], counted from now."""
    try:
        import resource  # noqa: PLC0415 (not on every system)
    except ImportError:
        return
    used = resource.getrusage(resource.RUSAGE_SELF)
    hard = resource.getrlimit(resource.RLIMIT_CPU)[1]
    soft = int(used.ru_utime + used.ru_stime) + seconds + 1
    resource.setrlimit(resource.RLIMIT_CPU, (soft, hard))


def answer(request: dict[str, Any]) -> dict[str, Any]:
    """Read one workbook; a refusal is an answer, anything else ends this process."""
    if request.get("whole"):
        return _whole(request["path"])
    wanted = msgspec.convert(request["tabs"], list[WantedTab])
    try:
        with open_inspected(Path(request["path"]), [tab.key for tab in wanted]) as package:
            return read_tabs(SourcePackage(package), wanted)
    except Refused as refused:
        return {"refused": refused.code, "facts": refused.facts}
    except MemoryError:
        return {"refused": "READING-TAKES-TOO-MUCH-MEMORY", "facts": {}}


def _whole(path: str) -> dict[str, Any]:
    """Read every cell of a workbook that is not one of ours, such as a supplier's list."""
    try:
        with open_inspected(Path(path)) as package:
            names = [sheet.name for sheet in Book(package).sheets]
        with open_inspected(Path(path), names) as package:
            return {"grids": read_grids(SourcePackage(package))}
    except Refused as refused:
        return {"refused": refused.code, "facts": refused.facts}
    except MemoryError:
        return {"refused": "READING-TAKES-TOO-MUCH-MEMORY", "facts": {}}


def main() -> None:
    """Answer requests until standard input ends.

    Cells are no circles: looking for those while they are read takes a third of the time, so it is
    done when the answer is away, and not among the modules.
    """
    gc.freeze()
    limit_memory()
    for line in sys.stdin.buffer:
        request = json.loads(line)
        limit_time(request["cpu_seconds"])
        reply = json.dumps(answer(request), separators=(",", ":"))
        sys.stdout.buffer.write(reply.encode() + b"\n")
        sys.stdout.buffer.flush()
        gc.collect()


if __name__ == "__main__":
    main()

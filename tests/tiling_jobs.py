"""Small tiling jobs as rows of a workbook, calculated through the program without a file."""

from collections.abc import Mapping, Sequence

from workbook.raw_books import PLAIN_FINISH, PLAIN_TILE, Values, book

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.takeoff import calculate
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.wording import severity_of

Rows = Sequence[Values]


def run_of(settings: Mapping[str, str | float] | None = None, **tabs: Rows) -> Run:
    """Calculate a job of some rows; the reader must have no errors."""
    run, findings = checked(settings, **tabs)
    assert run is not None, findings
    return run


def checked(
    settings: Mapping[str, str | float] | None = None, **tabs: Rows
) -> tuple[Run | None, list[Finding]]:
    """Read and calculate a job; with the findings of both. No run where the reader stopped."""
    named = {"Job name": "Small", **(settings or {})}
    job = [{"Setting": label, "Value": value} for label, value in named.items()]
    raw = book(**{"Finishes": [PLAIN_FINISH], "Tiles": [PLAIN_TILE], "Job": job, **tabs})
    inputs, findings = to_inputs(raw)
    if inputs is None:
        return None, list(findings)
    run = calculate(inputs)
    return run, [*findings, *run.findings]


def errors(findings: Sequence[Finding]) -> list[str]:
    """Codes of the errors among findings."""
    return [f.code for f in findings if severity_of(f.code) == "error"]


def work_of(run: Run, room: str) -> RoomWork:
    """One room of a run."""
    return next(work for work in run.works if work.room.name == room)

"""The middle of every command: cells as found to one run, or to the errors that stop it."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sheetcalc.workflows.report import Progress

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sheetcalc.domain.finding import Finding
    from sheetcalc.domain.inputs import Inputs
    from sheetcalc.domain.run import Run
    from sheetcalc.workbook.raw import RawBook
    from sheetcalc.workbook.sheet import BookModel, SheetModel
    from sheetcalc.workbook.wording import WordedFinding


@dataclass(frozen=True, slots=True)
class Work:
    """One workbook calculated; ``run`` is None where errors stopped it."""

    inputs: "Inputs | None"
    run: "Run | None"
    findings: "tuple[WordedFinding, ...]"

    @property
    def has_errors(self) -> bool:
        """Whether any finding is an error."""
        return any(finding.status == "error" for finding in self.findings)

    def sheets(self, raw: "RawBook") -> "tuple[SheetModel, ...]":
        """Make the result tabs: all of a run, or Findings alone where errors stopped it."""
        from sheetcalc.domain.job import Job
        from sheetcalc.workbook.results import findings_only, result_sheets

        if self.run is not None:
            return result_sheets(self.run, self.findings, raw)
        job = self.inputs.job if self.inputs else Job()
        return (findings_only(self.findings, raw, job),)


def calculate_book(raw: "RawBook", progress: Progress, *, leave_out_faulty: bool) -> Work:
    """Convert and calculate; with errors there is no run, unless faulty rooms may be left out."""
    from sheetcalc.takeoff import calculate
    from sheetcalc.workbook.convert import to_inputs

    inputs, findings = to_inputs(raw)
    if inputs is None:
        return Work(None, None, _worded(findings, raw, None))
    run = calculate(inputs, progress)
    findings = (*findings, *run.findings)
    worded = _worded(findings, raw, inputs)
    if not any(finding.status == "error" for finding in worded):
        return Work(inputs, run, worded)
    if leave_out_faulty:
        kept = _without_faulty(inputs, findings)
        if kept is not None:
            sound, left_out = kept
            run = replace(calculate(sound, progress), left_out=left_out)
            return Work(inputs, run, worded)
    return Work(inputs, None, worded)


def _without_faulty(
    inputs: "Inputs", findings: "Iterable[Finding]"
) -> "tuple[Inputs, tuple[str, ...]] | None":
    """Leave out the rooms that errors name; None where one names no room, or none is left."""
    from sheetcalc.takeoff import faulty_rooms
    from sheetcalc.workbook.wording import severity_of

    errors = [f for f in findings if severity_of(f.code) == "error"]
    faulty = faulty_rooms(inputs, errors)
    if faulty is None:
        return None
    rooms = tuple(room for room in inputs.rooms if room.name not in faulty)
    if not rooms:
        return None
    return replace(inputs, rooms=rooms), tuple(sorted(faulty))


def _worded(
    findings: "Iterable[Finding]", raw: "RawBook", inputs: "Inputs | None"
) -> "tuple[WordedFinding, ...]":
    from sheetcalc.domain.measure import JobUnits
    from sheetcalc.workbook.wording import word_all

    if inputs is None:
        return word_all(findings, raw, JobUnits())
    return word_all(findings, raw, inputs.job.units, inputs.decisions)


def load_calculation() -> None:
    """Import what the calculation needs while the child reads."""
    import sheetcalc.excel.generate
    import sheetcalc.excel.write_back
    import sheetcalc.takeoff
    import sheetcalc.workbook.convert
    import sheetcalc.workbook.results  # noqa: F401 - imported so that it is loaded


def generated(model: "BookModel", *, named_styles: bool = False) -> bytes:
    """Workbook file of sheets that are described as data, in the house style."""
    from sheetcalc.excel.generate import write_book
    from sheetcalc.workbook.house_style import load_house_style

    return write_book(model, load_house_style(), named_styles=named_styles)

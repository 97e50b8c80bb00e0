"""Regenerate the sample workbooks, results included: ``python -m tests.samples [FOLDER]``."""

import shutil
import sys
import tempfile
from pathlib import Path

from sheetcalc import workflows
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style

from . import SAMPLES


def write_inputs(folder: Path) -> list[Path]:
    """Write the sample workbooks as an estimator has filled them in, without results."""
    style = load_house_style()
    paths = []
    for name, make in SAMPLES.items():
        path = folder / name
        path.write_bytes(write_book(make(), style, named_styles=True))
        paths.append(path)
    return paths


def main(folder: Path) -> None:
    """Write the samples, take each off, and put the finished workbooks into a folder."""
    with tempfile.TemporaryDirectory() as scratch:
        for path in write_inputs(Path(scratch)):
            report = workflows.takeoff(path, lambda _stage, _done, _of: None)
            print(report.summary)  # noqa: T201 - a person runs this by hand
            shutil.copyfile(path, folder / path.name)


if __name__ == "__main__":
    checkout = Path(__file__).resolve().parents[2]
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else checkout / "sample_workbooks")

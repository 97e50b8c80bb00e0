"""Write the inputs of every sample workbook: ``python -m tests.samples [FOLDER]``."""

import sys
from pathlib import Path

from sheetcalc.excel.generate import write_book
from sheetcalc.workbook.house_style import load_house_style

from . import SAMPLES


def main(folder: Path) -> None:
    """Write them into a folder."""
    style = load_house_style()
    for name, make in SAMPLES.items():
        (folder / name).write_bytes(write_book(make(), style, named_styles=True))


if __name__ == "__main__":
    checkout = Path(__file__).resolve().parents[2]
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else checkout / "sample_workbooks")

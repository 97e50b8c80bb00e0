"""Workbooks as text that a reviewer can read: what each cell holds, and how it looks.

``SHEETCALC_UPDATE_GOLDEN=1 pytest`` writes the files anew; the change is then reviewed as text.
"""

import io
import os
from pathlib import Path

from openpyxl import load_workbook

GOLDEN = Path(__file__).resolve().parents[1] / "golden"


def dump(package: bytes) -> str:
    """Every filled cell with its formula and named style, then validations and names."""
    book = load_workbook(io.BytesIO(package))
    lines = []
    for sheet in book:
        tables = ", ".join(f"{t.name} {t.ref}" for t in sheet.tables.values())
        lines.append(f"== {sheet.title} | {tables} | frozen {sheet.freeze_panes}")
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is not None:
                    link = f" -> {cell.hyperlink.location}" if cell.hyperlink else ""
                    number_format = cell.number_format.replace("General", "")
                    look = " ".join(filter(None, (cell.style, number_format)))
                    lines.append(f"{cell.coordinate} [{look}] {cell.value!r}{link}")
        lines += [
            f"? {v.sqref} {v.type} {v.errorStyle or 'stop'}{'' if v.showErrorMessage else ' (off)'}"
            f" {v.formula1 or ''} {v.formula2 or ''} | {v.prompt or ''}"
            for v in sheet.data_validations.dataValidation
        ]
    lines += [f"# {name} = {found.attr_text}" for name, found in book.defined_names.items()]
    return "\n".join(lines) + "\n"


def check_golden(name: str, package: bytes) -> None:
    """Compare with the golden file, or write it when asked to."""
    path = GOLDEN / name
    found = dump(package)
    if os.environ.get("SHEETCALC_UPDATE_GOLDEN") == "1":
        path.write_text(found, encoding="utf-8")
    assert found == path.read_text(encoding="utf-8")

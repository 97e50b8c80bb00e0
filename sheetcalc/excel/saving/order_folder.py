"""The folder of order files: which revisions stand in it, and writing the next one.

The files themselves are the record of what may have been sent: nothing in the folder is ever
replaced or removed.  The CSV of a revision is read back; a revision whose CSV is gone or can't be
read still counts, so that its number is not used again.
"""

import re
from pathlib import Path
from typing import BinaryIO, Final

from msgspec import Struct

from sheetcalc.domain.order_record import OrderRecord
from sheetcalc.excel.opc.errors import Code, SaveFailed
from sheetcalc.excel.saving import safe_save
from sheetcalc.excel.saving.new_file import create
from sheetcalc.excel.saving.save_lock import save_trouble
from sheetcalc.workbook.order_csv import read_csv

_UNFIT: Final = re.compile(r'[<>:"/\\|?*\x00-\x1f]')
_LONGEST: Final = 120
_REVISION: Final = re.compile(r"(?P<stem>.+?)(?: rev (?P<revision>\d+))?")
_LARGEST_CSV: Final = 50_000_000


class Written(Struct, frozen=True):
    """One revision of an order as it stands in the folder.

    Attributes
    ----------
    record
        What its CSV says; None where that is gone or is no order.
    book, csv
        Its files; None where one is gone.
    """

    revision: int
    record: OrderRecord | None
    book: Path | None
    csv: Path | None


def file_stem(number: str, revision: int = 0) -> str:
    """Name of an order's files: what no file system takes is written as a hyphen.

    Examples
    --------
    >>> file_stem("LC/7-KILN"), file_stem("LC-KILN", 2)
    ('LC-7-KILN', 'LC-KILN rev 2')
    """
    stem = _UNFIT.sub("-", number).strip(" .")[:_LONGEST] or "order"
    return f"{stem} rev {revision}" if revision else stem


def open_folder(folder: Path) -> None:
    """Make the folder, and those above it, where they are not there yet.

    Raises
    ------
    SaveFailed
        Where it is a file, or can't be made.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError as trouble:
        facts = {"file": folder.name, "why": "it is a file, not a folder"}
        raise SaveFailed(Code.SAVE_FAILED, facts) from trouble
    except OSError as trouble:
        raise save_trouble(trouble, folder) from trouble


def written_orders(folder: Path) -> dict[str, list[Written]]:
    """Find all revisions in the folder, by the casefolded stem of their order's number."""
    pairs: dict[tuple[str, int], dict[str, Path]] = {}
    for file in sorted(folder.iterdir()):
        suffix = file.suffix.lower()
        if suffix not in {".csv", ".xlsx"} or file.name.startswith((".", "~$")):
            continue
        found = _REVISION.fullmatch(file.stem)
        if found is None:
            continue
        key = (found["stem"].casefold(), int(found["revision"] or 0))
        pairs.setdefault(key, {})[suffix] = file
    orders: dict[str, list[Written]] = {}
    for (stem, revision), files in sorted(pairs.items()):
        csv = files.get(".csv")
        record = _read(csv) if csv else None
        orders.setdefault(stem, []).append(Written(revision, record, files.get(".xlsx"), csv))
    return orders


def _read(path: Path) -> OrderRecord | None:
    try:
        if path.stat().st_size > _LARGEST_CSV:
            return None
        return read_csv(path.read_text(encoding="utf-8-sig"))
    except (OSError, UnicodeDecodeError):
        return None


def write_order(folder: Path, stem: str, *, book: bytes, csv: str | None) -> list[Path]:
    """Write the files of one revision; files that are there already stay.

    Parameters
    ----------
    folder
        Where to.
    stem
        Name of the files.
    book
        The workbook.
    csv
        Its CSV; None to write the workbook only.

    Raises
    ------
    SaveFailed
        ``FILE-EXISTS``, or what keeps a file from being written.
    """
    made = []
    if csv is not None:
        path = folder / f"{stem}.csv"
        create(path, csv.encode("utf-8-sig"))
        made.append(path)
    path = folder / f"{stem}.xlsx"
    create(path, book)
    return [*made, path]


def replace_own(path: Path, content: bytes) -> None:
    """Write a file that is nobody's record; an earlier one is replaced as a whole.

    Raises
    ------
    SaveFailed
        What keeps it from being written.
    """
    if not path.exists():
        create(path, content)
        return
    safe_save.replace(
        path, lambda out: _written(out, content), expected=safe_save.fingerprint(path),
        backups_kept=0,
    )  # fmt: skip


def _written(out: BinaryIO, content: bytes) -> None:
    out.write(content)

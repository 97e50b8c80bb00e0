"""Sheets of a fresh workbook grafted into somebody's book.

Every part that was there and is not ours is copied compressed, byte for byte.  Four parts are
edited by additions (workbook, its relationships, content types, styles); our own tabs of an
earlier run are replaced in place, so that formulas that point at them go on working.
"""

from collections.abc import Collection, Mapping, Sequence
from pathlib import Path
from typing import BinaryIO, Self

from msgspec import Struct

from sheetcalc.domain.spread import Spread, alone
from sheetcalc.excel.generating.fresh_book import FreshBook
from sheetcalc.excel.grafting.plan import make_plan
from sheetcalc.excel.grafting.slots import GraftReport, Placement
from sheetcalc.excel.opc.book import Book
from sheetcalc.excel.opc.errors import Code, SaveFailed
from sheetcalc.excel.opc.package import Package, key_of
from sheetcalc.excel.opc.packing import Packed
from sheetcalc.excel.opc.zip_directory import Member, raw_chunks, read_directory, read_member
from sheetcalc.excel.opc.zip_writer import ZipWriter
from sheetcalc.excel.tabs.own_tabs import FoundTabs

__all__ = ["Graft", "GraftReport", "Placement", "prepare"]


class Graft(Struct):
    """A graft worked out and ready to be written; keeps the original open until closed."""

    package: Package
    edits: Mapping[str, bytes]
    removed: Collection[str]
    added: Mapping[str, bytes | Packed]
    report: GraftReport
    _closed: bool = False

    def write(self, out: BinaryIO) -> None:
        """Write the whole new package to an open file."""
        writer = ZipWriter(out)
        for member in self.package.members:
            key = "" if member.is_folder else key_of(member.name)
            if key and key in self.removed:
                continue
            if key in self.edits:
                writer.replace(member, self.edits[key])
            else:
                writer.copy(member, raw_chunks(self.package.file, member))
        for name, content in self.added.items():
            writer.add(name, content)
        writer.finish()

    def verify(self, path: Path) -> None:
        """Read the written file back and compare every part with what it must be.

        Raises
        ------
        SaveFailed
            ``WRITTEN-WRONG`` with the part that differs.
        """
        with path.open("rb") as file:
            written = read_directory(file)
            wanted = [m for m in self.package.members if not self._is_removed(m)]
            if len(written) != len(wanted) + len(self.added):
                raise SaveFailed(Code.WRITTEN_WRONG, {"part": "its table of contents"})
            kept, ours = written[: len(wanted)], written[len(wanted) :]
            for old, new in zip(wanted, kept, strict=True):
                key = "" if old.is_folder else key_of(old.name)
                same = (
                    read_member(file, new) == self.edits[key]
                    if key in self.edits
                    else self._same_bytes(old, file, new)
                )
                if not same or old.raw_name != new.raw_name:
                    raise SaveFailed(Code.WRITTEN_WRONG, {"part": old.name})
            for (name, content), new in zip(self.added.items(), ours, strict=True):
                if new.name != name or not _holds(file, new, content):
                    raise SaveFailed(Code.WRITTEN_WRONG, {"part": name})
            book = Book(Package(file))
            for sheet in book.sheets[len(book.sheets) - len(self.report.added) :]:
                if sheet.part not in book.package.parts:
                    raise SaveFailed(Code.WRITTEN_WRONG, {"part": sheet.name})

    def _is_removed(self, member: Member) -> bool:
        return not member.is_folder and key_of(member.name) in self.removed

    def _same_bytes(self, old: Member, file: BinaryIO, new: Member) -> bool:
        if (old.crc, old.size, old.packed) != (new.crc, new.size, new.packed):
            return False
        pairs = zip(raw_chunks(self.package.file, old), raw_chunks(file, new), strict=True)
        return all(a == b for a, b in pairs)

    def close(self) -> None:
        """Close the original."""
        self.package.close()

    def __enter__(self) -> Self:
        """Use as a context: closes the original at its end."""
        return self

    def __exit__(self, *_: object) -> None:
        """Close the original."""
        self.close()


def _holds(file: BinaryIO, member: Member, content: bytes | Packed) -> bool:
    """Tell whether a member that was read back holds what was written."""
    if isinstance(content, bytes):
        return read_member(file, member) == content
    if (member.crc, member.size, member.packed) != (content.crc, content.size, len(content.data)):
        return False
    return b"".join(raw_chunks(file, member)) == content.data


def prepare(  # noqa: PLR0913 - each of them is a decision of the caller
    original: Path,
    fresh: bytes | FreshBook,
    placements: Sequence[Placement],
    *,
    retire_others: bool = False,
    spread: Spread = alone,
    found: FoundTabs | None = None,
) -> Graft:
    """Work out a graft.

    Parameters
    ----------
    original
        The user's book.
    fresh
        A workbook that holds exactly our sheets, as its generator made it; or their frames,
        with the cells to be put into them.
    placements
        What each of its sheets is, in their order.
    retire_others
        Remove result tabs of ours that are not among the placements (a supplier gone).
    spread
        Who writes the cells of large sheets.
    found
        Our tabs of the book where they have been looked for already.

    Raises
    ------
    Refused
        Where the original is no workbook that can be written into.
    """
    package = Package.open(original)
    try:
        plan = make_plan(
            Book(package),
            fresh,
            placements,
            retire_others=retire_others,
            spread=spread,
            found=found,
        )
        edits, removed, added, report = plan.parts()
    except BaseException:
        package.close()
        raise
    return Graft(package, edits, removed, added, report)

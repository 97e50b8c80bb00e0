"""Orders to files: what is new, what is as it was, what needs another revision.

The folder is the memory: the CSV of the last revision says what was written.  Nothing in it is
replaced or removed, so that an order that has been sent can always be found again.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.order_document import OrderDocument
from sheetcalc.domain.order_record import OrderRecord
from sheetcalc.domain.words import Words
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.excel.saving.order_folder import Written, file_stem, write_order, written_orders
from sheetcalc.ordering.changes import (
    asks_less,
    asks_more,
    changes,
    line_changes,
    removed_lines,
)
from sheetcalc.workbook.office import Office
from sheetcalc.workbook.order_csv import neutral, record_of, to_csv
from sheetcalc.workbook.order_file import order_book


class Issue(Struct, frozen=True):
    """What became of one job's orders.

    Attributes
    ----------
    new, revised, unchanged, ordered
        Titles of the orders; ``ordered`` have no file, and nothing of them is left to order.
    files
        Written now.
    findings
        ``ORDER-NUMBER-TAKEN``, ``ORDER-RECORD-GONE``, ``ORDER-NO-LONGER-NEEDED``,
        ``ORDER-LEFT-AS-IT-WAS``.
    """

    new: tuple[str, ...]
    revised: tuple[str, ...]
    unchanged: tuple[str, ...]
    ordered: tuple[str, ...]
    files: tuple[Path, ...]
    findings: tuple[Finding, ...]

    def told(self, words: Words) -> str:
        """One line for people, in the office's words."""
        counts = (
            (len(self.new), "{number} new"),
            (len(self.revised), "{number} revised"),
            (len(self.unchanged), "{number} as they were"),
            (len(self.ordered), "{number} ordered in full before, without a file"),
        )
        told = ", ".join(words.fill(each, number=number) for number, each in counts if number)
        total = sum(number for number, _ in counts)
        orders = words.fill("{number} order" if total == 1 else "{number} orders", number=total)
        return f"{orders}: {told or words.say('none')}"


def issue(  # noqa: PLR0913 -- each of them is a decision of the caller
    documents: Sequence[OrderDocument],
    folder: Path,
    prefix: str,
    *,
    paper: str,
    office: Office,
    others: Mapping[str, str],
    left_out: Sequence[str] = (),
) -> Issue:
    """Write the orders of one job that are new or have changed.

    Where rooms are left out, an order that stands already is only ever revised upwards: what is
    missing from it now is missing because of an error in the workbook, and is still wanted.

    Parameters
    ----------
    documents
        The job's orders.
    folder
        There already.
    prefix
        Of the job's order numbers: orders of the same job that begin with it and are not among
        the documents are no longer needed.
    paper
        ``A4`` or ``letter``.
    office
        House style, logo, terms and words of the files.
    others
        Numbers that other workbooks of this run have used, and their names.
    left_out
        Rooms that the documents leave out for their errors.

    Raises
    ------
    SaveFailed
        Where a file can't be written; those before it are complete.
    """
    desk = _Desk(folder, paper, office, written_orders(folder), left_out)
    for document in documents:
        if document.number in others:
            desk.taken(document, others[document.number])
        else:
            desk.one(document)
    if documents:
        desk.no_longer_needed(documents, prefix, others)
    return desk.issued()


class _Desk:
    """Issues one order after the other and notes what became of it."""

    def __init__(
        self,
        folder: Path,
        paper: str,
        office: Office,
        written: dict[str, list[Written]],
        left_out: Sequence[str],
    ) -> None:
        self._folder, self._paper, self._office = folder, paper, office
        self._written = written
        self._left_out = ", ".join(left_out)
        self._new: list[str] = []
        self._revised: list[str] = []
        self._unchanged: list[str] = []
        self._ordered: list[str] = []
        self._files: list[Path] = []
        self._findings: list[Finding] = []

    def issued(self) -> Issue:
        """Return what became of the orders."""
        return Issue(
            tuple(self._new), tuple(self._revised), tuple(self._unchanged),
            tuple(self._ordered), tuple(self._files), tuple(self._findings),
        )  # fmt: skip

    def taken(self, document: OrderDocument, other: str) -> None:
        """Leave out an order whose number belongs to another job."""
        facts = {"order": document.number, "other": other or "(no name)"}
        self._findings.append(Finding("ORDER-NUMBER-TAKEN", facts=facts))

    def one(self, document: OrderDocument) -> None:
        """Write one order where it is new or has changed.

        Nothing is written of one that was ordered in full by other means, and one that has come
        in full is not revised.
        """
        found = self._written.get(file_stem(document.number).casefold(), [])
        if not found and document.is_ordered:
            self._ordered.append(document.title)
            return
        if not found:
            self._write(document, None)
            self._new.append(document.title)
            return
        last = max(found, key=lambda written: written.revision)
        known = [w.record for w in found if w.record is not None]
        if any(r.reference != neutral(document.reference) for r in known):
            self.taken(document, known[-1].reference)
            return
        if last.record is None:
            self._without_record(document, last)
            return
        record = record_of(document)
        told = changes(last.record, record, self._office.words)
        if self._left_out and told and not self._only_more(document, last.record, record):
            self._as_it_was(document, last)
        elif told and not document.has_come:
            revised = replace(document, revision=last.revision + 1, changes=told)
            self._write(revised, last)
            self._revised.append(revised.title)
        else:
            self._as_it_was(document, last)

    def _only_more(self, document: OrderDocument, old: OrderRecord, new: OrderRecord) -> bool:
        """Whether an order without the rooms left out asks for more, and for less of nothing."""
        if asks_less(old, new):
            self._left(document.number)
            return False
        return asks_more(old, new)

    def _left(self, number: str) -> None:
        facts = {"order": number, "rooms": self._left_out}
        self._findings.append(Finding("ORDER-LEFT-AS-IT-WAS", facts=facts))

    def _without_record(self, document: OrderDocument, last: Written) -> None:
        """Write another revision: what the one before said can't be known."""
        before = file_stem(document.number, last.revision)
        facts = {"order": document.number, "file": f"{before}.csv"}
        self._findings.append(Finding("ORDER-RECORD-GONE", facts=facts))
        gone = "the record of {order} is gone: compare the two orders by hand"
        told = (self._office.words.fill(gone, order=before),)
        revised = replace(document, revision=last.revision + 1, changes=told)
        self._write(revised, None)
        self._revised.append(revised.title)

    def _as_it_was(self, document: OrderDocument, last: Written) -> None:
        same = replace(document, revision=last.revision)
        self._unchanged.append(same.title)
        if last.book is None and last.record is not None:
            issued = _day(last.record.issued) or document.issued
            self._write(replace(same, issued=issued), None, with_record=False)

    def _write(
        self, document: OrderDocument, before: Written | None, *, with_record: bool = True
    ) -> None:
        book = write_book(
            order_book(document, self._paper, self._office), self._office.style, named_styles=True
        )
        csv = None
        if with_record:
            old, new = before.record if before else None, record_of(document)
            csv = to_csv(
                document,
                line_changes(old, new) if old else None,
                removed_lines(old, new) if old else (),
            )
        stem = file_stem(document.number, document.revision)
        self._files += write_order(self._folder, stem, book=book, csv=csv)

    def no_longer_needed(
        self, documents: Sequence[OrderDocument], prefix: str, others: Iterable[str]
    ) -> None:
        """Tell of orders of the same job that stand in the folder and are made no more."""
        numbers = {neutral(number) for number in (*others, *(d.number for d in documents))}
        reference = neutral(documents[0].reference)
        for found in self._written.values():
            last = max(found, key=lambda written: written.revision)
            record = last.record
            if record is None or record.reference != reference or record.number in numbers:
                continue
            if not record.number.startswith(neutral(prefix)):
                continue
            if self._left_out:
                self._left(record.number)
            else:
                facts = {"order": record.number, "supplier": record.head.get("Supplier", "")}
                self._findings.append(Finding("ORDER-NO-LONGER-NEEDED", facts=facts))


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None

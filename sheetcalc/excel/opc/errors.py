"""A broken environment: files that can't be read, may not be read, or can't be written.

A user's mistake inside a readable workbook is a Finding, never one of these; a bug is never
caught.  Words for every code are in ``workbook.wording.files``.
"""

from collections.abc import Mapping
from enum import StrEnum

from sheetcalc.domain.finding import Fact


class Code(StrEnum):
    """Codes of what can be wrong with a file."""

    NOT_A_WORKBOOK = "NOT-A-WORKBOOK"
    FILE_NOT_READABLE = "FILE-NOT-READABLE"
    FILE_EMPTY = "FILE-EMPTY"
    OLD_FORMAT = "OLD-FORMAT"
    BINARY_WORKBOOK = "BINARY-WORKBOOK"
    ENCRYPTED = "ENCRYPTED"
    SHARED_REVISIONS = "SHARED-REVISIONS"
    ZIP_BROKEN = "ZIP-BROKEN"
    ZIP_TRUNCATED = "ZIP-TRUNCATED"
    ZIP_CHECKSUM = "ZIP-CHECKSUM"
    ZIP_ENCRYPTED = "ZIP-ENCRYPTED"
    ZIP_METHOD = "ZIP-METHOD"
    ZIP_BOMB = "ZIP-BOMB"
    DUPLICATE_PARTS = "DUPLICATE-PARTS"
    TOO_MANY_PARTS = "TOO-MANY-PARTS"
    PART_MISSING = "PART-MISSING"
    PART_NAME = "PART-NAME"
    PART_TOO_LARGE = "PART-TOO-LARGE"
    BOOK_TOO_LARGE = "BOOK-TOO-LARGE"
    TARGET_OUTSIDE = "TARGET-OUTSIDE"
    XML_BROKEN = "XML-BROKEN"
    XML_DTD = "XML-DTD"
    XML_TOO_DEEP = "XML-TOO-DEEP"
    XML_ENCODING = "XML-ENCODING"
    SHEET_TOO_WIDE = "SHEET-TOO-WIDE"
    CELL_TOO_LONG = "CELL-TOO-LONG"
    TOO_MANY_STYLES = "TOO-MANY-STYLES"
    TOO_MANY_RANGES = "TOO-MANY-RANGES"
    BAD_REFERENCE = "BAD-REFERENCE"
    FILE_OPEN = "FILE-OPEN"
    FILE_CHANGED = "FILE-CHANGED"
    FILE_BUSY = "FILE-BUSY"
    FILE_EXISTS = "FILE-EXISTS"
    FILE_GONE = "FILE-GONE"
    FILE_IS_BACKUP = "FILE-IS-BACKUP"
    FILE_READ_ONLY = "FILE-READ-ONLY"
    FOLDER_READ_ONLY = "FOLDER-READ-ONLY"
    FILE_LINKED = "FILE-LINKED"
    FILE_OWNER = "FILE-OWNER"
    DISK_FULL = "DISK-FULL"
    SAVE_FAILED = "SAVE-FAILED"
    WRITTEN_WRONG = "WRITTEN-WRONG"


class FileTrouble(Exception):  # noqa: N818 - trouble with a file, not an error of the program
    """A file could not be used.

    Attributes
    ----------
    code
        Key into the table of wordings, such as ``ZIP-TRUNCATED``.
    facts
        What the wording fills in.
    exit_code
        What a command returns for it: 3, or 4 where another program or person is at work on
        the file.
    """

    exit_code = 3

    def __init__(self, code: str, facts: Mapping[str, Fact] | None = None) -> None:
        self.code = code
        self.facts: dict[str, Fact] = dict(facts or {})
        told = ", ".join(f"{key}={value}" for key, value in self.facts.items())
        super().__init__(f"{code} ({told})" if told else code)


class Refused(FileTrouble):
    """The file is not a workbook that may be read; nothing was written."""


class SaveFailed(FileTrouble):
    """The file could not be written; it is as it was."""


class InUse(SaveFailed):
    """The file is open elsewhere, or changed meanwhile; it is as it was."""

    exit_code = 4

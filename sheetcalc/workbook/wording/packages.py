"""Words of the refusals: what a file may be, and what it may hold."""

from sheetcalc.domain.finding import Severity
from sheetcalc.workbook.wording.wording import Wording

_CONTRACT = "the program's own rule"
_OPC = "ISO/IEC 29500-2 (packages), from memory, not verified"
_SHEET = "ISO/IEC 29500-1 (limits of a sheet), from memory, not verified"
_ZIP = "APPNOTE.TXT (the zip format), from memory, not verified"
_PRACTICE = "common practice, no source"

WORDINGS: tuple[Wording, ...] = (
    Wording(
        code="NOT-A-WORKBOOK",
        severity=Severity.ERROR,
        found="the file is no workbook: {why}",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="check that this is the right file; one of another format can be saved as "
        ".xlsx first",
        explain="A workbook is a package (a zip) with a list of content types and a workbook "
        "part. Nothing was read, and nothing was written.",
        source=_OPC,
    ),
    Wording(
        code="FILE-NOT-READABLE",
        severity=Severity.ERROR,
        found="the file can not be read: {why}",
        expected="a file that is there and that you may read",
        what_to_do="check the name, and whether you may open the file",
        explain="The operating system refused to open the file.",
        source=_CONTRACT,
    ),
    Wording(
        code="FILE-EMPTY",
        severity=Severity.ERROR,
        found="the file is empty: it has no bytes at all",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="look for an earlier copy; a download or a copy to this place may have stopped",
        explain="An empty file is often what a full disk or a broken connection leaves behind.",
        source=_CONTRACT,
    ),
    Wording(
        code="OLD-FORMAT",
        severity=Severity.ERROR,
        found="the file is in the old .xls format",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="open it in a spreadsheet program and save it as .xlsx",
        explain="The format from before 2007 is another one altogether; it has no parts that "
        "could be kept byte for byte.",
        source=_CONTRACT,
    ),
    Wording(
        code="BINARY-WORKBOOK",
        severity=Severity.ERROR,
        found="the file is in the binary .xlsb format",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="open it in a spreadsheet program and save it as .xlsx or .xlsm",
        explain="The binary format holds the same things in a form that this program does not "
        "write.",
        source=_CONTRACT,
    ),
    Wording(
        code="ENCRYPTED",
        severity=Severity.ERROR,
        found="the file is encrypted: it needs a password to be opened",
        expected="a workbook that opens without a password",
        what_to_do="take the password off for the run (save a copy without it), and put it on "
        "again afterwards",
        explain="An encrypted workbook is one sealed block; nothing in it can be read or kept "
        "apart.",
        source=_CONTRACT,
    ),
    Wording(
        code="SHARED-REVISIONS",
        severity=Severity.ERROR,
        found="the workbook tracks revisions of several people (a shared workbook)",
        expected="a workbook without a log of revisions",
        what_to_do="stop sharing it in the spreadsheet program, save, and run again",
        explain="The log of revisions names every cell that changed. Tabs added past it would "
        "make the log wrong, so the book is left alone.",
        source=_CONTRACT,
    ),
    Wording(
        code="ZIP-BROKEN",
        severity=Severity.ERROR,
        found="the file is damaged: {why}",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="open it in a spreadsheet program, save it again under its own name, and run "
        "once more; if it does not open, take the latest backup",
        explain="The package contradicts itself. Writing into it could lose what is still "
        "good in it.",
        source=_ZIP,
    ),
    Wording(
        code="ZIP-TRUNCATED",
        severity=Severity.ERROR,
        found="the file is cut off: {why}",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="take an earlier copy; a download or a copy to this place may have stopped",
        explain="The table of contents stands at the end of a package, and there is none, or "
        "one that promises more than is there.",
        source=_ZIP,
    ),
    Wording(
        code="ZIP-CHECKSUM",
        severity=Severity.ERROR,
        found="the part {part} is damaged: its checksum is wrong",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="open it in a spreadsheet program, save it again under its own name, and run "
        "once more; if it does not open, take the latest backup",
        explain="Each part carries a checksum of its content. A wrong one means that bytes "
        "changed on the way.",
        source=_ZIP,
    ),
    Wording(
        code="ZIP-ENCRYPTED",
        severity=Severity.ERROR,
        found="the part {part} is encrypted within the package",
        expected="a workbook that opens without a password",
        what_to_do="save it from a spreadsheet program without a password",
        explain="Spreadsheet programs do not encrypt single parts; some packing programs do.",
        source=_ZIP,
    ),
    Wording(
        code="ZIP-METHOD",
        severity=Severity.ERROR,
        found="the part {part} is packed by a method that workbooks do not use (number {method})",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="open it in a spreadsheet program, save it again under its own name, and run "
        "once more",
        explain="A package holds its parts stored or deflated. Other methods can not be "
        "checked here.",
        source=_OPC,
    ),
    Wording(
        code="ZIP-BOMB",
        severity=Severity.ERROR,
        found="the part {part} is made to exhaust whoever unpacks it: {why}",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="do not open this file; ask whoever sent it",
        explain="A few kilobytes can be packed so that they unpack to gigabytes. No workbook "
        "that people make does so.",
        source=_PRACTICE,
    ),
    Wording(
        code="DUPLICATE-PARTS",
        severity=Severity.ERROR,
        found="the part {part} is there twice",
        expected="each part once",
        what_to_do="open it in a spreadsheet program, save it again under its own name, and run "
        "once more",
        explain="With two parts of one name, two programs may read two different workbooks "
        "out of one file. Names are compared without case.",
        source=_OPC,
    ),
    Wording(
        code="TOO-MANY-PARTS",
        severity=Severity.ERROR,
        found="the package has {parts} parts",
        expected="at most {most}",
        what_to_do="check that this is the right file",
        explain="Even a workbook of 255 tabs with pictures has a few thousand parts.",
        source=_PRACTICE,
    ),
    Wording(
        code="PART-MISSING",
        severity=Severity.ERROR,
        found="the part {part} is missing",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="open it in a spreadsheet program, save it again under its own name, and run "
        "once more",
        explain="Another part points at it, and a workbook can not be understood without it.",
        source=_OPC,
    ),
    Wording(
        code="PART-NAME",
        severity=Severity.ERROR,
        found="the part name {part} means a place outside of the package",
        expected="names within the package",
        what_to_do="do not open this file; ask whoever sent it",
        explain="Names with steps upwards or drive letters are made to write over other files "
        "when a package is unpacked.",
        source=_OPC,
    ),
    Wording(
        code="PART-TOO-LARGE",
        severity=Severity.ERROR,
        found="the part {part} unpacks to {mebibytes} MiB",
        expected="at most 512 MiB",
        what_to_do="move what is not needed for the takeoff to another workbook",
        explain="Reading keeps to one gibibyte of memory, so that a run never stops the machine.",
        source=_PRACTICE,
    ),
    Wording(
        code="BOOK-TOO-LARGE",
        severity=Severity.ERROR,
        found="the workbook is, or unpacks to, {mebibytes} MiB",
        expected="at most 1024 MiB",
        what_to_do="move what is not needed for the takeoff to another workbook",
        explain="Reading keeps to one gibibyte of memory, so that a run never stops the machine.",
        source=_PRACTICE,
    ),
    Wording(
        code="TARGET-OUTSIDE",
        severity=Severity.ERROR,
        found="{part} points out of the package, at {target}",
        expected="targets within the package",
        what_to_do="do not open this file; ask whoever sent it",
        explain="Relationships tie the parts of a package together. One that steps further up "
        "than the package goes is made to reach other files.",
        source=_OPC,
    ),
    Wording(
        code="XML-BROKEN",
        severity=Severity.ERROR,
        found="the part {part} can not be read: {why}",
        expected="a workbook saved as .xlsx or .xlsm",
        what_to_do="open it in a spreadsheet program, save it again under its own name, and run "
        "once more",
        explain="A part that must be read or edited is not well formed, or a cell on the tab says "
        "two things: it stands there twice, or in another row than it says, or holds something of "
        "another kind, or asks for a text or a style that the file does not have. Spreadsheet "
        "programs make something of it, not all the same.",
        source=_OPC,
    ),
    Wording(
        code="XML-DTD",
        severity=Severity.ERROR,
        found="the part {part} declares a document type",
        expected="parts without a document type declaration",
        what_to_do="do not open this file; ask whoever sent it",
        explain="Declarations can make a reader fetch other files, or grow without end. The "
        "packaging rules forbid them.",
        source=_OPC,
    ),
    Wording(
        code="XML-TOO-DEEP",
        severity=Severity.ERROR,
        found="the part {part} is nested more than {deepest} deep",
        expected="at most {deepest} levels",
        what_to_do="do not open this file; ask whoever sent it",
        explain="Real parts are some twenty levels deep. Bottomless nesting is made to crash "
        "a reader.",
        source=_PRACTICE,
    ),
    Wording(
        code="XML-ENCODING",
        severity=Severity.ERROR,
        found="the part {part} is written in {encoding}, which can not be read",
        expected="UTF-8 or UTF-16",
        what_to_do="open it in a spreadsheet program, save it again under its own name, and run "
        "once more",
        explain="The packaging rules allow these two encodings.",
        source=_OPC,
    ),
    Wording(
        code="SHEET-TOO-WIDE",
        severity=Severity.ERROR,
        found="the cells of {part} span more than {most} cells",
        expected="a tab whose used cells lie close together",
        what_to_do="delete the empty rows and columns beyond the data (a stray cell far away is "
        "enough), save, and run again",
        explain="A sheet is spanned by its first and last used row and column. What it says "
        "of its own size is not believed.",
        source=_PRACTICE,
    ),
    Wording(
        code="TOO-MANY-STYLES",
        severity=Severity.ERROR,
        found="the workbook has no room for more cell formats",
        expected="fewer than {most} different cell formats",
        what_to_do="remove formats that nothing uses (a copy of the tabs in a new workbook leaves "
        "them behind), or start a workbook of its own with blank, and run again",
        explain="Spreadsheet programs keep only so many different combinations of font, fill, "
        "border and number format; one more, and they throw formats away on opening.",
        source="from memory, not verified",
    ),
    Wording(
        code="CELL-TOO-LONG",
        severity=Severity.ERROR,
        found="{part} holds a text of several megabytes",
        expected="texts of at most 32,767 signs",
        what_to_do="shorten the cell in a spreadsheet program",
        explain="The format allows 32,767 signs in a cell; a text that goes on without an end "
        "is made to exhaust a reader.",
        source=_SHEET,
    ),
    Wording(
        code="TOO-MANY-RANGES",
        severity=Severity.ERROR,
        found="{part} has merges or links over more than {most} cells",
        expected="merges and links that cover what is used",
        what_to_do="unmerge or unlink the whole columns or the whole sheet, save, and run again",
        explain="A merge over a whole sheet makes a reader touch every one of its 17 billion "
        "cells.",
        source=_PRACTICE,
    ),
    Wording(
        code="BAD-REFERENCE",
        severity=Severity.ERROR,
        found="{part} names a place that no sheet has: {reference}",
        expected="rows up to 1,048,576 and columns up to XFD",
        what_to_do="open it in a spreadsheet program, save it again under its own name, and run "
        "once more",
        explain="A cell outside of the sheet can not come from a spreadsheet program.",
        source=_SHEET,
    ),
)

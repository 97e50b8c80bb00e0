"""Words of the refusals: what a file may be, and what it may hold."""

from sheetcalc.workbook.wording.wording import PRACTICE, Wording, error

_OPC = "ISO/IEC 29500-2 (packages), from memory, not verified"
_SHEET = "ISO/IEC 29500-1 (limits of a sheet), from memory, not verified"
_ZIP = "APPNOTE.TXT (the zip format), from memory, not verified"

WORDINGS: tuple[Wording, ...] = (
    error(
        "NOT-A-WORKBOOK",
        "the file is no workbook: {why}",
        "a workbook saved as .xlsx or .xlsm",
        "check that this is the right file; one of another format can be saved as .xlsx first",
        "A workbook is a package (a zip) with a list of content types and a workbook "
        "part. Nothing was read, and nothing was written.",
        _OPC,
    ),
    error(
        "FILE-NOT-READABLE",
        "the file can not be read: {why}",
        "a file that is there and that you may read",
        "check the name, and whether you may open the file",
        "The operating system refused to open the file.",
    ),
    error(
        "FILE-EMPTY",
        "the file is empty: it has no bytes at all",
        "a workbook saved as .xlsx or .xlsm",
        "look for an earlier copy; a download or a copy to this place may have stopped",
        "An empty file is often what a full disk or a broken connection leaves behind.",
    ),
    error(
        "OLD-FORMAT",
        "the file is in the old .xls format",
        "a workbook saved as .xlsx or .xlsm",
        "open it in a spreadsheet program and save it as .xlsx",
        "The format from before 2007 is another one altogether; it has no parts that "
        "could be kept byte for byte.",
    ),
    error(
        "BINARY-WORKBOOK",
        "the file is in the binary .xlsb format",
        "a workbook saved as .xlsx or .xlsm",
        "open it in a spreadsheet program and save it as .xlsx or .xlsm",
        "The binary format holds the same things in a form that this program does not write.",
    ),
    error(
        "ENCRYPTED",
        "the file is encrypted: it needs a password to be opened",
        "a workbook that opens without a password",
        "take the password off for the run (save a copy without it), and put it on "
        "again afterwards",
        "An encrypted workbook is one sealed block; nothing in it can be read or kept apart.",
    ),
    error(
        "SHARED-REVISIONS",
        "the workbook tracks revisions of several people (a shared workbook)",
        "a workbook without a log of revisions",
        "stop sharing it in the spreadsheet program, save, and run again",
        "The log of revisions names every cell that changed. Tabs added past it would "
        "make the log wrong, so the book is left alone.",
    ),
    error(
        "ZIP-BROKEN",
        "the file is damaged: {why}",
        "a workbook saved as .xlsx or .xlsm",
        "open it in a spreadsheet program, save it again under its own name, and run "
        "once more; if it does not open, take the latest backup",
        "The package contradicts itself. Writing into it could lose what is still good in it.",
        _ZIP,
    ),
    error(
        "ZIP-TRUNCATED",
        "the file is cut off: {why}",
        "a workbook saved as .xlsx or .xlsm",
        "take an earlier copy; a download or a copy to this place may have stopped",
        "The table of contents stands at the end of a package, and there is none, or "
        "one that promises more than is there.",
        _ZIP,
    ),
    error(
        "ZIP-CHECKSUM",
        "the part {part} is damaged: its checksum is wrong",
        "a workbook saved as .xlsx or .xlsm",
        "open it in a spreadsheet program, save it again under its own name, and run "
        "once more; if it does not open, take the latest backup",
        "Each part carries a checksum of its content. A wrong one means that bytes "
        "changed on the way.",
        _ZIP,
    ),
    error(
        "ZIP-ENCRYPTED",
        "the part {part} is encrypted within the package",
        "a workbook that opens without a password",
        "save it from a spreadsheet program without a password",
        "Spreadsheet programs do not encrypt single parts; some packing programs do.",
        _ZIP,
    ),
    error(
        "ZIP-METHOD",
        "the part {part} is packed by a method that workbooks do not use (number {method})",
        "a workbook saved as .xlsx or .xlsm",
        "open it in a spreadsheet program, save it again under its own name, and run once more",
        "A package holds its parts stored or deflated. Other methods can not be checked here.",
        _OPC,
    ),
    error(
        "ZIP-BOMB",
        "the part {part} is made to exhaust whoever unpacks it: {why}",
        "a workbook saved as .xlsx or .xlsm",
        "do not open this file; ask whoever sent it",
        "A few kilobytes can be packed so that they unpack to gigabytes. No workbook "
        "that people make does so.",
        PRACTICE,
    ),
    error(
        "DUPLICATE-PARTS",
        "the part {part} is there twice",
        "each part once",
        "open it in a spreadsheet program, save it again under its own name, and run once more",
        "With two parts of one name, two programs may read two different workbooks "
        "out of one file. Names are compared without case.",
        _OPC,
    ),
    error(
        "TOO-MANY-PARTS",
        "the package has {parts} parts",
        "at most {most}",
        "check that this is the right file",
        "Even a workbook of 255 tabs with pictures has a few thousand parts.",
        PRACTICE,
    ),
    error(
        "PART-MISSING",
        "the part {part} is missing",
        "a workbook saved as .xlsx or .xlsm",
        "open it in a spreadsheet program, save it again under its own name, and run once more",
        "Another part points at it, and a workbook can not be understood without it.",
        _OPC,
    ),
    error(
        "PART-NAME",
        "the part name {part} means a place outside of the package",
        "names within the package",
        "do not open this file; ask whoever sent it",
        "Names with steps upwards or drive letters are made to write over other files "
        "when a package is unpacked.",
        _OPC,
    ),
    error(
        "PART-TOO-LARGE",
        "the part {part} unpacks to {mebibytes} MiB",
        "at most 512 MiB",
        "move what is not needed for the takeoff to another workbook",
        "Reading keeps to one gibibyte of memory, so that a run never stops the machine.",
        PRACTICE,
    ),
    error(
        "BOOK-TOO-LARGE",
        "the workbook is, or unpacks to, {mebibytes} MiB",
        "at most 1024 MiB",
        "move what is not needed for the takeoff to another workbook",
        "Reading keeps to one gibibyte of memory, so that a run never stops the machine.",
        PRACTICE,
    ),
    error(
        "TARGET-OUTSIDE",
        "{part} points out of the package, at {target}",
        "targets within the package",
        "do not open this file; ask whoever sent it",
        "Relationships tie the parts of a package together. One that steps further up "
        "than the package goes is made to reach other files.",
        _OPC,
    ),
    error(
        "XML-BROKEN",
        "the part {part} can not be read: {why}",
        "a workbook saved as .xlsx or .xlsm",
        "open it in a spreadsheet program, save it again under its own name, and run once more",
        "A part that must be read or edited is not well formed, or a cell on the tab says "
        "two things: it stands there twice, or in another row than it says, or holds something of "
        "another kind, or asks for a text or a style that the file does not have. Spreadsheet "
        "programs make something of it, not all the same.",
        _OPC,
    ),
    error(
        "XML-DTD",
        "the part {part} declares a document type",
        "parts without a document type declaration",
        "do not open this file; ask whoever sent it",
        "Declarations can make a reader fetch other files, or grow without end. The "
        "packaging rules forbid them.",
        _OPC,
    ),
    error(
        "XML-TOO-DEEP",
        "the part {part} is nested more than {deepest} deep",
        "at most {deepest} levels",
        "do not open this file; ask whoever sent it",
        "Real parts are some twenty levels deep. Bottomless nesting is made to crash a reader.",
        PRACTICE,
    ),
    error(
        "XML-ENCODING",
        "the part {part} is written in {encoding}, which can not be read",
        "UTF-8 or UTF-16",
        "open it in a spreadsheet program, save it again under its own name, and run once more",
        "The packaging rules allow these two encodings.",
        _OPC,
    ),
    error(
        "SHEET-TOO-WIDE",
        "the cells of {part} span more than {most} cells",
        "a tab whose used cells lie close together",
        "delete the empty rows and columns beyond the data (a stray cell far away is "
        "enough), save, and run again",
        "A sheet is spanned by its first and last used row and column. What it says "
        "of its own size is not believed.",
        PRACTICE,
    ),
    error(
        "TOO-MANY-STYLES",
        "the workbook has no room for more cell formats",
        "fewer than {most} different cell formats",
        "remove formats that nothing uses (a copy of the tabs in a new workbook leaves "
        "them behind), or start a workbook of its own with blank, and run again",
        "Spreadsheet programs keep only so many different combinations of font, fill, "
        "border and number format; one more, and they throw formats away on opening.",
        "from memory, not verified",
    ),
    error(
        "CELL-TOO-LONG",
        "{part} holds a text of several megabytes",
        "texts of at most 32,767 signs",
        "shorten the cell in a spreadsheet program",
        "The format allows 32,767 signs in a cell; a text that goes on without an end "
        "is made to exhaust a reader.",
        _SHEET,
    ),
    error(
        "TOO-MANY-RANGES",
        "{part} has merges or links over more than {most} cells",
        "merges and links that cover what is used",
        "unmerge or unlink the whole columns or the whole sheet, save, and run again",
        "A merge over a whole sheet makes a reader touch every one of its 17 billion cells.",
        PRACTICE,
    ),
    error(
        "BAD-REFERENCE",
        "{part} names a place that no sheet has: {reference}",
        "rows up to 1,048,576 and columns up to XFD",
        "open it in a spreadsheet program, save it again under its own name, and run once more",
        "A cell outside of the sheet can not come from a spreadsheet program.",
        _SHEET,
    ),
)

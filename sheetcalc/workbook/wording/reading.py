"""Words of findings on what was read: the file, its tabs and columns, and what a cell holds."""

from sheetcalc.workbook.wording.wording import PRACTICE, error, note, warning

_FILE = (
    error(
        "READING-FAILED",
        "reading the file ended early: {why}",
        "a workbook that can be read",
        "open it in a spreadsheet program, save it under a new name, and run that copy",
        "The file is read in a process of its own. Something in the file ended it; nothing else "
        "came to harm, and nothing was written.",
    ),
    error(
        "READING-TAKES-TOO-LONG",
        "the file was not read within {seconds} s",
        "a workbook that can be read in that time",
        "keep the job in a workbook of its own, or save the file anew in a spreadsheet program",
        "Reading has a limit of time, so that a damaged or hostile file can't hold up the others.",
    ),
    error(
        "READING-TAKES-TOO-MUCH-MEMORY",
        "reading the file takes more than 1 GiB of memory",
        "a workbook that can be read in that much",
        "keep the job in a workbook of its own, or delete what is far below or right of the tables",
        "Reading has a limit of memory, so that a damaged or hostile file can't bring down the "
        "computer.",
    ),
    error(
        "WORKBOOK-WITHOUT-OUR-TABS",
        "tabs {sheets}",
        "the input tabs: at least Job, Rooms, Finishes and Tiles",
        "make a new workbook with 'sheetcalc blank', or add the tabs to this one with "
        "'sheetcalc blank --into'",
        "The workbook has none of the input tabs, neither by the names of their tables nor by "
        "their header rows.",
    ),
    error(
        "TAB-MISSING",
        "no tab {tab}",
        "a tab {tab} with its table",
        "{hint}",
        "Job, Rooms, Finishes and Tiles must be there and filled; every other tab may be absent. "
        "A tab is found by the name of its table, else by its header row.",
    ),
    error(
        "TAB-WITHOUT-HEADER",
        "no header row on tab {tab}",
        "a row with the headers {headers}",
        "type the headers in one row, or delete the tab and add it with 'sheetcalc blank --into'",
        "The table of a tab begins at its header row. Without one nobody can tell which column "
        "is which.",
    ),
    warning(
        "TABLE-NOT-READ",
        "a filled-in table at {where} with the headers of {tab}, which is not read",
        "one table of {tab}; the one at {read} is read",
        "move the rows that belong to the job to the table at {read}, then delete those at "
        "{where}; if they are there for another purpose, change their headers, or accept this",
        "A tab that was duplicated (Rooms (2), Rooms_2, Rooms Copy) and a second table beside or "
        "below the first are your own: one table of each kind is read, and what stands in another "
        "would silently not count. Of the Resistance log, only readings that are typed into the "
        "program's own tab are kept.",
    ),
    error(
        "TAB-EMPTY",
        "no rows on tab {tab}",
        "at least one row: {record}",
        "fill in a row under the headers",
        "Job, Rooms, Finishes and Tiles must be filled; every other tab may be empty.",
    ),
    error(
        "COLUMN-MISSING",
        "no column {header}; nearest header: {nearest}",
        "a column headed {header}",
        "{hint}",
        "Columns may stand in any order, and others may stand between them, but the required ones "
        "must be there. Headers are compared without case, outer spaces and a unit in brackets.",
    ),
    warning(
        "COLUMN-NOT-READ",
        "columns that are not read: {unread}; and no column {missing}",
        "every header of the tab, or no other column in its place",
        "if one of them is meant, give it that header; if it is your own, put the missing header "
        "back with nothing under it, or accept this",
        "Columns of your own are ignored, and a missing column that may be empty counts as empty. "
        "Where both are there, a header may have been changed, and what stands under it would "
        "silently not count.",
    ),
    error(
        "COLUMN-TWICE",
        "two columns headed {header}",
        "one column headed {header}",
        "rename the one that is not meant",
        "With two columns of one name nobody can tell which one counts.",
    ),
    error(
        "HEADER-UNIT-CONTRADICTS",
        "{found}",
        "{header} ({unit}), as the Job says",
        "set the unit in Job to {typed}, or correct the header and the numbers under it",
        "The header shows the unit of plain numbers. What counts is the unit in Job; a header that "
        "says another unit means that one of the two is wrong.",
    ),
    error(
        "CELLS-MERGED",
        "{cells} are merged: only the first of these cells holds a value, the others are empty",
        "a cell of its own for each row and column",
        "unmerge {cells}, and fill in each of these cells",
        "A value that is shown over several rows stands in the first of them alone: a phase merged "
        "over eight rooms would else be the phase of one.",
    ),
    note(
        "TAB-HIDDEN",
        "the tab is hidden; rows on it: {count}",
        "rows of a hidden tab count like the others",
        "show the tab and look at it; if it is no part of this job, clear its rows",
        "A tab that a workbook was copied with, and that nobody sees, still has its part in the "
        "takeoff.",
    ),
    note(
        "COLUMNS-HIDDEN",
        "hidden columns with something in them: {columns}",
        "hidden columns count like the others",
        "show these columns and look at them; clear what is no part of this job",
        "Whoever looks at a row sees less than what is calculated from it: a Count of 8 or a "
        "Same as in a hidden column counts.",
    ),
    note(
        "ROWS-HIDDEN",
        "rows that are hidden: {count}",
        "hidden and filtered rows count like the others",
        "nothing, if these rows belong to the job; else delete them",
        "A filter hides rows from the eye, not from the takeoff.",
    ),
    error(
        "ROWS-ABOVE-HEADER",
        "rows above the header row that look like records ({count}): {rows}",
        "the header row above all records",
        "move the header row up, above the first of them (a sort may have taken it along); what is "
        "no record may stand in fewer cells",
        "Records are read below the header row. A sort of a range that took the header row along "
        "leaves records above it, which would silently not count.",
    ),
    warning(
        "ROWS-STRUCK-OUT",
        "rows with cells that are struck through ({count}): {rows}",
        "rows that belong to the job; struck ones count like the others",
        "delete the rows that do not belong to the job; if these do, take the line through them "
        "away, or accept this",
        "How a cell looks says nothing to the takeoff: a room that was cancelled by striking it "
        "through would be ordered and quoted.",
    ),
    warning(
        "ROWS-STRUCK-BY-RULE",
        "a rule of conditional formatting strikes text through in {cells}",
        "rows that belong to the job; struck ones count like the others",
        "look whether any is struck now, and delete those that do not belong to the job; then "
        "accept this",
        "How a cell looks says nothing to the takeoff, and whether a rule holds is not worked out "
        "here: a room that was cancelled by a word beside it would be ordered and quoted.",
    ),
)

_CELLS = (
    error(
        "CELL-EMPTY",
        "an empty cell",
        "a value; each row ({record}) needs one here",
        "fill in the cell, or clear the whole row",
        "A required cell of a row that has anything in it must be filled.",
    ),
    error(
        "CELL-IS-AN-ERROR",
        "{found}",
        "a value",
        "correct the formula, or type the value",
        "An error value of the spreadsheet program, such as #REF! or #N/A, stands for no value.",
    ),
    error(
        "FORMULA-WITHOUT-VALUE",
        "{found}",
        "a formula with its calculated value, or a value",
        "open the workbook in a spreadsheet program, let it calculate, and save it",
        "A formula is fine where its last calculated value is stored in the file. Some programs "
        "save formulas without values; such a cell is never taken for an empty one.",
    ),
    error(
        "NAME-IS-A-DATE",
        "{found}",
        "a name or a code",
        "format the cell as text, then type it again ({hint}?)",
        "Spreadsheet programs turn 3/4 and 1-2 into dates. Name and code columns of a blank "
        "workbook are formatted as text, so that they stay as typed.",
        PRACTICE,
    ),
    error(
        "CHOICE-UNKNOWN",
        "{found}",
        "one of: {choices}",
        "choose from the drop-down list",
        "The cell takes one of a few words, in any case.",
    ),
    error(
        "CHOICE-TWICE",
        "{found}",
        "each at most once, of: {choices}",
        "delete the word that stands twice",
        "The order of the words is the order of their weight, so each stands once.",
    ),
    error(
        "DATE-UNREADABLE",
        "{found}",
        "a date",
        "type a date that the spreadsheet program takes as one, or year-month-day: 2027-03-01",
        "Text that looks like a date can mean two days (3/4 is in March or in April), so only "
        "real dates and year-month-day are read.",
    ),
    error(
        "BOND-UNKNOWN",
        "{found}",
        "a bond",
        "{hint}",
        "Bonds are grid, offset 1/n (every row steps the same way), offset 1/n alternate (back and "
        "forth), diagonal grid, herringbone, double herringbone and basket weave. A bare 1/3 would "
        "become a date.",
    ),
    error(
        "RUN-UNKNOWN",
        "{found}",
        "along the long side, along the short side, or degrees",
        "choose from the list, or type degrees such as 30 degrees",
        "Run is the direction of the tile's long side on the surface.",
    ),
    error(
        "TURN-UNKNOWN",
        "{found}",
        "left, right, straight, or degrees between -180 and 180",
        "choose from the list, or type degrees: to the left plus, to the right minus",
        "Turn says how the walk round the room goes on from the leg before.",
    ),
    error(
        "NOTCH-UNREADABLE",
        "{found}",
        "a trowel's notch: shape, then width x depth x spacing",
        "{hint}; for example square 10 x 10 x 10 mm, or V 3/16 x 5/32 x 1/16 in",
        "US notches are named by width x depth x spacing, such as 1/4 x 3/8 x 1/4 square "
        "(floortrends Dec 2024). With two sizes the spacing is as wide as the notch. Sizes "
        "without a unit count in the unit that stands last, else in the Job's small lengths.",
        "naming: floortrends Dec 2024; the rest is the program's own rule",
    ),
    warning(
        "COPIES-NAME-ONE",
        "{found}, which is the name of one room, and nothing in Count",
        "names of alike rooms, parted by commas, or a range: 101-108",
        "part the names with commas; if it is one room, type 1 in Count",
        "Where Count is empty, the names in Copies are counted. What is parted by spaces, strokes "
        "or words is one name, so that two rooms would be one.",
    ),
    error(
        "DATE-OUT-OF-RANGE",
        "{found}",
        "a date from 2000 to 2099",
        "type the date with all four digits of its year",
        "A year that was typed with two digits may become 1930, and a slip of the hand 2207; days "
        "of delivery would be worked out from it.",
        PRACTICE,
    ),
    error(
        "COPIES-UNREADABLE",
        "{found}",
        "names of alike rooms: 101-108, or 101, 103, 105",
        "{hint}",
        "Copies names the rooms that a row of Rooms stands for; cards and the resistance log have "
        "one for each.",
    ),
)

WORDINGS = (*_FILE, *_CELLS)

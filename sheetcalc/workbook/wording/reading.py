"""Words of findings on what was read: the file, its tabs and columns, and cells by their kind."""

from typing import Final

from sheetcalc.domain.finding import Severity
from sheetcalc.workbook.wording.wording import Wording

_CONTRACT: Final = "the workbook's contract"
_NOTATION: Final = "common practice, no source"
_EXACT: Final = "16 CFR 500.19 for the exact factors; the notation is common practice, no source"

_FORMS: Final = (
    "A length is a number in the Job's unit, or text with its unit: 1600 mm, 1.6 m, 1,6 m, "
    '160 cm, 63 1/2 in, 63-1/2", 5\' 3 1/2", 5\'-3½", 5ft 3in. A typed unit always wins. '
)


def _error(  # noqa: PLR0913, PLR0917 (the parts of a message)
    code: str, found: str, expected: str, what_to_do: str, explain: str, source: str = _CONTRACT
) -> Wording:
    return Wording(code, Severity.ERROR, found, expected, what_to_do, explain, source)


_LENGTH: Final = "a length, with its unit or counted in the Job's unit"

_FILE = (
    _error(
        "READING-FAILED",
        "reading the file ended early: {why}",
        "a workbook that can be read",
        "open it in a spreadsheet program, save it under a new name, and run that copy",
        "The file is read in a process of its own. Something in the file ended it; nothing else "
        "came to harm, and nothing was written.",
    ),
    _error(
        "READING-TAKES-TOO-LONG",
        "the file was not read within {seconds} s",
        "a workbook that can be read in that time",
        "keep the job in a workbook of its own, or save the file anew in a spreadsheet program",
        "Reading has a limit of time, so that a damaged or hostile file can't hold up the others.",
    ),
    _error(
        "READING-TAKES-TOO-MUCH-MEMORY",
        "reading the file takes more than 1 GiB of memory",
        "a workbook that can be read in that much",
        "keep the job in a workbook of its own, or delete what is far below or right of the tables",
        "Reading has a limit of memory, so that a damaged or hostile file can't bring down the "
        "computer.",
    ),
    _error(
        "WORKBOOK-WITHOUT-OUR-TABS",
        "tabs {sheets}",
        "the input tabs: at least Job, Rooms, Finishes and Tiles",
        "make a new workbook with 'sheetcalc blank', or add the tabs to this one with "
        "'sheetcalc blank --into'",
        "The workbook has none of the input tabs, neither by the names of their tables nor by "
        "their header rows.",
    ),
    _error(
        "TAB-MISSING",
        "no tab {tab}",
        "a tab {tab} with its table",
        "{hint}",
        "Job, Rooms, Finishes and Tiles must be there and filled; every other tab may be absent. "
        "A tab is found by the name of its table, else by its header row.",
    ),
    _error(
        "TAB-WITHOUT-HEADER",
        "no header row on tab {tab}",
        "a row with the headers {headers}",
        "type the headers in one row, or delete the tab and add it with 'sheetcalc blank --into'",
        "The table of a tab begins at its header row. Without one nobody can tell which column "
        "is which.",
    ),
    _error(
        "TAB-EMPTY",
        "no rows on tab {tab}",
        "at least one row: {record}",
        "fill in a row under the headers",
        "Job, Rooms, Finishes and Tiles must be filled; every other tab may be empty.",
    ),
    _error(
        "COLUMN-MISSING",
        "no column {header}; nearest header: {nearest}",
        "a column headed {header}",
        "{hint}",
        "Columns may stand in any order, and others may stand between them, but the required ones "
        "must be there. Headers are compared without case, outer spaces and a unit in brackets.",
    ),
    Wording(
        "COLUMN-NOT-READ",
        Severity.WARNING,
        "columns that are not read: {unread}; and no column {missing}",
        "every header of the tab, or no other column in its place",
        "if one of them is meant, give it that header; if it is your own, put the missing header "
        "back with nothing under it, or accept this",
        "Columns of your own are ignored, and a missing column that may be empty counts as empty. "
        "Where both are there, a header may have been changed, and what stands under it would "
        "silently not count.",
        _CONTRACT,
    ),
    _error(
        "COLUMN-TWICE",
        "two columns headed {header}",
        "one column headed {header}",
        "rename the one that is not meant",
        "With two columns of one name nobody can tell which one counts.",
    ),
    _error(
        "HEADER-UNIT-CONTRADICTS",
        "{found}",
        "{header} ({unit}), as the Job says",
        "set the unit in Job to {typed}, or correct the header and the numbers under it",
        "The header shows the unit of plain numbers. What counts is the unit in Job; a header that "
        "says another unit means that one of the two is wrong.",
    ),
    Wording(
        "ROWS-HIDDEN",
        Severity.NOTE,
        "rows that are hidden: {count}",
        "hidden and filtered rows count like the others",
        "nothing, if these rows belong to the job; else delete them",
        "A filter hides rows from the eye, not from the takeoff.",
        _CONTRACT,
    ),
)

_CELLS = (
    _error(
        "CELL-EMPTY",
        "an empty cell",
        "a value; each row ({record}) needs one here",
        "fill in the cell, or clear the whole row",
        "A required cell of a row that has anything in it must be filled.",
    ),
    _error(
        "CELL-IS-AN-ERROR",
        "{found}",
        "a value",
        "correct the formula, or type the value",
        "An error value of the spreadsheet program, such as #REF! or #N/A, stands for no value.",
    ),
    _error(
        "FORMULA-WITHOUT-VALUE",
        "{found}",
        "a formula with its calculated value, or a value",
        "open the workbook in a spreadsheet program, let it calculate, and save it",
        "A formula is fine where its last calculated value is stored in the file. Some programs "
        "save formulas without values; such a cell is never taken for an empty one.",
    ),
    _error(
        "NAME-IS-A-DATE",
        "{found}",
        "a name or a code",
        "format the cell as text, then type it again ({hint}?)",
        "Spreadsheet programs turn 3/4 and 1-2 into dates. Name and code columns of a blank "
        "workbook are formatted as text, so that they stay as typed.",
        _NOTATION,
    ),
    _error(
        "CHOICE-UNKNOWN",
        "{found}",
        "one of: {choices}",
        "choose from the drop-down list",
        "The cell takes one of a few words, in any case.",
    ),
    _error(
        "CHOICE-TWICE",
        "{found}",
        "each at most once, of: {choices}",
        "delete the word that stands twice",
        "The order of the words is the order of their weight, so each stands once.",
    ),
    _error(
        "DATE-UNREADABLE",
        "{found}",
        "a date",
        "type a date that the spreadsheet program takes as one, or year-month-day: 2027-03-01",
        "Text that looks like a date can mean two days (3/4 is in March or in April), so only "
        "real dates and year-month-day are read.",
    ),
    _error(
        "BOND-UNKNOWN",
        "{found}",
        "a bond",
        "{hint}",
        "Bonds are grid, offset 1/n (every row steps the same way), offset 1/n alternate (back and "
        "forth), diagonal grid, herringbone, double herringbone and basket weave. A bare 1/3 would "
        "become a date.",
    ),
    _error(
        "RUN-UNKNOWN",
        "{found}",
        "along the long side, along the short side, or degrees",
        "choose from the list, or type degrees such as 30 degrees",
        "Run is the direction of the tile's long side on the surface.",
    ),
    _error(
        "TURN-UNKNOWN",
        "{found}",
        "left, right, straight, or degrees between -180 and 180",
        "choose from the list, or type degrees: to the left plus, to the right minus",
        "Turn says how the walk round the room goes on from the leg before.",
    ),
    _error(
        "NOTCH-UNREADABLE",
        "{found}",
        "a trowel's notch: shape, then width x depth x spacing",
        "{hint}; for example square 10 x 10 x 10 mm, or V 3/16 x 5/32 x 1/16 in",
        "US notches are named by width x depth x spacing, such as 1/4 x 3/8 x 1/4 square "
        "(floortrends Dec 2024). With two sizes the spacing is as wide as the notch. Sizes "
        "without a unit count in the unit that stands last, else in the Job's small lengths.",
        "naming: floortrends Dec 2024; the rest is the workbook's contract",
    ),
    _error(
        "COPIES-UNREADABLE",
        "{found}",
        "names of alike rooms: 101-108, or 101, 103, 105",
        "{hint}",
        "Copies names the rooms that a row of Rooms stands for; cards and the resistance log have "
        "one for each.",
    ),
)

_NUMBERS = (
    _error(
        "NUMBER-AS-TEXT",
        "{found}, which is text",
        "a number",
        "{hint}",
        "Numbers, prices and percents are read from number cells only: text with a currency, a "
        "unit or a leading apostrophe can't be calculated with in the workbook itself.",
    ),
    _error(
        "NUMBER-UNREADABLE",
        "{found}",
        "a number",
        "{hint}",
        "The cell holds something that is no number.",
    ),
    _error(
        "NUMBER-COMMA",
        "{found}, which is text",
        "a number",
        "{hint}",
        "A decimal comma that the spreadsheet program did not take is stored as text. A comma may "
        "also part thousands; nobody can tell.",
    ),
    _error(
        "NUMBER-THOUSANDS",
        "{found}, which is text",
        "a number",
        "{hint}",
        "A comma with exactly three digits after it may part thousands or be a decimal comma.",
        _NOTATION,
    ),
    _error(
        "NUMBER-IS-A-DATE",
        "{found}",
        "a number",
        "format the cell as a number and type it again (was it {hint}?); inches as 3/4 in",
        "Spreadsheet programs turn 3/4 and 1-2 into dates; what was typed is gone then.",
        _NOTATION,
    ),
    _error(
        "NUMBER-IS-PERCENT",
        "{found}",
        "a plain number",
        "format the cell as a number and type it again; stored is {stored}",
        "A percent cell stores the hundredth part of what it shows, so that the number meant is "
        "not the number stored.",
    ),
    _error(
        "NUMBER-NOT-FINITE",
        "a value that is not a finite number",
        "a number",
        "{hint}",
        "NaN and infinity are no sizes or quantities.",
    ),
    _error(
        "NUMBER-OUT-OF-RANGE",
        "{found}",
        "from {low} to {high}",
        "correct the number, or its unit",
        "The column has bounds that no real job passes.",
    ),
    Wording(
        "NUMBER-UNUSUAL",
        Severity.WARNING,
        "{found}",
        "usually from {low} to {high}",
        "check it; if it is right, accept the warning in Decisions",
        "The number is possible, but out of the usual range.",
        _NOTATION,
    ),
    _error(
        "NUMBERS-UNREADABLE",
        "{found}",
        "numbers, separated by commas, such as 10, 16, 20, 32",
        "type the numbers with decimal points, separated by commas or semicolons",
        "The cell holds several numbers.",
    ),
    _error(
        "COUNT-NOT-WHOLE",
        "{found}",
        "a whole number",
        "{hint}",
        "Things that are counted are not cut in parts here.",
    ),
    _error(
        "PERCENT-ABOVE-ONE",
        "{found}, stored as more than 100 %",
        "a percentage of at most 100 %",
        "if {likely} is meant, format the cell as percent and type {likely}; a share above 100 % "
        "is not taken",
        "A percent cell stores 0.1 for 10 %. A stored 10 would be 1000 %.",
    ),
)

_LENGTHS = (
    _error(
        "LENGTH-UNREADABLE",
        "{found}",
        _LENGTH,
        "{hint}",
        _FORMS,
        _EXACT,
    ),
    _error(
        "LENGTH-OUT-OF-RANGE",
        "{found}",
        "a length from {low} to {high}",
        "{hint}",
        _FORMS + "The column has bounds that no real room or product passes.",
    ),
    Wording(
        "LENGTH-UNUSUAL",
        Severity.WARNING,
        "{found}",
        "usually from {low} to {high}",
        "check it ({hint}); if it is right, accept the warning in Decisions",
        "The length is possible, but out of the usual range; often the unit is another than meant.",
        _NOTATION,
    ),
    _error(
        "LENGTH-THOUSANDS",
        "{found}",
        _LENGTH,
        "{hint}",
        _FORMS + "A comma followed by exactly three digits may part thousands or be a decimal "
        "comma, so it is refused.",
        _NOTATION,
    ),
    _error(
        "LENGTH-COMMA",
        "{found}",
        _LENGTH,
        "{hint}",
        _FORMS + "A decimal comma is read only with an explicit unit.",
        _NOTATION,
    ),
    _error(
        "LENGTH-TWO-WAYS",
        "{found}, which can be read in two ways",
        _LENGTH,
        "{hint}",
        _FORMS + "Several numbers without their units or marks can be read in two ways; "
        "5-3-1/2 is read as feet, inches and a fraction in a job in feet only.",
        _NOTATION,
    ),
    _error(
        "LENGTH-INCHES-BESIDE-FEET",
        "{found}",
        "less than 12 inches beside feet",
        "{hint}",
        _FORMS + "Twelve or more inches beside feet are as a rule a slip of the hand.",
        _NOTATION,
    ),
    _error(
        "LENGTH-NEGATIVE",
        "{found}",
        "a length that is not negative",
        "{hint}",
        _FORMS + "Only Left, Front and Bottom may be negative, for what lies outside the "
        "rectangle round the room.",
    ),
    _error(
        "LENGTH-UNKNOWN-UNIT",
        "{found}",
        _LENGTH,
        "{hint}",
        _FORMS,
        _EXACT,
    ),
    _error(
        "LENGTH-FRACTION-WITHOUT-UNIT",
        "{found}",
        _LENGTH,
        "{hint}",
        _FORMS + "A fraction without a unit is read where plain numbers are inches, nowhere else.",
        _NOTATION,
    ),
    _error(
        "LENGTH-ABSURD",
        "{found}",
        "a length of something that is built",
        "{hint}",
        _FORMS,
    ),
)

WORDINGS = (*_FILE, *_CELLS, *_NUMBERS, *_LENGTHS)

"""Words of findings on numbers and lengths in cells."""

from typing import Final

from sheetcalc.workbook.wording.wording import PRACTICE, error, warning

_EXACT: Final = "16 CFR 500.19 for the exact factors; the notation is common practice, no source"
_FORMS: Final = (
    "A length is a number in the Job's unit, or text with its unit: 1600 mm, 1.6 m, 1,6 m, "
    '160 cm, 63 1/2 in, 63-1/2", 5\' 3 1/2", 5\'-3½", 5ft 3in. A typed unit always wins. '
)
_LENGTH: Final = "a length, with its unit or counted in the Job's unit"


_NUMBERS = (
    error(
        "NUMBER-AS-TEXT",
        "{found}, which is text",
        "a number",
        "{hint}",
        "Numbers, prices and percents are read from number cells only: text with a currency, a "
        "unit or a leading apostrophe can't be calculated with in the workbook itself.",
    ),
    error(
        "NUMBER-UNREADABLE",
        "{found}",
        "a number",
        "{hint}",
        "The cell holds something that is no number.",
    ),
    error(
        "NUMBER-COMMA",
        "{found}, which is text",
        "a number",
        "{hint}",
        "A decimal comma that the spreadsheet program did not take is stored as text. A comma may "
        "also part thousands; nobody can tell.",
    ),
    error(
        "NUMBER-THOUSANDS",
        "{found}, which is text",
        "a number",
        "{hint}",
        "A comma or a point with exactly three digits after it may part thousands or decimals.",
        PRACTICE,
    ),
    error(
        "NUMBER-IS-A-DATE",
        "{found}",
        "a number",
        "format the cell as a number and type it again (was it {hint}?); inches as 3/4 in",
        "Spreadsheet programs turn 3/4 and 1-2 into dates; what was typed is gone then.",
        PRACTICE,
    ),
    error(
        "NUMBER-IS-PERCENT",
        "{found}",
        "a plain number",
        "format the cell as a number and type it again; stored is {stored}",
        "A percent cell stores the hundredth part of what it shows, so that the number meant is "
        "not the number stored.",
    ),
    error(
        "NUMBER-NOT-FINITE",
        "a value that is not a finite number",
        "a number",
        "{hint}",
        "NaN and infinity are no sizes or quantities.",
    ),
    error(
        "NUMBER-OUT-OF-RANGE",
        "{found}",
        "from {low} to {high}",
        "correct the number, or its unit",
        "The column has bounds that no real job passes.",
    ),
    warning(
        "NUMBER-UNUSUAL",
        "{found}",
        "usually from {low} to {high}",
        "check it; if it is right, accept the warning in Decisions",
        "The number is possible, but out of the usual range.",
        PRACTICE,
    ),
    warning(
        "TEMPERATURE-UNUSUAL",
        "{number} {unit}",
        "usually from {low} to {high}",
        "if {number} {other} is meant, put {other} beside it in Unit; if it is right, accept the "
        "warning in Decisions",
        "Unit says on which scale a temperature is read; without one it is the Job's own: "
        "°F where rooms are measured in feet or inches, else °C. "
        "Temperatures are possible beyond the usual range, but rooms in which floors are laid are "
        "seldom so cold or so warm.",
        PRACTICE,
    ),
    error(
        "NUMBERS-UNREADABLE",
        "{found}",
        "numbers, separated by commas, such as 10, 16, 20, 32",
        "type the numbers with decimal points, separated by commas or semicolons",
        "The cell holds several numbers.",
    ),
    error(
        "COUNT-NOT-WHOLE",
        "{found}",
        "a whole number",
        "{hint}",
        "Things that are counted are not cut in parts here.",
    ),
    error(
        "PERCENT-ABOVE-ONE",
        "{found}, stored as more than 100 %",
        "a percentage of at most 100 %",
        "if {likely} is meant, format the cell as percent and type {likely}; a share above 100 % "
        "is not taken",
        "A percent cell stores 0.1 for 10 %. A stored 10 would be 1000 %.",
    ),
)

_LENGTHS = (
    error(
        "LENGTH-UNREADABLE",
        "{found}",
        _LENGTH,
        "{hint}",
        _FORMS,
        _EXACT,
    ),
    error(
        "LENGTH-OUT-OF-RANGE",
        "{found}",
        "a length from {low} to {high}",
        "{hint}",
        _FORMS + "The column has bounds that no real room or product passes.",
    ),
    warning(
        "LENGTH-UNUSUAL",
        "{found}",
        "usually from {low} to {high}",
        "check it ({hint}); if it is right, accept the warning in Decisions",
        "The length is possible, but out of the usual range; often the unit is another than meant.",
        PRACTICE,
    ),
    error(
        "LENGTH-THOUSANDS",
        "{found}",
        _LENGTH,
        "{hint}",
        _FORMS + "A comma followed by exactly three digits may part thousands or be a decimal "
        "comma, so it is refused.",
        PRACTICE,
    ),
    error(
        "LENGTH-COMMA",
        "{found}",
        _LENGTH,
        "{hint}",
        _FORMS + "A decimal comma is read only with an explicit unit.",
        PRACTICE,
    ),
    error(
        "LENGTH-TWO-WAYS",
        "{found}, which can be read in two ways",
        _LENGTH,
        "{hint}",
        _FORMS + "Several numbers without their units or marks can be read in two ways; "
        "5-3-1/2 is read as feet, inches and a fraction in a job in feet only.",
        PRACTICE,
    ),
    error(
        "LENGTH-INCHES-BESIDE-FEET",
        "{found}",
        "less than 12 inches beside feet",
        "{hint}",
        _FORMS + "Twelve or more inches beside feet are as a rule a slip of the hand.",
        PRACTICE,
    ),
    error(
        "LENGTH-NEGATIVE",
        "{found}",
        "a length that is not negative",
        "{hint}",
        _FORMS + "Only Left, Front and Bottom may be negative, for what lies outside the "
        "rectangle round the room.",
    ),
    error(
        "LENGTH-UNKNOWN-UNIT",
        "{found}",
        _LENGTH,
        "{hint}",
        _FORMS,
        _EXACT,
    ),
    error(
        "LENGTH-FRACTION-WITHOUT-UNIT",
        "{found}",
        _LENGTH,
        "{hint}",
        _FORMS + "A fraction without a unit is read where plain numbers are inches, nowhere else.",
        PRACTICE,
    ),
    error(
        "LENGTH-ABSURD",
        "{found}",
        "a length of something that is built",
        "{hint}",
        _FORMS,
    ),
)

WORDINGS = (*_NUMBERS, *_LENGTHS)

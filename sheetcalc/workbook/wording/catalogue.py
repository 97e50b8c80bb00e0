"""Words of findings on names, settings and the catalogue: unknown, doubled, not fitting."""

from sheetcalc.workbook.wording.wording import PRACTICE, error, note, warning

_NAMES = (
    error(
        "NAME-UNKNOWN",
        "{found}, which is in no row of {tab}",
        "a name that stands in {tab}, column {header}",
        "{hint}",
        "Tabs refer to each other by names and codes. Names are compared without case and surplus "
        "spaces; the nearest ones are suggested.",
    ),
    error(
        "NAME-TWICE",
        "{found}, which stands in row {row} already",
        "each name once",
        "rename one of the two, or delete it",
        "Other tabs refer to this name, so it must mean one row.",
    ),
    error(
        "SURFACE-TWICE",
        "{found}, which stands in row {row} already",
        "each surface of a finish once",
        "delete one of the two rows, or name another finish",
        "A finish says once what lies on each of its surfaces.",
    ),
    error(
        "LAYER-TWICE",
        "{found}, which stands in row {row} already",
        "each place in the order of a surface's layers once",
        "give one of the two layers another number in Order",
        "Order says what lies on what, from the base up.",
    ),
    error(
        "CODE-TWICE",
        "{found}, which stands in row {row} already",
        "each code once, or again with another supplier",
        "rename one of the two, or give the supplier of the second",
        "A code is unique in its tab. The same code again with another Supplier is an "
        "alternative source of the same thing.",
    ),
    error(
        "ALTERNATIVE-DIFFERS",
        "{found}; row {row} has another for {item}",
        "the same as in row {row}, for it is the same code",
        "correct one of the two rows, or give this one a code of its own",
        "Rows of one code are the same thing from other suppliers: kind, sizes and the unit of "
        "the pack agree, so that either can be ordered.",
    ),
    error(
        "ITEM-IN-TWO-TABS",
        "{found}, which stands in {tabs}",
        "a code that stands in one of these tabs only",
        "rename one of the two items",
        "A layer names its item by code alone, so the code must be in one catalogue tab only.",
    ),
    warning(
        "YIELD-UNUSUAL",
        "{found}",
        "usually from {low} to {high} as mixed of {pack}",
        "read it from the bag, in the unit of the header; if it is right, accept the warning",
        "A kilogram of mortar, grout or levelling compound gives between 0.3 and 2 L as mixed. A "
        "yield far off that is often in another unit, and would order far too many bags or few.",
        PRACTICE,
    ),
    warning(
        "SUPPLIER-IN-TWO-SPELLINGS",
        '{found}, and elsewhere "{other}"',
        "one spelling of a supplier's name",
        "use one of the two everywhere; if they are two firms, accept the warning in Decisions",
        "Orders are made for each supplier name. Two spellings of one firm give two orders.",
    ),
)

_SETTINGS = (
    warning(
        "SETTING-UNKNOWN",
        "{found}",
        "the name of a setting",
        "{hint}",
        "Settings are found by their names in the Setting column; a row with another name has no "
        "effect.",
    ),
    error(
        "SETTING-TWICE",
        "{found}, which stands in row {row} already",
        "each setting once",
        "delete one of the two rows",
        "With two rows for one setting nobody can tell which one counts.",
    ),
    note(
        "SETTINGS-NOT-THERE",
        "settings that are not on the Job tab ({count}): {settings}",
        "a row for every setting",
        "nothing, if their defaults are right ('sheetcalc explain' tells each); else add the row",
        "A setting without a row has its stated default.",
    ),
    error(
        "UNIT-UNKNOWN",
        "{found}",
        "one of: {units}",
        "correct the unit, or type it with the value",
        "The Unit column says what a plain number in Value is counted in.",
    ),
)

_PRODUCTS = (
    error(
        "TILE-WITHOUT-JOINT",
        "no joint for tile {tile}",
        "the width of the joints",
        "type the joint; 0 for tiles laid tight",
        "Setting-out, grout and the checks of the joint all start from its width, so there is no "
        "default.",
    ),
    error(
        "TILE-THICKER-THAN-LONG",
        "{found}",
        "a thickness less than the tile's sides",
        "check Length, Width and Thickness, and their units",
        "A tile is flat; columns that were mixed up, or a unit, are the usual reason.",
    ),
    note(
        "TILE-WIDER-THAN-LONG",
        "{found}, less than the Width",
        "the long side in Length, the short side in Width",
        "nothing; the longer side is taken as the length",
        "Run speaks of the tile's long side, so the longer of the two is taken as the length.",
    ),
    error(
        "CHIP-SIZE-MISSING",
        "an empty cell",
        "both sizes of a mosaic's chip, or none",
        "fill in the other size, or clear both",
        "Mosaic is cut on chip joints and grouted by chip, which takes both sizes.",
    ),
    error(
        "CHIP-LARGER-THAN-SHEET",
        "{found}",
        "a chip that fits into its sheet",
        "the sheet's size belongs in Length and Width, the chip's in Chip length and Chip width",
        "Mosaic is laid and ordered by the sheet and grouted by the chip.",
    ),
    error(
        "OVERLAP-OVER-WIDTH",
        "{found}",
        "an overlap less than the width of the roll",
        "check Width and Overlap, and their units",
        "Each further strip covers the width less the overlap.",
    ),
)

_DECISIONS = (
    warning(
        "DECISION-ON-UNKNOWN-CODE",
        "{found}",
        "the code of a finding",
        "{hint}",
        "A row of Decisions accepts findings by their code. This code is none, so the row does "
        "nothing.",
    ),
    warning(
        "DECISION-ON-ERROR",
        "{found}, which is an error",
        "the code of a warning",
        "correct the error; only warnings can be accepted",
        "An error stops the takeoff, because without its correction a number would be wrong or "
        "missing. A warning asks, and can be accepted.",
    ),
)

WORDINGS = (*_DECISIONS, *_NAMES, *_SETTINGS, *_PRODUCTS)

"""Words of findings about rolls and strips."""

from sheetcalc.workbook.wording.wording import PRACTICE, Wording, error, warning

WORDINGS: tuple[Wording, ...] = (
    warning(
        "STRIP-JOINED",
        "{strip} is {length} long; a roll of {item} is {roll_length}",
        "strips no longer than the roll",
        "accept the joint, or choose a longer roll",
        "A strip that is longer than the roll is cut in parts that lap by the roll's overlap. On "
        "the cutting list they are numbered part 1 of 2 and so on; put the joint where it "
        "disturbs least.",
        PRACTICE,
    ),
    error(
        "STRIP-LONGER-THAN-ROLL",
        "{strip} is {length} long; a roll of {item} is {roll_length}",
        "strips no longer than the roll: the Job refuses joined ones",
        "choose a longer roll, or set 'Strips longer than the roll' on the Job to join",
        "The Job says whether a strip that is longer than the roll is joined from parts or "
        "refused. It refuses them, so this strip can't be cut from the roll named.",
    ),
    warning(
        "STOCK-WITHOUT-PRICE",
        "{item} has no price, and Build-up names it with others: {items}",
        "a price for every item that is priced against others",
        "type the Price of {item} in Rolls and sheets",
        "Where a row of Build-up names several items, the cheapest way to cover the rooms of a "
        "phase is ordered. A way with an item without a price is taken only where no other has "
        "prices for all its items; then the least material counts.",
    ),
    warning(
        "SOLVER-NOT-INSTALLED",
        "the Job asks for the solver in roll plans, and it is not installed",
        "the optional solver (extra 'bounds'), or 'Solver for roll plans' set to no",
        "install the extra 'bounds', or set 'Solver for roll plans' on the Job to no",
        "With the solver, the bound beside a roll plan comes from linear programming over cutting "
        "patterns, and plans above it are tried again by integer programming. Without it, plans "
        "come from the rule and the bound from areas.",
        "Gilmore and Gomory 1961 (abstract)",
    ),
    error(
        "ROLL-TOO-SMALL",
        "{item} is {roll_width} wide and {roll_length} long; {strip} needs {width}",
        "a roll that is wider and longer than its overlap",
        "correct Width, Length and Overlap of {item} in Rolls and sheets",
        "Strips cover what is left of their width after the lap. A roll that is no wider than its "
        "lap, or has no length, covers nothing.",
        "derived",
    ),
)

"""Words of findings about rolls and strips."""

from sheetcalc.domain.finding import Severity
from sheetcalc.workbook.wording.wording import Wording

WORDINGS: tuple[Wording, ...] = (
    Wording(
        "STRIP-JOINED",
        Severity.WARNING,
        "{piece} is {length} long; a roll of {item} is {roll_length}",
        "strips no longer than the roll",
        "accept the joint, or choose a longer roll",
        "A strip that is longer than the roll is cut in parts that lap by the roll's overlap. On "
        "the cutting list they are numbered part 1 of 2 and so on; put the joint where it "
        "disturbs least.",
        "common practice, no source",
    ),
    Wording(
        "ROLL-TOO-SMALL",
        Severity.ERROR,
        "{item} is {roll_width} wide and {roll_length} long; {piece} needs {width}",
        "a roll that is wider and longer than its overlap",
        "correct Width, Length and Overlap of {item} in Rolls and sheets",
        "Strips cover what is left of their width after the lap. A roll that is no wider than its "
        "lap, or has no length, covers nothing.",
        "derived",
    ),
)

"""What can be wrong in the catalogue that only the lines can tell."""

from collections.abc import Iterator

from sheetcalc.domain.catalogue import Catalogue
from sheetcalc.domain.finding import Finding
from sheetcalc.lines.items import nearest
from sheetcalc.lines.waste import check_waste_factors
from sheetcalc.rules.allowances import WASTE_LINES
from sheetcalc.rules.bases import BASES


def check_catalogue(catalogue: Catalogue) -> Iterator[Finding]:
    """Find waste factors said twice or for no line, and sundries whose rule can't be worked.

    Yields
    ------
    Finding
        ``WASTE-FACTOR-TWICE``, ``WASTE-FACTOR-FOR-NO-LINE``, ``SUNDRY-OF-NOTHING``,
        ``SUNDRY-OF-UNKNOWN``.
    """
    yield from check_waste_factors(catalogue)
    for row in catalogue.waste_factors:
        if row.line not in WASTE_LINES:
            near = nearest(row.line, WASTE_LINES) or ", ".join(WASTE_LINES)
            facts = {"line": row.line, "nearest": near}
            yield Finding("WASTE-FACTOR-FOR-NO-LINE", row.source, "Line", facts)
    codes = [
        *catalogue.tiles, *catalogue.bags, *catalogue.rolls, *catalogue.cables,
        *catalogue.sundries,
    ]  # fmt: skip
    for sundry in catalogue.sundries.values():
        basis = BASES.get(sundry.basis)
        if basis is None or not basis.needs_of:
            continue
        if not sundry.of_item:
            yield Finding("SUNDRY-OF-NOTHING", sundry.source, "Of", {"code": sundry.code})
        elif sundry.of_item not in codes:
            near = nearest(sundry.of_item, codes) or "nothing like it"
            facts = {"code": sundry.code, "of": sundry.of_item, "nearest": near}
            yield Finding("SUNDRY-OF-UNKNOWN", sundry.source, "Of", facts)

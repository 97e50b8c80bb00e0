"""Which waste factor a line uses: the most specific row wins."""

from collections.abc import Iterator
from functools import lru_cache

from sheetcalc.domain.catalogue import Catalogue, WasteFactor
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.quantity import WasteUsed
from sheetcalc.rules.allowances import default_allowance


def waste_for(
    catalogue: Catalogue, line: str, finish: str, bond: str = "", counted_by: str = ""
) -> WasteUsed:
    """Waste factor of a line.

    Line+finish+bond wins over line+finish, that over line+bond, that over line (the program's
    own rule).  Between two that are otherwise alike, a row that names Counted by wins.

    Parameters
    ----------
    catalogue
        Holds the rows of Waste factors.
    line
        Key of the line.
    finish
        Name of the finish.
    bond
        Label of the bond; "" where the line has none.
    counted_by
        ``setting-out``, ``area``, or "" where the line is not of tiles.

    Returns
    -------
    WasteUsed
        With ``criteria`` of the row that won, or the line's stated default.
    """
    return _waste(catalogue.waste_factors, line, finish, bond, counted_by)


@lru_cache(maxsize=1024)
def _waste(
    factors: tuple[WasteFactor, ...], line: str, finish: str, bond: str, counted_by: str
) -> WasteUsed:
    rows = [row for row in factors if _matches(row, line, finish, bond, counted_by)]
    if rows:
        best = max(rows, key=_specificity)
        criteria = _criteria(best)
        words = " + ".join(c for c in criteria if c)
        return WasteUsed(
            best.share,
            best.source,
            criteria,
            f"waste {best.share * 100:g} % by Waste factors ({words})",
        )
    default = default_allowance(line, bond, counted_by)
    if default is None:
        return WasteUsed(0.0, None, None, "no allowance")
    if not default.share:
        return WasteUsed(0.0, None, None, f"no waste by default: {default.note}")
    return WasteUsed(
        default.share,
        None,
        None,
        f"default waste {default.share * 100:g} % for {default.note} ({default.source})",
    )


def check_waste_factors(catalogue: Catalogue) -> Iterator[Finding]:
    """Find rows of Waste factors that say the same thing twice.

    Yields
    ------
    Finding
        ``WASTE-FACTOR-TWICE`` at the later row.
    """
    seen: dict[tuple[str, str, str, str], WasteFactor] = {}
    for row in catalogue.waste_factors:
        key = _criteria(row)
        first = seen.setdefault(key, row)
        if first is not row:
            yield Finding(
                "WASTE-FACTOR-TWICE",
                row.source,
                "Line",
                {
                    "criteria": ", ".join(c for c in key if c),
                    "other_row": first.source.row or 0,
                    "share": f"{row.share * 100:g} %",
                    "other_share": f"{first.share * 100:g} %",
                },
            )


def _criteria(row: WasteFactor) -> tuple[str, str, str, str]:
    return (row.line, row.finish or "", row.bond or "", row.counted_by or "")


def _matches(row: WasteFactor, line: str, finish: str, bond: str, counted_by: str) -> bool:
    return (
        row.line == line
        and row.finish in {None, "", finish}
        and row.bond in {None, "", bond}
        and row.counted_by in {None, "", counted_by}
    )


def _specificity(row: WasteFactor) -> tuple[bool, bool, bool]:
    return (bool(row.finish), bool(row.bond), bool(row.counted_by))

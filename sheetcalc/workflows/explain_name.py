"""``sheetcalc explain``: the longer text of a name."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from typing import TYPE_CHECKING, Any

from msgspec import Struct

if TYPE_CHECKING:
    from sheetcalc.rules.bases import Basis


class Explanation(Struct, frozen=True):
    """The longer text of a name, or the nearest names."""

    name: str
    known: bool
    text: str

    def as_dict(self) -> dict[str, Any]:
        """Return the explanation as plain data for JSON."""
        return {"name": self.name, "known": self.known, "text": self.text}


def explain(name: str) -> Explanation:
    """Explain a finding's code, a setting, line, basis, rule, tab or column, with its source."""
    from sheetcalc.workbook.wording import explain as texts

    # the lines are loaded only where the name is no code and no setting
    text = texts.explain(name)
    if text is None:
        more = _more_texts()
        text = texts.explain(name, more)
    if text is not None:
        return Explanation(name, known=True, text=text)
    nearest = texts.nearest_to(name, more)
    hint = f"; nearest: {', '.join(nearest)}" if nearest else ""
    return Explanation(name, known=False, text=f"nothing is called {name!r}{hint}")


def names_to_explain() -> tuple[str, ...]:
    """Everything that ``explain`` has a text for, in the spelling that people see."""
    from sheetcalc.workbook.wording.explain import known_names

    return known_names(_more_texts())


def _more_texts() -> dict[str, str]:
    """Lines, allowances, bases, the rules of heating, tabs and columns, by name."""
    from sheetcalc.lines import JOB_LINES, LINES
    from sheetcalc.rules.allowances import ALLOWANCES
    from sheetcalc.rules.bases import BASES
    from sheetcalc.rules.electrical import ELECTRICAL_RULES
    from sheetcalc.rules.heat_output import ESTIMATES
    from sheetcalc.workbook.explain_columns import column_texts

    texts = {basis.key: _basis(basis) for basis in BASES.values()}
    lines = [(line.key, line.title, line.about) for line in LINES]
    lines += [(line.key, line.title, line.about) for line in JOB_LINES]
    for key, title, about in lines:
        texts[key] = f"{key} (line of the takeoff): {title}\n\n{about}"
    for rule in (*ELECTRICAL_RULES, *ESTIMATES):
        texts[rule.key] = (
            f"{rule.key} (rule that the heating is held against)\n\n{rule.text}\n\n"
            f"Source: {rule.source or 'none found'}\nStatus: {rule.status}"
        )
    for allowance in ALLOWANCES:
        ways = ", ".join(way for way in (allowance.bond, allowance.counted_by) if way)
        told = (
            f"Allowance where Waste factors has no row{f' ({ways})' if ways else ''}: "
            f"{allowance.share * 100:g} % for {allowance.note}\nSource: {allowance.source}"
        )
        before = texts.get(allowance.line, f"{allowance.line} (line of Waste factors)")
        texts[allowance.line] = f"{before}\n\n{told}"
    taken = {name.casefold() for name in texts}
    columns = column_texts().items()
    return texts | {name: text for name, text in columns if name.casefold() not in taken}


def _basis(basis: "Basis") -> str:
    """Tell what a basis measures, and in what."""
    from sheetcalc.rules.bases import BasisUnit

    units = {
        BasisUnit.COUNT: "one of them", BasisUnit.METRE: "a metre", BasisUnit.FOOT: "a foot",
        BasisUnit.AREA: "one of the Job's unit of area", BasisUnit.KILOGRAM: "a kilogram",
        BasisUnit.POUND: "a pound",
    }  # fmt: skip
    taken = f"\n\nWhat is taken for granted: {basis.taken}." if basis.taken else ""
    return (
        f"{basis.key} (basis)\n\nWhat is measured: {basis.about}. A Rate in Sundries, and in "
        f"Labour the Hours per unit, is for {units[basis.unit]}.{taken}"
    )

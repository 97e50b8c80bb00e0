"""``sheetcalc explain``: the longer text of a name."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Explanation:
    """The longer text of a name, or the nearest names."""

    name: str
    known: bool
    text: str

    def as_dict(self) -> dict[str, Any]:
        """Return the explanation as plain data for JSON."""
        return {"name": self.name, "known": self.known, "text": self.text}


def explain(name: str) -> Explanation:
    """Explain a finding's code, a setting, a line, a basis or a rule, with its source."""
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


def _more_texts() -> dict[str, str]:
    """Lines, bases and the rules of heating, by name."""
    from sheetcalc.lines import JOB_LINES, LINES
    from sheetcalc.rules.bases import BASES
    from sheetcalc.rules.electrical import ELECTRICAL_RULES
    from sheetcalc.rules.heat_output import ESTIMATES

    texts = {basis.key: f"{basis.key} (basis): {basis.about}" for basis in BASES.values()}
    lines = [(line.key, line.title, line.about) for line in LINES]
    lines += [(line.key, line.title, line.about) for line in JOB_LINES]
    for key, title, about in lines:
        texts[key] = f"{key} (line of the takeoff): {title}\n\n{about}"
    for rule in (*ELECTRICAL_RULES, *ESTIMATES):
        texts[rule.key] = (
            f"{rule.key} (rule that the heating is held against)\n\n{rule.text}\n\n"
            f"Source: {rule.source or 'none found'}\nStatus: {rule.status}"
        )
    return texts

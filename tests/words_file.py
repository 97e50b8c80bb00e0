"""Keep ``templates/words.toml`` complete: SHEETCALC_UPDATE_GOLDEN=1 adds what the code now says."""

import json
from collections.abc import Iterable

from sheetcalc.templates_folder import templates_folder


def complete(section: str, said: Iterable[str], *, only: bool = False) -> None:
    """Add sentences to a section of the shipped file.

    Parameters
    ----------
    section
        Its heading.
    said
        In the order of the code.
    only
        Take out what the code does not say any more.
    """
    path = templates_folder() / "words.toml"
    before, heading, rest = path.read_text(encoding="utf-8").partition(f"\n[{section}]\n")
    body, following, after = rest.partition("\n[")
    wanted = [_entry(words) for words in dict.fromkeys(said)]
    lines = body.splitlines()
    there = [line for line in lines if line.startswith('"')]
    elsewhere = set((before + after).splitlines())
    notes = [line for line in lines if line.startswith("#")]
    kept = [line for line in there if line in wanted] if only else there
    new = [line for line in wanted if line not in kept and line not in elsewhere]
    text = "\n".join([*notes, *kept, *new])
    path.write_text(f"{before}{heading}{text}\n{following}{after}", encoding="utf-8")


def _entry(words: str) -> str:
    quoted = json.dumps(words, ensure_ascii=False)
    return f"{quoted} = {quoted}"

"""The strict reader of lengths as people type them.

A user's text is never handed to a units library's parser: ``3,5 m`` reads there as 35 m and
``12 ft 6 in`` as 72.  What could be read in two ways is refused with a hint.
"""

import math
import re
import unicodedata
from fractions import Fraction
from typing import Final, NoReturn

from sheetcalc.domain.measure import (
    CENTIMETRE,
    FOOT,
    INCH,
    METRE,
    MILLIMETRE,
    MM320_PER_METRE,
    Unit,
)

LONGEST_TEXT: Final = 60
"""No length or quantity takes more characters; a longer text is not looked into."""

FARTHEST_MM320: Final = 1_000_000 * MM320_PER_METRE
"""A thousand kilometres: nothing in a building is longer."""

INCHES_IN_A_FOOT: Final = 12

NUMBER: Final = r"(?:[0-9]+(?:[.,][0-9]+)?|\.[0-9]+)"
"""A number without a sign, with a decimal point or comma."""

THOUSANDS: Final = re.compile(r",[0-9]{3}(?![0-9])")
"""A comma with exactly three digits after it: thousands or decimals, nobody can tell."""


class NotReadableError(ValueError):
    """A cell that is not what its column wants.

    Attributes
    ----------
    code
        Finding code, such as ``LENGTH-THOUSANDS``.
    hint
        What to type instead.
    """

    def __init__(self, code: str, hint: str) -> None:
        super().__init__(f"{code}: {hint}")
        self.code = code
        self.hint = hint


def refuse(code: str, hint: str) -> NoReturn:
    """Raise ``NotReadableError``."""
    raise NotReadableError(code, hint)


# fmt: off
_MARKS: Final = {
    **dict.fromkeys("\u2018\u2019\u201b\u2032\u02b9\u02bc\u00b4\u0060\u055a\uff07", "'"),
    **dict.fromkeys("\u201c\u201d\u201f\u2033\u02ba\u3003\uff02", '"'),
    **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212\ufe63\uff0d", "-"),
    **dict.fromkeys("\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009"
                    "\u200a\u202f\u205f\u3000\t\r\n", " "),
    **dict.fromkeys("\u200b\u200c\u200d\u200e\u200f\u2060\ufeff", ""),
    "\u2044": "/", "\u2215": "/",
}
# fmt: on
_TRANSLATION: Final = str.maketrans(_MARKS)

# fmt: off
_LENGTH_WORDS: Final = {
    "mm": MILLIMETRE, "millimetre": MILLIMETRE, "millimetres": MILLIMETRE,
    "millimeter": MILLIMETRE, "millimeters": MILLIMETRE,
    "cm": CENTIMETRE, "centimetre": CENTIMETRE, "centimetres": CENTIMETRE,
    "centimeter": CENTIMETRE, "centimeters": CENTIMETRE,
    "m": METRE, "metre": METRE, "metres": METRE, "meter": METRE, "meters": METRE,
}
# fmt: on

_FEET: Final = r"(?:'|ft\.?|feet|foot)"
_INCHES: Final = r'(?:"|in\.?|inch(?:es)?\.?)'
_MIXED: Final = (
    rf"(?:(?P<whole>{NUMBER})(?:(?:\s+|-)(?P<top>[0-9]+)/(?P<bottom>[0-9]+))?"
    r"|(?P<top_only>[0-9]+)/(?P<bottom_only>[0-9]+))"
)

_METRIC = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>[a-z]+)\.?")
_IN_INCHES = re.compile(rf"{_MIXED}\s*{_INCHES}")
_IN_FEET = re.compile(rf"{_MIXED}\s*{_FEET}")
_FEET_AND_INCHES = re.compile(
    rf"(?P<feet>{NUMBER})\s*{_FEET}\s*(?:-\s*)?{_MIXED}\s*(?P<mark>{_INCHES})?"
)
_DASHED = re.compile(rf"(?P<feet>[0-9]+)-{_MIXED.replace(NUMBER, '[0-9]+')}\s*{_INCHES}?")
_PLAIN = re.compile(_MIXED)

_SEVERALNUMBERS = re.compile(r"[0-9.,]+(?:\s+[0-9.,]+)+(?:[\s-]+[0-9]+/[0-9]+)?\D*")
_TWO_SIZES = re.compile(r"[0-9]\s*(?:[a-z'\"]+\s*)?[x\u00d7*]\s*[0-9]")
_TWO_POINTS = re.compile(r"[0-9]*[.,][0-9]+[.,][0-9.,]*.*")
_TWO_SLASHES = re.compile(r".*/[^/]*/.*")
_ZERO_BOTTOM = re.compile(r".*/0+(?![0-9]).*")
_ENDS_IN_WORD = re.compile(r"[0-9.,/\s-]+(?P<unit>[^0-9.,/\s'\"-]+.*)")


def parse_length(value: str | float, plain: Unit, *, feet_job: bool, signed: bool = False) -> int:
    r"""Read a length as people type it.

    What people type is common practice, no source; the factors are the exact ones of 16 CFR
    500.19.

    Parameters
    ----------
    value
        A number, counted in ``plain``, or text: a typed unit always wins.
    plain
        The Job's unit for numbers without a unit.
    feet_job
        Whether room lengths of the job are in feet, so that ``5-3-1/2`` is 5 ft 3 1/2 in.
    signed
        Whether the column may hold negative lengths (Left and Front of a door reveal).

    Returns
    -------
    int
        The length in whole 1/320 mm.  Multiples of 0.1 mm and of 1/64 in are exact; anything
        finer is rounded to the nearest 1/320 mm, half up.

    Raises
    ------
    NotReadableError
        With a code and a hint, when the text is not a length or could be read in two ways.

    Examples
    --------
    >>> parse_length("5' 3 1/2\"", METRE, feet_job=False) / 320
    1612.9
    >>> parse_length(1.6, METRE, feet_job=False) / 320
    1600.0
    """
    if isinstance(value, bool):
        refuse("LENGTH-UNREADABLE", "type a length, not a yes or no")
    if isinstance(value, str):
        exact = _exact_metres(value, plain, feet_job=feet_job, signed=signed)
    else:
        if not math.isfinite(value):
            refuse("NUMBER-NOT-FINITE", "type the length again")
        if value < 0 and not signed:
            refuse("LENGTH-NEGATIVE", "type the length without the minus sign")
        quick = _plainly_nearest(value, plain)
        if quick is not None:
            return quick
        exact = Fraction(repr(value)) * plain.si_factor
    length = nearest(exact * MM320_PER_METRE)
    if abs(length) > FARTHEST_MM320:
        refuse("LENGTH-ABSURD", f"the number is counted in {plain.symbol}; type the unit with it")
    return length


_SAFELY_EXACT: Final = 1e9
_FAR_FROM_HALF: Final = 0.49


def _plainly_nearest(value: float, plain: Unit) -> int | None:
    """Nearest whole 1/320 mm in floats, where it is far from a tie; None where it is not."""
    numerator, denominator = plain.ratio
    scaled = value * (numerator * MM320_PER_METRE / denominator)
    if abs(scaled) >= _SAFELY_EXACT:  # asked before rounding: it may be infinite by now
        return None
    whole = round(scaled)
    return whole if abs(scaled - whole) < _FAR_FROM_HALF else None


def nearest(exact: Fraction) -> int:
    """Nearest whole number, half away from zero (so that a mirrored length mirrors)."""
    whole = (abs(exact) + Fraction(1, 2)).__floor__()
    return whole if exact >= 0 else -whole


def tidied(text: str) -> str:
    """Put marks, hyphens, spaces and fraction characters in their plain forms, lower case."""
    out: list[str] = []
    for character in text.translate(_TRANSLATION):
        if unicodedata.decomposition(character).startswith("<fraction>"):
            digits = unicodedata.normalize("NFKC", character).replace("\u2044", "/")
            # 3½ is three and a half, not 31/2
            out.append((" " if out and out[-1][-1:].isdigit() else "") + digits)
        else:
            out.append(character)
    return " ".join("".join(out).replace("''", '"').casefold().split())


def _exact_metres(text: str, plain: Unit, *, feet_job: bool, signed: bool) -> Fraction:
    tidy = tidied(text[: LONGEST_TEXT + 1])
    if not tidy or len(text) > LONGEST_TEXT:
        refuse("LENGTH-UNREADABLE", "type one length, or clear the cell")
    if tidy[0] == "-":
        if not signed:
            refuse("LENGTH-NEGATIVE", "type the length without the minus sign")
        return -_exact_metres(tidy[1:].strip(), plain, feet_job=feet_job, signed=False)
    _refuse_the_known(tidy)
    exact = _with_unit(tidy)
    if exact is None:
        exact = _without_unit(tidy, plain, feet_job=feet_job)
    if exact is None:
        _refuse_the_rest(tidy)
    return exact


def _with_unit(tidy: str) -> Fraction | None:
    """Length with a unit or marks; None for any other text."""
    found = _METRIC.fullmatch(tidy)
    if found and found["unit"] in _LENGTH_WORDS:
        return decimal(found["number"]) * _LENGTH_WORDS[found["unit"]].si_factor
    if found := _IN_INCHES.fullmatch(tidy):
        return _mixed(found) * INCH.si_factor
    if found := _IN_FEET.fullmatch(tidy):
        return _mixed(found) * FOOT.si_factor
    if found := _FEET_AND_INCHES.fullmatch(tidy):
        return _feet_and_inches(found)
    return None


def _without_unit(tidy: str, plain: Unit, *, feet_job: bool) -> Fraction | None:
    """Length in the Job's unit, or feet, inches and a fraction parted by hyphens."""
    if found := _PLAIN.fullmatch(tidy):
        return _plain(found, tidy, plain)
    if found := _DASHED.fullmatch(tidy):
        if feet_job and "/" in tidy:
            return _feet_and_inches(found)
        with_marks = _with_marks(found) if "/" in tidy else "5' 3\" or 63 in"
        refuse("LENGTH-TWO-WAYS", f"type the marks or the units, such as {with_marks}")
    return None


def _refuse_the_known(tidy: str) -> None:
    """Refuse what could be read in two ways before anything is read."""
    if tidy.startswith("+"):
        refuse("LENGTH-UNREADABLE", "type the length without the plus sign")
    if THOUSANDS.search(tidy):
        refuse(
            "LENGTH-THOUSANDS",
            f"type {tidy.replace(',', '')} if the comma parts thousands, "
            f"or {tidy.replace(',', '.')} if it is a decimal comma",
        )
    if _TWO_SLASHES.fullmatch(tidy):
        refuse("LENGTH-UNREADABLE", "a fraction has one stroke, such as 1/2")
    if _ZERO_BOTTOM.fullmatch(tidy):
        refuse("LENGTH-UNREADABLE", "a fraction cannot have 0 below the stroke")


def _refuse_the_rest(tidy: str) -> NoReturn:
    """Name the reason as nearly as it can be told."""
    if _TWO_POINTS.fullmatch(tidy):
        refuse("LENGTH-UNREADABLE", "type one decimal point only")
    if _TWO_SIZES.search(tidy):
        refuse("LENGTH-UNREADABLE", "type one size here, and the other one in its own cell")
    if _SEVERALNUMBERS.fullmatch(tidy):
        refuse("LENGTH-TWO-WAYS", "type the unit of each number, such as 5' 3 1/2\" or 1600 mm")
    if found := _ENDS_IN_WORD.fullmatch(tidy):
        refuse(
            "LENGTH-UNKNOWN-UNIT",
            f'"{found["unit"]}" is not a unit of length here; use mm, cm, m, in or ft',
        )
    refuse("LENGTH-UNREADABLE", "type a length such as 1600 mm, 1.6 m, 63 1/2 in or 5' 3 1/2\"")


def decimal(text: str) -> Fraction:
    """Exact value of a text that matches ``NUMBER``."""
    return Fraction(text.replace(",", "."))


def _mixed(found: re.Match[str]) -> Fraction:
    """Value of a number, a fraction, or a whole number and a fraction."""
    if found["top_only"]:
        return Fraction(int(found["top_only"]), int(found["bottom_only"]))
    whole = decimal(found["whole"])
    if not found["top"]:
        return whole
    part = Fraction(int(found["top"]), int(found["bottom"]))
    if part >= 1 or whole.denominator != 1 or "." in found["whole"]:
        refuse("LENGTH-UNREADABLE", "beside a whole number a fraction is less than one")
    return whole + part


def _feet_and_inches(found: re.Match[str]) -> Fraction:
    feet, inches = decimal(found["feet"]), _mixed(found)
    if not found["feet"].isdigit():
        refuse("LENGTH-UNREADABLE", "feet beside inches are a whole number")
    if inches >= INCHES_IN_A_FOOT:
        refuse(
            "LENGTH-INCHES-BESIDE-FEET",
            "beside feet there are at most 11 inches and a fraction; type all of it in inches, "
            "or carry the feet",
        )
    return feet * FOOT.si_factor + inches * INCH.si_factor


def _with_marks(found: re.Match[str]) -> str:
    top, bottom = found["top"] or found["top_only"], found["bottom"] or found["bottom_only"]
    return f"{found['feet']}' {found['whole'] + ' ' if found['whole'] else ''}{top}/{bottom}\""


def _plain(found: re.Match[str], tidy: str, plain: Unit) -> Fraction:
    """Read a number without a unit, in the Job's unit; a fraction only where that is inches."""
    if "," in tidy:
        refuse("LENGTH-COMMA", f"type {tidy.replace(',', '.')}, or the unit: {tidy} {plain.symbol}")
    if "/" in tidy and plain != INCH:
        refuse("LENGTH-FRACTION-WITHOUT-UNIT", f'type {tidy} in, or {tidy}", if inches are meant')
    return _mixed(found) * plain.si_factor

"""Letters of drawings: which can be written, and in which font.

Pillow brings a font with the letters of English and no others: in place of any other it draws a
crossed box.  Words that have one are written in a second font.
"""

import re
from functools import lru_cache
from importlib.resources import files
from io import BytesIO
from typing import Final
from unicodedata import normalize

from PIL import ImageFont

_WRITABLE: Final = re.compile(
    r"[ -~\u00a0-\u017e\u01a0\u01a1\u01af\u01b0\u0218-\u021b"  # Latin
    r"\u0384-\u038a\u038c\u038e-\u03a1\u03a3-\u03ce"  # Greek
    r"\u0400-\u045f\u0490\u0491"  # Cyrillic
    r"\u1e9e\u1ea0-\u1ef9"  # a capital sharp s, Vietnamese
    r"\u2013\u2014\u2018-\u201a\u201c-\u201e\u2026\u2032\u2033\u2039\u203a\u20ac\u2126\u2212]+"
)
"""Letters that the second font has; it puts no letters together, as other scripts need."""

Font = ImageFont.FreeTypeFont | ImageFont.ImageFont


def printable(*choices: str) -> str:
    """Give the first of several names that can be written on a drawing; "?" where none can."""
    composed = (normalize("NFC", name) for name in choices)  # an accent may be typed apart
    return next((name for name in composed if _WRITABLE.fullmatch(name)), "?")


def font_for(words: str, size: int) -> Font:
    """Return the font that has the letters of some words.

    Parameters
    ----------
    words
        To write.
    size
        Of the letters [dots].
    """
    return _plain(size) if words.isascii() else _wide(size)


@lru_cache(maxsize=8)
def _plain(size: int) -> Font:
    return ImageFont.load_default(size)


@lru_cache(maxsize=8)
def _wide(size: int) -> Font:
    path = files("font_source_sans_pro") / "files" / "SourceSansPro-Regular.ttf"
    in_memory = BytesIO(path.read_bytes())  # a package need not lie in a folder
    return ImageFont.truetype(in_memory, size, layout_engine=ImageFont.Layout.BASIC)

"""The house style: fonts, colours and formats of every kind of cell, read from the templates."""

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.templates_folder import template_file


class CellStyle(Struct, frozen=True):
    """Looks of one kind of cell; colours are ``#RRGGBB``, "" for none.

    Attributes
    ----------
    key
        Name in ``house_style.toml``, as ``workbook.sheet.Cell.style`` says it.
    name
        Name of the cell style that a person sees in the program; a style without one belongs to
        that of the style it is based on.
    border, bottom
        Colour of a thin line all round, and of a line below only.
    number_format
        Format code; ``General`` where none is given.
    """

    key: str
    font: str
    size: float
    name: str = ""
    bold: bool = False
    italic: bool = False
    underline: bool = False
    colour: str = ""
    fill: str = ""
    border: str = ""
    bottom: str = ""
    align: str = ""
    indent: int = 0
    valign: str = ""
    wrap: bool = False
    number_format: str = "General"

    @property
    def bare(self) -> "CellStyle":
        """Only what a column keeps below its table: font and number format."""
        return CellStyle(
            key=f"{self.key} (bare)", font=self.font, size=self.size, colour=self.colour,
            align=self.align, indent=self.indent, valign=self.valign,
            number_format=self.number_format,
        )  # fmt: skip


class HouseStyle(Struct, frozen=True):
    """All styles by key, the colours of the tabs, and the base font."""

    font: str
    size: float
    styles: Mapping[str, CellStyle]
    tabs: Mapping[str, str]

    def __getitem__(self, key: str) -> CellStyle:
        """Return a style; KeyError for a name that the house style has not."""
        return self.styles[key]


_WORDS = frozenset(
    {"name", "size", "bold", "italic", "underline", "wrap", "align", "indent", "valign"}
)
_COLOURS = frozenset({"colour", "fill", "border", "bottom"})
_INK, _PAPER = "#000000", "#FFFFFF"

LEAST_CONTRAST: Final = 4.5
"""Of text; WCAG 2.1, success criterion 1.4.3 (from memory, not verified)."""


def load_house_style(folder: Path | None = None) -> HouseStyle:
    """Read ``house_style.toml``; an office's own is laid over the program's, word by word.

    So an office writes down only what it wants otherwise, and a style that a later version of the
    program adds is never missing.

    Parameters
    ----------
    folder
        An office's own templates; None, or a folder without the file, for the program's.

    Raises
    ------
    FileNotFoundError
        Where the folder is no folder of templates.
    ValueError
        For a word, colour or style that the file does not explain, and for text that can't be
        read on its fill.
    """
    return _shipped_style() if folder is None else _style(folder)


@cache
def _shipped_style() -> HouseStyle:
    """Read the program's own once: it is part of the program."""
    return _style(None)


def _style(folder: Path | None) -> HouseStyle:
    path = template_file("house_style.toml", folder)
    data = _read(template_file("house_style.toml"))
    if folder is not None:
        data = _laid_over(data, _read(path))
    palette = data["palette"]
    font, size = str(data["font"]["name"]), float(data["font"]["size"])
    styles: dict[str, CellStyle] = {}
    for key, words in data["styles"].items():
        parent = words.get("based_on")
        if parent is not None and parent not in styles:
            message = f"{path.name}: style {key!r} is based on {parent!r}, which is not above it"
            raise ValueError(message)
        base = styles[parent] if parent else CellStyle(key, font, size)
        styles[key] = replace(base, key=key, **_properties(key, words, palette))
        _check_contrast(styles[key])
    tabs = {key: _colour(value, palette) for key, value in data["tabs"].items()}
    return HouseStyle(font, size, styles, tabs)


def _read(path: Path) -> dict[str, Any]:
    with path.open("rb") as file:
        try:
            return tomllib.load(file)
        except tomllib.TOMLDecodeError as wrong:
            message = f"{path.name}: {wrong}"
            raise ValueError(message) from wrong


def _laid_over(below: Mapping[str, Any], above: Mapping[str, Any]) -> dict[str, Any]:
    """Merge two files, table by table; a word of the upper one wins."""
    merged = dict(below)
    for key, value in above.items():
        under = merged.get(key)
        if isinstance(under, dict) and isinstance(value, dict):
            merged[key] = _laid_over(under, value)
        else:
            merged[key] = value
    return merged


def _check_contrast(style: CellStyle) -> None:
    """Refuse text that can't be read on its fill."""
    found = contrast(style.colour or _INK, style.fill or _PAPER)
    if found < LEAST_CONTRAST:
        message = (
            f"house_style.toml: text of style {style.key!r} has a contrast of {found:.1f} : 1 "
            f"against its fill, and needs {LEAST_CONTRAST:g} : 1"
        )
        raise ValueError(message)


def _properties(key: str, words: Mapping[str, Any], palette: Mapping[str, str]) -> dict[str, Any]:
    """Words of one style as fields of ``CellStyle``."""
    found: dict[str, Any] = {}
    for word, value in words.items():
        if word in _WORDS:
            found[word] = value
        elif word in _COLOURS:
            found[word] = _colour(value, palette)
        elif word == "format":
            found["number_format"] = value
        elif word != "based_on":
            message = f"house_style.toml: style {key!r} has an unknown word {word!r}"
            raise ValueError(message)
    return found


def _colour(value: str, palette: Mapping[str, str]) -> str:
    """``#RRGGBB`` of a colour, or of a name in the palette."""
    colour = palette.get(value, value)
    if len(colour) != len("#RRGGBB") or not colour.startswith("#"):
        message = f"house_style.toml: {value!r} is neither in [palette] nor #RRGGBB"
        raise ValueError(message)
    return colour.upper()


_LINEAR_BELOW = 0.04045


def contrast(first: str, second: str) -> float:
    """Contrast of two colours, 1 to 21.

    WCAG 2.1, relative luminance and contrast ratio (from memory, not verified).

    Parameters
    ----------
    first, second
        Colours, ``#RRGGBB``.

    Examples
    --------
    >>> contrast("#000000", "#FFFFFF")
    21.0
    """
    lighter, darker = sorted((_luminance(first), _luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    """Relative luminance of ``#RRGGBB``."""
    shares = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        s / 12.92 if s <= _LINEAR_BELOW else ((s + 0.055) / 1.055) ** 2.4 for s in shares
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue

"""An office's own: house style, logo, words, terms; from its folder of templates."""

import struct
import tomllib
from functools import cached_property
from pathlib import Path
from typing import Any, Final

from msgspec import Struct, field

from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.templates_folder import template_file
from sheetcalc.workbook.house_style import HouseStyle, load_house_style
from sheetcalc.workbook.words import load_words

_PNG: Final = b"\x89PNG\r\n\x1a\n"
_SIZE_AT: Final = 16
_MM_PER_INCH: Final = 25.4
_DOTS_PER_INCH: Final = 96


class Logo(Struct, frozen=True):
    """A picture for the head of what goes out.

    Attributes
    ----------
    png
        The file.
    width, height
        In dots.
    height_mm
        On paper.
    """

    png: bytes
    width: int
    height: int
    height_mm: float

    @property
    def scale(self) -> float:
        """Factor on the picture's own size at 96 dots an inch."""
        return self.height_mm / _MM_PER_INCH * _DOTS_PER_INCH / self.height

    @property
    def width_dots(self) -> int:
        """Width on the sheet, in dots of 1/96 in."""
        return round(self.width * self.scale)


class Office(Struct, frozen=True, dict=True):  # `dict`: the style is made once
    """What an office sets for all of its workbooks.

    Attributes
    ----------
    folder
        Its own templates; None for the program's.
    name
        The firm.
    order_terms, quote_assumes, quote_leaves_out
        Sentences that always stand on orders and quotes.
    logo
        None where the folder has none.
    """

    folder: Path | None = None
    name: str = ""
    order_terms: tuple[str, ...] = ()
    quote_assumes: tuple[str, ...] = ()
    quote_leaves_out: tuple[str, ...] = ()
    logo: Logo | None = None
    words: Words = field(default_factory=Words)

    @cached_property
    def style(self) -> HouseStyle:
        """House style, read when it is first wanted."""
        return load_house_style(self.folder)


PLAIN: Final = Office()
"""An office that sets nothing of its own."""


def load_office(folder: Path | None = None) -> Office:
    """Read an office's templates.

    Parameters
    ----------
    folder
        An office's own folder; None for the program's.

    Raises
    ------
    FileNotFoundError
        Where the folder is no folder of templates.
    ValueError
        For a file in it that is not as it should be; the message names it.
    """
    path = template_file("office.toml", folder)
    with path.open("rb") as file:
        try:
            data = tomllib.load(file)
        except tomllib.TOMLDecodeError as wrong:
            message = f"{path.name}: {wrong}"
            raise ValueError(message) from wrong
    return Office(
        folder=folder,
        name=str(data.get("name", "")),
        order_terms=_sentences(data, "order_terms", path),
        quote_assumes=_sentences(data, "quote_assumes", path),
        quote_leaves_out=_sentences(data, "quote_leaves_out", path),
        logo=_logo(template_file("logo.png", folder), float(data.get("logo_height", 14))),
        words=load_words(folder) if folder and (folder / "words.toml").is_file() else ENGLISH,
    )


def _sentences(data: dict[str, Any], key: str, path: Path) -> tuple[str, ...]:
    found = data.get(key, [])
    if not isinstance(found, list) or not all(isinstance(one, str) for one in found):
        message = f"{path.name}: {key} is a list of sentences"
        raise ValueError(message)
    return tuple(found)


def _logo(path: Path, height_mm: float) -> Logo | None:
    if not path.is_file():
        return None
    png = path.read_bytes()
    if not png.startswith(_PNG) or len(png) < _SIZE_AT + 8:
        message = f"{path.name} is no PNG picture"
        raise ValueError(message)
    width, height = struct.unpack_from(">II", png, _SIZE_AT)
    if not width or not height:
        message = f"{path.name} has no size"
        raise ValueError(message)
    return Logo(png, width, height, height_mm)

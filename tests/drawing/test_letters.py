"""Words on drawings in other letters than those of English: held against the font's own table."""

import struct
from importlib.resources import files
from itertools import chain

import pytest

from sheetcalc.drawing.letters import font_for, printable

FONT = files("font_source_sans_pro") / "files" / "SourceSansPro-Regular.ttf"


def letters_of(font: bytes) -> set[str]:
    """Letters in a font's table 'cmap', format 4, by the OpenType specification."""
    (tables,) = struct.unpack_from(">H", font, 4)
    entries = (struct.unpack_from(">4sIII", font, 12 + 16 * n) for n in range(tables))
    start = next(offset for tag, _, offset, _ in entries if tag == b"cmap")
    (subtables,) = struct.unpack_from(">H", font, start + 2)
    places = (struct.unpack_from(">I", font, start + 8 + 8 * n)[0] for n in range(subtables))
    format_4 = next(p for p in places if struct.unpack_from(">H", font, start + p)[0] == 4)
    at = start + format_4
    segments = struct.unpack_from(">H", font, at + 6)[0] // 2
    ends = struct.unpack_from(f">{segments}H", font, at + 14)
    starts = struct.unpack_from(f">{segments}H", font, at + 16 + 2 * segments)
    spans = (range(a, z + 1) for a, z in zip(starts, ends, strict=True))
    return {chr(code) for code in chain.from_iterable(spans)}


def test_every_letter_that_is_written_is_in_the_font() -> None:
    written = {chr(code) for code in range(0x3000) if printable(chr(code), "") == chr(code)}
    assert len(written) > 600
    assert written - letters_of(FONT.read_bytes()) == set()


@pytest.mark.parametrize(
    "name",
    ["Waschtisch größer", "Évier à gauche", "Kylpyhuone ÅÄÖ", "Łazienka źdźbło", "Duş ığ",
     "Baie șț", "Μπάνιο", "Ванная", "Phòng tắm"],
)  # fmt: skip
def test_a_name_in_a_language_of_europe_is_written_as_typed(name: str) -> None:
    assert printable(name, "cabinet") == name


@pytest.mark.parametrize("name", ["\u5929", "\U0001f6c1", "\u062d\u0645\u0627\u0645", "", "a\tb"])
def test_a_name_in_letters_that_the_font_has_not_gives_way_to_what_it_is(name: str) -> None:
    assert printable(name, "bath") == "bath"


def test_a_letter_and_its_accent_typed_apart_are_one_letter() -> None:
    assert printable("Tu\u0308r", "door") == "T\u00fcr"


def test_different_letters_give_different_pictures_none_of_which_is_the_box_for_no_letter() -> None:
    words = "äöüßéèłőșжβ"
    masks = {bytes(font_for(letter, 20).getmask(letter)) for letter in (*words, "\uffff")}
    assert len(masks) == len(words) + 1

"""Files of pictures, read back by Pillow, which did not write them."""

import io

import pytest
from PIL import Image

from sheetcalc.drawing.png import MOST_COLOURS, png_of

COLOURS = [89 * at % 256 for at in range(3 * MOST_COLOURS)]


def picture(width: int, height: int) -> Image.Image:
    image = Image.new("P", (width, height))
    image.putpalette(COLOURS)
    image.putdata([(at * at // 3) % MOST_COLOURS for at in range(width * height)])
    return image


@pytest.mark.parametrize("size", [(1, 1), (2, 3), (7, 5), (8, 5), (301, 40)])
def test_every_dot_is_read_back_in_its_colour(size: tuple[int, int]) -> None:
    drawn = picture(*size)
    read = Image.open(io.BytesIO(png_of(drawn, 200)))
    read.load()
    assert read.format == "PNG"
    assert read.size == size
    assert read.convert("RGB").tobytes() == drawn.convert("RGB").tobytes()


def test_the_size_on_paper_is_read_back() -> None:
    read = Image.open(io.BytesIO(png_of(picture(20, 20), 200)))
    assert read.info["dpi"] == pytest.approx((200, 200), abs=0.02)


def test_a_file_changed_on_the_way_is_not_taken_for_a_picture() -> None:
    """Check sums are right, or a reader would have refused the others too."""
    sound = png_of(picture(20, 20), 200)
    at = sound.index(b"PLTE") + 5
    hurt = sound[:at] + bytes([sound[at] ^ 1]) + sound[at + 1 :]
    with pytest.raises((OSError, SyntaxError)):
        Image.open(io.BytesIO(hurt)).load()

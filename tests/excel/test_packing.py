"""Content compressed in blocks is what any reader of zip files takes back."""

import io
import zipfile
import zlib
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetcalc.excel.opc.packing import crc_behind, joined, packed_block
from sheetcalc.excel.opc.zip_writer import ZipWriter

MANY = [b"%d, " % number * 90_000 for number in range(9)]


@pytest.mark.parametrize("pieces", [[], [b""], [b"one"], [b"one, ", b"", b"three"], MANY])
def test_what_was_packed_in_blocks_is_read_back_whole(pieces: Sequence[bytes]) -> None:
    """The standard library reads it, and holds it against size and checksum."""
    out = io.BytesIO()
    writer = ZipWriter(out)
    writer.add("part.xml", joined(map(packed_block, pieces)))
    writer.finish()
    assert zipfile.ZipFile(out).read("part.xml") == b"".join(pieces)


@given(st.binary(max_size=300), st.binary(max_size=300))
def test_a_checksum_behind_another_is_that_of_both_contents(first: bytes, second: bytes) -> None:
    """``zlib`` is the reference."""
    assert crc_behind(zlib.crc32(first), zlib.crc32(second), len(second)) == zlib.crc32(
        first + second
    )

"""Content compressed in pieces, here or by threads, is what any reader of zip files takes back."""

import io
import zipfile
from collections.abc import Sequence

import pytest

from sheetcalc.excel.opc import packing
from sheetcalc.excel.opc.packing import Packed, Packing
from sheetcalc.excel.opc.zip_writer import ZipWriter

FEW = [b"two, ", b"three"]
MANY = [b"%d, " % number * 9 for number in range(9_000)]


def in_pieces(first: bytes, others: Sequence[bytes], *, beside: bool) -> Packed:
    made = Packing(beside=beside)
    for piece in others:
        made.add(piece)
    return made.end(first)


@pytest.mark.parametrize("beside", [False, True])
@pytest.mark.parametrize("much", [1_000, 10_000_000])
@pytest.mark.parametrize("others", [FEW, MANY, []])
def test_what_was_packed_in_pieces_is_read_back_whole(
    monkeypatch: pytest.MonkeyPatch, others: Sequence[bytes], much: int, *, beside: bool
) -> None:
    """The standard library reads it, and holds it against size and checksum."""
    monkeypatch.setattr(packing, "_MUCH", much)
    out = io.BytesIO()
    writer = ZipWriter(out)
    writer.add("part.xml", in_pieces(b"one, ", others, beside=beside))
    writer.finish()
    assert zipfile.ZipFile(out).read("part.xml") == b"".join((b"one, ", *others))


@pytest.mark.parametrize("others", [FEW, MANY])
def test_threads_pack_the_same_bytes(
    monkeypatch: pytest.MonkeyPatch, others: Sequence[bytes]
) -> None:
    monkeypatch.setattr(packing, "_MUCH", 1_000)
    alone = in_pieces(b"one, ", others, beside=False)
    assert in_pieces(b"one, ", others, beside=True) == alone


def test_what_a_thread_fails_at_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def failing(_: Sequence[bytes]) -> bytes:
        raise MemoryError

    monkeypatch.setattr(packing, "_MUCH", 1_000)
    monkeypatch.setattr(packing, "_squeezed_block", failing)
    with pytest.raises(MemoryError):
        in_pieces(b"one, ", MANY, beside=True)

"""Content compressed for a zip."""

import zlib
from collections.abc import Iterable, Sequence
from queue import SimpleQueue
from threading import Thread
from typing import Final

from msgspec import Struct

_LEVEL, _QUICK = 6, 3
_MUCH: Final = 4 << 20
"""Bytes from which a part is compressed quickly: a sheet of a few thousand rows."""


class Packed(Struct, frozen=True):
    """Content that is compressed already: a sheet of a million cells is kept no other way."""

    data: bytes
    crc: int
    size: int


def packed(content: bytes) -> Packed:
    """Compress content that is there at once."""
    return Packed(b"".join(_squeezed([content], _LEVEL)), zlib.crc32(content), len(content))


class Packing:
    """Compresses content that comes in pieces, the first of them last.

    The first rows of a sheet tell a figure of all others.  A lot of content is compressed in half
    the time, for a fifth more; its first piece by itself, so that the others need not wait for it.

    Parameters
    ----------
    beside
        A thread compresses what there is while more is made.  The result is the same.
    """

    def __init__(self, *, beside: bool) -> None:
        self.pieces: list[bytes] = []
        self._size = 0
        self._beside = beside
        self._waiting: SimpleQueue[bytes | None] = SimpleQueue()
        self._squeezed: list[bytes] = []
        self._thread: Thread | None = None

    def add(self, piece: bytes) -> None:
        """Add the next piece, from the second on."""
        self.pieces.append(piece)
        self._size += len(piece)
        if self._thread:
            self._waiting.put(piece)
        elif self._beside and self._size > _MUCH:
            for there in self.pieces:
                self._waiting.put(there)
            self._thread = Thread(target=self._squeeze, daemon=True)
            self._thread.start()

    def _squeeze(self) -> None:
        packer, squeezed = _packer(_QUICK), []
        while (piece := self._waiting.get()) is not None:
            squeezed.append(packer.compress(piece))
        self._squeezed = [*squeezed, packer.flush()]

    def end(self, first: bytes) -> Packed:
        """Add the first piece; everything else is there."""
        self._waiting.put(None)
        crc = size = 0
        for piece in (first, *self.pieces):
            crc, size = zlib.crc32(piece, crc), size + len(piece)
        return Packed(b"".join(self._data(first, size)), crc, size)

    def _data(self, first: bytes, size: int) -> Iterable[bytes]:
        if size <= _MUCH:
            return _squeezed((first, *self.pieces), _LEVEL)
        alone = _packer(_QUICK)
        opening = alone.compress(first) + alone.flush(zlib.Z_FULL_FLUSH)
        if self._thread:
            self._thread.join()
        # where there is no thread, or one that ended early: why it did shows here
        return (opening, *(self._squeezed or _squeezed(self.pieces, _QUICK)))


def _packer(level: int) -> "zlib._Compress":
    return zlib.compressobj(level, zlib.DEFLATED, -15)


def _squeezed(pieces: Sequence[bytes], level: int) -> list[bytes]:
    packer = _packer(level)
    return [*map(packer.compress, pieces), packer.flush()]

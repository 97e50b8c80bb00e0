"""Content compressed for a zip."""

import zlib
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import TYPE_CHECKING, Final

from msgspec import Struct

if TYPE_CHECKING:
    from concurrent.futures import ThreadPoolExecutor

_LEVEL, _QUICK = 6, 3
_MUCH: Final = 4 << 20
"""Bytes from which a part is compressed quickly, in blocks: a sheet of a few thousand rows."""

_THREADS: Final = 2
_NO_MORE: Final = zlib.compressobj(_QUICK, zlib.DEFLATED, -15).flush()
"""Ends what was compressed (RFC 1951, 3.2.3: a last block, and nothing in it)."""


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
    the time, for a fifth more; in blocks that wait neither for each other nor for the first piece.

    Parameters
    ----------
    beside
        Threads compress blocks while more is made.  The result is the same.
    """

    def __init__(self, *, beside: bool) -> None:
        self.pieces: list[bytes] = []
        self._beside = beside
        self._threads: ThreadPoolExecutor | None = None
        self._block: list[bytes] = []
        self._block_size = 0
        self._squeezed: list[Callable[[], bytes]] = []

    def add(self, piece: bytes) -> None:
        """Add the next piece, from the second on."""
        self.pieces.append(piece)
        self._block.append(piece)
        self._block_size += len(piece)
        if self._block_size > _MUCH:
            self._close_block()

    def _close_block(self) -> None:
        block, self._block, self._block_size = self._block, [], 0
        if self._beside:
            from concurrent.futures import ThreadPoolExecutor  # noqa: PLC0415 - seldom needed

            self._threads = self._threads or ThreadPoolExecutor(_THREADS)
            self._squeezed.append(self._threads.submit(_squeezed_block, block).result)
        else:
            self._squeezed.append(partial(_squeezed_block, block))

    def end(self, first: bytes) -> Packed:
        """Add the first piece; everything else is there."""
        crc = size = 0
        for piece in (first, *self.pieces):
            crc, size = zlib.crc32(piece, crc), size + len(piece)
        return Packed(b"".join(self._data(first, size)), crc, size)

    def _data(self, first: bytes, size: int) -> Iterable[bytes]:
        if size <= _MUCH:
            return _squeezed((first, *self.pieces), _LEVEL)
        self._close_block()
        data = [_squeezed_block([first]), *(made() for made in self._squeezed), _NO_MORE]
        if self._threads:
            self._threads.shutdown()
        return data


def _packer(level: int) -> "zlib._Compress":
    return zlib.compressobj(level, zlib.DEFLATED, -15)


def _squeezed(pieces: Sequence[bytes], level: int) -> list[bytes]:
    packer = _packer(level)
    return [*map(packer.compress, pieces), packer.flush()]


def _squeezed_block(pieces: Sequence[bytes]) -> bytes:
    """Compress pieces so that anything compressed alike may stand before and after."""
    packer = _packer(_QUICK)
    return b"".join([*map(packer.compress, pieces), packer.flush(zlib.Z_FULL_FLUSH)])

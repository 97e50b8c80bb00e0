"""Writing a zip: members copied compressed as they were, and new ones.

Every member gets a fresh local header with sizes and checksum in it, so nothing follows the data
(no data descriptors), and nothing depends on the clock.
"""

import struct
from collections.abc import Iterable
from typing import BinaryIO

from msgspec import Struct

from sheetcalc.excel.opc.packing import Packed, packed
from sheetcalc.excel.opc.zip_directory import DEFLATED, Member

_FULL32, _FULL16 = 0xFFFFFFFF, 0xFFFF
_UTF8, _LEVEL_BITS = 0x800, 0x6
_NEW_YEAR_1980 = 0x21  # the first day a zip can say: new parts carry no date of the run
_UNIX_FILE = 0o100644 << 16


class _Entry(Struct, frozen=True):
    raw_name: bytes
    made_by: int
    flags: int
    method: int
    time: int
    date: int
    crc: int
    packed: int
    size: int
    internal: int
    external: int
    offset: int


class ZipWriter:
    """Writes members one after another to an open binary file, from where it stands."""

    def __init__(self, out: BinaryIO) -> None:
        self._out = out
        self._entries: list[_Entry] = []
        self._place = 0

    def copy(self, member: Member, raw: Iterable[bytes]) -> None:
        """Add a member with its compressed bytes as they were."""
        self._add(
            _Entry(
                member.raw_name,
                member.made_by,
                member.flags & (_UTF8 | _LEVEL_BITS),
                member.method,
                member.time,
                member.date,
                member.crc,
                member.packed,
                member.size,
                member.internal,
                member.external,
                self._place,
            ),
            raw,
        )

    def add(self, name: str, content: bytes | Packed) -> None:
        """Add a new member, compressed."""
        try:
            raw_name, flags = name.encode("ascii"), 0
        except UnicodeEncodeError:
            raw_name, flags = name.encode(), _UTF8
        made = content if isinstance(content, Packed) else packed(content)
        self._add(
            _Entry(
                raw_name,
                3 << 8 | 20,
                flags,
                DEFLATED,
                0,
                _NEW_YEAR_1980,
                made.crc,
                len(made.data),
                made.size,
                0,
                _UNIX_FILE,
                self._place,
            ),
            (made.data,),
        )

    def replace(self, member: Member, content: bytes) -> None:
        """Add a member that was there, under its own name, with new content."""
        made = packed(content)
        self._add(
            _Entry(
                member.raw_name,
                member.made_by,
                member.flags & _UTF8,
                DEFLATED,
                member.time,
                member.date,
                made.crc,
                len(made.data),
                made.size,
                member.internal,
                member.external,
                self._place,
            ),
            (made.data,),
        )

    def _write(self, data: bytes) -> None:
        self._out.write(data)
        self._place += len(data)

    def _add(self, entry: _Entry, data: Iterable[bytes]) -> None:
        large = entry.packed >= _FULL32 or entry.size >= _FULL32
        extra = struct.pack("<HHQQ", 1, 16, entry.size, entry.packed) if large else b""
        self._write(
            struct.pack(
                "<4s5H3L2H",
                b"PK\x03\x04",
                45 if large else 20,
                entry.flags,
                entry.method,
                entry.time,
                entry.date,
                entry.crc,
                _FULL32 if large else entry.packed,
                _FULL32 if large else entry.size,
                len(entry.raw_name),
                len(extra),
            )
        )
        self._write(entry.raw_name + extra)
        start = self._place
        for chunk in data:
            self._write(chunk)
        if self._place - start != entry.packed:
            msg = f"{entry.raw_name!r}: {self._place - start} bytes came, not {entry.packed}"
            raise ValueError(msg)
        self._entries.append(entry)

    def finish(self) -> None:
        """Write the table of contents."""
        start = self._place
        for entry in self._entries:
            self._write(_central(entry))
        size, count = self._place - start, len(self._entries)
        if start >= _FULL32 or size >= _FULL32 or count >= _FULL16:
            place = self._place
            self._write(
                struct.pack(
                    "<4sQ2H2L4Q", b"PK\x06\x06", 44, 45, 45, 0, 0, count, count, size, start
                )
            )
            self._write(struct.pack("<4sLQL", b"PK\x06\x07", 0, place, 1))
        self._write(
            struct.pack(
                "<4s4H2LH",
                b"PK\x05\x06",
                0,
                0,
                min(count, _FULL16),
                min(count, _FULL16),
                min(size, _FULL32),
                min(start, _FULL32),
                0,
            )
        )


def _central(entry: _Entry) -> bytes:
    wide = [v for v in (entry.size, entry.packed, entry.offset) if v >= _FULL32]
    extra = struct.pack("<HH", 1, 8 * len(wide)) + struct.pack(f"<{len(wide)}Q", *wide)
    extra = extra if wide else b""
    return (
        struct.pack(
            "<4s6H3L5H2L",
            b"PK\x01\x02",
            entry.made_by,
            45 if wide else 20,
            entry.flags,
            entry.method,
            entry.time,
            entry.date,
            entry.crc,
            min(entry.packed, _FULL32),
            min(entry.size, _FULL32),
            len(entry.raw_name),
            len(extra),
            0,
            0,
            entry.internal,
            entry.external,
            min(entry.offset, _FULL32),
        )
        + entry.raw_name
        + extra
    )

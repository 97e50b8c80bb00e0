"""Writing a zip: members copied compressed as they were, and new ones.

Every member gets a fresh local header with sizes and checksum in it, so nothing follows the data
(no data descriptors), and nothing depends on the clock.
"""

import struct
from collections.abc import Iterable
from typing import BinaryIO

from msgspec import structs

from sheetcalc.excel.opc.packing import Packed, packed
from sheetcalc.excel.opc.zip_directory import (
    CENTRAL,
    DEFLATED,
    END,
    END64,
    END64_PLACE,
    FULL16,
    FULL32,
    LOCAL,
    Member,
)

_UTF8, _LEVEL_BITS = 0x800, 0x6
_NEW_YEAR_1980 = 0x21  # the first day a zip can say: new parts carry no date of the run
_UNIX_FILE = 0o100644 << 16


class ZipWriter:
    """Writes members one after another to an open binary file, from where it stands."""

    def __init__(self, out: BinaryIO) -> None:
        self._out = out
        self._entries: list[Member] = []
        self._place = 0

    def copy(self, member: Member, raw: Iterable[bytes]) -> None:
        """Add a member with its compressed bytes as they were."""
        self._add(structs.replace(member, flags=member.flags & (_UTF8 | _LEVEL_BITS)), raw)

    def add(self, name: str, content: bytes | Packed) -> None:
        """Add a new member, compressed."""
        made = content if isinstance(content, Packed) else packed(content)
        self._add(
            Member(
                raw_name=name.encode(),
                name=name,
                made_by=3 << 8 | 20,
                flags=0 if name.isascii() else _UTF8,
                method=DEFLATED,
                time=0,
                date=_NEW_YEAR_1980,
                crc=made.crc,
                packed=len(made.data),
                size=made.size,
                internal=0,
                external=_UNIX_FILE,
                offset=0,
            ),
            (made.data,),
        )

    def replace(self, member: Member, content: bytes) -> None:
        """Add a member that was there, under its own name, with new content."""
        made = packed(content)
        entry = structs.replace(
            member,
            flags=member.flags & _UTF8,
            method=DEFLATED,
            crc=made.crc,
            packed=len(made.data),
            size=made.size,
        )
        self._add(entry, (made.data,))

    def _write(self, data: bytes) -> None:
        self._out.write(data)
        self._place += len(data)

    def _add(self, member: Member, data: Iterable[bytes]) -> None:
        entry = structs.replace(member, offset=self._place)
        large = entry.packed >= FULL32 or entry.size >= FULL32
        extra = struct.pack("<HHQQ", 1, 16, entry.size, entry.packed) if large else b""
        self._write(
            LOCAL.pack(
                b"PK\x03\x04",
                45 if large else 20,
                entry.flags,
                entry.method,
                entry.time,
                entry.date,
                entry.crc,
                FULL32 if large else entry.packed,
                FULL32 if large else entry.size,
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
        if start >= FULL32 or size >= FULL32 or count >= FULL16:
            place = self._place
            self._write(END64.pack(b"PK\x06\x06", 44, 45, 45, 0, 0, count, count, size, start))
            self._write(END64_PLACE.pack(b"PK\x06\x07", 0, place, 1))
        self._write(
            END.pack(
                b"PK\x05\x06",
                0,
                0,
                min(count, FULL16),
                min(count, FULL16),
                min(size, FULL32),
                min(start, FULL32),
                0,
            )
        )


def _central(entry: Member) -> bytes:
    wide = [v for v in (entry.size, entry.packed, entry.offset) if v >= FULL32]
    extra = struct.pack("<HH", 1, 8 * len(wide)) + struct.pack(f"<{len(wide)}Q", *wide)
    extra = extra if wide else b""
    return (
        CENTRAL.pack(
            b"PK\x01\x02",
            entry.made_by,
            45 if wide else 20,
            entry.flags,
            entry.method,
            entry.time,
            entry.date,
            entry.crc,
            min(entry.packed, FULL32),
            min(entry.size, FULL32),
            len(entry.raw_name),
            len(extra),
            0,
            0,
            entry.internal,
            entry.external,
            min(entry.offset, FULL32),
        )
        + entry.raw_name
        + extra
    )

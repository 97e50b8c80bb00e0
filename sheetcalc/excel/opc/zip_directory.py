"""The table of contents of a zip, read without trusting it.

``zipfile`` hides where a member's compressed bytes are, and that is what a graft copies; it also
repairs things silently that a careful writer wants to know.  APPNOTE.TXT (the zip format's own
description) 4.3 and 4.5 give the layout.
"""

import io
import struct
import zlib
from collections.abc import Generator, Iterator
from typing import BinaryIO

from msgspec import Struct

from sheetcalc.excel.opc.errors import Code, Refused

MOST_MEMBERS = 20_000
STORED, DEFLATED = 0, 8
_CHUNK = 1 << 18

END = struct.Struct("<4s4H2LH")
END64_PLACE = struct.Struct("<4sLQL")
END64 = struct.Struct("<4sQ2H2L4Q")
CENTRAL = struct.Struct("<4s6H3L5H2L")
LOCAL = struct.Struct("<4s5H3L2H")
FULL16, FULL32 = 0xFFFF, 0xFFFFFFFF


class Member(Struct, frozen=True):
    """One member: the facts of its central directory entry; offsets and sizes in bytes."""

    raw_name: bytes
    name: str
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

    @property
    def is_folder(self) -> bool:
        """An entry that only names a folder."""
        return self.name.endswith(("/", "\\"))


def in_no_file(name: str) -> Member:
    """Make the facts of a member that stands in no zip."""
    return Member(name.encode(), name, *[0] * 11)


def _read_at(file: BinaryIO, offset: int, size: int) -> bytes:
    file.seek(offset)
    data = file.read(size)
    if len(data) != size:
        raise Refused(Code.ZIP_TRUNCATED, {"why": "the file ends before its parts do"})
    return data


def _find_end(file: BinaryIO, length: int) -> tuple[int, bytes]:
    """Place and bytes of the end-of-directory record (APPNOTE 4.3.16)."""
    tail_size = min(length, END.size + FULL16)
    tail = _read_at(file, length - tail_size, tail_size)
    place = len(tail)
    while (place := tail.rfind(b"PK\x05\x06", 0, place)) >= 0:
        record = tail[place : place + END.size]
        if len(record) == END.size and place + END.size + END.unpack(record)[7] <= len(tail):
            return length - tail_size + place, record
    raise Refused(Code.ZIP_TRUNCATED, {"why": "its table of contents is missing"})


def _directory_place(file: BinaryIO, length: int) -> tuple[int, int, int, int]:
    """Entries, size and place of the central directory, and what stands before the zip."""
    end, record = _find_end(file, length)
    _, disk, first_disk, here, entries, size, offset, _ = END.unpack(record)
    stop = end
    if end >= END64_PLACE.size:
        locator = _read_at(file, end - END64_PLACE.size, END64_PLACE.size)
        if locator[:4] == b"PK\x06\x07":
            place = END64_PLACE.unpack(locator)[2]
            # bytes may stand before the zip: then the record stands right before its locator
            if place + END64.size > length or _read_at(file, place, 4) != b"PK\x06\x06":
                place = end - END64_PLACE.size - END64.size
            if place < 0:
                raise Refused(Code.ZIP_BROKEN, {"why": "its large-file record is missing"})
            record64 = END64.unpack(_read_at(file, place, END64.size))
            if record64[0] != b"PK\x06\x06":
                raise Refused(Code.ZIP_BROKEN, {"why": "its large-file record is missing"})
            disk, first_disk, here, entries, size, offset = record64[4:10]
            stop = place
    if disk or first_disk or here != entries:
        raise Refused(Code.ZIP_BROKEN, {"why": "it is one volume of several"})
    before = stop - size - offset
    if before < 0:
        raise Refused(Code.ZIP_TRUNCATED, {"why": "its table of contents does not fit into it"})
    return entries, size, offset + before, before


def _wide(extra: bytes, size: int, packed: int, offset: int) -> tuple[int, int, int]:
    """Sizes and offset with the zip64 extra field applied (APPNOTE 4.5.3)."""
    place = 0
    while place + 4 <= len(extra):
        tag, length = struct.unpack_from("<HH", extra, place)
        field = extra[place + 4 : place + 4 + length]
        if tag == 1:
            values = [value for (value,) in struct.iter_unpack("<Q", field[: len(field) // 8 * 8])]
            wanted = [value == FULL32 for value in (size, packed, offset)]
            if sum(wanted) > len(values):
                raise Refused(Code.ZIP_BROKEN, {"why": "a large-file field is too short"})
            numbers = iter(values)
            size, packed, offset = (
                next(numbers) if want else value
                for want, value in zip(wanted, (size, packed, offset), strict=True)
            )
            break
        place += 4 + length
    return size, packed, offset


def _name(raw: bytes, flags: int) -> str:
    try:
        return raw.decode("utf-8" if flags & 0x800 else "cp437")
    except UnicodeDecodeError:
        return raw.decode("cp437")


def read_directory(file: BinaryIO) -> tuple[Member, ...]:
    """Members of a zip in the order of its table of contents.

    Parameters
    ----------
    file
        Open for reading, seekable.

    Raises
    ------
    Refused
        ``ZIP-TRUNCATED``, ``ZIP-BROKEN``, ``TOO-MANY-PARTS``.
    """
    length = file.seek(0, io.SEEK_END)
    entries, size, place, before = _directory_place(file, length)
    if entries > MOST_MEMBERS:
        raise Refused(Code.TOO_MANY_PARTS, {"parts": entries, "most": MOST_MEMBERS})
    if size > length:
        raise Refused(Code.ZIP_TRUNCATED, {"why": "its table of contents is longer than the file"})
    data = _read_at(file, place, size)
    members: list[Member] = []
    at = 0
    for _ in range(entries):
        if at + CENTRAL.size > len(data) or data[at : at + 4] != b"PK\x01\x02":
            raise Refused(Code.ZIP_BROKEN, {"why": "its table of contents is damaged"})
        record = CENTRAL.unpack_from(data, at)
        (_, made, _, flags, method, time, day, crc, packed, full, n, x, c) = record[:13]
        internal, external, offset = record[14:17]
        at += CENTRAL.size
        raw = data[at : at + n]
        full, packed, offset = _wide(data[at + n : at + n + x], full, packed, offset)
        at += n + x + c
        members.append(
            Member(
                raw,
                _name(raw, flags),
                made,
                flags,
                method,
                time,
                day,
                crc,
                packed,
                full,
                internal,
                external,
                offset + before,
            )
        )
    return tuple(members)


def data_place(file: BinaryIO, member: Member) -> int:
    """Where a member's compressed bytes start: 30 + name + extra after its local header.

    Raises
    ------
    Refused
        ``ZIP-BROKEN`` where the local header is not there or names another part.
    """
    header = LOCAL.unpack(_read_at(file, member.offset, LOCAL.size))
    if header[0] != b"PK\x03\x04":
        raise Refused(
            Code.ZIP_BROKEN,
            {"why": f"the part {member.name} is not where the table of contents says"},
        )
    name_length, extra_length = int(header[9]), int(header[10])
    if _read_at(file, member.offset + LOCAL.size, name_length) != member.raw_name:
        raise Refused(Code.ZIP_BROKEN, {"why": f"the part {member.name} has two names"})
    return member.offset + LOCAL.size + name_length + extra_length


def raw_chunks(file: BinaryIO, member: Member) -> Iterator[bytes]:
    """Yield a member's bytes as they are stored, compressed or not."""
    place = data_place(file, member)
    left = member.packed
    while left:
        # seek each time: several members may be read in turns
        chunk = _read_at(file, place, min(left, _CHUNK))
        place += len(chunk)
        left -= len(chunk)
        yield chunk


def _unpacked(file: BinaryIO, member: Member) -> Iterator[bytes]:
    if member.method == STORED:
        yield from raw_chunks(file, member)
        return
    unpack = zlib.decompressobj(-15)
    try:
        for raw in raw_chunks(file, member):
            pending = raw
            while pending and not unpack.eof:
                yield unpack.decompress(pending, 1 << 20)
                pending = unpack.unconsumed_tail
        yield unpack.flush()
    except zlib.error:
        why = f"the part {member.name} does not unpack"
        raise Refused(Code.ZIP_BROKEN, {"why": why}) from None


def chunks(file: BinaryIO, member: Member) -> Generator[bytes, None, None]:
    """Yield a member's content, piece by piece, never more than about 1 MiB at once.

    Raises
    ------
    Refused
        ``ZIP-METHOD`` for a compression that workbooks don't use, ``ZIP-BROKEN`` where the
        content does not unpack to its stated size, ``ZIP-CHECKSUM``.
    """
    if member.method not in (STORED, DEFLATED):
        raise Refused(Code.ZIP_METHOD, {"part": member.name, "method": member.method})
    crc, size = 0, 0
    for chunk in _unpacked(file, member):
        size += len(chunk)
        if size > member.size:
            break
        crc = zlib.crc32(chunk, crc)
        if chunk:
            yield chunk
    if size != member.size:
        why = f"the part {member.name} is not as long as it says"
        raise Refused(Code.ZIP_BROKEN, {"why": why})
    if crc != member.crc:
        raise Refused(Code.ZIP_CHECKSUM, {"part": member.name})


def read_member(file: BinaryIO, member: Member) -> bytes:
    """Return the whole content of a member, with its checksum checked."""
    return b"".join(chunks(file, member))

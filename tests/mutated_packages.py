"""Books that something went wrong with: parts gone, renamed, doubled, cut, their XML bent.

A ``Mutation`` is plain data, so that a failing one can be written down and run again.
"""

import io
import random
import re
import struct
import zipfile
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path

from msgspec import Struct

Parts = list[tuple[str, bytes]]

_ODD_VALUES = (
    b"",
    b" ",
    b"0",
    b"-1",
    b"1",
    b"65535",
    b"4294967296",
    b"99999999999999999999999",
    b"1e400",
    b"NaN",
    b"A1",
    b"#REF!",
    b"'",
    b"$A$0",
    b"XFD1048576",
    b"A1:B",
    b"../../x.xml",
    b"/xl/workbook.xml",
    b"rId1",
    b"rId999",
    b"x" * 300,
    b"\xf0\x9f\x9b\x81",
    b"&#0;",
    b"&lt;",
    b"true",
    b"s",
    b"inlineStr",
    b"http://example.invalid/",
)
_ATTRIBUTE = re.compile(rb'([\w:.-]+)="([^"]*)"')
_EMPTY_ELEMENT = re.compile(rb"<[\w:.-]+(?:\s[^<>]*)?/>")
_TAG = re.compile(rb"</?[\w:.-]+(?:\s[^<>]*)?/?>")
_TEXT = re.compile(rb">([^<>]+)<")


class Mutation(Struct, frozen=True):
    """What is done, to which part (0 to 1 of all), and where in it."""

    kind: str
    part: float
    chance: int


def _at(found: list[re.Match[bytes]], chance: random.Random) -> re.Match[bytes] | None:
    return chance.choice(found) if found else None


def _spliced(content: bytes, start: int, stop: int, new: bytes) -> bytes:
    return content[:start] + new + content[stop:]


def _value(content: bytes, chance: random.Random) -> bytes:
    match = _at(list(_ATTRIBUTE.finditer(content)), chance)
    if match is None:
        return content
    return _spliced(content, *match.span(2), chance.choice(_ODD_VALUES))


def _no_attribute(content: bytes, chance: random.Random) -> bytes:
    match = _at(list(_ATTRIBUTE.finditer(content)), chance)
    return content if match is None else _spliced(content, *match.span(), b"")


def _no_element(content: bytes, chance: random.Random) -> bytes:
    match = _at(list(_EMPTY_ELEMENT.finditer(content)), chance)
    return content if match is None else _spliced(content, *match.span(), b"")


def _twice(content: bytes, chance: random.Random) -> bytes:
    match = _at(list(_EMPTY_ELEMENT.finditer(content)), chance)
    return content if match is None else _spliced(content, match.end(), match.end(), match[0])


def _foreign(content: bytes, chance: random.Random) -> bytes:
    match = _at(list(_TAG.finditer(content)), chance)
    more = b'<!-- a < b --><?x y?><q:z xmlns:q="urn:x" q:a="1"><q:z/></q:z>text'
    return content if match is None else _spliced(content, match.end(), match.end(), more)


def _renamed_tags(content: bytes, chance: random.Random) -> bytes:
    match = _at(list(_TAG.finditer(content)), chance)
    if match is None:
        return content
    name = re.match(rb"</?([\w:.-]+)", match[0])
    assert name is not None
    return re.sub(rb"(</?)" + re.escape(name[1]) + rb"(?=[\s/>])", rb"\1other", content)


def _text(content: bytes, chance: random.Random) -> bytes:
    match = _at(list(_TEXT.finditer(content)), chance)
    if match is None:
        return content
    return _spliced(content, *match.span(1), chance.choice(_ODD_VALUES))


def _namespace(content: bytes, chance: random.Random) -> bytes:
    match = _at(list(re.finditer(rb'xmlns(?::\w+)?="([^"]*)"', content)), chance)
    return content if match is None else _spliced(content, *match.span(1), b"urn:other")


def _cut(content: bytes, chance: random.Random) -> bytes:
    return content[: chance.randrange(len(content) + 1)]


def _flip(content: bytes, chance: random.Random) -> bytes:
    data = bytearray(content)
    for _ in range(chance.randint(1, 4)):
        if data:
            data[chance.randrange(len(data))] = chance.randrange(256)
    return bytes(data)


def _utf16(content: bytes, _chance: random.Random) -> bytes:
    try:
        text = content.decode()
    except UnicodeDecodeError:
        return content
    return text.replace('encoding="UTF-8"', 'encoding="UTF-16"').encode("utf-16")


def _marked(content: bytes, _chance: random.Random) -> bytes:
    return b"\xef\xbb\xbf" + content


def _empty(_content: bytes, _chance: random.Random) -> bytes:
    return b""


def _latin(content: bytes, _chance: random.Random) -> bytes:
    return content.replace(b'encoding="UTF-8"', b'encoding="ISO-8859-1"', 1)


IN_PART: Mapping[str, Callable[[bytes, random.Random], bytes]] = {
    "value": _value,
    "no attribute": _no_attribute,
    "no element": _no_element,
    "element twice": _twice,
    "foreign content": _foreign,
    "tags renamed": _renamed_tags,
    "text": _text,
    "namespace": _namespace,
    "cut": _cut,
    "flip": _flip,
    "utf-16": _utf16,
    "byte order mark": _marked,
    "empty": _empty,
    "latin-1": _latin,
}


def _delete(parts: Parts, place: int, _chance: random.Random) -> Parts:
    return parts[:place] + parts[place + 1 :]


def _rename(parts: Parts, place: int, chance: random.Random) -> Parts:
    name, content = parts[place]
    new = chance.choice(
        [name.upper(), name.replace("/", "\\"), "x/" + name, name + ".bak", name.replace("1", "9")]
    )
    return [*parts[:place], (new, content), *parts[place + 1 :]]


def _double(parts: Parts, place: int, chance: random.Random) -> Parts:
    name, content = parts[place]
    new = chance.choice([name, name.upper(), name.replace(".", "2."), name.replace("1", "7")])
    return [*parts, (new, content)]


def _swap(parts: Parts, place: int, chance: random.Random) -> Parts:
    other = chance.randrange(len(parts))
    changed = list(parts)
    changed[place] = parts[place][0], parts[other][1]
    changed[other] = parts[other][0], parts[place][1]
    return changed


def _swap_types(parts: Parts, _place: int, chance: random.Random) -> Parts:
    changed = list(parts)
    for number, (name, content) in enumerate(parts):
        kinds = list(re.finditer(rb'ContentType="([^"]*)"', content))
        if name.startswith("[") and len(kinds) > 1:
            one, other = sorted(chance.sample(kinds, 2), key=lambda m: m.start())
            mixed = _spliced(content, *other.span(1), one[1])
            changed[number] = name, _spliced(mixed, *one.span(1), other[1])
    return changed


def _shuffle(parts: Parts, _place: int, chance: random.Random) -> Parts:
    return chance.sample(parts, len(parts))


OF_PARTS: Mapping[str, Callable[[Parts, int, random.Random], Parts]] = {
    "delete": _delete,
    "rename": _rename,
    "double": _double,
    "swap contents": _swap,
    "swap types": _swap_types,
    "shuffle": _shuffle,
}


def _zip_cut(data: bytes, chance: random.Random) -> bytes:
    return data[: chance.randrange(len(data))]


def _zip_before(data: bytes, chance: random.Random) -> bytes:
    return chance.choice([b"#!/bin/sh\n", b"MZ", b"PK\x03\x04"]) + data


def _zip_after(data: bytes, _chance: random.Random) -> bytes:
    return data + b"\0" * 30


def _directory_flip(data: bytes, chance: random.Random) -> bytes:
    start = struct.unpack("<L", data[-6:-2])[0] if data[-22:-18] == b"PK\x05\x06" else 0
    changed = bytearray(data)
    for _ in range(chance.randint(1, 3)):
        changed[chance.randrange(start, len(data))] = chance.randrange(256)
    return bytes(changed)


OF_ZIP: Mapping[str, Callable[[bytes, random.Random], bytes]] = {
    "zip cut": _zip_cut,
    "zip flip": _flip,
    "bytes before": _zip_before,
    "bytes after": _zip_after,
    "directory flip": _directory_flip,
}

KINDS = (*IN_PART, *OF_PARTS, *OF_ZIP)


def mutated(book: Path, mutations: list[Mutation]) -> bytes:
    """Bytes of a book after some mutations, those of the zip last."""
    with zipfile.ZipFile(book) as package:
        parts = [(name, package.read(name)) for name in package.namelist()]
    for mutation in mutations:
        chance = random.Random(mutation.chance)  # noqa: S311 - places, not secrets
        if not parts:
            break
        place = min(int(mutation.part * len(parts)), len(parts) - 1)
        if mutation.kind in IN_PART:
            name, content = parts[place]
            parts[place] = name, IN_PART[mutation.kind](content, chance)
        elif mutation.kind in OF_PARTS:
            parts = OF_PARTS[mutation.kind](parts, place, chance)
    data = _packed(parts)
    for mutation in mutations:
        if mutation.kind in OF_ZIP:
            data = OF_ZIP[mutation.kind](data, random.Random(mutation.chance))  # noqa: S311
    return data


def _packed(parts: Parts) -> bytes:
    """Zip of parts; ``zipfile`` would warn of names that come twice, and mend backslashes."""
    out, entries = io.BytesIO(), []
    for name, content in parts:
        raw, pack = name.encode(), zlib.compressobj(1, zlib.DEFLATED, -15)
        packed = pack.compress(content) + pack.flush()
        facts = (20, 0x800, 8, 0, 0x21, zlib.crc32(content), len(packed), len(content), len(raw))
        entries.append((out.tell(), raw, facts))
        out.write(struct.pack("<4s5H3L2H", b"PK\x03\x04", *facts, 0) + raw + packed)
    start = out.tell()
    for place, raw, facts in entries:
        head = struct.pack("<4s6H3LH", b"PK\x01\x02", 20, *facts)
        out.write(head + struct.pack("<4H2L", 0, 0, 0, 0, 0, place) + raw)
    count, size = len(entries), out.tell() - start
    out.write(struct.pack("<4s4H2LH", b"PK\x05\x06", 0, 0, count, count, size, start, 0))
    return out.getvalue()

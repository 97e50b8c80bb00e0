"""Looking a workbook over before any reader touches it.

Streaming, in bounded time and memory: a file that is damaged, encrypted, of another format, or
made to exhaust its reader is refused with a code that names the reason.
"""

import io
import itertools
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import BinaryIO, Final

from sheetcalc.excel.opc import guards_xml
from sheetcalc.excel.opc.book import INPUT_NAME, Book, single_cell
from sheetcalc.excel.opc.errors import Code, Refused
from sheetcalc.excel.opc.guards_sheets import SHARED_STRINGS, WORKSHEET, SheetWatch, TextWatch
from sheetcalc.excel.opc.package import BINARY_WORKBOOK, Package, escapes
from sheetcalc.excel.opc.zip_directory import Member, chunks, data_place, read_directory

MEBI: Final = 1024 * 1024
LARGEST_PART: Final = 512 * MEBI
LARGEST_BOOK: Final = 1024 * MEBI
LARGEST_FILE: Final = 1024 * MEBI
RATIO_FROM: Final = 32 * MEBI
LARGEST_RATIO: Final = 200
DEEPEST_NESTING: Final = 3
LARGEST_NESTED: Final = 128 * MEBI
_XML_TYPES: Final = ("+xml", "/xml", ".vmldrawing")


def inspect(path: Path, read_tabs: Iterable[str] = ()) -> None:
    """Look a file over; see ``open_inspected``."""
    open_inspected(path, read_tabs).close()


def open_inspected(path: Path, read_tabs: Iterable[str] = ()) -> Package:
    """Open a file that has been looked over: what is read from it is what was looked at.

    Parameters
    ----------
    path
        The file.
    read_tabs
        Names of sheets that will be read cell by cell; the limit on the cells that they span is
        narrower than that on sheets that are only copied.

    Raises
    ------
    Refused
        With the reason.
    """
    try:
        size = path.stat().st_size
    except OSError as trouble:
        why = trouble.strerror or "unknown"
        raise Refused(Code.FILE_NOT_READABLE, {"why": why}) from trouble
    if not path.is_file():
        raise Refused(Code.FILE_NOT_READABLE, {"why": "it is not a file"})
    if size == 0:
        raise Refused(Code.FILE_EMPTY, {})
    if size > LARGEST_FILE:
        raise Refused(Code.BOOK_TOO_LARGE, {"mebibytes": size // MEBI})
    package = Package.open(path, _directory)
    try:
        _inspect_package(package, {name.casefold() for name in read_tabs})
    except BaseException:
        package.close()
        raise
    return package


def _inspect_package(package: Package, read_tabs: set[str]) -> None:
    book = Book(package)
    for relation in book.relationships:
        if relation.type in ("revisionHeaders", "usernames"):
            raise Refused(Code.SHARED_REVISIONS, {})
    ours = set(map(str.casefold, _pointed_at(book)))
    read_parts = {s.part for s in book.sheets if s.name.casefold() in read_tabs | ours}
    for key, member in package.parts.items():
        kind = package.content_type(key)
        if kind == BINARY_WORKBOOK:
            raise Refused(Code.BINARY_WORKBOOK, {})
        _content(package.file, member, kind, narrow=key in read_parts)


def _pointed_at(book: Book) -> Iterator[str]:
    """Yield names of the input tabs that names of ours point at, however a person calls them."""
    for element in book.defined_names():
        target = single_cell(element.text or "")
        if target and (element.get("name") or "").lower().startswith(INPUT_NAME):
            yield target[0]


def _directory(file: BinaryIO, members: Iterable[Member]) -> None:
    """Judge what the table of contents alone tells: sizes, ratios, names, places."""
    total = 0
    places: list[tuple[int, int, str]] = []
    for member in members:
        if member.flags & 0x1 or member.flags & 0x2000:
            raise Refused(Code.ZIP_ENCRYPTED, {"part": member.name})
        if escapes(member.name):
            raise Refused(Code.PART_NAME, {"part": member.name[:200]})
        check_size(member)
        total += member.size
        if total > LARGEST_BOOK:
            raise Refused(Code.BOOK_TOO_LARGE, {"mebibytes": total // MEBI})
        place = data_place(file, member)
        places.append((member.offset, place + member.packed, member.name))
    places.sort()
    for (_, end, _), (start, _, name) in itertools.pairwise(places):
        if start < end:
            raise Refused(Code.ZIP_BOMB, {"part": name, "why": "parts share the same bytes"})


def check_size(member: Member) -> None:
    """Refuse a part that is too large, or that unpacks to far more than it takes."""
    if member.size > LARGEST_PART:
        raise Refused(Code.PART_TOO_LARGE, {"part": member.name, "mebibytes": member.size // MEBI})
    if member.size > RATIO_FROM and member.size > LARGEST_RATIO * max(1, member.packed):
        why = f"it unpacks to {member.size // max(1, member.packed)} times its size"
        raise Refused(Code.ZIP_BOMB, {"part": member.name, "why": why})


def _content(file: BinaryIO, member: Member, kind: str, *, narrow: bool) -> None:
    """Unpack one part, piece by piece, and look at what it is."""
    stream = chunks(file, member)
    first = next(stream, b"")
    if first.startswith(b"PK\x03\x04"):
        _nested(file, member, 1)
    is_xml = kind.endswith(_XML_TYPES) or guards_xml.looks_like_xml(first)
    if not is_xml:
        for _ in stream:
            pass
        return
    watch: TextWatch | None = None
    if kind == WORKSHEET:
        watch = SheetWatch(member.name, narrow=narrow)
    elif kind == SHARED_STRINGS:
        watch = TextWatch(member.name)
    guards_xml.inspect_part(first, stream, member, kind, watch)


def _nested(file: BinaryIO, member: Member, depth: int) -> None:
    """Look at a package within a part: its table of contents must keep to the same limits."""
    if depth > DEEPEST_NESTING:
        raise Refused(Code.ZIP_BOMB, {"part": member.name, "why": "packages within packages"})
    if member.size > LARGEST_NESTED:
        raise Refused(Code.PART_TOO_LARGE, {"part": member.name, "mebibytes": member.size // MEBI})
    inner = io.BytesIO(b"".join(chunks(file, member)))
    try:
        members = read_directory(inner)
    except Refused:
        return  # not a package after all; nobody opens it
    total = 0
    for one in members:
        check_size(one)
        total += one.size
        if total > LARGEST_BOOK:
            raise Refused(Code.BOOK_TOO_LARGE, {"mebibytes": total // MEBI})
    for one in members:
        head = b""
        try:
            head = next(chunks(inner, one), b"")[:4]
            if head == b"PK\x03\x04":
                _nested(inner, one, depth + 1)
        except Refused as trouble:
            if trouble.code in (Code.ZIP_BOMB, Code.BOOK_TOO_LARGE, Code.PART_TOO_LARGE):
                raise

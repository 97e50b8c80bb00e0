"""What may stand in an XML part: no DTD, no bottomless nesting, an encoding that can be read."""

import codecs
import itertools
import re
from collections.abc import Iterable, Iterator
from typing import Final
from xml.parsers import expat

from sheetcalc.excel.opc.errors import Code, Refused
from sheetcalc.excel.opc.guards_sheets import TextWatch
from sheetcalc.excel.opc.package import escapes_root, key_of
from sheetcalc.excel.opc.zip_directory import Member

DEEPEST: Final = 200
_SLICE: Final = 1 << 12
_SMALL: Final = 1 << 18
_RELATIONSHIPS: Final = "application/vnd.openxmlformats-package.relationships+xml"
_BOMS: Final = (
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_DECLARED = re.compile(rb"""<\?xml[^>]*?encoding\s*=\s*["']([A-Za-z0-9._-]+)["']""")
_MARKUP = re.compile(rb"<!--|<!\[CDATA\[")


def looks_like_xml(first: bytes) -> bool:
    """Tell whether a part starts like XML, whatever its content type says."""
    head = first[:64]
    if any(head.startswith(bom) for bom, _ in _BOMS) or head.startswith(b"<\0"):
        return True
    return head.removeprefix(codecs.BOM_UTF8).lstrip().startswith(b"<")


def _encoding(first: bytes) -> str:
    for bom, name in _BOMS:
        if first.startswith(bom):
            return name
    if first.startswith(b"<\0"):
        return "utf-16-le"
    if first.startswith(b"\0<"):
        return "utf-16-be"
    match = _DECLARED.search(first[:400])
    return match[1].decode().lower() if match else "utf-8"


def as_utf8(first: bytes, rest: Iterable[bytes], part: str) -> Iterator[bytes]:
    """Yield the part in UTF-8, piece by piece."""
    name = _encoding(first)
    pieces = itertools.chain([first], rest)
    if name in ("utf-8", "utf8", "us-ascii", "ascii"):
        yield from pieces
        return
    try:
        decoder = codecs.getincrementaldecoder(name)()
        for piece in pieces:
            yield decoder.decode(piece).encode()
        yield decoder.decode(b"", final=True).encode()
    except (LookupError, UnicodeError):
        raise Refused(Code.XML_ENCODING, {"part": part, "encoding": name}) from None


class _RootReached(Exception):  # noqa: N818 - a signal, not an error
    """The first element has come: nothing after it can declare anything."""


def refuse_dtd(head: bytes, member: Member, kind: str) -> None:
    """Refuse a document type declaration, which only the beginning of a part can hold.

    Pictures in SVG may name the public type of SVG; nobody here reads them.
    """
    if b"<!DOCTYPE" not in head:
        return
    parser = expat.ParserCreate("utf-8")

    def doctype(_name: str, _system: str | None, _public: str | None, internal: int) -> None:
        if internal or kind != "image/svg+xml":
            raise Refused(Code.XML_DTD, {"part": member.name})

    def root(_name: str, _attributes: dict[str, str]) -> None:
        raise _RootReached

    parser.StartDoctypeDeclHandler = doctype
    parser.StartElementHandler = root
    try:
        parser.Parse(head, False)  # noqa: FBT003 - its signature
    except _RootReached:
        return
    except expat.ExpatError:
        raise Refused(Code.XML_DTD, {"part": member.name}) from None


class _Depth:
    """Nesting at the end of every few thousand bytes, counted without parsing.

    Comments and CDATA hold signs that only look like tags: a part with those is parsed instead.
    """

    def __init__(self, part: str) -> None:
        self._part = part
        self._depth = 0
        self._rest = b""

    def feed(self, piece: bytes) -> None:
        data = self._rest + piece
        start = 0
        while start < len(data):
            stop = min(start + _SLICE, len(data))
            # a tag's first or last two signs stay together, or each cut would miscount
            while stop > start and data[stop - 1] in b"</":
                stop -= 1
            if stop == start:
                break
            cut = data[start:stop]
            start = stop
            opened = cut.count(b"<") - cut.count(b"<?") - cut.count(b"<!")
            self._depth += opened - 2 * cut.count(b"</") - cut.count(b"/>")
            if self._depth > DEEPEST:
                raise Refused(Code.XML_TOO_DEEP, {"part": self._part, "deepest": DEEPEST})
        self._rest = data[start:]


class _ExactDepth:
    """Nesting counted by a parser; a part that is not well formed is nobody's to read.

    A small part of no more elements than may be nested is not parsed.
    """

    def __init__(self, part: str) -> None:
        self._part = part
        self._depth = 0
        self._started = 0
        self._unparsed = b""
        self._parser = expat.ParserCreate("utf-8")
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._dead = False

    def _start(self, _name: str, _attributes: dict[str, str]) -> None:
        self._depth += 1
        if self._depth > DEEPEST:
            raise Refused(Code.XML_TOO_DEEP, {"part": self._part, "deepest": DEEPEST})

    def _end(self, _name: str) -> None:
        self._depth -= 1

    def feed(self, piece: bytes) -> None:
        if self._dead:
            return
        # the sign of an end that is cut in two counts as a start: one too many, never one too few
        self._started += piece.count(b"<") - piece.count(b"</")
        self._unparsed += piece
        if self._started <= DEEPEST and len(self._unparsed) <= _SMALL:
            return
        try:
            self._parser.Parse(self._unparsed, False)  # noqa: FBT003 - its signature
        except expat.ExpatError:
            self._dead = True
        self._unparsed = b""


def inspect_part(
    first: bytes, rest: Iterable[bytes], member: Member, kind: str, watch: TextWatch | None
) -> None:
    """Look over one XML part, piece by piece.

    Parameters
    ----------
    first, rest
        Its content.
    member, kind
        What it is called, and its content type in lower case.
    watch
        Looks at the cells or texts on the way.
    """
    pieces = as_utf8(first, rest, member.name)
    head = next(pieces, b"")
    while len(head) < _SLICE and (more := next(pieces, b"")):
        head += more
    refuse_dtd(head, member, kind)
    small = watch is None and member.size <= _SMALL
    depth: _Depth | _ExactDepth = _ExactDepth(member.name) if small else _Depth(member.name)
    collected: list[bytes] = []
    for piece in itertools.chain([head], pieces):
        if isinstance(depth, _Depth) and watch is None and _MARKUP.search(piece):
            depth = _ExactDepth(member.name)
            depth.feed(b"<_>")  # the part goes on within an element
        depth.feed(piece)
        if watch is not None:
            watch.feed(piece)
        if kind == _RELATIONSHIPS and member.size <= 1 << 24:
            collected.append(piece)
    if watch is not None:
        watch.finish()
    if kind == _RELATIONSHIPS:
        _targets(b"".join(collected), member)


def _targets(content: bytes, member: Member) -> None:
    """Refuse relationships that point out of the package by steps upwards."""
    source = key_of(member.name).replace("/_rels/", "/").removesuffix(".rels")

    def element(name: str, attributes: dict[str, str]) -> None:
        if name.rpartition(":")[2] != "Relationship":
            return
        if attributes.get("TargetMode", "").lower() == "external":
            return
        target = attributes.get("Target", "")
        if escapes_root(source, target):
            raise Refused(Code.TARGET_OUTSIDE, {"part": member.name, "target": target[:200]})

    parser = expat.ParserCreate("utf-8")
    parser.StartElementHandler = element
    try:
        parser.Parse(content, True)  # noqa: FBT003 - its signature
    except expat.ExpatError as trouble:
        why = str(trouble)[:200]
        raise Refused(Code.XML_BROKEN, {"part": member.name, "why": why}) from None

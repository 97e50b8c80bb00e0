"""Parts that come along with a sheet: their free names, their relationships, what they leave."""

import posixpath
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final
from urllib.parse import quote

from msgspec import Struct, field

from sheetcalc.excel.grafting.sheets import SheetTerms, frame_of, rebuild, to_strict
from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.escapes import quoted
from sheetcalc.excel.opc.package import Package, Relationship, key_of
from sheetcalc.excel.opc.packing import Packed
from sheetcalc.excel.tabs.additions import signed_picture

RELS_TYPE: Final = "application/vnd.openxmlformats-package.relationships+xml"
_NUMBERED = re.compile(r"(.*?)(\d*)(\.[^./]*)")


class FreeNames:
    """Part names that no part of the book has, numbered after the highest of their kind."""

    def __init__(self, taken: Iterable[str], folder: str) -> None:
        self._taken = set(taken)
        self._folder = folder  # of the workbook part, in its own case, "" or "xl/"
        self._highest: dict[tuple[str, str], int] = {}

    def next(self, folder: str, stem: str, extension: str) -> str:
        """Next free name such as ``xl/tables/table7.xml``; nothing else may take it."""
        base = f"{self._folder}{folder}/{stem}" if folder else f"{self._folder}{stem}"
        kind = key_of(base), extension.lower()
        if kind not in self._highest:
            # an image7.jpeg keeps image7.png from being confused with it, so any ending counts
            pattern = re.compile(re.escape(kind[0]) + r"(\d+)\.[^./]+")
            numbers = [int(m[1]) for name in self._taken if (m := pattern.fullmatch(name))]
            self._highest[kind] = max(numbers, default=0)
        self._highest[kind] += 1
        name = f"{base}{self._highest[kind]}{extension}"
        self._taken.add(key_of(name))
        return name

    def plain(self, stem: str, extension: str) -> str:
        """Name without a number where that is free: some readers look for it, not for its type."""
        name = f"{self._folder}{stem}{extension}"
        if key_of(name) in self._taken:
            return self.next("", stem, extension)
        self._taken.add(key_of(name))
        return name

    def like(self, fresh_key: str, fresh_folder: str) -> str:
        """Next free name of the same kind as a part of the fresh workbook."""
        inner = fresh_key.removeprefix(fresh_folder).lstrip("/")
        folder, _, name = inner.rpartition("/")
        match = _NUMBERED.fullmatch(name)
        stem, extension = (match[1], match[3]) if match else (name, "")
        return self.next(folder, stem, extension)


def relative(source: str, target: str) -> str:
    """Target of a relationship from one part name to another, relative and percent-coded."""
    path = posixpath.relpath("/" + target, posixpath.dirname("/" + source) or "/")
    return quote(path, safe="/%!$&'()*+,;=:@~-._[]")


def rels_name(part: str) -> str:
    """Name of the relationships part of a part."""
    folder, _, name = part.rpartition("/")
    return f"{folder}/_rels/{name}.rels" if folder else f"_rels/{name}.rels"


def rels_part(items: Iterable[tuple[str, str, str, bool]]) -> bytes:
    """Make a relationships part from id, full type, target and whether it is outside."""
    rows = "".join(
        f"<Relationship Id={quoted(i)} Type={quoted(kind)} Target={quoted(target)}"
        + (' TargetMode="External"/>' if outside else "/>")
        for i, kind, target, outside in items
    )
    return (
        '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
        f'<Relationships xmlns="{xml.PACKAGE_RELATIONS}">{rows}</Relationships>'
    ).encode()


class NewParts(Struct):
    """Parts to be added, in their order: name -> content, name -> content type."""

    contents: dict[str, bytes | Packed] = field(default_factory=dict)
    types: dict[str, str] = field(default_factory=dict)

    def add(self, name: str, content: bytes, kind: str) -> None:
        """Add a part."""
        if name in self.contents:
            msg = f"two new parts are called {name}"
            raise ValueError(msg)
        self.contents[name] = content
        self.types[name] = kind


class SheetCopier(Struct):
    """Copies sheets of the fresh workbook, with all that they point at, into a book's terms."""

    fresh: Package
    free: FreeNames
    terms: SheetTerms
    strict: bool
    out: NewParts
    table_names: Mapping[str, str]  # fresh table name in lower case -> name in the book
    table_numbers: Iterator[int]
    _copied: dict[str, str] = field(default_factory=dict)

    @property
    def _folder(self) -> str:
        return self.fresh.workbook.rpartition("/")[0]

    def _type(self, full: str) -> str:
        if self.strict and full.startswith(xml.RELATIONS):
            return xml.STRICT_RELATIONS + full[len(xml.RELATIONS) :]
        return full

    def sheet(self, fresh_key: str, name: str) -> bytes:
        """Content of one sheet in the book's terms; what it points at is added right away."""
        content = rebuild(self.fresh.read(fresh_key), self.terms)
        self._relations(fresh_key, name)
        return to_strict(content) if self.strict else content

    def frame(self, fresh_key: str, name: str) -> bytes:
        """One sheet without its cells in the book's terms; what it points at is added, too."""
        frame = frame_of(self.fresh.read(fresh_key), self.terms)
        self._relations(fresh_key, name)
        return frame

    def _relations(self, fresh_key: str, name: str) -> None:
        items: list[tuple[str, str, str, bool]] = []
        for r in self.fresh.relationships(fresh_key):
            target = r.raw_target if r.external else relative(name, self._part(r))
            items.append((r.id, self._type(r.full_type), target, r.external))
        if items:
            self.out.add(rels_name(name), rels_part(items), RELS_TYPE)

    def _part(self, relation: Relationship) -> str:
        key = relation.target
        if key in self._copied:
            return self._copied[key]
        name = self.free.like(key, self._folder)
        self._copied[key] = name
        content = self.fresh.read(key)
        if relation.type == "table":
            content = self._table(content)
        elif relation.type == "image":
            content = signed_picture(content)
        if self.strict and content.startswith(b"<"):
            content = to_strict(content)
        self.out.add(name, content, self.fresh.content_type(key))
        self._relations(key, name)
        return name

    def _table(self, content: bytes) -> bytes:
        root = xml.parse(content, "table")
        name = self.table_names[(root.get("displayName") or "").lower()]
        self.terms.table(root, number=next(self.table_numbers), name=name)
        return xml.write(root)


def reachable(package: Package, starts: Iterable[str], without: frozenset[str]) -> set[str]:
    """Keys of the parts that can be come to from some, not going through others."""
    seen: set[str] = set()
    waiting = [s for s in starts if s not in without]
    while waiting:
        part = waiting.pop()
        if part in seen:
            continue
        seen.add(part)
        waiting.extend(
            r.target
            for r in package.relationships(part)
            if r.target and r.target in package.parts and r.target not in without
        )
    return seen


def left_behind(package: Package, sheets: Sequence[str]) -> set[str]:
    """Parts that nothing needs once some sheets are gone: theirs, unless another has them too."""
    gone = frozenset(sheets)
    theirs = reachable(package, sheets, frozenset())
    others = reachable(package, [""], gone)
    return (theirs - others) | gone

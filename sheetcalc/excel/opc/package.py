"""A package (OPC, ISO/IEC 29500-2): parts, their content types, and what points at what.

Parts are found by relationships and content types, never by path: names are case-insensitive,
targets may be absolute, relative, percent-coded or written with backslashes, and the workbook
part may be called anything.
"""

import posixpath
import re
from collections.abc import Callable, Generator, Mapping, Sequence
from pathlib import Path
from typing import BinaryIO, Final, Self, TypeAlias
from urllib.parse import unquote

from msgspec import Struct

from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.errors import Code, Refused
from sheetcalc.excel.opc.zip_directory import (
    Member,
    chunks,
    in_no_file,
    read_directory,
    read_member,
)

CONTENT_TYPES_PART: Final = "/[content_types].xml"
OLE_MAGIC: Final = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
ZIP_MAGIC: Final = (b"PK\x03\x04", b"PK\x05\x06")

_SHEET_MAIN = "application/vnd.openxmlformats-officedocument.spreadsheetml."
WORKBOOK_TYPES: Final = frozenset(
    {
        _SHEET_MAIN + "sheet.main+xml",
        _SHEET_MAIN + "template.main+xml",
        "application/vnd.ms-excel.sheet.macroenabled.main+xml",
        "application/vnd.ms-excel.template.macroenabled.main+xml",
        "application/vnd.ms-excel.addin.macroenabled.main+xml",
    }
)
BINARY_WORKBOOK: Final = "application/vnd.ms-excel.sheet.binary.macroenabled.main"

_MOST_IN_MEMORY = 512 * 1024 * 1024


def key_of(name: str) -> str:
    """Write a part name as it is compared: absolute, forward slashes, decoded, without case."""
    return ("/" + unquote(name).replace("\\", "/").lstrip("/")).lower()


class Relationship(Struct, frozen=True):
    """One relationship; ``target`` is the key of the part, "" for a target outside."""

    id: str
    type: str  # the last word of its type, such as "worksheet"
    full_type: str
    target: str
    raw_target: str
    external: bool


def resolve(source: str, target: str) -> str:
    r"""Key of the part that a target names, seen from its source part.

    >>> resolve("/xl/workbook.xml", "worksheets/Sheet1.xml")
    '/xl/worksheets/sheet1.xml'
    >>> resolve("/xl/worksheets/sheet1.xml", "..%2Fmedia\\a%20b.png")
    '/xl/media/a b.png'
    """
    plain = unquote(target).replace("\\", "/").partition("#")[0]
    if not plain:
        return ""
    folder = source.rpartition("/")[0] + "/"
    joined = plain if plain.startswith("/") else folder + plain
    return key_of(posixpath.normpath("/" + joined.lstrip("/")))


def escapes(name: str) -> bool:
    """Tell whether a part name means a place outside of the package."""
    plain = unquote(name).replace("\\", "/")
    return ".." in plain.split("/") or ":" in plain.partition("/")[0] or "\0" in plain


def escapes_root(source: str, target: str) -> bool:
    """Tell whether a target steps up further than the package goes."""
    plain = unquote(target).replace("\\", "/").partition("#")[0]
    depth = 0 if plain.startswith("/") else source.strip("/").count("/")
    for step in plain.strip("/").split("/"):
        if step == "..":
            depth -= 1
        elif step not in ("", "."):
            depth += 1
        if depth < 0:
            return True
    return False


def rels_key(part: str) -> str:
    """Key of the relationships part that belongs to a part."""
    folder, _, name = part.rpartition("/")
    return f"{folder}/_rels/{name}.rels"


Judge: TypeAlias = Callable[[BinaryIO, Sequence[Member]], None]


class Package:
    """A workbook file opened for reading; nothing is unpacked until it is asked for.

    Parameters
    ----------
    file
        Open for reading, seekable.
    judge
        Looks at the table of contents, and may refuse it, before anything is unpacked.
    """

    def __init__(self, file: BinaryIO, judge: Judge = lambda _file, _members: None) -> None:
        self.file = file
        file.seek(0)
        start = file.read(8)
        if start == OLE_MAGIC:
            raise Refused(*_which_container(file))
        if not start.startswith(ZIP_MAGIC):
            raise Refused(Code.NOT_A_WORKBOOK, {"why": "it is not a zip package"})
        self.members: tuple[Member, ...] = read_directory(file)
        judge(file, self.members)
        self.parts: dict[str, Member] = {}
        for member in self.members:
            if member.is_folder:
                continue
            key = key_of(member.name)
            if key in self.parts:
                raise Refused(Code.DUPLICATE_PARTS, {"part": member.name})
            self.parts[key] = member
        self._read_structure()

    def _read_structure(self) -> None:
        self._rels: dict[str, tuple[Relationship, ...]] = {}
        self._defaults: dict[str, str] = {}
        self._overrides: dict[str, str] = {}
        self._read_content_types()
        self.workbook = self._find_workbook()

    @classmethod
    def open(cls, path: Path, judge: Judge = lambda _file, _members: None) -> Self:
        """Open a file; see the class.

        Raises
        ------
        Refused
            Where it is no workbook, or a damaged or encrypted one.
        """
        try:
            file = path.open("rb")
        except OSError as trouble:
            raise Refused(Code.FILE_NOT_READABLE, {"why": trouble.strerror or "unknown"}) from None
        try:
            return cls(file, judge)
        except BaseException:
            file.close()
            raise

    def close(self) -> None:
        """Close the file."""
        self.file.close()

    def __enter__(self) -> Self:
        """Use as a context: closes the file at its end."""
        return self

    def __exit__(self, *_: object) -> None:
        """Close the file."""
        self.close()

    # -- content -----------------------------------------------------------------------------

    def read(self, key: str) -> bytes:
        """Content of a part, checked against its checksum.

        Raises
        ------
        Refused
            ``PART-MISSING``, or why it can't be unpacked.
        """
        member = self.parts.get(key)
        if member is None:
            raise Refused(Code.PART_MISSING, {"part": key})
        if member.flags & 1:
            raise Refused(Code.ZIP_ENCRYPTED, {"part": member.name})
        if member.size > _MOST_IN_MEMORY:
            raise Refused(
                Code.PART_TOO_LARGE, {"part": member.name, "mebibytes": member.size >> 20}
            )
        return read_member(self.file, member)

    def stream(self, key: str) -> Generator[bytes, None, None]:
        """Content of a part, piece by piece."""
        return chunks(self.file, self.parts[key])

    def _read_content_types(self) -> None:
        if CONTENT_TYPES_PART not in self.parts:
            raise Refused(Code.NOT_A_WORKBOOK, {"why": _what_zip(set(self.parts))})
        root = xml.parse(self.read(CONTENT_TYPES_PART), "[Content_Types].xml")
        for element in root:
            kind = (element.get("ContentType") or "").strip()
            if xml.local(element) == "Default":
                self._defaults[(element.get("Extension") or "").lower()] = kind
            elif xml.local(element) == "Override":
                self._overrides[key_of(element.get("PartName") or "")] = kind

    def content_type(self, key: str) -> str:
        """Content type of a part in lower case: its override, else that of its extension."""
        kind = self._overrides.get(key) or self._defaults.get(key.rpartition(".")[2], "")
        return kind.partition(";")[0].strip().lower()

    # -- relationships -----------------------------------------------------------------------

    def relationships(self, part: str) -> tuple[Relationship, ...]:
        """Relationships of a part ("" for those of the package), in their order."""
        if part not in self._rels:
            key = rels_key(part)
            found: list[Relationship] = []
            if key in self.parts:
                for element in xml.parse(self.read(key), key):
                    if xml.local(element) != "Relationship":
                        continue
                    kind = element.get("Type") or ""
                    raw = element.get("Target") or ""
                    outside = (element.get("TargetMode") or "").lower() == "external"
                    target = "" if outside else resolve(part or "/", raw)
                    found.append(
                        Relationship(
                            element.get("Id") or "",
                            kind.rstrip("/").rpartition("/")[2],
                            kind,
                            target,
                            raw,
                            outside,
                        )
                    )
            self._rels[part] = tuple(found)
        return self._rels[part]

    def related(self, part: str, kind: str) -> list[str]:
        """Keys of the parts that a part points at by one type of relationship."""
        return [
            r.target for r in self.relationships(part) if r.type == kind and r.target in self.parts
        ]

    def missing(self) -> frozenset[str]:
        """Keys of parts that a relationship or a content type names, and that are not there.

        A new part of such a name would be taken for the one that is missing.
        """
        named = set(self._overrides)
        for key in self.parts:
            folder, mark, name = key.rpartition("/_rels/")
            if mark and name.endswith(".rels"):
                source = "" if not folder and name == ".rels" else f"{folder}/{name[:-5]}"
                named.update(r.target for r in self.relationships(source))
        return frozenset(named - set(self.parts) - {""})

    def _find_workbook(self) -> str:
        targets = [r.target for r in self.relationships("") if r.type == "officeDocument"]
        for target in targets:
            if target in self.parts:
                kind = self.content_type(target)
                if kind in WORKBOOK_TYPES:
                    return target
                if kind == BINARY_WORKBOOK:
                    raise Refused(Code.BINARY_WORKBOOK, {})
                raise Refused(Code.NOT_A_WORKBOOK, {"why": _what_document(kind)})
        raise Refused(Code.NOT_A_WORKBOOK, {"why": "it holds no workbook part"})

    # -- what a writer must know -------------------------------------------------------------

    @property
    def signed(self) -> bool:
        """The package carries a digital signature, which any change would break."""
        return any(
            r.type == "origin" and "signature" in r.full_type for r in self.relationships("")
        )


class MadePackage(Package):
    """A package that has just been made: its parts are in memory, and in no file."""

    def __init__(self, contents: Mapping[str, bytes]) -> None:
        self._contents = {key_of(name): content for name, content in contents.items()}
        self.parts = {key_of(name): in_no_file(name) for name in contents}
        self.members = tuple(self.parts.values())
        self._read_structure()

    def read(self, key: str) -> bytes:
        """Content of a part; KeyError for none."""
        return self._contents[key]


def _which_container(file: BinaryIO) -> tuple[str, dict[str, str | int]]:
    """Encrypted workbooks and the old .xls are both OLE containers ([MS-CFB] names in UTF-16)."""
    file.seek(0)
    head = file.read(4 << 20)
    file.seek(0, 2)
    file.seek(max(0, file.tell() - (1 << 20)))
    head += file.read()
    if "EncryptedPackage".encode("utf-16-le") in head:
        return "ENCRYPTED", {}
    if any(name.encode("utf-16-le") + b"\0\0" in head for name in ("Workbook", "Book")):
        return "OLD-FORMAT", {}
    return "NOT-A-WORKBOOK", {"why": "it is an OLE container without a workbook"}


def _what_zip(keys: set[str]) -> str:
    if "/mimetype" in keys and "/content.xml" in keys:
        return "it is an OpenDocument file; save it as .xlsx first"
    if any(re.fullmatch(r"/\[content_types\]\.xml/\[\d+\](\.last)?\.piece", k) for k in keys):
        return "its parts are stored in interleaved pieces"
    return "it is a zip without a list of content types"


def _what_document(kind: str) -> str:
    for word, what in (
        ("wordprocessing", "it is a text document"),
        ("presentation", "it is a presentation"),
        ("visio", "it is a drawing"),
    ):
        if word in kind:
            return what
    return f"its main part is of type {kind or 'unknown'}"

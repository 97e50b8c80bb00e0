"""Makers of files that are damaged, of another format, or that point out of themselves."""

import struct
import zipfile
import zlib
from pathlib import Path

from honest_book import SHEET, honest_parts, pack, sheet, with_part

# -- damage and other formats ----------------------------------------------------------------


def duplicate_member(path: Path) -> Path:
    """The same sheet twice, once in capitals."""
    parts = honest_parts()
    return pack(path, parts | {SHEET.upper(): parts[SHEET]})


def steps_upwards(path: Path) -> Path:
    """A part whose name leads out of the package."""
    return with_part(path, "xl/../../../etc/passwd", b"x")


def steps_upwards_with_backslashes(path: Path) -> Path:
    """The same with backslashes."""
    return with_part(path, "xl\\..\\..\\autorun.inf", b"x")


def a_drive_letter(path: Path) -> Path:
    """A part on a drive."""
    return with_part(path, "C:/autorun.inf", b"x")


def a_target_outside(path: Path) -> Path:
    """A relationship that leads out of the package."""
    rels = honest_parts()["xl/_rels/workbook.xml.rels"]
    changed = rels.replace(b'Target="styles.xml"', b'Target="..%2F..\\../../etc/passwd"')
    assert changed != rels
    return with_part(path, "xl/_rels/workbook.xml.rels", changed)


def wrong_checksum(path: Path) -> Path:
    """One byte of a stored picture changed."""
    with zipfile.ZipFile(path, "w") as package:
        for name, content in (honest_parts() | {"xl/media/image1.png": b"\x89PNG" * 99}).items():
            package.writestr(name, content)
    data = path.read_bytes()
    path.write_bytes(data.replace(b"\x89PNG" * 99, b"\x89PNG" * 98 + b"\x89PNg", 1))
    return path


def damaged_data(path: Path) -> Path:
    """A few bytes in the middle of a compressed sheet overwritten."""
    rows = b"".join(
        b'<row r="%d"><c r="A%d"><v>%d</v></c></row>' % (n, n, n**3) for n in range(1, 999)
    )
    with_part(path, SHEET, sheet(rows))
    data = bytearray(path.read_bytes())
    with zipfile.ZipFile(path) as package:
        place = package.getinfo(SHEET).header_offset + 400
    data[place : place + 40] = b"\xff" * 40
    path.write_bytes(data)
    return path


def truncated(path: Path) -> Path:
    """The first half of a book."""
    pack(path, honest_parts())
    data = path.read_bytes()
    path.write_bytes(data[: len(data) // 2])
    return path


def truncated_at_the_end(path: Path) -> Path:
    """A book without its last ten bytes."""
    pack(path, honest_parts())
    path.write_bytes(path.read_bytes()[:-10])
    return path


def lying_size(path: Path) -> Path:
    """A part that says it is shorter than it is."""
    pack(path, honest_parts())
    data = bytearray(path.read_bytes())
    entry = data.rfind(SHEET.encode()) - 46
    size = struct.unpack("<L", data[entry + 24 : entry + 28])[0]
    data[entry + 24 : entry + 28] = struct.pack("<L", size // 2)
    path.write_bytes(data)
    return path


def encrypted_part(path: Path) -> Path:
    """A part with the flag of an encrypted one."""
    pack(path, honest_parts())
    data = bytearray(path.read_bytes())
    entry = data.rfind(SHEET.encode()) - 46
    data[entry + 8] |= 1
    path.write_bytes(data)
    return path


def odd_method(path: Path) -> Path:
    """A part packed with bzip2."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_BZIP2) as package:
        for name, content in honest_parts().items():
            package.writestr(name, content)
    return path


def two_names(path: Path) -> Path:
    """A local header that names another part than the table of contents."""
    pack(path, honest_parts())
    data = bytearray(path.read_bytes())
    place = data.find(SHEET.encode())
    data[place : place + len(SHEET)] = SHEET.replace("sheet1", "sheet9").encode()
    path.write_bytes(data)
    return path


def many_members(path: Path) -> Path:
    """30,000 parts."""
    with zipfile.ZipFile(path, "w") as package:
        for name, content in honest_parts().items():
            package.writestr(name, content)
        for number in range(30_000):
            package.writestr(f"xl/media/{number}.bin", b"")
    return path


def _ole(path: Path, name: str) -> Path:
    """The start of an OLE container with one stream of a name ([MS-CFB])."""
    path.write_bytes(
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(504) + name.encode("utf-16-le") + bytes(2000)
    )
    return path


def encrypted_book(path: Path) -> Path:
    """A workbook with a password."""
    return _ole(path, "EncryptedPackage")


def old_book(path: Path) -> Path:
    """A workbook from before 2007."""
    return _ole(path, "Workbook")


def binary_book(path: Path) -> Path:
    """A binary workbook."""
    parts = honest_parts()
    kind = b"application/vnd.ms-excel.sheet.binary.macroEnabled.main"
    old = b"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"
    parts["[Content_Types].xml"] = parts["[Content_Types].xml"].replace(old, kind)
    return pack(path, parts)


def shared_book(path: Path) -> Path:
    """A workbook that tracks revisions."""
    parts = honest_parts()
    kind = b"http://schemas.openxmlformats.org/officeDocument/2006/relationships/revisionHeaders"
    rels = parts["xl/_rels/workbook.xml.rels"]
    entry = (
        b'<Relationship Id="rId99" Type="' + kind + b'" Target="revisions/revisionHeaders.xml"/>'
    )
    parts["xl/_rels/workbook.xml.rels"] = rels.replace(b"</Rel", entry + b"</Rel")
    return pack(path, parts | {"xl/revisions/revisionHeaders.xml": b"<headers/>"})


def a_text_document(path: Path) -> Path:
    """A document of another kind."""
    parts = honest_parts()
    kind = b"application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"
    old = b"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"
    parts["[Content_Types].xml"] = parts["[Content_Types].xml"].replace(old, kind)
    return pack(path, parts)


def an_open_document(path: Path) -> Path:
    """A workbook of the other standard."""
    kind = b"application/vnd.oasis.opendocument.spreadsheet"
    return pack(path, {"mimetype": kind, "content.xml": b"<office/>"})


def a_csv(path: Path) -> Path:
    """A text file with another name."""
    path.write_bytes(b"Room,Length\n1,2.4\n")
    return path


def an_empty_file(path: Path) -> Path:
    """No bytes at all."""
    path.write_bytes(b"")
    return path


def an_empty_zip(path: Path) -> Path:
    """A zip without parts."""
    return pack(path, {})


def broken_workbook_part(path: Path) -> Path:
    """A workbook part that is not well formed."""
    return with_part(path, "xl/workbook.xml", b"<workbook><sheets>")


def no_sheets(path: Path) -> Path:
    """A workbook part without sheets."""
    space = b"http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    return with_part(path, "xl/workbook.xml", b'<workbook xmlns="' + space + b'"/>')


def missing_workbook_part(path: Path) -> Path:
    """A package whose workbook part is not there."""
    parts = honest_parts()
    del parts["xl/workbook.xml"]
    return pack(path, parts)


def unknown_encoding(path: Path) -> Path:
    """A sheet in an encoding that nobody has."""
    return with_part(path, SHEET, sheet(b"").replace(b"UTF-8", b"x-martian"))


def empty_deflate(path: Path) -> Path:
    """A part whose compressed data is cut short, with sizes that agree."""
    pack(path, honest_parts())
    data = bytearray(path.read_bytes())
    packed = zlib.compress(b"")
    entry = data.rfind(SHEET.encode()) - 46
    data[entry + 20 : entry + 24] = struct.pack("<L", len(packed) // 2)
    path.write_bytes(data)
    return path

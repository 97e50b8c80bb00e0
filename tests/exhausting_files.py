"""Makers of files that are made to exhaust their reader: bombs, far cells, deep nesting."""

import io
import struct
import zipfile
from collections.abc import Iterator
from pathlib import Path

from honest_book import HEAD, MEBI, SHEET, honest_parts, pack, sheet, stream_part, with_part

# -- bombs -----------------------------------------------------------------------------------


def one_large_part(path: Path) -> Path:
    """One part of 600 MiB of blanks in 600 KiB."""
    return stream_part(path, "xl/media/image1.png", (bytes(MEBI) for _ in range(600)))


def one_ratio(path: Path) -> Path:
    """One part of 100 MiB that takes a thousandth of it."""
    return stream_part(path, "customXml/item1.xml", (b" " * MEBI for _ in range(100)))


def many_large_parts(path: Path) -> Path:
    """Parts of 24 MiB each, below any limit, 50 of them: 1.2 GiB."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as package:
        for part, content in honest_parts().items():
            package.writestr(part, content)
        block = bytes(24 * MEBI)
        for number in range(50):
            package.writestr(f"xl/media/image{number}.bin", block)
    return path


def nested_packages(path: Path) -> Path:
    """A package in a package in a package, six deep."""
    inner = b"at the bottom"
    for _ in range(6):
        out = io.BytesIO()
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
            package.writestr("next.zip", inner)
        inner = out.getvalue()
    return with_part(path, "xl/embeddings/book1.xlsx", inner)


def nested_bomb(path: Path) -> Path:
    """An embedded package that itself unpacks to 100 MiB of nothing."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        package.writestr("a.bin", bytes(100 * MEBI))
    return with_part(path, "xl/embeddings/book1.xlsx", out.getvalue())


def overlapping_members(path: Path) -> Path:
    """Several names for the same bytes: the table of contents points at one place."""
    pack(path, honest_parts() | {"xl/media/a.bin": bytes(1000), "xl/media/b.bin": bytes(1000)})
    data = bytearray(path.read_bytes())
    first, second = (data.rfind(f"xl/media/{n}.bin".encode()) - 46 for n in "ab")
    data[second + 42 : second + 46] = data[first + 42 : first + 46]
    place = struct.unpack("<L", data[first + 42 : first + 46])[0]
    assert data[place : place + 4] == b"PK\x03\x04"
    data[second + 46 : second + 46 + len("xl/media/b.bin")] = b"xl/media/a.bin"
    path.write_bytes(data)
    return path


# -- sheets that span, nest, repeat ----------------------------------------------------------


def many_cells(path: Path) -> Path:
    """24 million cells, a thousand in each of 24,000 rows."""

    def pieces() -> Iterator[bytes]:
        yield sheet(b"").partition(b"</sheetData>")[0]
        row = b"<c><v>1</v></c>" * 1000
        for number in range(1, 24_001):
            yield b'<row r="%d">%s</row>' % (number, row)
        yield b"</sheetData></worksheet>"

    return stream_part(path, SHEET, pieces())


def one_long_cell(path: Path) -> Path:
    """One cell of 600 MB."""

    def pieces() -> Iterator[bytes]:
        yield sheet(b"").partition(b"</sheetData>")[0]
        yield b'<row r="1"><c r="A1" t="inlineStr"><is><t>'
        block = b"".join(b"%07x" % (n * 2654435761 % 2**28) + b" " * 1017 for n in range(1024))
        for _ in range(600):
            yield block
        yield b"</t></is></c></row></sheetData></worksheet>"

    return stream_part(path, SHEET, pieces())


def a_long_shared_string(path: Path) -> Path:
    """A shared string of 20 MB."""
    space = b"http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    text = b"".join(b"%07x " % (n * 2654435761 % 2**28) for n in range(20 * MEBI // 8))
    content = HEAD + b'<sst xmlns="' + space + b'"><si><t>' + text + b"</t></si></sst>"
    return with_part(path, "xl/sharedStrings.xml", content)


def a_far_cell(path: Path) -> Path:
    """Two cells in opposite corners of a sheet, whose dimension says A1."""
    cells = b'<row r="1"><c r="A1"><v>1</v></c></row>'
    cells += b'<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'
    return with_part(path, SHEET, sheet(cells))


def a_far_cell_with_prefix(path: Path) -> Path:
    """The same with another prefix, single quotes and odd spacing."""
    space = b"http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    cells = b"<q:row r='1'><q:c  s='0'\n r = 'A1'/></q:row><q:row><q:c r='XFD1048576'/></q:row>"
    content = b"<q:worksheet xmlns:q='" + space + b"'><q:sheetData>" + cells
    return with_part(path, SHEET, content + b"</q:sheetData></q:worksheet>")


def a_far_cell_in_utf16(path: Path) -> Path:
    """The same in another encoding."""
    cells = b'<row r="1"><c r="A1"><v>1</v></c></row>'
    cells += b'<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'
    text = sheet(cells).decode().replace("UTF-8", "UTF-16")
    return with_part(path, SHEET, text.encode("utf-16"))


def a_row_beyond_the_last(path: Path) -> Path:
    """A row that no sheet has."""
    return with_part(path, SHEET, sheet(b'<row r="99999999"><c><v>1</v></c></row>'))


def a_column_beyond_the_last(path: Path) -> Path:
    """A column that no sheet has."""
    return with_part(path, SHEET, sheet(b'<row r="1"><c r="ZZZZ1"><v>1</v></c></row>'))


def a_merge_of_everything(path: Path) -> Path:
    """One merge over the whole sheet."""
    tail = b'<mergeCells count="1"><mergeCell ref="A1:XFD1048576"/></mergeCells>'
    return with_part(path, SHEET, sheet(b"", tail))


def a_link_on_everything(path: Path) -> Path:
    """One hyperlink over the whole sheet."""
    tail = b'<hyperlinks><hyperlink ref="A1:XFD1048576" location="A1"/></hyperlinks>'
    return with_part(path, SHEET, sheet(b"", tail))


def many_merges(path: Path) -> Path:
    """300,000 merges."""
    merges = b"".join(b'<mergeCell ref="A%d:B%d"/>' % (n, n) for n in range(1, 300_001))
    return with_part(path, SHEET, sheet(b"", b"<mergeCells>" + merges + b"</mergeCells>"))


def many_validations(path: Path) -> Path:
    """300,000 validation rules."""
    rules = b"".join(b'<dataValidation sqref="A%d"/>' % n for n in range(1, 300_001))
    return with_part(path, SHEET, sheet(b"", b"<dataValidations>" + rules + b"</dataValidations>"))


def deep_sheet(path: Path) -> Path:
    """A sheet nested 100,000 deep."""
    deep = b"<row>" * 100_000 + b"</row>" * 100_000
    return with_part(path, SHEET, sheet(deep))


def deep_custom_part(path: Path) -> Path:
    """A custom part nested 5,000 deep, with a comment before it."""
    deep = HEAD + b"<!-- a < b -->" + b"<a>" * 5000 + b"</a>" * 5000
    return with_part(path, "customXml/item1.xml", deep)


def deep_workbook(path: Path) -> Path:
    """A workbook part nested 1,000 deep."""
    content = honest_parts()["xl/workbook.xml"]
    deep = b"<ext>" * 1000 + b"</ext>" * 1000
    return with_part(
        path, "xl/workbook.xml", content.replace(b"</workbook>", deep + b"</workbook>")
    )

"""Fresh workbooks to graft, and what is asked of a book afterwards."""

import io
import struct
import zipfile
import zlib
from collections.abc import Sequence
from functools import cache
from pathlib import Path

import xlsxwriter

from sheetcalc.excel.grafting import graft
from sheetcalc.excel.grafting.graft import GraftReport, Placement
from sheetcalc.excel.tabs.own_tabs import signature

EDITED = frozenset(
    {"[content_types].xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml"}
)
"""Parts of an ordinary book that a graft may add to."""


def tiny_png() -> bytes:
    """One grey pixel."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        checksum = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + checksum

    head = struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\0\x80"))
        + chunk(b"IEND", b"")
    )


def tab_name(key: str) -> str:
    """Name of a tab as the fresh workbook has it."""
    return key.partition(":")[2] if key.startswith("input:") else key.title().replace(":", " ")


def table_name(key: str) -> str:
    """Name of a tab's table."""
    return "Out" + "".join(sign for sign in key.title() if sign.isalnum())


@cache
def fresh_book(
    keys: tuple[str, ...] = ("findings", "takeoff"),
    *,
    rows: int = 2,
    waste: float = 0.1,
    picture: bool = True,
) -> tuple[bytes, tuple[Placement, ...]]:
    """A workbook with one sheet a key: table with live formulas, styles, rules, a picture."""
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True})
    head = book.add_format({"bold": True, "bg_color": "#DDEEFF", "border": 1, "font_name": "Arial"})
    day = book.add_format({"num_format": "yyyy-mm-dd"})
    share = book.add_format({"num_format": "0.0%", "font_color": "#112233"})
    wrong = book.add_format({"font_color": "#990000"})
    for key in keys:
        sheet, table = book.add_worksheet(tab_name(key)), table_name(key)
        sheet.write_string("A1", f"Title of {key}", head)
        sheet.write_formula("B1", '=IF(COUNTIF(Findings!A5:A9,"error")>0,"no","OK")', head, "OK")
        if not key.startswith("input:"):
            sheet.write_string("A3", signature(key))
        gross = f"={table}[[#This Row],[Net]]*(1+{table}[[#This Row],[Waste]])"
        headers = [{"header": h} for h in ("Net", "Waste")]
        headers += [{"header": "Gross", "formula": gross}, {"header": "Day"}, {"header": "Reading"}]
        sheet.add_table(
            3, 0, 3 + rows, 4, {"name": table, "columns": headers, "style": "Table Style Light 1"}
        )
        for row in range(4, 4 + rows):
            sheet.write_number(row, 0, row / 2)
            sheet.write_number(row, 1, waste, share)
            sheet.write_formula(row, 2, gross, None, row / 2 * (1 + waste))
            sheet.write_number(row, 3, 45000 + row, day)
        sheet.write_string(5 + rows, 6, '= text, <b> & "quotes" \' \u00e9 \U0001f6bf', share)
        sheet.write_number(5 + rows, 5, 9.397449121969215)  # more digits than programs keep
        sheet.conditional_format(
            "A5:A6", {"type": "formula", "criteria": "=$A5>2", "format": wrong}
        )
        sheet.data_validation("B5:B9", {"validate": "list", "source": ["a", "b"]})
        sheet.write_url("G1", f"internal:'{tab_name(keys[0])}'!A1", string="first")
        sheet.repeat_rows(3)
        sheet.freeze_panes(4, 1)
        if picture:
            options = {"image_data": io.BytesIO(tiny_png()), "description": f"drawing of {key}"}
            sheet.insert_image("I2", "drawing.png", options)
    book.close()
    placements = tuple(
        Placement(key, tab_name(key), ("Reading",) if key == "resistance log" else ())
        for key in keys
    )
    return out.getvalue(), placements


def graft_into(
    path: Path,
    keys: Sequence[str] = ("findings", "takeoff"),
    *,
    out: Path | None = None,
    retire_others: bool = False,
    **options: float,
) -> GraftReport:
    """Graft fresh sheets into a book, in place where no other file is named; verified."""
    fresh, placements = fresh_book(tuple(keys), **options)  # type: ignore[arg-type]
    place = out or path.with_name("grafted-" + path.name)
    with graft.prepare(path, fresh, placements, retire_others=retire_others) as plan:
        with place.open("wb") as file:
            plan.write(file)
        plan.verify(place)
        report = plan.report
    if out is None:
        place.replace(path)
    return report


def parts(path: Path) -> dict[str, bytes]:
    """Every part of a package by its name, checked by another zip reader than ours."""
    with zipfile.ZipFile(path) as package:
        assert package.testzip() is None
        return {name: package.read(name) for name in package.namelist()}


def raw_parts(path: Path) -> dict[str, tuple[int, bytes]]:
    """Method and compressed bytes of every part."""
    found = {}
    with zipfile.ZipFile(path) as package, path.open("rb") as file:
        for info in package.infolist():
            file.seek(info.header_offset)
            head = struct.unpack("<4s5H3L2H", file.read(30))
            file.seek(head[9] + head[10], io.SEEK_CUR)
            found[info.filename] = info.compress_type, file.read(info.compress_size)
    return found


def assert_kept(before: Path, after: Path, edited: frozenset[str] = EDITED) -> None:
    """Every part that was there is there, compressed as it was; calcChain, a cache, aside."""
    old, new = raw_parts(before), raw_parts(after)
    for name, stored in old.items():
        if name.lower() in edited or "calcchain" in name.lower():
            continue
        assert new.get(name) == stored, f"{name} is not as it was"
    names = [name for name in new if name in old]
    assert names == [name for name in old if name in new], "the order of the parts has changed"

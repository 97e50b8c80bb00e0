"""Every hostile file is refused with the code that names the reason, quickly."""

import resource
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from honest_book import (
    DTD,
    OUTSIDE,
    SHEET,
    XML_PARTS,
    honest_parts,
    pack,
    sheet,
    with_dtd,
    with_part,
)
from hostile_files import HOSTILE, LARGE

from sheetcalc.excel.opc import guards
from sheetcalc.excel.opc.errors import Refused

SECONDS = 10.0
MEMORY = 1 << 30


def test_an_honest_book_passes(tmp_path: Path) -> None:
    guards.inspect(pack(tmp_path / "book.xlsx", honest_parts()))


QUICK = {make: code for make, code in HOSTILE.items() if make.__name__ not in LARGE}


@pytest.mark.parametrize(("make", "code"), QUICK.items(), ids=[m.__name__ for m in QUICK])
def test_a_hostile_file_is_refused(make: Callable[[Path], Path], code: str, tmp_path: Path) -> None:
    path = make(tmp_path / "book.xlsx")
    before = path.read_bytes() if path.stat().st_size < 1 << 24 else b""
    start = time.process_time()
    with pytest.raises(Refused) as refusal:
        guards.inspect(path)
    assert refusal.value.code == code
    assert time.process_time() - start < SECONDS
    assert not before or path.read_bytes() == before
    path.unlink()


@pytest.mark.parametrize("part", XML_PARTS)
@pytest.mark.parametrize("declaration", [DTD, OUTSIDE], ids=["entities", "external"])
def test_a_document_type_in_any_part_is_refused(
    part: str, declaration: bytes, tmp_path: Path
) -> None:
    with pytest.raises(Refused) as refusal:
        guards.inspect(with_dtd(tmp_path / "book.xlsx", part, declaration))
    assert refusal.value.code == "XML-DTD"


def test_a_document_type_in_another_encoding_is_refused(tmp_path: Path) -> None:
    text = '<?xml version="1.0" encoding="UTF-16"?>' + DTD.decode() + "<r>&b;</r>"
    path = with_part(tmp_path / "book.xlsx", "customXml/item1.xml", text.encode("utf-16"))
    with pytest.raises(Refused) as refusal:
        guards.inspect(path)
    assert refusal.value.code == "XML-DTD"


def test_a_picture_may_name_the_public_type_of_svg(tmp_path: Path) -> None:
    declared = b'<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/svg11.dtd">'
    parts = honest_parts() | {"xl/media/image1.svg": declared + b"<svg/>"}
    kind = b'<Default Extension="svg" ContentType="image/svg+xml"/>'
    types = parts["[Content_Types].xml"]
    parts["[Content_Types].xml"] = types.replace(b"<Default", kind + b"<Default", 1)
    guards.inspect(pack(tmp_path / "book.xlsx", parts))


def test_a_large_honest_sheet_passes_wherever_its_pieces_are_cut(tmp_path: Path) -> None:
    rows = b"".join(
        b'<row r="%d"><c r="A%d"/><c r="B%d" t="str"><v>%s</v></c></row>'
        % (n, n, n, b"x" * (n % 9))
        for n in range(1, 60_000)
    )
    guards.inspect(with_part(tmp_path / "book.xlsx", SHEET, sheet(rows)), ["Data 1"])


def test_the_most_hostile_files_are_refused_within_a_gibibyte(tmp_path: Path) -> None:
    code = (
        "import resource, sys; from pathlib import Path\n"
        f"resource.setrlimit(resource.RLIMIT_AS, ({MEMORY}, {MEMORY}))\n"
        "from sheetcalc.excel.opc import guards; from sheetcalc.excel.opc.errors import Refused\n"
        "try: guards.inspect(Path(sys.argv[1]))\n"
        "except Refused as refusal: print(refusal.code)\n"
    )
    by_name = {make.__name__: make for make in HOSTILE}
    for name in (*LARGE, "many_merges"):
        path = by_name[name](tmp_path / "book.xlsx")
        result = subprocess.run(  # noqa: S603 - this very interpreter
            [sys.executable, "-c", code, str(path)], capture_output=True, check=True, text=True
        )
        assert result.stdout.strip() == HOSTILE[by_name[name]]
    assert resource.getrlimit(resource.RLIMIT_AS) != (MEMORY, MEMORY)


@pytest.mark.parametrize("last", [999_999, 1_000_000, 1_000_001])
def test_a_sheet_that_is_read_may_span_two_million_cells(last: int, tmp_path: Path) -> None:
    cells = b'<row r="1"><c r="A1"><v>1</v></c></row><row r="%d"><c r="B%d"/></row>' % (last, last)
    path = with_part(tmp_path / "book.xlsx", SHEET, sheet(cells))
    guards.inspect(path)
    if last > 1_000_000:  # rows of two columns
        with pytest.raises(Refused) as refusal:
            guards.inspect(path, ["Data 1"])
        assert refusal.value.code == "SHEET-TOO-WIDE"
    else:
        guards.inspect(path, ["Data 1"])


@pytest.mark.parametrize("place", ["XFD1000", "C1048576", "XFD60000", "ALM1048576"])
def test_a_stray_cell_on_a_tab_that_nobody_reads_is_no_reason_to_refuse(
    place: str, tmp_path: Path
) -> None:
    row = place.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    cells = f'<row r="1"><c r="A1"/></row><row r="{row}"><c r="{place}"><v>1</v></c></row>'
    path = with_part(tmp_path / "book.xlsx", SHEET, sheet(cells.encode()))
    guards.inspect(path)
    with pytest.raises(Refused) as refusal:
        guards.inspect(path, ["Data 1"])
    assert refusal.value.code == "SHEET-TOO-WIDE"


def test_an_input_tab_is_looked_at_closely_whatever_it_is_called_now(tmp_path: Path) -> None:
    cells = b'<row r="1"><c r="A1"/></row><row r="1048576"><c r="C1048576"/></row>'
    parts = honest_parts() | {SHEET: sheet(cells)}
    guards.inspect(pack(tmp_path / "theirs.xlsx", parts))
    book = parts["xl/workbook.xml"]
    name = b"<definedNames><definedName name=\"sheetcalc_in_Rooms\">'Data 1'!$A$1</definedName>"
    parts["xl/workbook.xml"] = book.replace(b"</sheets>", b"</sheets>" + name + b"</definedNames>")
    with pytest.raises(Refused) as refusal:
        guards.inspect(pack(tmp_path / "ours.xlsx", parts))
    assert refusal.value.code == "SHEET-TOO-WIDE"


def test_a_missing_file_and_a_folder_are_refused(tmp_path: Path) -> None:
    for path in (tmp_path / "none.xlsx", tmp_path):
        with pytest.raises(Refused) as refusal:
            guards.inspect(path)
        assert refusal.value.code == "FILE-NOT-READABLE"

"""Cells put into the frame of a sheet are those that the writing library would have written."""

import io
import zipfile
import zlib
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
import xlsxwriter
from msgspec.structs import replace
from odd_packages import Features, write_book
from openpyxl import load_workbook

from sheetcalc.excel.generating import elsewhere, sheet_cells
from sheetcalc.excel.generating.cell_text import BookTerms, CellWriter
from sheetcalc.excel.generating.cells import NotWrittenError
from sheetcalc.excel.generating.generate import write_book as write_whole
from sheetcalc.excel.generating.generate import write_frames
from sheetcalc.excel.generating.sheet_cells import SheetCells
from sheetcalc.excel.generating.table_columns import columns_of
from sheetcalc.excel.grafting import filling, graft
from sheetcalc.excel.grafting.graft import Placement
from sheetcalc.excel.opc.package import Package
from sheetcalc.excel.saving import safe_save
from sheetcalc.excel.saving.write_back import add_tabs
from sheetcalc.excel.tabs import tab_content as content
from sheetcalc.excel.tabs.own_tabs import find_in_file, signature
from sheetcalc.excel.tabs.tab_cells import parse_cells
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.sheet import BookModel, Cell, CellValue, SheetColumn, SheetModel, TableModel

STYLE = load_house_style()
VALUES = (
    "text",
    " with blanks ",
    "=1+1",
    "a < b & c > d \"quoted\" 'so'",
    "two\nlines, and a return\r, a bell \x07, a literal _x0041_",
    "שלום 🛁 ½″",
    0,
    12,
    -0.1,
    1 / 3,
    123456789.123456789,
    1e21,
    Decimal("12.50"),
    True,
    False,
    date(2027, 3, 1),
    None,
    "",
)


def sheet(rows: tuple[tuple[Cell, ...], ...], **more: object) -> SheetModel:
    columns = tuple(SheetColumn(f"Column {at}", 14) for at in range(1, len(rows[0]) + 1))
    return SheetModel(
        key="takeoff",
        name="Takeoff",
        title="Takeoff",
        purpose="What is needed.",
        tables=(TableModel("OutTakeoff", 4, 1, columns, rows),),
        signature=signature("takeoff"),
        **more,  # type: ignore[arg-type]
    )


def every_kind() -> SheetModel:
    rows = [
        (
            Cell(value, "result_date" if isinstance(value, date) else "result"),
            Cell(_printable(value), "result_wrapped", f'LEN(Takeoff!A{at})&"<"'),
            Cell(at, "result_link", link=f"internal:'Takeoff'!A{at}"),
        )
        for at, value in enumerate(VALUES, 5)
    ]
    outside = Cell("mail", "result_link", link="mailto:office@example.org")
    return sheet(tuple(rows), loose={(2, 3): outside, (5, 1): Cell("over the table", "result")})


def _printable(value: CellValue) -> CellValue:
    """The library writes a formula's stored text without escaping what XML can't carry."""
    return value if not isinstance(value, str) or value.isprintable() else "not printable"


def own_book(path: Path, options: dict[str, object]) -> Path:
    with xlsxwriter.Workbook(path, options) as book:
        book.add_worksheet("Mine").write_string(0, 0, "mine")
    return path


def both_ways(
    model: SheetModel,
    folder: Path,
    make: Callable[[Path], Path] = lambda path: own_book(path, {}),
) -> tuple[Path, Path]:
    """The same sheet in the same book: once taken apart again, once put into its frame."""
    made = []
    for name, fresh in (
        ("whole", write_whole(BookModel((model,), {}), STYLE)),
        ("frames", write_frames(BookModel((model,), {}), STYLE)),
    ):
        path = make(folder / f"{name}.xlsx")
        placement = Placement(model.key, model.name)
        add_tabs(path, fresh, [placement], expected=safe_save.fingerprint(path))
        made.append(path)
    return made[0], made[1]


def cells(path: Path, *, values: bool) -> list[list[tuple[object, ...]]]:
    page = load_workbook(path, data_only=values)["Takeoff"]
    return [
        [
            (
                c.value,
                c.data_type,
                c.number_format,
                c.font.b,
                c.alignment.wrap_text,
                (c.hyperlink.location or c.hyperlink.target) if c.hyperlink else None,
            )
            for c in row
        ]
        for row in page.iter_rows()
    ]


@pytest.mark.parametrize("date_1904", [False, True])
@pytest.mark.parametrize("values", [True, False])
def test_every_kind_of_cell_is_the_same_either_way(
    tmp_path: Path, *, date_1904: bool, values: bool
) -> None:
    whole, frames = both_ways(
        every_kind(), tmp_path, lambda path: own_book(path, {"date_1904": date_1904})
    )
    expected, found = (cells(path, values=values) for path in (whole, frames))
    for row in (*expected, *found):
        row[0] = ("signature",) if str(row[0][0]).startswith("sheetcalc result") else row[0]
    assert found == expected


@pytest.mark.parametrize("features", [{"strict": True}, {"date_1904": True}, {"prefix": "x"}])
def test_in_an_odd_book_too_cells_hold_the_same(
    tmp_path: Path, features: dict[str, object]
) -> None:
    kind = Features(**features)  # type: ignore[arg-type]
    held = []
    for path in both_ways(every_kind(), tmp_path, lambda path: write_book(path, kind)):
        [tab] = find_in_file(path).tabs
        with Package.open(path) as package:
            held.append(parse_cells(package.read(tab.part), tab.part).cells)
        assert not tab.edited
    assert held[0].pop((3, 1)) == held[1].pop((3, 1))[:-16]
    assert held[0] == held[1]


def test_a_sheet_in_blocks_holds_the_same_bytes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    model = sheet(tuple((Cell(at), Cell(f"{at} a", formula="1*1")) for at in range(40)))
    found = []
    for rows in (2_000, 40, 39, 7):
        monkeypatch.setattr(sheet_cells, "ROWS_A_BLOCK", rows)
        _, frames = both_ways(model, tmp_path)
        with zipfile.ZipFile(frames) as file:
            found.append({name: file.read(name) for name in file.namelist() if "sheet" in name})
    assert all(parts == found[0] for parts in found)


@pytest.mark.parametrize("records", [10, 20, 30])
def test_a_sheet_written_in_parts_is_the_same_to_the_byte(
    monkeypatch: pytest.MonkeyPatch, records: int
) -> None:
    monkeypatch.setattr(sheet_cells, "ROWS_A_BLOCK", 10)
    rows = tuple(
        (
            Cell(at, link="internal:'Takeoff'!A1"),
            Cell("a line, " * (at % 40), "result_wrapped", "1*1"),
        )
        for at in range(47)
    )
    whole = SheetCells(sheet(rows), STYLE)
    frame = b'<worksheet><dimension ref="A1"/><sheetData/></worksheet>'
    wanted = elsewhere.Wanted(frame, BookTerms(dict.fromkeys(STYLE.styles, 7), (), str))
    parts = [SheetCells(sheet(rows[at : at + records]), STYLE, at) for at in range(0, 47, records)]
    together = filling.fill_together(
        [filling.fill_part(part, wanted) for part in parts], wanted, whole.sheet.signature
    )
    assert together == filling.fill(whole, wanted)
    assert elsewhere.together(
        [elsewhere.kept_here(part) for part in parts], STYLE
    ) == elsewhere.kept_here(whole)


def test_row_heights_are_those_of_the_library(tmp_path: Path) -> None:
    long = Cell("as long as a line may be, " * 9, "result_wrapped")
    whole, frames = both_ways(sheet(((long, Cell(1)), (Cell("short"), long))), tmp_path)
    heights = [
        {n: d.height for n, d in load_workbook(p)["Takeoff"].row_dimensions.items() if d.height}
        for p in (whole, frames)
    ]
    assert heights[0] == heights[1]
    assert max(heights[1].values()) > 60


def test_a_row_without_cells_keeps_its_height_for_the_drawing_on_it(tmp_path: Path) -> None:
    model = replace(sheet(((Cell("a"), Cell(1)),)), heights={8: 60.0, 9: 45.0})
    model = replace(model, loose={(10, 1): Cell("below the drawing")})
    for path in both_ways(model, tmp_path):
        rows = load_workbook(path)["Takeoff"].row_dimensions
        assert (rows[8].height, rows[9].height) == (60, 45)


def test_the_figure_of_cells_as_written_is_that_of_cells_as_read(tmp_path: Path) -> None:
    whole, frames = both_ways(every_kind(), tmp_path)
    [one], [other] = find_in_file(whole).tabs, find_in_file(frames).tabs
    assert not one.edited
    assert not other.edited


def test_a_changed_byte_sends_the_check_to_the_cells_themselves() -> None:
    text = f"<t>{signature('takeoff')} · check 0123456789abcdef"
    part = f"<x>{text}</t></x>".encode()
    whole = content.whole_figure(zlib.crc32(part), len(part))
    signed = part.replace(b"cdef</t>", f"cdef{whole}</t>".encode())
    assert content.is_as_written(signed)
    assert not content.is_as_written(signed.replace(b"</x>", b" </x>"))
    assert not content.is_as_written(signed.replace(b"<x>", b"<y>"))
    assert not content.is_as_written(part)


def test_dimension_of_a_sheet_spans_its_cells(tmp_path: Path) -> None:
    _, frames = both_ways(sheet(tuple((Cell(at), Cell(at)) for at in range(40))), tmp_path)
    book = load_workbook(frames, read_only=True)
    assert book["Takeoff"].calculate_dimension() == "A1:B44"
    book.close()


@pytest.mark.parametrize("formula", [None, "1*1"])
def test_equal_values_of_different_kinds_are_each_written_as_their_own(formula: str | None) -> None:
    writer = CellWriter(BookTerms({"text": 1}, (), str))
    values = (1, True, Decimal(1), "1")
    for number in (5, 6):
        row, held = writer.row(number, [(1, Cell(v, formula=formula)) for v in values], None)
        one, yes, money, text = row.removesuffix("</row>").split("</c>")[:-1]
        assert ' t="b"' in yes
        assert not [cell for cell in (one, money) if ' t="' in cell]
        assert ' t="inlineStr"' in text if formula is None else ' t="str"' in text
        assert row.count(f'r="A{number}"') == len(values)
        assert formula or held == ["A", "n1", "A", "b1", "A", "n1", "A", "s1"]


def test_records_written_by_columns_are_those_written_row_by_row() -> None:
    rows = every_kind().tables[0].rows * 2
    rows += tuple(
        (Cell(v, formula="2-1"), Cell(v), *row[2:])
        for v, row in zip((1, 1.0), rows[:2], strict=True)
    )
    table = TableModel("OutTakeoff", 4, 2, (), rows)
    terms = BookTerms(dict.fromkeys(STYLE.styles, 7), (), str)
    at_once, one_by_one = CellWriter(terms), CellWriter(terms)
    heights = {6: 30.0, 9: 47.1}
    found = [*at_once.records(5, 2, columns_of(table), heights, free={3})]
    expected = [
        one_by_one.row(number, list(enumerate(row, 2)), heights.get(number), free={3})
        for number, row in enumerate(rows, 5)
    ]
    assert [text.decode() for text, _ in found] == [text for text, _ in expected]
    assert [held.decode().split("\x1f") for _, held in found] == [held for _, held in expected]
    assert at_once.links == one_by_one.links
    assert len(at_once.links) == 2 * len(VALUES) + 2


def test_what_is_refused_in_a_column_is_told_by_its_cell() -> None:
    cells = [Cell("fine"), Cell("fine"), Cell(float("nan"))]
    table = TableModel("OutTakeoff", 4, 1, (), tuple((cell,) for cell in cells))
    writer = CellWriter(BookTerms({"text": 1}, (), str))
    with pytest.raises(NotWrittenError, match=r"^A7: "):
        list(writer.records(5, 1, columns_of(table), {}))


def _refused(cell: Cell) -> Callable[[], object]:
    writer = CellWriter(BookTerms({"text": 1}, (), str))
    return lambda: writer.row(7, [(2, cell)], None)


@pytest.mark.parametrize(
    "cell",
    [
        Cell("x" * 32_768),
        Cell(float("nan")),
        Cell(float("inf"), formula="1/0"),
        Cell("there", link="javascript:alert()"),
        Cell("there", link="internal:" + "A" * 3_000),
        Cell(object()),  # type: ignore[arg-type]
    ],
)
def test_what_a_cell_cannot_hold_is_refused(cell: Cell) -> None:
    with pytest.raises(NotWrittenError):
        _refused(cell)()


def test_a_damaged_member_is_noticed_on_reading_back(tmp_path: Path) -> None:
    path = write_book(tmp_path / "book.xlsx", Features())
    fresh = write_frames(BookModel((sheet(((Cell("one"),),)),), {}), STYLE)
    with graft.prepare(path, fresh, [Placement("takeoff", "Takeoff")]) as plan:
        out = io.BytesIO()
        plan.write(out)
        broken = tmp_path / "broken.xlsx"
        data = bytearray(out.getvalue())
        at = bytes(data).rindex(plan_data(plan))
        data[at + 40] ^= 1
        broken.write_bytes(data)
        with pytest.raises(Exception, match="WRITTEN-WRONG"):
            plan.verify(broken)


def plan_data(plan: graft.Graft) -> bytes:
    """The packed sheet of a plan."""
    [made] = [c for c in plan.added.values() if not isinstance(c, bytes)]
    return made.data

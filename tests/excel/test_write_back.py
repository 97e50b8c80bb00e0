"""Tabs are added to a file in one call: grafted and saved, or put into a copy beside it."""

from pathlib import Path

import pytest
from grafting import fresh_book, graft_into, parts
from odd_packages import Features, write_book

from sheetcalc.excel.opc.errors import Refused
from sheetcalc.excel.saving import safe_save, write_back


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "larch-court.xlsx", Features())


@pytest.mark.parametrize("feature", ["signed", "locked"])
def test_a_signed_book_and_a_locked_one_get_a_copy_beside_them(
    tmp_path: Path, feature: str
) -> None:
    book = write_book(tmp_path / f"{feature}.xlsx", Features(**{feature: True}))
    before = book.read_bytes()
    copy, second = (tmp_path / f"{feature} (sheetcalc{n}).xlsx" for n in ("", " 2"))
    # the same again needs no second copy, other results do; so do those of a run on the copy
    for rows, of, wanted in ((2, book, copy), (2, book, copy), (3, book, second)):
        fresh, placements = fresh_book(rows=rows)
        expected = safe_save.fingerprint(of)
        report = write_back.add_tabs(of, fresh, placements, expected=expected)
        assert (report.path, report.is_copy, report.graft.copy_reason) == (wanted, True, feature)
        assert "xl/worksheets/sheet2.xml" in parts(report.path)
    assert book.read_bytes() == before
    assert len(list(tmp_path.iterdir())) == 3


def test_a_copy_of_a_locked_book_has_its_tabs_and_is_filled_anew_in_place(tmp_path: Path) -> None:
    book = write_book(tmp_path / "locked.xlsx", Features(locked=True))
    copy = tmp_path / "locked (sheetcalc).xlsx"
    for rows, of, is_copy in ((2, book, True), (3, copy, False), (3, copy, False)):
        fresh, placements = fresh_book(rows=rows)
        expected = safe_save.fingerprint(of)
        report = write_back.add_tabs(of, fresh, placements, expected=expected, backups_kept=0)
        assert (report.path, report.is_copy) == (copy, is_copy)
    assert not report.changed
    assert b"lockStructure" in parts(copy)["xl/workbook.xml"]


def test_a_copy_of_a_signed_book_is_copied_again_only_where_something_changes(
    tmp_path: Path,
) -> None:
    book = write_book(tmp_path / "signed.xlsx", Features(signed=True))
    copy, second = (tmp_path / f"signed (sheetcalc{n}).xlsx" for n in ("", " 2"))
    for rows, of, wanted in ((2, book, copy), (2, copy, copy), (3, copy, second)):
        fresh, placements = fresh_book(rows=rows)
        expected = safe_save.fingerprint(of)
        assert write_back.add_tabs(of, fresh, placements, expected=expected).path == wanted


def test_a_hostile_book_is_refused_before_it_is_written_into(tmp_path: Path) -> None:
    book = tmp_path / "book.xlsx"
    book.write_bytes(b"PK\x03\x04 and no more")
    fresh, placements = fresh_book()
    with pytest.raises(Refused):
        write_back.add_tabs(book, fresh, placements, expected=safe_save.fingerprint(book))
    assert book.read_bytes() == b"PK\x03\x04 and no more"


def test_one_call_grafts_and_saves(book: Path, tmp_path: Path) -> None:
    fresh, placements = fresh_book()
    wanted = tmp_path / "wanted.xlsx"
    graft_into(book, out=wanted)
    report = write_back.add_tabs(
        book, fresh, placements, expected=safe_save.fingerprint(book), inspected=True
    )
    assert report.changed
    assert book.read_bytes() == wanted.read_bytes()
    again = write_back.add_tabs(book, fresh, placements, expected=safe_save.fingerprint(book))
    assert not again.changed

"""Makes the helpers in this folder importable by every test, and what tests of many files need."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from sheetcalc.excel.reading import read


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where a test writes its workbook."""
    return tmp_path / "book.xlsx"


@pytest.fixture(scope="module")
def no_child_left() -> Iterator[None]:
    """End the processes that have read the workbooks of a file of tests."""
    yield
    read.end_idle_children()

"""A book with result tabs in it, and what the tests of our own tabs ask of one."""

from pathlib import Path

import openpyxl
from grafting import graft_into
from odd_packages import Features, write_book

from sheetcalc.excel.tabs.own_tabs import find_in_file

KEYS = ("findings", "takeoff", "order:Kiln & Quarry")


def with_results(path: Path) -> Path:
    """A book with three tabs of its own and three result tabs."""
    write_book(path, Features(states=("visible",) * 3))
    graft_into(path, KEYS)
    return path


def names(path: Path) -> list[str]:
    return openpyxl.load_workbook(path).sheetnames


def keys(path: Path) -> list[tuple[str, str, bool]]:
    return [(tab.key, tab.sheet_name, tab.edited) for tab in find_in_file(path).tabs]


def change(path: Path, sheet: str, cell: str, value: object) -> None:
    """Change a cell as a person would, with a program that rewrites the whole file."""
    workbook = openpyxl.load_workbook(path)
    workbook[sheet][cell] = value
    workbook.save(path)

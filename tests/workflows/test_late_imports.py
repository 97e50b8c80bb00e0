"""Commands that calculate nothing load no library, which is what makes them quick."""

import subprocess
import sys

import pytest

LIBRARIES = {"numpy", "shapely", "pandas", "pint", "openpyxl", "xlsxwriter", "lxml", "PIL", "scipy"}

LOADED = """
import sys
from sheetcalc.cli import main
try:
    main(sys.argv[1:])
finally:
    print(*{name.partition(".")[0] for name in sys.modules}, file=sys.stderr)
"""


@pytest.mark.parametrize("arguments", [["--help"], ["explain", "tile"], ["explain", "SMALL-CUTS"]])
def test_a_command_that_only_tells_something_loads_no_library(arguments: list[str]) -> None:
    told = subprocess.run(  # noqa: S603 - this very interpreter
        [sys.executable, "-c", LOADED, *arguments], capture_output=True, text=True, check=True
    )
    assert told.stdout
    assert not LIBRARIES & set(told.stderr.split())

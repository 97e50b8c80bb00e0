"""The command line: arguments, exit codes, progress.  Everything it does is in ``workflows``."""

from sheetcalc.cli import jobs, money, running
from sheetcalc.cli.shared import main

__all__ = ["jobs", "main", "money", "running"]

"""Who is told how far a piece of work has come."""

from collections.abc import Callable
from typing import TypeAlias

Progress: TypeAlias = Callable[[str, int, int], None]
"""Told the stage, how many are done, and of how many."""


def silent(_stage: str, _done: int, _of: int) -> None:
    """Nobody listens."""

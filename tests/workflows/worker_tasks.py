"""Tasks for the tests of workers; a file of its own, since each new process imports it."""

import os
import signal
from pathlib import Path


def doubled(number: int) -> int:
    return 2 * number


def killed_at_three(number: int) -> int:
    if number == 3:
        os.kill(os.getpid(), signal.SIGKILL)
    return 2 * number


def killed_once(task: tuple[int, str]) -> int:
    """Ends its process the first time it comes to 3."""
    number, folder = task
    mark = Path(folder) / "was here"
    if number == 3 and not mark.exists():
        mark.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return 2 * number


def fails_at_three(number: int) -> int:
    if number == 3:
        message = "a bug"
        raise ValueError(message)
    return 2 * number

"""What this machine offers: its cores, and one of them for each process."""

import os
from typing import Final

_ONE_THREAD: Final = (
    "OPENBLAS_NUM_THREADS",
    "OMP_NUM_THREADS",
    "MKL_NUM_THREADS",
    "NUMEXPR_NUM_THREADS",
)


def cores() -> int:
    """Count the cores that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def one_thread_each() -> None:
    """Keep numeric libraries to one thread: several workers share the cores as it is."""
    for name in _ONE_THREAD:
        os.environ.setdefault(name, "1")

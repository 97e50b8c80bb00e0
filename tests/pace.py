"""Limits of time that mean the same on a slow or busy machine.

A limit is meant for an idle core of the kind that the reference loop below takes ``NOMINAL``
seconds on.  On a slower or busier core it grows with the loop's time, measured just before and
after the work.  What is between may be slowed down by others all the same, so a test fails only at
three times the limit: it finds what has become out of proportion, and measuring is left to the
benchmarks.
"""

import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

NOMINAL: Final = 0.035
"""Seconds of the reference loop on the core that limits are meant for."""

SLACK: Final = 3
"""Times the limit at which a test fails."""

_STEPS: Final = 500_000


def reference_loop() -> float:
    """Seconds of processor time for half a million additions."""
    begun = time.process_time()
    total = 0
    for number in range(_STEPS):
        total += number
    return time.process_time() - begun


def machine() -> str:
    """Say how quick this core is at the moment, beside milliseconds that somebody measures."""
    loop = min(reference_loop() for _ in range(5))
    return f"a million additions in a loop take {2 * loop * 1000:.0f} ms here, now"


@contextmanager
def within(seconds: float) -> Iterator[None]:
    """Hold what is done inside to about a limit of processor time.

    Parameters
    ----------
    seconds
        On the core that limits are meant for.
    """
    before = reference_loop()
    begun = time.process_time()
    yield
    used = time.process_time() - begun
    slower = max(1.0, before / NOMINAL, reference_loop() / NOMINAL)
    assert used < SLACK * seconds * slower, f"{used:.2f} s on a core {slower:.1f} times slower"

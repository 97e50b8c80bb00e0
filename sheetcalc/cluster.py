"""Work on many machines, by an engine that exists: the only importer of dask.distributed.

The library is optional (``pip install 'sheetcalc[cluster]'``).  Each task names a file that every
worker must see under the same path; nothing but the name goes there, nothing but the report comes
back.  A task whose worker dies is given to another by the engine; one that ends several workers
is reported.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import Any, Final

from distributed import Client, as_completed

SECONDS_TO_CONNECT: Final = 15


def run_on_cluster(
    address: str, work: Callable[[Any], Any], tasks: Sequence[Any]
) -> Iterator[tuple[int, Any, str]]:
    """Do the work to each task on the workers of a cluster.

    Parameters
    ----------
    address
        Of the scheduler, such as ``tcp://10.0.0.1:8786``.
    work
        What is done to each task; importable on every worker.
    tasks
        What it is done to.

    Yields
    ------
    tuple
        Place of the task, what was made of it or None, and why it failed or "", in the order in
        which they are done.

    Raises
    ------
    OSError
        Where no scheduler answers.
    """
    with Client(  # type: ignore[no-untyped-call] # the library has no types
        address, timeout=SECONDS_TO_CONNECT, set_as_default=False
    ) as client:
        place = {
            client.submit(work, task, pure=False): at  # a file may have changed: never from memory
            for at, task in enumerate(tasks)
        }
        for future in as_completed(list(place), loop=client.loop):  # type: ignore[no-untyped-call]
            if future.status == "finished":
                yield place[future], future.result(), ""
            else:
                yield place[future], None, f"{future.exception()}"

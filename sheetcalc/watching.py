"""Changes in a folder as the operating system tells them: the only importer of watchdog."""

from pathlib import Path
from threading import Event
from typing import Final, Self

from watchdog.events import (
    EVENT_TYPE_CLOSED,
    EVENT_TYPE_CREATED,
    EVENT_TYPE_DELETED,
    EVENT_TYPE_MODIFIED,
    EVENT_TYPE_MOVED,
    FileSystemEvent,
    FileSystemEventHandler,
)
from watchdog.observers import Observer

_CHANGES: Final = frozenset(
    {
        EVENT_TYPE_CLOSED,
        EVENT_TYPE_CREATED,
        EVENT_TYPE_DELETED,
        EVENT_TYPE_MODIFIED,
        EVENT_TYPE_MOVED,
    }
)
"""Reading a file is no change of it."""


class FolderChanges(FileSystemEventHandler):
    """Tells that something changed in a folder, not what: whoever asks looks for himself."""

    def __init__(self, folder: Path) -> None:
        """Begin to watch; folders within are not."""
        self._changed = Event()
        self._observer = Observer()
        self._observer.schedule(self, str(folder), recursive=False)

    def __enter__(self) -> Self:
        """Use as a context: ends the watching at its end."""
        self._observer.start()
        return self

    def __exit__(self, *_: object) -> None:
        """End the watching."""
        self._observer.stop()
        self._observer.join()

    def on_any_event(self, event: FileSystemEvent) -> None:
        """Note a change."""
        if event.event_type in _CHANGES:
            self._changed.set()

    def wait(self, seconds: float) -> bool:
        """Wait for a change, at most so long; tell whether there was one."""
        changed = self._changed.wait(seconds)
        self._changed.clear()
        return changed

    def wake(self) -> None:
        """End a wait early."""
        self._changed.set()

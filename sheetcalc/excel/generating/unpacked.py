"""The writing library's workbook, its parts kept: a zip would be taken apart again at once."""

import io
from collections.abc import Mapping
from typing import Any

from xlsxwriter.packager import Packager
from xlsxwriter.workbook import Workbook


class _Keeper(Packager):  # type: ignore[misc]  # the library has no types
    """Makes the parts, and gives none of them to be zipped."""

    def __init__(self) -> None:
        super().__init__()
        self.parts: dict[str, bytes] = {}

    def _create_package(self) -> list[Any]:
        for content, name, is_binary in super()._create_package():
            made = content.getvalue()
            self.parts[name] = made if is_binary else made.encode()
        return []


class UnpackedWorkbook(Workbook):  # type: ignore[misc]
    """A workbook that is not written to a file.

    Attributes
    ----------
    parts
        Name -> content, once it has been closed.
    """

    def __init__(self, options: Mapping[str, Any]) -> None:
        """Begin an empty workbook, which holds everything in memory."""
        super().__init__(io.BytesIO(), {**options, "in_memory": True})
        self.parts: Mapping[str, bytes] = {}

    def _get_packager(self) -> _Keeper:
        keeper = _Keeper()
        self.parts = keeper.parts
        return keeper

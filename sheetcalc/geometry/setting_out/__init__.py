"""Setting-out: where the tiles of a surface lie, which are cut, and how many are opened.

``set_out`` is loaded when it is first asked for, so that naming the package costs nothing.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from sheetcalc.geometry.setting_out.surface import set_out

__all__ = ["set_out"]


def __getattr__(name: str) -> "Callable[..., object]":
    """Load ``set_out`` on first use."""
    if name == "set_out":
        from sheetcalc.geometry.setting_out.surface import set_out  # noqa: PLC0415 - loads numpy

        return set_out
    raise AttributeError(name)

"""What was set out for one room of a job, used again for surfaces that are just alike.

A block of flats has the same niche, curb and shower wall in most of its bathrooms, whatever the
rest of the room is like.
"""

from collections.abc import Callable, Hashable, Sequence

from msgspec.structs import replace

from sheetcalc.domain.setting_out import SettingOut


class Known:
    """Setting-outs of a job by what they were made from, the room's name apart."""

    def __init__(self) -> None:
        """Begin with none."""
        self._surfaces: dict[Hashable, tuple[SettingOut, ...]] = {}
        self._pools: dict[Hashable, tuple[Sequence[SettingOut], tuple[SettingOut, ...]]] = {}

    def surfaces(
        self, like: Hashable, work: Callable[[], Sequence[SettingOut]]
    ) -> tuple[SettingOut, ...]:
        """Find surfaces that were set out before, or set them out.

        Parameters
        ----------
        like
            Everything that the work depends on.
        work
            Sets them out.
        """
        found = self._surfaces.get(like)
        if found is None:
            found = self._surfaces[like] = tuple(work())
        return found

    def pool(
        self,
        pool: Sequence[SettingOut],
        work: Callable[[Sequence[SettingOut]], Sequence[SettingOut]],
    ) -> tuple[SettingOut, ...]:
        """Find what surfaces that share offcuts make of them, or work it out.

        Parameters
        ----------
        pool
            Surfaces with one tile, as ``surfaces`` gave them: the same records are alike.
        work
            Shares offcuts.
        """
        like = tuple(map(id, pool))
        found = self._pools.get(like)
        if found is None:
            # the records are kept too, so that no other can have their identity
            found = self._pools[like] = pool, tuple(work(pool))
        return found[1]


def of_room(out: SettingOut, room: str) -> SettingOut:
    """Give a setting-out, and its findings, to a room."""
    if out.room == room:
        return out
    findings = tuple(replace(finding, room=room) for finding in out.findings)
    return replace(out, room=room, findings=findings)

"""Lines on a setting-out that are neither tile nor wall: movement joints, hips of falls."""

from collections.abc import Iterator

from sheetcalc.domain.job import Job
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.drawing.plan import LineMark, MarkedLine
from sheetcalc.drawing.words import tape
from sheetcalc.geometry.setting_out.hips import hips_of
from sheetcalc.geometry.setting_out.movement import MovementLine, movement_lines
from sheetcalc.rules.tile import movement_spacing_mm320


def marked_lines(work: RoomWork, out: SettingOut, job: Job) -> Iterator[MarkedLine]:
    """Movement joints of a surface, and where the falls of a shower floor meet.

    Parameters
    ----------
    work
        The room.
    out
        Setting-out of the surface.
    job
        Exposure, spacing of movement joints, units.
    """
    for line in _movement(out, job):
        words = f"movement joint {tape(line.at_mm320, job)}"
        for course in line.stretches:
            yield MarkedLine(course, LineMark.MOVEMENT, words)
    surface = next((s for s in work.room.surfaces if s.key == out.surface), None)
    if surface is not None:
        words = "hip, cut" if out.hips else "hip"
        for hip in hips_of(surface):
            yield MarkedLine(hip, LineMark.HIP, words)


def line_sentences(out: SettingOut, job: Job) -> Iterator[str]:
    """Say where movement joints are proposed, and that tiles are cut along hips."""
    places = [
        f"{tape(line.at_mm320, job)} from the {'left' if line.upright else 'front'}"
        f"{' through the tiles' if line.is_cut else ''}"
        for line in _movement(out, job)
    ]
    if places:
        yield f"Movement joints proposed, dashed: {', '.join(places)}."
    if out.hips:
        yield f"{out.splits} tiles are cut along the hips of the falls, dashed and dotted."


def _movement(out: SettingOut, job: Job) -> tuple[MovementLine, ...]:
    spacing = movement_spacing_mm320(job.exposure, job.movement_joint_spacing_mm320)
    return movement_lines(out, spacing)

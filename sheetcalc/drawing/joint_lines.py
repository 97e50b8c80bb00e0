"""Lines on a setting-out that are neither tile nor wall: movement joints, hips of falls."""

from collections.abc import Iterator

from sheetcalc.domain.job import Job
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.drawing.plan import LineMark, MarkedLine
from sheetcalc.drawing.words import Legend
from sheetcalc.geometry.setting_out.hips import hips_of
from sheetcalc.geometry.setting_out.movement import MovementLine, movement_lines
from sheetcalc.rules.tile import movement_spacing_mm320


def marked_lines(work: RoomWork, out: SettingOut, legend: Legend) -> Iterator[MarkedLine]:
    """Movement joints of a surface, and where the falls of a shower floor meet.

    Parameters
    ----------
    work
        The room.
    out
        Setting-out of the surface.
    legend
        Its job has exposure and spacing of movement joints.
    """
    for line in _movement(out, legend.job):
        words = legend.write("movement joint {place}", place=legend.tape(line.at_mm320))
        for course in line.stretches:
            yield MarkedLine(course, LineMark.MOVEMENT, words)
    surface = next((s for s in work.room.surfaces if s.key == out.surface), None)
    if surface is not None:
        words = legend.write("hip, cut" if out.hips else "hip")
        for hip in hips_of(surface):
            yield MarkedLine(hip, LineMark.HIP, words)


def line_sentences(out: SettingOut, legend: Legend) -> Iterator[str]:
    """Say where movement joints are proposed, and that tiles are cut along hips."""
    places = [
        legend.tell(_PLACES[line.upright, line.is_cut], place=legend.tape(line.at_mm320))
        for line in _movement(out, legend.job)
    ]
    if places:
        yield legend.tell("Movement joints proposed, dashed: {places}.", places=", ".join(places))
    if out.hips:
        along = "{number} tiles are cut along the hips of the falls, dashed and dotted."
        yield legend.tell(along, number=out.splits)


_PLACES = {
    (True, False): "{place} from the left",
    (True, True): "{place} from the left through the tiles",
    (False, False): "{place} from the front",
    (False, True): "{place} from the front through the tiles",
}
"""Where a movement joint is: whether it runs away from the door, and whether it cuts tiles."""


def _movement(out: SettingOut, job: Job) -> tuple[MovementLine, ...]:
    spacing = movement_spacing_mm320(job.exposure, job.movement_joint_spacing_mm320)
    return movement_lines(out, spacing)

"""All drawings of a room's card, in the order in which a person looks for them."""

from sheetcalc.domain.card import CardPicture, drawn_surfaces
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.quantity import RoomWork, SettingOut
from sheetcalc.drawing.arrange import arrange
from sheetcalc.drawing.cables import cable_plan
from sheetcalc.drawing.draw import draw
from sheetcalc.drawing.plan import PlanDrawing
from sheetcalc.drawing.setting_outs import floor_plan, wall_plan
from sheetcalc.drawing.strips import strip_plans
from sheetcalc.geometry.setting_out.room import wall_plane


def room_plans(work: RoomWork, job: Job) -> tuple[list[PlanDrawing], list[PlanDrawing]]:
    """Drawings of a room: the main ones (floor, cables), and the smaller ones.

    Parameters
    ----------
    work
        The room with its plans.
    job
        Settings and units.
    """
    letters = drawn_surfaces(work)
    planes = {s.key: plane for s in work.room.surfaces if (plane := wall_plane(s)) is not None}
    main: list[PlanDrawing] = []
    minor: list[PlanDrawing] = []
    walls: dict[str, list[SettingOut]] = {}
    for key, letter in letters.items():
        out = work.setting_outs[key]
        if key in planes:
            walls.setdefault(planes[key], []).append(out)
        elif out.kind is SurfaceKind.FLOOR or not main:
            main.append(floor_plan(work, out, letter, job))
        else:
            minor.append(floor_plan(work, out, letter, job))
    heating = cable_plan(work, job)
    if heating is not None:
        main.append(heating)
    for plane, outs in walls.items():
        minor.append(wall_plan(work, plane, outs, [letters[o.surface] for o in outs], job))
    minor += strip_plans(work, job)
    return main, minor


def room_pictures(
    work: RoomWork, job: Job, width_mm: float, height_mm: float
) -> tuple[CardPicture, ...]:
    """Draw everything that a room's card shows.

    Parameters
    ----------
    work
        The room with its plans.
    job
        Settings and units.
    width_mm, height_mm
        Room on the card [mm].
    """
    main, minor = room_plans(work, job)
    slots = arrange([_aspect(p) for p in main], [_aspect(p) for p in minor], width_mm, height_mm)
    return tuple(
        CardPicture(
            draw(plan, slot.width_mm, slot.height_mm),
            plan.description,
            slot.left_mm,
            slot.top_mm,
            slot.width_mm,
            slot.height_mm,
        )
        for plan, slot in zip((*main, *minor), slots, strict=True)
    )


def _aspect(plan: PlanDrawing) -> float:
    left, front, right, far = plan.region.bounds
    return (right - left) / max(far - front, 1)

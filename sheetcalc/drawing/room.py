"""All drawings of a room's card, in the order in which a person looks for them."""

from itertools import chain
from typing import TYPE_CHECKING, Final, TypeAlias

from sheetcalc.domain.card import CardPicture, drawn_surfaces, is_small
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.drawing.arrange import arrange
from sheetcalc.drawing.cables import cable_plan
from sheetcalc.drawing.draw import draw
from sheetcalc.drawing.plan import PlanDrawing
from sheetcalc.drawing.setting_outs import floor_plan, wall_plan
from sheetcalc.drawing.strips import strip_plans
from sheetcalc.drawing.unfolded import unfolded_plans
from sheetcalc.drawing.words import Legend
from sheetcalc.geometry.setting_out.fields import wall_plane

if TYPE_CHECKING:
    from sheetcalc.domain.setting_out import SettingOut

_Plans: TypeAlias = tuple[list[PlanDrawing], list[PlanDrawing], list[PlanDrawing]]


def room_plans(work: RoomWork, legend: Legend) -> _Plans:
    """Drawings of a room: the main ones (floor, cables), the smaller ones, and low ones.

    Parameters
    ----------
    work
        The room with its plans.
    legend
        How things are put.
    """
    letters = drawn_surfaces(work)
    planes = {s.key: plane for s in work.room.surfaces if (plane := wall_plane(s)) is not None}
    main: list[PlanDrawing] = []
    minor: list[PlanDrawing] = []
    walls: dict[str, list[SettingOut]] = {}
    small: dict[str, str] = {}
    for key, letter in letters.items():
        out = work.setting_outs[key]
        if is_small(out):
            small[key] = letter
        elif key in planes:
            walls.setdefault(planes[key], []).append(out)
        else:
            plan = floor_plan(work, out, letter, legend)
            large = out.kind is SurfaceKind.FLOOR or not main or _names(plan) > _MANY_CUTS
            (main if large else minor).append(plan)
    heating = cable_plan(work, legend)
    if heating is not None:
        main.append(heating)
    for plane, outs in walls.items():
        minor.append(wall_plan(work, plane, outs, [letters[o.surface] for o in outs], legend))
    minor += strip_plans(work, legend)
    return main, minor, list(unfolded_plans(work, small, legend))


_MANY_CUTS: Final = 12
"""A floor with more kinds of cuts than this is drawn large."""


def _names(plan: PlanDrawing) -> int:
    return len({tile.label for tile in plan.tiles})


def room_pictures(
    work: RoomWork, legend: Legend, width_mm: float, height_mm: float
) -> tuple[CardPicture, ...]:
    """Draw everything that a room's card shows.

    Parameters
    ----------
    work
        The room with its plans.
    legend
        How things are put.
    width_mm, height_mm
        Room on the card [mm].
    """
    plans = room_plans(work, legend)
    main, minor, low = ([_aspect(plan) for plan in kind] for kind in plans)
    slots = arrange(main, minor, width_mm, height_mm, low)
    return tuple(
        CardPicture(
            draw(plan, slot.width_mm, slot.height_mm),
            plan.description,
            slot.left_mm,
            slot.top_mm,
            slot.width_mm,
            slot.height_mm,
        )
        for plan, slot in zip(chain(*plans), slots, strict=True)
    )


def cable_pictures(
    work: RoomWork, legend: Legend, width_mm: float, height_mm: float
) -> tuple[CardPicture, ...]:
    """Draw the cables of a room by themselves; nothing where none has a path.

    Parameters
    ----------
    work
        The room with its cables.
    legend
        How things are put.
    width_mm, height_mm
        Size on paper [mm].
    """
    plan = cable_plan(work, legend)
    if plan is None:
        return ()
    png = draw(plan, width_mm, height_mm)
    return (CardPicture(png, plan.description, 0.0, 0.0, width_mm, height_mm),)


def _aspect(plan: PlanDrawing) -> float:
    left, front, right, far = plan.region.bounds
    return (right - left) / max(far - front, 1)

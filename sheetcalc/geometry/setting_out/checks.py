"""Rules that a setting-out is checked against, as findings."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.finish import BondKind, SurfaceKind
from sheetcalc.domain.measure import Length
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out.hips import is_too_large_for_falls
from sheetcalc.geometry.setting_out.movement import movement_joints
from sheetcalc.geometry.setting_out.request import Request
from sheetcalc.geometry.setting_out.tape import tape, to_tape
from sheetcalc.rules import tile as rules
from sheetcalc.rules.shower import is_channel

_SPREAD_MM320 = 2 * 320
"""A joint may be 2 mm wider than asked for, or twice as wide, before it is none (common practice,
no source)."""
_SMALL_ON_PURPOSE = frozenset({SurfaceKind.CURB, SurfaceKind.NICHE, SurfaceKind.BASE})
_SHEET_MM320 = 320
"""A sheet may differ by 1 mm from its chips and joints, with or without the joint beyond its last
chips: makers state either (common practice, no source)."""


def findings_of(req: Request, out: SettingOut) -> tuple[Finding, ...]:
    """Check one setting-out against every rule."""
    return tuple(finding for check in _CHECKS for finding in check(req, out))


def _finding(req: Request, code: str, column: str | None = None, **facts: Fact) -> Finding:
    return Finding(
        code,
        source=req.spec.source,
        column=column,
        facts={
            "surface": req.surface.key,
            "tile": req.tile.code,
            "finish": req.spec.finish,
            "kind": req.surface.kind.value,
            **facts,
        },
        room=req.room,
        surface=req.surface.key,
    )


def _small_cuts(req: Request, out: SettingOut) -> Iterator[Finding]:
    if out.by_area or not out.small or out.smallest_cut_mm320 is None:
        return
    yield _finding(
        req,
        "SMALL-CUTS",
        small=out.small,
        share=f"{req.job.smallest_cut_share:.0%}",
        smallest=Length(to_tape(out.smallest_cut_mm320, req.job)),
    )


def _room_smaller_than_tile(req: Request, out: SettingOut) -> Iterator[Finding]:
    if out.by_area or out.whole or out.cut != 1 or out.kind in _SMALL_ON_PURPOSE:
        return
    yield _finding(req, "SURFACE-SMALLER-THAN-TILE")


def _offset(req: Request, _: SettingOut) -> Iterator[Finding]:
    bond = req.spec.bond
    if bond.kind is not BondKind.OFFSET or req.sheet:
        return
    offset = Fraction(1, bond.divisor)
    if rules.offset_is_too_large(offset, max(req.length, req.width)):
        yield _finding(
            req,
            "OFFSET-BEYOND-A-THIRD",
            "Bond",
            bond=bond.label,
            longest=Length(max(req.length, req.width)),
            offset=f"{float(offset):.0%}",
        )


def _joint(req: Request, _: SettingOut) -> Iterator[Finding]:
    limit = rules.minimum_joint_mm320(
        req.length,
        req.width,
        req.tile.edge,
        req.tile.size_spread_mm320,
        req.tile.edge_warpage_mm320,
        running_bond=req.spec.bond.kind is BondKind.OFFSET and not req.sheet,
    )
    if req.joint < limit.joint_mm320:
        yield _finding(
            req,
            "JOINT-TOO-NARROW",
            "Joint",
            joint=Length(req.joint),
            least=Length(limit.joint_mm320),
            rule=limit.source,
        )


def _large_format(req: Request, _: SettingOut) -> Iterator[Finding]:
    if not req.sheet and rules.is_large_format(req.length, req.width):
        yield _finding(
            req,
            "LARGE-FORMAT-TILE",
            longest=Length(max(req.length, req.width)),
            lippage=rules.lippage_words(req.joint),
        )


def _movement(req: Request, out: SettingOut) -> Iterator[Finding]:
    spacing = rules.movement_spacing_mm320(req.job.exposure, req.job.movement_joint_spacing_mm320)
    joints = movement_joints(out, spacing)
    if joints.left or joints.front:
        places = [
            f"{tape(at, req.job)} from {wall}{' (tiles cut through)' if is_cut else ''}"
            for wall, row, is_cut in (
                ("the left", joints.left, joints.left_cut),
                ("the front", joints.front, joints.front_cut),
            )
            for at in row
        ]
        yield _finding(
            req,
            "MOVEMENT-JOINTS-NEEDED",
            spacing=Length(spacing, small=False),
            exposure=req.job.exposure,
            number=len(places),
            places="; ".join(places),
        )


def _slope(req: Request, out: SettingOut) -> Iterator[Finding]:
    if _has_channel(req) or not is_too_large_for_falls(req):
        return
    longest = max(req.length, req.width)
    rock = rules.rock_over_hip_mm(longest, req.job.shower_slope)
    yield _finding(
        req,
        "TILE-TOO-LARGE-FOR-FOUR-WAY-FALL",
        "Tile",
        longest=Length(longest),
        slope=f"{req.job.shower_slope:.1%}",
        rock=Length(round(rock * 320)),
        allowed=Length(rules.lippage_allowed_mm320(req.joint)),
        cuts=f"the cut list cuts {out.splits} tiles along the hips"
        if out.hips
        else "the cut list has no cuts along the hips: the floor is no rectangle with one drain, "
        "or tiles are counted by area",
    )


def _has_channel(req: Request) -> bool:
    """Whether a long opening shows that the floor falls one way to a channel."""
    for patch in req.surface.region.patches:
        for hole in patch.holes:
            xs, ys = [x for x, _ in hole], [y for _, y in hole]
            if is_channel(max(xs) - min(xs), max(ys) - min(ys)):
                return True
    return False


def _neck(req: Request, out: SettingOut) -> Iterator[Finding]:
    if out.neck_mm320 is not None and out.neck_mm320 < rules.THIN_NECK_MM320:
        yield _finding(
            req,
            "THIN-NECK-AT-HOLE",
            neck=Length(out.neck_mm320),
            least=Length(rules.THIN_NECK_MM320),
        )


def _mosaic(req: Request, _: SettingOut) -> Iterator[Finding]:
    if not req.sheet:
        return
    sizes = sorted((req.tile.length_mm320, req.tile.width_mm320), reverse=True)
    along, across = (
        req.sheet[0] * (req.length + req.joint) - req.joint,
        req.sheet[1] * (req.width + req.joint) - req.joint,
    )
    made = sorted((along, across), reverse=True)
    if any(
        min(abs(size - chips), abs(size - chips - req.joint)) > _SHEET_MM320
        for size, chips in zip(sizes, made, strict=True)
    ):
        yield _finding(
            req,
            "MOSAIC-SHEET-DIFFERS",
            "Joint",
            chips=f"{req.sheet[0]} x {req.sheet[1]}",
            joint=Length(req.joint),
            length=Length(made[0]),
            width=Length(made[1]),
        )


def _weave(req: Request, out: SettingOut) -> Iterator[Finding]:
    if req.spec.bond.kind is not BondKind.BASKET_WEAVE:
        return
    along, across = req.length + req.joint, req.width + req.joint
    pair = max(1, round(along / across))
    rest = pair * across - along
    if abs(rest) <= req.joint // 2 + 160:
        return
    # a square too long for its widths spreads the rest over them, one too short has it at its end
    widest = req.joint + (rest if rest > 0 else -rest // pair)
    facts: dict[str, Fact] = {
        "number": pair,
        "length": Length(req.length),
        "wanted": Length(pair * across - req.joint),
        "widest": Length(widest),
    }
    opens = widest > max(2 * req.joint, req.joint + _SPREAD_MM320) and not out.by_area
    yield _finding(req, "WEAVE-LEAVES-GAPS" if opens else "WEAVE-DOES-NOT-CLOSE", "Bond", **facts)


_CHECKS: tuple[Callable[[Request, SettingOut], Iterator[Finding]], ...] = (
    _small_cuts,
    _room_smaller_than_tile,
    _offset,
    _joint,
    _large_format,
    _movement,
    _slope,
    _neck,
    _mosaic,
    _weave,
)

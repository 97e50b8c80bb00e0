"""Beds of mortar: from a trowel's notch, with the working in words."""

import math
from functools import lru_cache

from msgspec import Struct

from sheetcalc.domain.finish import Notch, NotchShape, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Unit, mm320_to_m
from sheetcalc.lines import words
from sheetcalc.rules.mortar import bed_from_notch_m
from sheetcalc.units import show_length


class Bed(Struct, frozen=True):
    """A bed of mortar: from the notch, and what is skimmed on the tile's back [m]."""

    bed_m: float
    skim_m: float
    words: str

    @property
    def total_m(self) -> float:
        """Mean thickness between tile and backing."""
        return self.bed_m + self.skim_m


def is_workable(notch: Notch, angle_deg: float) -> bool:
    """Whether the notch formulas hold: sizes above zero, a U no shallower than half its width."""
    sizes = (notch.width_mm320, notch.depth_mm320, notch.tooth_mm320)
    half_circle_fits = notch.shape is not NotchShape.U or 2 * notch.depth_mm320 >= notch.width_mm320
    return min(sizes) > 0 and half_circle_fits and 0 < angle_deg <= 90  # noqa: PLR2004 - upright


def notch_label(notch: Notch, job: Job) -> str:
    """Shape and sizes of a notch, in the job's unit."""
    return _label(notch, job.units.small_length)


def _label(notch: Notch, unit: Unit) -> str:
    sizes = (notch.width_mm320, notch.depth_mm320, notch.tooth_mm320)
    return f"{notch.shape.value} notch {' x '.join(show_length(size, unit) for size in sizes)}"


def bed_from(notch: Notch, angle_deg: float, angle_note: str, job: Job) -> Bed:
    """Bed of a notch held at an angle, without skim; the notch must be workable."""
    return _bed(notch, angle_deg, angle_note, job.units.small_length)


@lru_cache(maxsize=256)
def _bed(notch: Notch, angle_deg: float, angle_note: str, unit: Unit) -> Bed:
    bed_m = bed_from_notch_m(notch, angle_deg)
    angle = words.number(angle_deg, 1)
    w, h, s = (
        words.number(unit.from_si(mm320_to_m(x)))
        for x in (notch.width_mm320, notch.depth_mm320, notch.tooth_mm320)
    )
    section = {
        NotchShape.SQUARE: f"{w} x {h}",
        NotchShape.U: f"({w} x ({h} - {w}/2) + pi x {w}²/8)",
        NotchShape.V: f"½ x {w} x {h}",
    }[notch.shape]
    working = f"{section} x sin {angle}°/({w} + {s}) = {words.in_unit(bed_m, unit)}"
    return Bed(
        bed_m,
        0.0,
        f"bed from a {_label(notch, unit)} at {angle}°{angle_note}: {working} (derived from "
        "the ridges' volume)",
    )


def angle_of(spec: SurfaceSpec, job: Job) -> tuple[float, str]:
    """Trowel angle of a surface [degrees], and words for a default."""
    if spec.trowel_angle_deg is not None:
        return spec.trowel_angle_deg, ""
    return job.trowel_angle_deg, " (the Job's trowel angle)"


def tile_bed(spec: SurfaceSpec, job: Job) -> Bed | None:
    """Bed under the tile of a surface, with its skim; None without a workable notch."""
    angle, angle_note = angle_of(spec, job)
    if spec.notch is None or not is_workable(spec.notch, angle):
        return None
    bed = bed_from(spec.notch, angle, angle_note, job)
    given = spec.skim_mm320 is not None
    skim_mm320 = spec.skim_mm320 if spec.skim_mm320 is not None else job.skim_mm320
    skim_m = mm320_to_m(skim_mm320)
    if math.isclose(skim_m, 0.0):
        return Bed(bed.bed_m, 0.0, f"{bed.words}; no skim")
    default = "" if given else " (the Job's skim)"
    return Bed(
        bed.bed_m,
        skim_m,
        f"{bed.words}; + skim on the back {words.small_mm320(skim_mm320, job)}{default} = "
        f"{words.small(bed.bed_m + skim_m, job)}",
    )

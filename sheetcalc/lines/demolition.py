"""Demolition waste: volume, mass and skips of what is taken up, and the asbestos caution."""

from collections.abc import Iterator
from typing import Final

from sheetcalc.domain.finding import Fact, Finding, RowRef
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import (
    CUBIC_FOOT,
    CUBIC_METRE,
    PIECE,
    US_GALLON,
    Unit,
    mm320_to_m,
)
from sheetcalc.lines import words
from sheetcalc.lines.line import JobContext, JobLine, Line, LineContext, Outcome
from sheetcalc.rules.cautions import ASBESTOS_LAST_YEAR, ASBESTOS_SOURCE, asbestos_presumed
from sheetcalc.rules.materials import (
    BULKING,
    BULKING_SOURCE,
    COVERING_SOURCE,
    covering_density_kg_m3,
)
from sheetcalc.rules.packs import packs_needed

VOLUME: Final = "Waste taken up, loose"
_CUBIC_YARD: Final = 0.9144**3
MASS: Final = "Waste taken up, mass"


def _work(ctx: LineContext) -> Iterator[Outcome]:
    room, job = ctx.room, ctx.job
    if not room.take_up:
        return
    if not room.take_up_thickness_mm320:
        yield Finding(
            "TAKE-UP-WITHOUT-THICKNESS",
            room.source,
            "Take up thickness",
            {"take_up": room.take_up},
            room=room.name,
        )
        return
    area = room.outline.area_m2
    in_place = area * mm320_to_m(room.take_up_thickness_mm320)
    density = covering_density_kg_m3(room.take_up)
    working = (
        f"{room.take_up}: {words.area(area, job)} x "
        f"{words.small_mm320(room.take_up_thickness_mm320, job)} = "
        f"{words.in_unit(in_place, _unit(job))} in place"
    )
    yield ctx.quantity(
        "demolition",
        VOLUME,
        in_place * BULKING,
        _unit(job),
        basis=f"{working}, x {words.number(BULKING)} loose ({BULKING_SOURCE})",
    )
    yield ctx.quantity(
        "demolition",
        MASS,
        in_place * density,
        job.units.mass,
        basis=f"{working}, x {words.density(density, job)} ({COVERING_SOURCE})",
    )


def _skips(ctx: JobContext) -> Iterator[Outcome]:
    loose = sum(x.net_si for x in ctx.lines if x.line == "demolition" and x.description == VOLUME)
    if loose <= 0:
        return
    skip = ctx.job.skip_size_m3
    yield ctx.quantity(
        "demolition",
        "Skips",
        packs_needed(loose, skip),
        PIECE,
        basis=(
            f"{words.in_unit(loose, _unit(ctx.job))} loose over skips of {_skip(skip, ctx.job)} "
            "(the Job's skip size); check the skip's weight limit"
        ),
    )


def _unit(job: Job) -> Unit:
    """Return the unit of rubble, which nobody measures in litres or gallons (common practice)."""
    return CUBIC_FOOT if job.units.volume in {US_GALLON, CUBIC_FOOT} else CUBIC_METRE


def _skip(size_m3: float, job: Job) -> str:
    """Size of a skip as the trade says it: m³, or yd³ beside ft³."""
    if _unit(job) is CUBIC_FOOT:
        size = words.in_unit(size_m3, CUBIC_FOOT)
        return f"{words.number(size_m3 / _CUBIC_YARD, 2)} yd³ ({size})"
    return f"{words.number(size_m3, 2)} m³"


def _asbestos(ctx: JobContext) -> Iterator[Outcome]:
    rooms = [w.room for w in ctx.works if w.room.take_up]
    if not rooms:
        return
    named = ", ".join(r.name for r in rooms[:5]) + (" and more" if len(rooms) > 5 else "")  # noqa: PLR2004 - enough to find them
    facts: dict[str, Fact] = {
        "rooms": named, "last_year": ASBESTOS_LAST_YEAR, "source": ASBESTOS_SOURCE,
    }  # fmt: skip
    if asbestos_presumed(ctx.job.year_built):
        year = ctx.job.year_built or ASBESTOS_LAST_YEAR
        yield Finding("ASBESTOS-PRESUMED", RowRef("Job"), "Value", {**facts, "year": year})
    elif ctx.job.year_built is None:
        yield Finding("YEAR-BUILT-NOT-SAID", RowRef("Job"), "Value", facts)


DEMOLITION = Line(
    "demolition",
    "Demolition waste",
    "Area of the room's outline times the Take up thickness: loose volume at 1.5 times its volume "
    "in place (common practice, no source) and mass by the covering's density (from memory, not "
    "verified).  Skips are counted once for the job.  In a building of 1980 or earlier, resilient "
    "flooring, mastic and backing are presumed to hold asbestos (29 CFR 1926.1101 as summarised "
    "by Cornerstone Training).",
    _work,
)

SKIPS = JobLine(
    "demolition", "Skips", "Loose volume of all rooms over the Job's skip size.", _skips
)
ASBESTOS = JobLine(
    "demolition", "Asbestos caution", f"Caution by year built: {ASBESTOS_SOURCE}.", _asbestos
)

"""Falls in the shower: rise at the edge and at the far corner, and the depth of its curb."""

from collections.abc import Iterator

from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.measure import Length
from sheetcalc.domain.room import PieceKind
from sheetcalc.domain.room_measures import ShowerMeasures
from sheetcalc.lines import words
from sheetcalc.lines.line import JobContext, JobLine, Line, LineContext, Outcome
from sheetcalc.rules.shower import (
    CURB_SOURCE,
    LEAST_CURB_MM320,
    LEAST_SLOPE,
    MOST_CURB_MM320,
    MOST_SLOPE,
    SLOPE_SOURCE,
    is_usual_slope,
    rise_m,
)


def _rises(ctx: LineContext) -> Iterator[Outcome]:
    for shower in ctx.room.measures.showers:
        if shower.drains:
            yield from _shower(ctx, shower)


def _shower(ctx: LineContext, shower: ShowerMeasures) -> Iterator[Outcome]:
    job = ctx.job
    corner = rise_m(shower.corner_distance_m, job.shower_slope)
    edge = rise_m(shower.edge_distance_m, job.shower_slope)
    slope = f"x {words.percent(job.shower_slope)} (the Job's slope; {SLOPE_SOURCE})"
    to_corner = f"{slope}{words.on_tape(corner, job)}"
    if shower.channel:
        yield ctx.quantity(
            "shower slope",
            "Rise of the shower floor at its far edge",
            corner,
            job.units.small_length,
            basis=f"{words.long(shower.corner_distance_m, job)} from the channel {to_corner}",
            surface=shower.surface,
            alike=False,
        )
        return
    yield ctx.quantity(
        "shower slope",
        "Rise of the shower floor at its far corner",
        corner,
        job.units.small_length,
        basis=(
            f"{words.long(shower.corner_distance_m, job)} from the drain {to_corner}; with an "
            "edge that is level all round, the longest run decides and the whole edge lies so high"
        ),
        surface=shower.surface,
        alike=False,
    )
    yield ctx.quantity(
        "shower slope",
        "Rise of the shower floor at its far edge",
        edge,
        job.units.small_length,
        basis=f"{words.long(shower.edge_distance_m, job)} square from the drain {slope}"
        f"{words.on_tape(edge, job)}",
        surface=shower.surface,
        alike=False,
    )


def _checks(ctx: JobContext) -> Iterator[Outcome]:
    """Yield findings on the Job's slope and on curbs, once each."""
    showers = [s for work in ctx.works for s in work.room.measures.showers]
    if showers and not is_usual_slope(ctx.job.shower_slope):
        yield Finding(
            "SHOWER-SLOPE-UNUSUAL",
            RowRef("Job"),
            None,
            {
                "slope": words.percent(ctx.job.shower_slope),
                "low": words.percent(LEAST_SLOPE),
                "high": words.percent(MOST_SLOPE),
                "source": SLOPE_SOURCE,
            },
        )
    for work in ctx.works:
        for fixture in work.room.fixtures:
            height = fixture.height_mm320
            if fixture.kind is not PieceKind.CURB or height is None:
                continue
            if not LEAST_CURB_MM320 <= height <= MOST_CURB_MM320:
                yield Finding(
                    "CURB-HEIGHT-UNUSUAL",
                    fixture.source,
                    "Height",
                    {
                        "height": Length(height),
                        "low": Length(LEAST_CURB_MM320),
                        "high": Length(MOST_CURB_MM320),
                        "source": CURB_SOURCE,
                    },
                    room=work.room.name,
                )


SHOWER_SLOPE = Line(
    "shower slope",
    "Falls of the shower floor",
    "Rise at the far corner and at the far edge of each shower floor: distance from the nearest "
    f"drain, or square from a channel, times the Job's slope ({SLOPE_SOURCE}).",
    _rises,
)

SHOWER_CHECKS = JobLine(
    "shower checks",
    "Slope and curbs of showers",
    f"The Job's slope: {SLOPE_SOURCE}. The height of curbs: {CURB_SOURCE}.",
    _checks,
)

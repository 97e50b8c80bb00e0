"""Waits between trades' steps, and the water test of a shower."""

from collections.abc import Iterator
from typing import Final

from sheetcalc.domain.finish import LayerRole, SurfaceKind
from sheetcalc.domain.measure import HOUR
from sheetcalc.lines import words
from sheetcalc.lines.layers import laid_layers
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.wet import wet_parts
from sheetcalc.rules.cautions import (
    GROUT_WAIT_HOURS,
    GROUT_WAIT_SOURCE,
    HEATED_SCREED_SOURCE,
    HEATED_SCREED_WAIT_HOURS,
)
from sheetcalc.rules.membrane import (
    FLOOD_COLD_C,
    FLOOD_HIGHEST_HEAD,
    FLOOD_SOURCE,
    FLOOD_WAIT_HOURS,
    FLOOD_WAIT_HOURS_COLD,
    TEST_HEAD_M,
    TEST_MINUTES,
    TEST_SOURCE,
    WATER_DENSITY_KG_M3,
    water_test_load_kg,
)

_SECONDS: Final = 3600.0


def _waits(ctx: LineContext) -> Iterator[Outcome]:
    if ctx.tiled():
        low, high = GROUT_WAIT_HOURS
        yield ctx.quantity(
            "waits",
            "Wait before grouting",
            low * _SECONDS,
            HOUR,
            alike=False,
            basis=(
                f"{words.number(low)} to {words.number(high)} h from setting to grouting "
                f"({GROUT_WAIT_SOURCE}); the mortar's own paper wins"
            ),
        )
    heated = any(spec.heating_range for spec in ctx.finish.surfaces.values())
    if heated and any(True for _ in laid_layers(ctx, LayerRole.SCREED)):
        yield ctx.quantity(
            "waits",
            "Wait before tiling a heated screed",
            HEATED_SCREED_WAIT_HOURS * _SECONDS,
            HOUR,
            alike=False,
            basis=HEATED_SCREED_SOURCE,
        )
    if _shower_area(ctx) > 0:
        cold = ctx.job.units.temperature.quoted(FLOOD_COLD_C)
        yield ctx.quantity(
            "waits",
            "Wait before the water test",
            FLOOD_WAIT_HOURS * _SECONDS,
            HOUR,
            alike=False,
            basis=(
                f"not before {FLOOD_WAIT_HOURS} h after the waterproofing, "
                f"{FLOOD_WAIT_HOURS_COLD} h below {cold} ({FLOOD_SOURCE}, written for decks "
                "over rooms; the membrane's own paper wins)"
            ),
        )


def _shower_area(ctx: LineContext) -> float:
    wet = (p for p in wet_parts(ctx) if p.surface.kind is SurfaceKind.SHOWER_FLOOR)
    keys = {p.surface.key: p.region.area_m2 for p in wet}
    return sum(keys.values())


def _test(ctx: LineContext) -> Iterator[Outcome]:
    area = _shower_area(ctx)
    if area <= 0:
        return
    job = ctx.job
    yield ctx.quantity(
        "water test",
        "Water on the shower floor during its test",
        water_test_load_kg(area),
        job.units.mass,
        basis=(
            f"{words.area(area, job)} under {words.small(TEST_HEAD_M, job)} of water at the "
            f"threshold for at least {TEST_MINUTES} minutes, drain plugged, a temporary dam where "
            f"the threshold is lower, no leak ({TEST_SOURCE}); the load of the water at "
            f"{words.density(WATER_DENSITY_KG_M3, job)} (5.19 lb/ft² per inch, and no deeper than "
            f"{FLOOD_HIGHEST_HEAD}, in {FLOOD_SOURCE}); where the floor falls, water stands "
            "deeper at the drain, so somebody has to say that the floor carries it"
        ),
        surface="shower floor",
    )


WAITS = Line(
    "waits",
    "Drying and curing waits",
    "24 to 48 h from setting to grouting (common practice, no source); a heated screed's cure "
    "(BS 5385-4 as quoted, old edition); 24 h from waterproofing to the water test (ASTM D5957).",
    _waits,
)

WATER_TEST = Line(
    "water test",
    "Water test of the shower",
    "Load of 2 in of water on the waterproofed shower floor, at least 15 minutes: IPC/FBC-P 2014 "
    "312.9, as quoted in plumbingzone.",
    _test,
)

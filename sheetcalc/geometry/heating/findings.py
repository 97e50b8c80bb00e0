"""Findings on heating, as codes and facts; their words are in the workbook's wording table."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from math import ceil
from typing import Final

import shapely
from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.catalogue import Cable, Catalogue
from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.finish import Finish, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_MM, Length
from sheetcalc.domain.room import PieceKind, Room, Span
from sheetcalc.geometry.heating.cable_choice import (
    area_words,
    cables_of_range,
    density_words,
    length_m,
    length_words,
    watts_per_m,
)
from sheetcalc.geometry.heating.free_floor import SQUARE_MM_PER_M2, HeatedZone, region_mm
from sheetcalc.geometry.heating.lead_bundle import BESIDE_LEAD_MM
from sheetcalc.rules import electrical

COLD_SHARE: Final = 0.10
"""Share of a zone's free floor that stays unheated above which it is said: no source."""

LARGELY_COLD_SHARE: Final = 0.25
"""Share above which it is a warning, no note: the floor is not what was ordered.  No source."""

_EXACT: Final = 1e-9
_NEAREST: Final = 3
_ON_WALL_MM: Final = 5.0
_THIRD: Final = 1 / 3
_NOTEWORTHY_M2: Final = 0.02
_HAIR_MM: Final = 0.01
_CENTIMETRE: Final = 10
_ZONES_MM: Final = {
    PieceKind.BATH: electrical.ZONE_2_MM,
    PieceKind.SHOWER_TRAY: electrical.ZONE_2_MM,
    # from its outlet, which may hang at any edge of the floor: nobody draws it
    PieceKind.SHOWER_FLOOR: electrical.ZONE_1_WITHOUT_BASIN_MM,
}
"""How far the zones of what holds water reach beyond it [mm]."""

NO_REMEDY: Final = (
    "no smaller spacing or clearance, no other split and no other length that was tried fits"
)


def about(zone: HeatedZone, room: Room, code: str, facts: Mapping[str, Fact]) -> Finding:
    """Build a finding about a zone: its row of Finishes, its room and its surface."""
    return Finding(
        code, zone.source, "Heating", {"zone": zone.name, **facts}, room.name, zone.surface
    )


def shown(length_mm: float) -> Length:
    """Length in millimetres, up to the next centimetre, as a fact shown in the job's units."""
    return Length(ceil(length_mm / _CENTIMETRE) * _CENTIMETRE * MM320_PER_MM, small=False)


def usable_cables(
    zone: HeatedZone, catalogue: Catalogue, job: Job, room: Room
) -> tuple[tuple[Cable, ...], list[Finding]]:
    """Give the cables of the zone's range for this supply, or what is wrong with the range."""
    stocked = cables_of_range(catalogue.cables.values(), zone.heating_range)
    if not stocked:
        return (), [about(zone, room, "HEATING-RANGE-EMPTY", {"range": zone.heating_range})]
    fed = tuple(c for c in stocked if electrical.same_voltage(c.volts, job.supply_volts))
    if fed:
        return fed, []
    facts: dict[str, Fact] = {
        "range": zone.heating_range,
        "cable_volts": " and ".join(f"{v:g} V" for v in sorted({c.volts for c in stocked})),
        "supply_volts": job.supply_volts,
        "power_share": (job.supply_volts / stocked[0].volts) ** 2,
    }
    return (), [about(zone, room, "CABLE-VOLTAGE-DIFFERS", facts)]


def resistance_findings(cables: Iterable[Cable], job: Job) -> list[Finding]:
    """Say where a planned cable's resistance is missing, or at odds with its watts and volts."""
    found = []
    for cable in {c.code: c for c in cables}.values():
        worked = electrical.resistance_ohm(cable.volts, cable.watts)
        facts: dict[str, Fact] = {
            "cable": cable.code,
            "worked": round(worked, 3),
            "watts": cable.watts,
            "volts": cable.volts,
        }
        stated = cable.resistance_ohm
        if stated is None:
            found.append(Finding("CABLE-RESISTANCE-MISSING", cable.source, "Resistance", facts))
            continue
        low, high = electrical.resistance_band_ohm(
            worked, job.resistance_below, job.resistance_above
        )
        if not low * (1 - _EXACT) <= stated <= high * (1 + _EXACT):
            facts |= {"stated": stated, "low": round(low, 3), "high": round(high, 3)}
            found.append(Finding("CABLE-RESISTANCE-DIFFERS", cable.source, "Resistance", facts))
    return found


def nothing_fits(  # noqa: PLR0913, PLR0917 - a zone, and all that is told of it
    zone: HeatedZone,
    cables: Sequence[Cable],
    room: Room,
    job: Job,
    reason: str,
    remedies: Sequence[str],
) -> Finding:
    """Build the finding of a zone without a plan: the reason, the nearest cables, what would fit.

    Each of the nearest cables is told with what it has too much or too little for the target.
    """
    area = zone.free_m2
    target = job.target_density_w_m2 * area
    nearest = sorted(cables, key=lambda c: (abs(c.watts - target), c.code))[:_NEAREST]
    facts: dict[str, Fact] = {
        "area": area_words(area, job),
        "target_watts": round(target, 1),
        "reason": reason,
        "nearest": "; ".join(
            f"{c.code} ({length_words(length_m(c), job)}, {c.watts:g} W: "
            f"{density_words(c.watts / area, job)} here, {_off(c, target, job)})"
            for c in nearest
        ),
        "remedies": "; or ".join(remedies) or NO_REMEDY,
    }
    return about(zone, room, "NO-CABLE-FITS", facts)


def _off(cable: Cable, target_w: float, job: Job) -> str:
    """By how much a cable is off the target, in power and at its own power in length."""
    watts = cable.watts - target_w
    metres = watts / watts_per_m(cable)
    return f"{abs(watts):.0f} W and {length_words(abs(metres), job)} too {_much(watts)}"


def _much(watts: float) -> str:
    return "much" if watts > 0 else "little"


def heating_elsewhere(finish: Finish) -> list[Finding]:
    """Say where Heating stands in a row of a surface that no cable is laid under."""
    under = {SurfaceKind.FLOOR, SurfaceKind.INSET, SurfaceKind.SHOWER_FLOOR}
    return [
        Finding(
            "HEATING-NOT-ON-FLOOR",
            spec.source,
            "Heating",
            {"surface": kind.value, "range": spec.heating_range},
        )
        for kind, spec in finish.surfaces.items()
        if spec.heating_range and kind not in under
    ]


def place_words(shape: BaseGeometry, room_floor: BaseGeometry) -> str:
    """Say where in a room a part of floor lies, such as near left or middle."""
    left, front, right, back = room_floor.bounds
    centre = shape.centroid
    x = (centre.x - left) / (right - left)
    y = (centre.y - front) / (back - front)
    depth = "near" if y < _THIRD else "far" if y > 1 - _THIRD else ""
    side = "left" if x < _THIRD else "right" if x > 1 - _THIRD else ""
    return f"{depth} {side}".strip() or "middle"


def left_unheated(  # noqa: PLR0913 - a zone, its room, and what stays cold in it
    zone: HeatedZone,
    room: Room,
    job: Job,
    left_out: Sequence[BaseGeometry],
    *,
    narrow_mm: float,
    watts: float,
    cold_m2: float,
    cold: Callable[[], Sequence[BaseGeometry]],
) -> list[Finding]:
    """Name the parts of free floor that stay unheated, where they are worth it.

    Worth it are parts without a cable, parts too narrow for two runs, and, where more than
    ``COLD_SHARE`` of the free floor is cold, the largest parts that no run is near.

    Parameters
    ----------
    zone, room, job
        What it is about, and the units to say it in.
    left_out
        Parts without a cable [mm].
    narrow_mm
        Parts narrower than this hold no two runs side by side [mm].
    watts
        Of the zone's cables [W].
    cold_m2
        Free floor that stays unheated in all [m²].
    cold
        Works out the parts that no run is near [mm]; asked only where they are said.
    """
    parts = list(left_out)
    shrunk = shapely.buffer(zone.free, -narrow_mm / 2, join_style="mitre")
    # a hair more than was taken off, or edges that come out alike would cross at every corner
    wide = shapely.buffer(shrunk, narrow_mm / 2 + _HAIR_MM, join_style="mitre")
    parts += [
        p
        for p in shapely.get_parts(shapely.difference(zone.free, wide))
        if p.area > _NOTEWORTHY_M2 * SQUARE_MM_PER_M2
        and not any(p.distance(q) <= 0 for q in left_out)
    ]
    if cold_m2 > COLD_SHARE * zone.free_m2:
        far = sorted(cold(), key=lambda p: -float(p.area))
        parts += far[:1] + [p for p in far[1:] if p.area > _NOTEWORTHY_M2 * SQUARE_MM_PER_M2]
    if not parts:
        return []
    where = ", ".join(dict.fromkeys(place_words(p, zone.room_floor) for p in parts))
    facts: dict[str, Fact] = {"area": area_words(cold_m2, job), "where": where}
    if cold_m2 <= LARGELY_COLD_SHARE * zone.free_m2:
        return [about(zone, room, "FLOOR-LEFT-UNHEATED", facts)]
    facts |= {
        "share": round(cold_m2 / zone.free_m2 * 100),
        "mean": density_words(watts / zone.free_m2, job),
        "rest": density_words(watts / (zone.free_m2 - cold_m2), job),
    }
    return [about(zone, room, "FLOOR-LARGELY-UNHEATED", facts)]


def thermostat_findings(room: Room, loads: int = 1) -> list[Finding]:
    """Say where a heated room's thermostat is missing, one too many, or in a doorway.

    One that is off the outline never gets here: the room is then not resolved.

    Parameters
    ----------
    room
        The room.
    loads
        Loads that have a thermostat each: two where showers are on a circuit of their own.
    """
    if not room.thermostats:
        return [Finding("THERMOSTAT-MISSING", room.source, room=room.name)]
    found: list[Finding] = []
    used = room.thermostats[:loads]
    for one in used:
        found += _by_water(one, room)
    if len(room.thermostats) > loads:
        names = " or ".join(one.name for one in used)
        facts: dict[str, Fact] = {"count": len(room.thermostats), "needed": loads, "name": names}
        found.append(Finding("THERMOSTATS-SEVERAL", room.source, None, facts, room.name))
    for one in used:
        for doorway in room.doorways:
            if doorway_line(doorway).distance(Point(point_of(one))) < _ON_WALL_MM:
                facts = {"name": one.name, "doorway": doorway.name}
                found.append(Finding("THERMOSTAT-IN-DOORWAY", one.source, "Left", facts, room.name))
    return found


def _by_water(thermostat: Span, room: Room) -> Iterator[Finding]:
    """Say where a thermostat hangs within the reach of a bath or a shower."""
    point = Point(point_of(thermostat))
    near = [
        (distance, f.name, _ZONES_MM[f.kind])
        for f in room.fixtures
        if f.kind in _ZONES_MM and f.region is not None
        if (distance := region_mm(f.region).distance(point)) < _ZONES_MM[f.kind] - _ON_WALL_MM / 10
    ]
    if near:
        distance, name, least = min(near)
        facts: dict[str, Fact] = {
            "name": thermostat.name,
            "by": name,
            "distance": Length(round(distance) * MM320_PER_MM),
            "least": Length(round(least) * MM320_PER_MM),
        }
        yield Finding("THERMOSTAT-BY-WATER", thermostat.source, None, facts, room.name)


def point_of(span: Span) -> tuple[float, float]:
    """Middle of a span of the outline [mm]."""
    return (
        (span.start[0] + span.end[0]) / 2 / MM320_PER_MM,
        (span.start[1] + span.end[1]) / 2 / MM320_PER_MM,
    )


def doorway_line(span: Span) -> LineString:
    """Give a doorway as a line [mm]."""
    return LineString(
        [
            (span.start[0] / MM320_PER_MM, span.start[1] / MM320_PER_MM),
            (span.end[0] / MM320_PER_MM, span.end[1] / MM320_PER_MM),
        ]
    )


def circuit_findings(load_amperes: float, room: Room, job: Job) -> list[Finding]:
    """Say where a room's load is more than its thermostat or any circuit carries."""
    share = electrical.thermostat_share(load_amperes, job.thermostat_amperes)
    size = electrical.circuit_amperes(load_amperes, job.circuit_amperes, job.continuous_factor)
    facts: dict[str, Fact] = {
        "load": round(load_amperes, 3),
        "rating": job.thermostat_amperes,
        "share": round(share * 100, 1),
        "needed": round(electrical.continuous_amperes(load_amperes, job.continuous_factor), 3),
        "largest": max(job.circuit_amperes, default=0.0),
    }
    found = []
    if share > 1 + _EXACT:
        found.append(Finding("THERMOSTAT-OVERLOADED", room.source, None, facts, room.name))
    if size is None:
        found.append(Finding("CIRCUIT-OVERLOADED", room.source, None, facts, room.name))
    return found


def lead_findings(
    zone: str, surface: str, cable: Cable, needed_mm: float | None, room: Room
) -> list[Finding]:
    """Say where a cold lead does not reach, or has no way to the thermostat."""
    facts: dict[str, Fact] = {"zone": zone, "cable": cable.code}
    if needed_mm is None:
        return [Finding("COLD-LEAD-BLOCKED", room.source, None, facts, room.name, surface)]
    if cable.cold_lead_mm320 is None or cable.cold_lead_mm320 >= needed_mm * MM320_PER_MM:
        return []
    facts |= {"lead": Length(cable.cold_lead_mm320, small=False), "needed": shown(needed_mm)}
    return [Finding("COLD-LEAD-TOO-SHORT", cable.source, "Cold lead", facts, room.name, surface)]


def leads_crowded(leads: int, fitting: int, room: Room) -> Finding:
    """Say how many leads are drawn on a line that has room for fewer side by side."""
    apart = Length(round(BESIDE_LEAD_MM * MM320_PER_MM))
    facts: dict[str, Fact] = {"leads": leads, "fitting": fitting, "apart": apart}
    return Finding("COLD-LEADS-CROWDED", room.source, None, facts, room.name)

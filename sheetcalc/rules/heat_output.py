"""Estimates of what a heated floor gives, how soon it is warm, and what it costs to run.

Estimates only: each says beside it where its formula ends.
"""

from typing import Final

from sheetcalc.domain.temperature import FAHRENHEIT, TemperatureScale
from sheetcalc.rules.electrical import ElectricalRule

EN_1264_CONSTANT: Final = 8.92
"""W/m² at 1 K: EN 1264-2/-3, as coded in three open-source programs (read second-hand)."""

EN_1264_EXPONENT: Final = 1.1
"""EN 1264-2/-3, as coded in three open-source programs (read second-hand)."""

SURFACE_LIMITS_C: Final = {"occupied": 29.0, "peripheral": 35.0, "bathroom": 33.0}
"""EN 1264-2, from memory, not verified; the bathroom's is 24 °C room temperature plus 9 K."""

EN_1264_LIMITS: Final = (
    "EN 1264 is written for water systems; used only as a check of the surface temperature"
)

WARM_UP_LIMITS: Final = (
    "lossless: nothing lost downwards or to the room, so the real time is longer; density and "
    "heat capacity of mortar and tile are generic, from memory"
)

RUNNING_COST_LIMITS: Final = (
    "power times the hours and the share of them that the Job guesses; the real share depends on "
    "the room, its use and the weather"
)

WARM_UP_RISE_K: Final = 10.0
"""Rise for which the shortest warm-up is shown: an example, no limit."""

MORTAR_DENSITY_KG_M3: Final = 2000.0
"""Generic, from memory, not verified."""

MORTAR_HEAT_CAPACITY_J_KG_K: Final = 900.0
"""Generic, from memory, not verified."""

_LIMITS: Final = {place: FAHRENHEIT.quoted(limit) for place, limit in SURFACE_LIMITS_C.items()}

ESTIMATES: Final = (
    ElectricalRule(
        "surface temperature",
        "q = 8.92·(floor - room)^1.1 W/m², turned round: how far the surface is above the room if "
        f"all heat goes up, in kelvin (1.8 °F each). {EN_1264_LIMITS[:1].upper()}"
        f"{EN_1264_LIMITS[1:]}. Limits {_LIMITS['occupied']}, at the edges "
        f"{_LIMITS['peripheral']}, in bathrooms {_LIMITS['bathroom']}.",
        "EN 1264-2/-3, as coded in three open-source programs; the limits EN 1264-2, from memory, "
        "not verified",
        "read second-hand, in code",
    ),
    ElectricalRule(
        "warm-up",
        f"Area · depth · density · heat capacity · rise, over the power; {WARM_UP_LIMITS}.",
        "physics, from memory",
        "from memory, not verified",
    ),
    ElectricalRule(
        "running cost",
        f"Energy a day and its price: {RUNNING_COST_LIMITS}.",
        "",
        "common practice, no source",
    ),
)
"""Estimates that the heating tabs show, with what they leave out."""


def surface_above_room_k(heat_w_m2: float) -> float:
    """How much warmer than the room the surface is at a given output.

    EN 1264-2/-3, q = 8.92·(floor - room)^1.1, turned round; as coded in three open-source programs
    (second-hand).

    Parameters
    ----------
    heat_w_m2
        Heat given upwards [W/m²]; not negative.

    Returns
    -------
    float
        Temperature difference [K].
    """
    return float((heat_w_m2 / EN_1264_CONSTANT) ** (1 / EN_1264_EXPONENT))


def warm_up_minutes(
    area_m2: float,
    depth_m: float,
    watts: float,
    rise_k: float,
) -> float:
    """Shortest time in which the floor can warm up, losing nothing.

    E = area·depth·density·heat capacity·rise, over the power (physics, from
    memory); the real time is longer.

    Parameters
    ----------
    area_m2
        Heated area [m²].
    depth_m
        Mortar and tile over the cable, and round it [m].
    watts
        Power of the cable [W]; above zero.
    rise_k
        Rise of temperature [K].

    Returns
    -------
    float
        Minutes, with the generic density and heat capacity above.

    Examples
    --------
    >>> warm_up_minutes(5, 0.020, 750, 10)
    40.0
    """
    mass_kg = area_m2 * depth_m * MORTAR_DENSITY_KG_M3
    return mass_kg * MORTAR_HEAT_CAPACITY_J_KG_K * rise_k / watts / 60.0


def energy_kwh_a_day(watts: float, hours: float, duty: float) -> float:
    """Energy used in a day.

    Power · hours · share of the time that the thermostat lets it heat (the estimate is only as
    good as that share).

    Parameters
    ----------
    watts
        Power [W].
    hours
        Hours a day that the heating is switched on [h].
    duty
        Share of those hours in which it draws current.

    Returns
    -------
    float
        Energy [kWh].

    Examples
    --------
    >>> round(energy_kwh_a_day(338.3, 24, 0.4), 3)
    3.248
    """
    return watts / 1000.0 * hours * duty


def surface_words(density_w_m2: float, scale: TemperatureScale) -> str:
    """Say how warm the surface gets at most, with where the formula ends."""
    rise = scale.rise_shown(surface_above_room_k(density_w_m2), 1)
    return (
        f"If all of it goes up, the surface is {rise} above "
        f"the room (EN 1264-2/-3, as coded in three open-source programs; {EN_1264_LIMITS}; "
        f"bathroom limit {scale.quoted(SURFACE_LIMITS_C['bathroom'])} from memory, not verified)."
    )


def warm_up_words(minutes: float, scale: TemperatureScale) -> str:
    """Say how soon the floor is warm at best, with where the formula ends."""
    rise = scale.rise_shown(WARM_UP_RISE_K, 0)
    return f"At least {minutes:.0f} min to warm up by {rise} ({WARM_UP_LIMITS})."

"""Ohm's law, resistance bands, circuits and test limits for floor heating cable.

The program never says that an installation is safe or complies.  It says which rule a number was
held against, with that rule's edition and how well it is known (see ``ELECTRICAL_RULES``).
"""

from collections.abc import Iterable, Sequence
from typing import Final

from msgspec import Struct

STANDARD_TEMPERATURE_C: Final = 20.0
"""What a cable's stated resistance is for: thought to be IEC 60800; from memory, not verified."""

RESISTANCE_BELOW: Final = 0.05
"""Allowed share below the stated resistance at 20 °C: thought to be IEC 60800; from memory."""

RESISTANCE_ABOVE: Final = 0.10
"""Allowed share above the stated resistance at 20 °C: thought to be IEC 60800; from memory."""

CONTINUOUS_FACTOR: Final = 1.25
"""NEC 424.4(B) (424.3(B) up to 2017), as quoted by fasttraxsystem and Mike Holt, Oct 2019."""

DRIFT_SHARE: Final = 0.05
"""A change of more than this share between two stages is drift: common practice, no source."""

ZONE_2_MM: Final = 600.0
"""Zone 2 reaches so far beyond a bath or shower [mm]: BS 7671 701.32, as quoted by 2kelectrical."""

ZONE_1_WITHOUT_BASIN_MM: Final = 1200.0
"""Radius of zone 1 of a shower without a basin [mm]: BS 7671 701.32, as quoted by 2kelectrical."""

RATED_VOLTS_MARGIN: Final = 0.5
"""A cable's volts and the supply's count as the same up to this difference [V]."""

_EXACT: Final = 1e-9


class ElectricalRule(Struct, frozen=True):
    """A rule that a number is held against.

    Attributes
    ----------
    key
        Short name, as used in Basis texts.
    text
        What it asks.
    source
        Clause and edition, and where it was read.
    status
        How well it is known: "read second-hand", "read here", "from memory, not verified",
        "common practice, no source"; with a few words where it holds for a part.
    """

    key: str
    text: str
    source: str
    status: str


ELECTRICAL_RULES: Final = (
    ElectricalRule(
        "continuous load",
        "Fixed electric space heating is a continuous load: conductors and their protection are "
        "sized for at least 125 % of it.",
        "NEC 424.4(B), in editions up to 2017 424.3(B) with 210.19(A)(1) and 210.20(A), as quoted "
        "by fasttraxsystem and in Mike Holt's newsletter of October 2019",
        "read second-hand",
    ),
    ElectricalRule(
        "small conductors",
        "14 AWG copper on 15 A, 12 AWG on 20 A at most (10 AWG on 30 A from memory).",
        "NEC 240.4(D), as quoted in EC&M's code quiz 57",
        "read second-hand",
    ),
    ElectricalRule(
        "ground-fault protection, bathrooms",
        "Ground-fault protection for personnel for cables in electrically heated bathroom floors.",
        "NEC 424.44(G) of an older edition, as quoted in Mike Holt's forum",
        "read second-hand",
    ),
    ElectricalRule(
        "ground-fault protection, under floor covering",
        "Ground-fault protection for heating under floor covering in any room.",
        "NEC 2023 424.99(B)(5), as quoted by ecmag.com, 14 February 2025",
        "read second-hand",
    ),
    ElectricalRule(
        "residual-current protection",
        "Every circuit of a location with a bath or shower: a residual-current device of at most "
        "30 mA.",
        "BS 7671 (IEC 60364-7-701) 701.411.3.3 and 415.1.1, as quoted by 2kelectrical and "
        "electricalcompliancetesting",
        "read second-hand",
    ),
    ElectricalRule(
        "zones round a bath or shower",
        "Zone 1 is the bath or shower itself, zone 2 reaches 0.60 m (24 in) beyond it; of "
        "a shower without a basin zone 1 reaches 1.20 m (47 in). Both up to 2.25 m (89 in) or the "
        "highest fixed outlet; what may hang in them is restricted.",
        "BS 7671 701.32 and 701.512.3, as quoted by 2kelectrical",
        "read second-hand",
    ),
    ElectricalRule(
        "inspection before covering",
        "Cables under floor covering are inspected before they are covered.",
        "NEC 2017 424.46 (and 424.45 on cables under floor coverings), as quoted by "
        "electricallicenserenewal.com",
        "read second-hand",
    ),
    ElectricalRule(
        "metal grid over the element",
        "Heating units without exposed conductive parts have a metal grid above them, its meshes "
        "at most 30 mm (1 3/16 in).",
        "BS 7671:2008 753.411.3.2, as quoted in an electrician's blog of 2013",
        "read second-hand",
    ),
    ElectricalRule(
        "insulation resistance",
        "Tested at 500 V d.c.: at least 1.0 MΩ for a mains circuit up to 500 V.",
        "BS 7671 Table 64, regulation 643.3.2, as quoted in Electrical Wholesaler, May 2023",
        "read second-hand",
    ),
    ElectricalRule(
        "insulation, extra-low voltage",
        "Tested at 250 V d.c.: at least 0.5 MΩ for SELV and PELV, for which cables of up to 50 V "
        "are taken. A supply that isn't separated from the mains asks for the mains test.",
        "NICEIC Connections, spring 2018, Table 1; the end at 50 V and what holds without "
        "separation from memory, not verified",
        "read second-hand, the figures only",
    ),
    ElectricalRule(
        "older insulation limit",
        "0.5 MΩ for mains circuits, superseded.",
        "BS 7671 (16th edition) Table 71A, as quoted on a page of myweb tiscali",
        "read second-hand",
    ),
    ElectricalRule(
        "cable spacing",
        "Runs in a floor at least 1 in (25 mm) apart, centre to centre.",
        "NEC 424.44(B)",
        "from memory, not verified",
    ),
    ElectricalRule(
        "room of origin",
        "Cable does not leave its room, nor run under or over walls or under full-height cabinets.",
        "City of Portland code 27.19.055, a local rule; NEC 424.38 and 424.39 are thought similar, "
        "from memory, not verified",
        "read here, the local rule only",
    ),
    ElectricalRule(
        "temperature coefficient",
        "Resistance rises with temperature by the alloy: copper 0.00393 to 0.00404 per kelvin "
        "(1.8 °F), "
        "nichrome 0.00017 to 0.0004, constantan about 0. Only the coefficient in a cable's own row "
        "is used.",
        "three general tables, which disagree",
        "read here, values only: choose per alloy",
    ),
    ElectricalRule(
        "resistance tolerance",
        "Stated resistance at 20 °C (68 °F), 5 % below to 10 % above.",
        "thought to be IEC 60800; not found in any text opened",
        "from memory, not verified",
    ),
    ElectricalRule(
        "highest power density",
        "15 W/ft² (161 W/m²) under floor covering.",
        "NEC 424.99",
        "from memory, not verified",
    ),
    ElectricalRule(
        "power per length in mortar",
        "16.5 W/ft (54 W/m) of cable in concrete or poured masonry.",
        "NEC 424.44(A)",
        "from memory, not verified",
    ),
    ElectricalRule(
        "floor warming density",
        "10 to 15 W/ft² (108 to 161 W/m²).",
        "",
        "common practice, no source",
    ),
    ElectricalRule(
        "clearances",
        "3 in from walls, 2 in from fixed cabinets, 6 in from floor drains.",
        "",
        "common practice, no source",
    ),
    ElectricalRule(
        "rating of thermostats",
        "15 A at 120 or 240 V, 16 A at 230 V.",
        "",
        "common practice, no source",
    ),
    ElectricalRule(
        "laying the cable",
        "A fixed-length cable is never cut and never crosses itself; the sensor lies midway "
        "between two runs; the cold lead's splice lies in mortar.",
        "",
        "common practice, no source",
    ),
)
"""Rules that the heating tabs show, with edition and status."""


def resistance_ohm(volts: float, watts: float) -> float:
    """Resistance of a cable from its rating.

    Ohm and Joule, R = V²/P (textbook identity, from memory).

    Parameters
    ----------
    volts
        Rated voltage [V].
    watts
        Rated power at that voltage [W]; above zero.

    Returns
    -------
    float
        Resistance [ohm].

    Examples
    --------
    >>> resistance_ohm(120, 180)
    80.0
    """
    return volts * volts / watts


def amperes(watts: float, volts: float) -> float:
    """Give the current of a load, I = P/V (textbook identity, from memory) [A]."""
    return watts / volts


def resistance_band_ohm(
    ohms: float,
    below: float = RESISTANCE_BELOW,
    above: float = RESISTANCE_ABOVE,
) -> tuple[float, float]:
    """Lowest and highest resistance that a good cable may show at 20 °C.

    Thought to be IEC 60800, 5 % below to 10 % above; from memory, not verified.

    Parameters
    ----------
    ohms
        Stated resistance at 20 °C [ohm].
    below, above
        Allowed shares of it; the Job's settings.

    Returns
    -------
    tuple of float
        Low and high [ohm].
    """
    return ohms * (1 - below), ohms * (1 + above)


def corrected_ohm(ohms_20: float, temperature_c: float, coefficient_per_k: float | None) -> float:
    """Resistance at another temperature than 20 °C.

    R = R20·(1 + coefficient·(temperature - 20)), linear (textbook identity, from memory).
    Coefficients differ by alloy and by table (copper 0.00393 to 0.00404, nichrome 0.00017 to
    0.0004, constantan about 0 per kelvin: three general tables read, they disagree), so without
    one nothing is corrected.

    Parameters
    ----------
    ohms_20
        Resistance at 20 °C [ohm].
    temperature_c
        Temperature of the cable when it is read [°C].
    coefficient_per_k
        The alloy's coefficient [1/K], or None where the maker gives none.

    Returns
    -------
    float
        Resistance [ohm].
    """
    return ohms_20 * (1 + (coefficient_per_k or 0.0) * (temperature_c - STANDARD_TEMPERATURE_C))


def continuous_amperes(load_amperes: float, factor: float = CONTINUOUS_FACTOR) -> float:
    """Rating that a circuit needs for a continuous load [A].

    NEC 424.4(B) (424.3(B) up to 2017), as quoted by Mike Holt, October 2019.
    """
    return load_amperes * factor


def circuit_amperes(
    load_amperes: float,
    sizes: Sequence[float],
    factor: float = CONTINUOUS_FACTOR,
) -> float | None:
    """Smallest standard circuit that carries a continuous load.

    NEC 424.4(B) and 240.4(D), as quoted (see ``ELECTRICAL_RULES``).

    Parameters
    ----------
    load_amperes
        Load [A].
    sizes
        Circuit sizes that may be used [A], in any order.
    factor
        Continuous factor; 1.25.

    Returns
    -------
    float or None
        Circuit size [A]; None where even the largest is too small.

    Examples
    --------
    1440 W at 120 V fits 15 A exactly, one watt more needs 20 A:

    >>> circuit_amperes(1440 / 120, (15, 20)), circuit_amperes(1441 / 120, (15, 20))
    (15, 20)
    """
    needed = load_amperes * factor
    return next((size for size in sorted(sizes) if needed <= size * (1 + _EXACT)), None)


def thermostat_share(load_amperes: float, rating_amperes: float) -> float:
    """Share of a thermostat's rating that a load takes; above 1 it needs a relay or a second one.

    Ratings of 15 A (120 and 240 V) and 16 A (230 V) are common practice, no source.
    """
    return load_amperes / rating_amperes


def same_voltage(cable_volts: float, supply_volts: float) -> bool:
    """Whether a cable is made for the supply.

    A 240 V cable on 120 V gives a quarter of its power, a 120 V cable on 240 V four times (and
    burns): P = V²/R, textbook identity.  So anything but the same voltage is refused.
    """
    return abs(cable_volts - supply_volts) <= RATED_VOLTS_MARGIN


def group_loads(
    loads: Iterable[float],
    sizes: Sequence[float],
    factor: float = CONTINUOUS_FACTOR,
) -> tuple[int, ...]:
    """Put loads on circuits, in order, each on the first circuit that still carries it.

    Parameters
    ----------
    loads
        Load of each room [A].
    sizes
        Circuit sizes [A]; the largest is the limit.
    factor
        Continuous factor.

    Returns
    -------
    tuple of int
        Number of the circuit (from 0) of each load.  A load too large for any circuit stands
        alone.
    """
    limit = max(sizes) / factor * (1 + _EXACT)
    filled: list[float] = []
    numbers: list[int] = []
    for load in loads:
        number = next((i for i, used in enumerate(filled) if used + load <= limit), len(filled))
        if number == len(filled):
            filled.append(0.0)
        filled[number] += load
        numbers.append(number)
    return tuple(numbers)

"""The settings of the Job tab on heating: clearances, power, supply, circuits, readings, cost."""

from typing import Final

from sheetcalc.domain.temperature import SCALES
from sheetcalc.workbook.columns import Kind
from sheetcalc.workbook.setting import OFFICE, PRACTICE, Setting

_W_FT2: Final = 1 / 0.3048**2
_POWER: Final = {"W/m²": 1.0, "W/ft²": _W_FT2}
_DEGREES: Final = {scale.symbol: float(1 / scale.per_kelvin) for scale in SCALES.values()}

HEATING_SETTINGS: Final = (
    Setting(
        "clearance_wall_mm320", "Heating: clear of walls", Kind.SMALL_LENGTH, 76, 3,
        "From the cable to walls. Default: 76 mm (3 in).", PRACTICE, 0, 1000, group="Heating",
        usual=(20, 300),
    ),
    Setting(
        "clearance_cabinet_mm320", "Heating: clear of fixed cabinets", Kind.SMALL_LENGTH, 50, 2,
        "From the cable to cabinets, baths and trays. Default: 50 mm (2 in).", PRACTICE, 0, 1000,
        group="Heating",
        usual=(20, 300),
    ),
    Setting(
        "clearance_outlet_mm320", "Heating: clear of outlets and pipes", Kind.SMALL_LENGTH, 50, 2,
        "From the cable to toilet outlets and pipes. Default: 50 mm (2 in).", PRACTICE, 0, 1000,
        group="Heating",
        usual=(20, 300),
    ),
    Setting(
        "clearance_drain_mm320", "Heating: clear of drains", Kind.SMALL_LENGTH, 150, 6,
        "From the cable to floor drains. Default: 150 mm (6 in).", PRACTICE, 0, 1000,
        group="Heating",
        usual=(20, 400),
    ),
    Setting(
        "target_density_w_m2", "Heating: target power", Kind.NUMBER, 130, 12,
        "Power for an area of heated floor that the cable is chosen for. Usual 108 to 161 W/m² "
        "(10 to 15 "
        "W/ft²). Default: 130 W/m² (12 W/ft²).", PRACTICE, 20, 500, units=_POWER, group="Heating",
    ),
    Setting(
        "highest_density_w_m2", "Heating: highest power", Kind.NUMBER, 161, 15,
        "Never passed. Default: 161 W/m² (15 W/ft²). Check the rules of the place.",
        "NEC 424.99, figure from memory, not verified", 20, 500, units=_POWER, group="Heating",
    ),
    Setting(
        "supply_volts", "Supply voltage", Kind.NUMBER, 230, 120,
        "A cable for another voltage is refused. Default: 230 V (120 V).", OFFICE, 12, 480,
        units={"V": 1.0}, group="Heating",
    ),
    Setting(
        "circuit_amperes", "Circuit sizes", Kind.NUMBERS, "10, 16, 20, 32", "15, 20, 30",
        "Ratings that a heating circuit may have, smallest first. Default: 10, 16, 20, 32 A "
        "(15, 20, 30 A).", PRACTICE, 1, 200, units={"A": 1.0}, group="Heating",
    ),
    Setting(
        "continuous_factor", "Continuous load factor", Kind.NUMBER, 1.25, 1.25,
        "A circuit carries at least the load times this. Default: 1.25.",
        "NEC 424.4(B) (424.3(B) until 2017), as quoted by fasttraxsystem and Mike Holt", 1, 2,
        group="Heating",
    ),
    Setting(
        "thermostat_amperes", "Thermostat rating", Kind.NUMBER, 16, 15,
        "What one thermostat switches. Default: 16 A (15 A).", PRACTICE, 1, 100, units={"A": 1.0},
        group="Heating",
    ),
    Setting(
        "resistance_below", "Resistance tolerance below", Kind.PERCENT, 0.05, 0.05,
        "How far a reading may be under the cable's resistance. Default: 5 %.",
        "IEC 60800, from memory, not verified", 0, 0.5, group="Heating", live=True,
    ),
    Setting(
        "resistance_above", "Resistance tolerance above", Kind.PERCENT, 0.10, 0.10,
        "How far a reading may be over the cable's resistance. Default: 10 %.",
        "IEC 60800, from memory, not verified", 0, 0.5, group="Heating", live=True,
    ),
    Setting(
        "rooms_per_circuit", "Rooms on a heating circuit", Kind.CHOICE, "one each", "one each",
        "'one each' gives each room a circuit; 'several' joins rooms as far as a circuit carries. "
        "Default: one each.", PRACTICE, choices=("one each", "several"), group="Heating",
    ),
    Setting(
        "shower_circuit", "Shower floor's heating circuit", Kind.CHOICE, "with the room",
        "with the room",
        "'with the room' joins its cable at the room's thermostat; 'of its own' gives it a "
        "thermostat and a circuit. Default: with the room.", PRACTICE,
        choices=("with the room", "of its own"), group="Heating",
    ),
    Setting(
        "reading_temperature_c", "Temperature at readings", Kind.TEMPERATURE, 20, 68,
        "Of the rooms when cables are read; bands of the Resistance log are corrected where a "
        "cable has a coefficient. Unit says °C or °F. Default: 20 °C (68 °F).", PRACTICE, -20, 50,
        units=_DEGREES, group="Heating", live=True, usual=(5, 40),
    ),
    Setting(
        "heating_hours", "Heating hours a day", Kind.NUMBER, 24, 24,
        "Hours that the thermostat is set to heat, for the energy estimate. Default: 24 h.",
        PRACTICE, 0, 24, units={"h": 1.0}, group="Heating", live=True,
    ),
    Setting(
        "heating_duty", "Share of these hours drawing current", Kind.PERCENT, 0.4, 0.4,
        "A guess: the energy estimate is only as good as it is. Default: 40 %.", PRACTICE, 0, 1,
        group="Heating", live=True,
    ),
    Setting(
        "energy_price", "Price of energy", Kind.NUMBER, None, None,
        "Of a kilowatt-hour, for the running cost. Empty: no running cost is shown.", OFFICE, 0,
        100, units={"per kWh": 1.0}, group="Heating", live=True,
    ),
)  # fmt: skip
"""Settings of the group Heating, in the order of the Job tab."""

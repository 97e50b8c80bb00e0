"""Wrong workbooks for the findings on heating: cables, thermostat, circuit, readings."""

from gallery import Edit, Said, Wrong, cell, record, setting
from gallery import wrong as entry


def wrong(code: str, place: str, *edits: Edit) -> Wrong:
    """Make an entry whose finding comes with the calculation."""
    return entry(code, place, *edits, calculated=True)


def cable(**values: object) -> Edit:
    """Add a cable of the range ``warm``: 18 m and 216 W, which fits the cloakroom."""
    row = {
        "Code": "H-18",
        "Supplier": "Kiln & Quarry",
        "Description": "Heating cable 18 m",
        "Range": "warm",
        "Length": 18,
        "Watts": 216,
        "Volts": 230,
        "Resistance": 244.9,
        "Leads": "both ends",
        "Cold_lead": 4,
        "Smallest_spacing": 50,
        "Bend_radius": 25,
        "Price": 160,
    }
    return record("Heating cables", **(row | values))


def piece(name: str, kind: str, **values: object) -> Edit:
    """Add a floor piece."""
    return record("Floor pieces", Room="Cloakroom", Piece=name, Kind=kind, **values)


WARM = cell("Finishes", "Heating", "warm")
STAT = piece("Stat", "thermostat", Wall="near", Left=0.3)
DOOR = piece("Door", "doorway", Wall="near", Left=0.6, Length=0.8)

ENTRIES: tuple[Wrong | Said, ...] = (
    wrong("CABLE-VOLTAGE-DIFFERS", "Finishes!N5", WARM, STAT, cable(Volts=120)),
    wrong("CABLE-RESISTANCE-MISSING", "Heating cables!J5", WARM, STAT, cable(Resistance=None)),
    wrong("CABLE-RESISTANCE-DIFFERS", "Heating cables!J5", WARM, STAT, cable(Resistance=61.2)),
    wrong(
        "NO-FREE-FLOOR",
        "Finishes!N5",
        WARM,
        STAT,
        cable(),
        setting("Heating: clear of walls", 600),
    ),
    wrong("NO-CABLE-FITS", "Finishes!N5", WARM, STAT, cable(Length=40, Watts=480, Resistance=110)),
    wrong(
        "FLOOR-LEFT-UNHEATED",
        "Finishes!N5",
        WARM,
        STAT,
        cable(),
        piece("Alcove", "floor", Left=0, Front=1.2, Length=0.19, Width=1.5),
    ),
    wrong("THERMOSTAT-MISSING", "Rooms!A5", WARM, DOOR, cable()),
    wrong(
        "THERMOSTATS-SEVERAL",
        "Rooms!A5",
        WARM,
        STAT,
        piece("Other", "thermostat", Wall="far", Left=0.3),
        cable(),
    ),
    wrong(
        "THERMOSTAT-IN-DOORWAY",
        "Floor pieces!E5",
        WARM,
        piece("Stat", "thermostat", Wall="near", Left=1),
        DOOR,
        cable(),
    ),
    wrong("COLD-LEAD-TOO-SHORT", "Heating cables!M5", WARM, STAT, cable(Cold_lead=0.5)),
    wrong(
        "THERMOSTAT-OVERLOADED",
        "Rooms!A5",
        WARM,
        STAT,
        cell("Rooms", "Length", 3.6),
        cable(Length=36, Watts=432, Resistance=122.5),
        setting("Thermostat rating", 1),
    ),
    wrong(
        "CIRCUIT-OVERLOADED",
        "Rooms!A5",
        WARM,
        STAT,
        cable(),
        setting("Circuit sizes", "1"),
    ),
    Said("HEATING-RANGE-EMPTY", {"range": "warm", "zone": "main floor"}),
    Said("COLD-LEAD-BLOCKED", {"cable": "H-18", "zone": "main floor"}),
    Said(
        "RESISTANCE-OUT-OF-BAND",
        {
            "reading": 281.0,
            "stage": "after laying",
            "cable": "H-18",
            "zone": "main floor",
            "low": 232.66,
            "high": 269.39,
        },
    ),
    Said(
        "RESISTANCE-DRIFTS",
        {
            "reading": 262.0,
            "stage": "after covering",
            "before": 245.0,
            "stage_before": "after laying",
            "cable": "H-18",
            "zone": "main floor",
            "share": 5.0,
        },
    ),
    Said(
        "INSULATION-TOO-LOW",
        {
            "reading": 0.4,
            "stage": "after laying",
            "cable": "H-18",
            "zone": "main floor",
            "limit": 1.0,
            "volts": 500.0,
        },
    ),
    Said("READING-NOT-A-NUMBER", {"text": "fine"}),
    Said("READING-WITHOUT-CABLE", {"cable": "H-18", "room": "Cloakroom", "zone": "main floor"}),
)

"""Wrong workbooks for the findings on heating."""

from gallery import Edit, Said, Wrong, cell, record, setting
from gallery import wrong as entry


def cable(code: str = "H-1", **values: object) -> Edit:
    """Add a heating cable: 230 V, 10 m, 120 W, which is 440.8 ohms."""
    sound: dict[str, object] = {
        "Code": code,
        "Description": code,
        "Range": "Warm",
        "Length": 10,
        "Watts": 120,
        "Volts": 230,
        "Resistance": 440.8,
        "Cold_lead": 3,
        "Smallest_spacing": 60,
        "Bend_radius": 25,
    }
    return record("Heating cables", **(sound | values))


def piece(name: str, kind: str, **values: object) -> Edit:
    """Add a floor piece."""
    return record("Floor pieces", Room="Cloakroom", Piece=name, Kind=kind, **values)


def wrong(code: str, place: str, *edits: Edit) -> Wrong:
    """Make an entry of a heated room."""
    return entry(code, place, HEATED, *edits, calculated=True)


HEATED = cell("Finishes", "Heating", "Warm")
STAT = piece("Stat", "thermostat", Wall="left", Front=0.6)
DOOR = piece("Door", "doorway", Wall="near", Left=0.5, Length=0.8)

HEATING: tuple[Wrong, ...] = (
    wrong(
        "HEATING-NOT-ON-FLOOR",
        "Finishes!N6",
        STAT,
        cable(),
        record("Finishes", Finish="Plain", Surface="wall", Heating="Warm"),
    ),
    wrong("CABLE-VOLTAGE-DIFFERS", "Finishes!N5", STAT, cable(Volts=120, Resistance=120)),
    wrong("CABLE-RESISTANCE-MISSING", "Heating cables!J5", STAT, cable(Resistance=None)),
    wrong("CABLE-RESISTANCE-DIFFERS", "Heating cables!J5", STAT, cable(Resistance=300)),
    wrong(
        "NO-FREE-FLOOR",
        "Finishes!N5",
        STAT,
        cable(),
        piece("Basin", "cabinet", Left=0, Front=0.1, Length=1.8, Width=1),
    ),
    wrong("NO-CABLE-FITS", "Finishes!N5", STAT, cable(Length=100, Watts=1200, Resistance=44.1)),
    wrong(
        "FLOOR-LEFT-UNHEATED",
        "Finishes!N5",
        STAT,
        cable(Length=5, Watts=60, Resistance=881.7),
        piece("Pier", "void", Left=1.5, Front=0, Length=0.1, Width=0.9),
    ),
    wrong(
        "FLOOR-LARGELY-UNHEATED",
        "Finishes!N5",
        STAT,
        cable(),
        piece("Pier", "void", Left=1.2, Front=0, Length=0.1, Width=1.0),
    ),
    wrong("THERMOSTAT-MISSING", "Rooms!A5", cable()),
    wrong(
        "THERMOSTATS-SEVERAL",
        "Rooms!A5",
        STAT,
        piece("Other", "thermostat", Wall="right", Front=0.6),
        cable(),
    ),
    wrong(
        "THERMOSTAT-IN-DOORWAY",
        "Floor pieces!E6",
        DOOR,
        piece("Stat", "thermostat", Wall="near", Left=0.9),
        cable(),
    ),
    wrong(
        "THERMOSTAT-BY-WATER",
        "Floor pieces!A5",
        piece("Stat", "thermostat", Wall="near", Left=0.7),
        piece("Tray", "shower tray", Left=0, Front=0, Length=0.4, Width=0.6),
        cable(Length=5, Watts=60, Resistance=881.7),
    ),
    wrong("COLD-LEAD-TOO-SHORT", "Heating cables!M5", STAT, cable(Cold_lead=0.1)),
    wrong(
        "COLD-LEADS-CROWDED", "Rooms!A5", STAT, setting("Heating: clear of walls", 30),
        cell("Rooms", "Length", 4), cell("Rooms", "Width", 3),
        cable(Cold_lead=20, Leads="both ends"),
        cable("H-2", Length=40, Watts=480, Resistance=110.2, Cold_lead=20, Leads="both ends"),
    ),
    wrong(
        "THERMOSTAT-OVERLOADED", "Rooms!A5", STAT, cable(), setting("Thermostat rating", 1),
        cell("Rooms", "Length", 5), cell("Rooms", "Width", 4),
        cable("H-2", Length=220, Watts=2600, Resistance=20.3),
    ),
    wrong(
        "CIRCUIT-OVERLOADED", "Rooms!A5", STAT, cable(), setting("Circuit sizes", "1, 2"),
        cell("Rooms", "Length", 5), cell("Rooms", "Width", 4),
        cable("H-2", Length=220, Watts=2600, Resistance=20.3),
    ),
)  # fmt: skip

SAID: tuple[Said, ...] = (
    # an unknown range is found on reading, with its cell
    Said("HEATING-RANGE-EMPTY", {"range": "Warm", "zone": "floor"}),
    Said("COLD-LEAD-BLOCKED", {"cable": "H-1", "zone": "floor"}),
    # readings stand on a result tab, which the smallest sample has only after a run
    Said(
        "RESISTANCE-OUT-OF-BAND",
        {
            "reading": "390",
            "stage": "after laying",
            "cable": "H-1",
            "zone": "floor",
            "low": "418.8",
            "high": "484.9",
        },
    ),
    Said(
        "RESISTANCE-DRIFTS",
        {
            "reading": "430",
            "stage": "after laying",
            "before": "450",
            "stage_before": "as delivered",
            "cable": "H-1",
            "zone": "floor",
            "share": "2",
        },
    ),
    Said(
        "INSULATION-TOO-LOW",
        {
            "reading": "0.2",
            "stage": "after covering",
            "cable": "H-1",
            "zone": "floor",
            "limit": "1",
            "volts": "500",
        },
    ),
    Said("READING-NOT-A-NUMBER", {"text": "OL"}),
    Said("READING-WITHOUT-CABLE", {"cable": "H-9", "room": "Cloakroom", "zone": "floor"}),
)

ENTRIES: tuple[Wrong | Said, ...] = (*HEATING, *SAID)

"""The result tabs on heating: cable schedule, resistance log, and the rules held against."""

from sheetcalc.workbook.columns import Column, Kind, Tab, Tells

BY_WHOM = "Connected and tested by a licensed electrician, inspected before the cable is covered."


def _c(header: str, help_text: str, width: float = 12, tells: Tells | None = None) -> Column:
    return Column(header, Kind.RESULT, help_text, width=width, tells=tells)


def _typed(header: str, kind: Kind, help_text: str, width: float, unit: str = "") -> Column:
    return Column(header, kind, help_text, width=width, typed=True, unit=unit)


CABLE_SCHEDULE = Tab(
    key="Cable schedule",
    table="OutCables",
    record="one cable",
    result=True,
    purpose=f"Heating cables, their circuits and thermostats; the rules with their editions stand "
    f"on Heating rules. Printed up to Status. {BY_WHOM}",
    printed_to="Status",
    columns=(
        _c("Circuit", "Circuit; rooms with the same one share it.", 8),
        _c("Thermostat", "Thermostat.", 12, Tells.SENTENCES),
        _c("Room", "Room; each of several alike has a row.", 15),
        _c("Zone", "Heated zone.", 15, Tells.NAMES),
        _c("Cable", "Code of the cable.", 11),
        _c("Length", "Heated length of the cable.", 9),
        _c("Spacing", "Mean distance between runs.", 9),
        _c("Watts", "Power.", 8),
        _c("Power density", "Power for an area of free floor.", 9),
        _c("Amperes", "Current.", 10),
        _c("Circuit load", "Everything on the circuit, other rooms with it.", 8),
        _c(
            "Circuit size",
            "Smallest of the Job's that carries the load times its continuous factor; empty: none.",
            8,
        ),
        _c("Thermostat share", "Load of everything on the thermostat by its rating.", 12),
        _c("Resistance", "Of the cable at 20 °C (68 °F).", 11.5),
        _c("Resistance low", "Lowest reading expected at 20 °C (68 °F).", 11.5),
        _c("Resistance high", "Highest reading expected at 20 °C (68 °F).", 11.5),
        _c("Cold lead", "Length of the cable's cold lead.", 7),
        _c("Lead needed", "From the splice over the floor and up to the thermostat.", 8.5),
        _c(
            "Status",
            "planned, or what is wrong with cold lead, circuit or thermostat.",
            20,
            Tells.SENTENCES,
        ),
        _c("Rows", "Runs laid.", 7),
        _c("Planned length", "Length of the planned path.", 9),
        _c("Left over or short", "Cable less planned length.", 9),
        _c("Warm-up", "Shortest time to warm up by 10 K (18 °F), losing nothing.", 10),
        _c("Energy a day", "Watts by the Job's hours and share of them.", 8),
        _c("Cost a day", "Energy by the Job's price; empty without one.", 8),
        _c(
            "Estimates",
            "What warm-up, energy and surface temperature leave out.",
            120,
            Tells.SENTENCES,
        ),
        _c("Basis", "The working in words, with the rule and its source.", 220, Tells.SENTENCES),
    ),
)

CABLE_PLANS = Tab(
    key="Cable plans",
    table="OutCablePlans",
    record="one heated room, or several whose cables lie alike",
    result=True,
    purpose="A page for each heated room, as of the last takeoff. Work for a licensed electrician, "
    "inspected before it is covered.",
    columns=(
        _c("Cables", "Cables on the page.", 8.5),
        _c("Rows", "Runs laid.", 7.5),
        _c("Alike", "Rooms that the page is for.", 7),
        _c("Room", "First room; a link to its page.", 6.5),  # last: a name may run on
    ),
)

RESISTANCE_LOG = Tab(
    key="Resistance log",
    table="OutReadings",
    record="one reading of one cable",
    result=True,
    purpose="Readings of each cable at three stages; what is typed in the bordered columns "
    f"survives every run. {BY_WHOM}",
    columns=(
        _c("Room", "Room.", 13),
        _c("Zone", "Heated zone.", 18),
        _c("Cable", "Code of the cable.", 13),
        _c("Stage", "as delivered, after laying, or after covering.", 16),
        _c("Resistance", "Of the cable at 20 °C (68 °F).", 11.5),
        _c("Coefficient", "Of the resistance, for each kelvin (1.8 °F); empty: not corrected.", 12),
        _c("Expected low", "Lowest reading expected at the Job's temperature.", 11),
        _c("Expected high", "Highest reading expected at the Job's temperature.", 11),
        _c("Insulation test", "Voltage, d.c., at which its insulation is read.", 10),
        _c("Insulation at least", "Least insulation resistance at that voltage.", 11),
        _typed("Reading", Kind.NUMBER, "Resistance read.", 11, "Ω"),
        _typed(
            "Insulation reading", Kind.NUMBER,
            "Insulation resistance read at the test's voltage; >999 where the meter ends.", 13,
            "MΩ",
        ),
        _typed("By", Kind.TEXT, "Who read it.", 16),
        _typed("Date", Kind.DATE, "When.", 13),
        _c("Verdict", "Whether the readings are in the band, steady, and insulated.", 28),
    ),
)  # fmt: skip

HEATING_RULES = Tab(
    key="Heating rules",
    table="OutHeatingRules",
    record="one rule that the heating was held against",
    result=True,
    purpose=f"What was held against what: each rule with its edition and how well it is known. "
    f"Nothing here says that an installation complies. {BY_WHOM}",
    columns=(
        _c("Rule", "Name of the rule, for 'sheetcalc explain'.", 24),
        _c("What it asks", "In short.", 44, Tells.SENTENCES),
        _c(
            "In this job",
            "What was held against it, or who has to see to it.",
            38,
            Tells.SENTENCES,
        ),
        _c("Source", "Clause and edition, and where it was read.", 40),
        _c("Status", "How well it is known.", 22, Tells.SENTENCES),
    ),
)

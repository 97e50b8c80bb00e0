"""Job and Phases: the settings of the job, and the stages of the block."""

from sheetcalc.workbook.columns import Column, Kind, Tab

JOB = Tab(
    key="Job",
    table="InJob",
    record="a setting",
    purpose="The settings of this job, one a row; change the Value and leave the other columns.",
    needed=True,
    columns=(
        Column(
            "Setting", Kind.TEXT, "Name of the setting; leave it as it is.",
            "Perimeter gap", required=True, width=34,
        ),
        Column(
            "Value", Kind.SETTING,
            "The value for this job. Empty means the default in the Guidance. "
            "A length may be typed with its unit, such as 6 mm or 1/4 in.",
            "6", "1/4", default="the setting's default", width=30, live=True,
        ),
        Column(
            "Unit", Kind.TEXT, "Unit of a plain number in Value; a typed unit always wins.",
            "mm", "in", default="the setting's usual unit", width=10,
        ),
        Column("Guidance", Kind.TEXT, "What the setting does, and its default.", width=64),
        Column("Source", Kind.TEXT, "Where the default comes from.", width=40),
    ),
)  # fmt: skip

PHASES = Tab(
    key="Phases",
    table="InPhases",
    record="a stage of the block",
    purpose="Stages of the block that are delivered and built one after another; "
    "leave empty for a job in one go.",
    columns=(
        Column(
            "Phase", Kind.CODE, "Name of the stage, as used in Rooms.",
            "Floor 1", required=True, width=16,
        ),
        Column(
            "Start", Kind.DATE,
            "First day of work on site. Empty: orders carry no dates.",
            "2027-03-01", default="orders carry no dates", width=14,
        ),
        Column(
            "Deliver to", Kind.TEXT,
            "Where this stage's deliveries go. Empty: the site address of the Job.",
            "Larch Court, east gate", default="the Job's site address", width=36,
        ),
        Column("Note", Kind.TEXT, "Anything to remember; goes nowhere.", width=36),
    ),
)  # fmt: skip

"""Waste factors and Labour: what an office allows for breakage and for time."""

from sheetcalc.workbook.columns import Column, Kind, Tab
from sheetcalc.workbook.inputs import words

WASTE = Tab(
    key="Waste factors",
    table="InWaste",
    record="a waste factor",
    purpose="What is added for breakage and loss; the most specific row wins: line, finish and "
    "bond, then line and finish, then line and bond, then line.",
    columns=(
        Column(
            "Line", Kind.CHOICE, "Line of the takeoff.",
            "tile", required=True, choices=words.WASTE_LINES, width=22,
        ),
        Column(
            "Finish", Kind.CODE, "Only for this finish. Empty: all.",
            "Standard", "Stone", list_of="Finishes.Finish", default="all finishes", width=16,
        ),
        Column(
            "Bond", Kind.BOND, "Only for this bond. Empty: all.",
            "offset 1/3", choices=words.BONDS, default="all bonds", width=20,
        ),
        Column(
            "Counted by", Kind.CHOICE,
            "Only when the Job counts tiles this way. Empty: both.",
            "setting-out", choices=words.COUNTED_BY, default="both", width=14,
        ),
        Column(
            "Waste %", Kind.PERCENT, "What is added to the net quantity.",
            "5 %", required=True, low=0, high=1, usual_high=0.25, width=10, live=True,
        ),
        Column("Note", Kind.TEXT, "Why this much.", width=62),
    ),
)  # fmt: skip

LABOUR = Tab(
    key="Labour",
    table="InLabour",
    record="a task",
    purpose="Tasks of the crew, for the quote and the order of the work.",
    columns=(
        Column("Task", Kind.TEXT, "What is done.", "Lay floor tile", required=True, width=26),
        Column(
            "Basis", Kind.CHOICE, "What the hours are for.",
            "per area of tile", required=True, choices=words.LABOUR_BASES, width=24,
        ),
        Column(
            "Finish", Kind.CODE, "Only for this finish. Empty: all.",
            "Standard", "Stone", list_of="Finishes.Finish", default="all finishes", width=13,
        ),
        Column(
            "Surface", Kind.CHOICE, "Only for this surface. Empty: all.",
            "floor", choices=words.SURFACES, default="all surfaces", width=13,
        ),
        Column(
            "Hours per unit", Kind.NUMBER,
            "Hours for one of the Basis; areas count in the Job's unit of area.",
            "0.9", "0.085", required=True, low=0, high=1_000, unit="h", width=10, live=True,
        ),
        Column(
            "Hourly rate", Kind.MONEY, "Cost of an hour. Empty: quoted as to be priced.",
            "46.00", "62.00", low=0, high=10_000, default="to be priced", width=11, live=True,
        ),
        Column(
            "Day", Kind.COUNT, "Working day of the phase on which it is done. Empty: 1.",
            "3", low=1, high=365, default="1", width=8,
        ),
        Column(
            "Wait hours", Kind.NUMBER, "Drying or curing before the next task. Empty: none.",
            "24", low=0, high=2_000, usual_high=672, default="0", unit="h", width=11,
        ),
        Column(
            "Uses", Kind.CHOICES,
            "Lines of the takeoff whose goods it needs, with commas; they are needed on site on "
            "its Day. Goods that no task names are needed on day 1.",
            "tile, mortar", choices=words.GOODS_LINES, default="none", width=28,
        ),
        Column("Note", Kind.TEXT, "Anything to remember.", width=32),
    ),
)  # fmt: skip

"""What a tab and a column of the workbook are: the vocabulary of the declaration."""

from collections.abc import Mapping
from enum import StrEnum

from msgspec import Struct, field
from msgspec.structs import force_setattr


class Kind(StrEnum):
    """Kinds of cell."""

    TEXT = "text"
    CODE = "code"  # names and codes: text-formatted, so that room 2.10 stays 2.10
    ROOM_LENGTH = "room length"  # plain numbers in the Job's unit for room lengths
    SMALL_LENGTH = "small length"  # tiles, joints, notches, depths, clearances
    LONG_LENGTH = "long length"  # rolls, cables
    AREA = "area"
    VOLUME = "volume"
    MASS = "mass"
    NUMBER = "number"
    TEMPERATURE = "temperature"  # on the scale beside it
    COUNT = "count"  # whole number
    CHOICE = "choice"
    MONEY = "money"
    PERCENT = "percent"
    YES_NO = "yes/no"
    DATE = "date"
    NOTCH = "notch"
    BOND = "bond"
    RUN = "run"
    TURN = "turn"  # left, right, straight, or degrees
    FILL = "volume per area"  # plain numbers in the Job's volume unit per its area unit
    NUMBERS = "numbers"  # several numbers, separated by commas or semicolons
    CHOICES = "choices in order"  # several of the choices, separated by commas, in order
    SETTING = "setting"  # the Job tab's Value: its kind is that of the row's setting
    RESULT = "result"  # written by the tool


class Tells(StrEnum):
    """How the records of a result column are made of words."""

    LABELS = "labels"  # each as a whole, such as 'whole job'; what people typed stays
    NAMES = "names"  # put together from terms: surfaces, sides
    SENTENCES = "sentences"


LENGTH_KINDS = frozenset({Kind.ROOM_LENGTH, Kind.SMALL_LENGTH, Kind.LONG_LENGTH})


class Column(Struct, frozen=True):
    """One column of a tab.

    Attributes
    ----------
    header
        As in the sheet, without the unit in brackets.
    kind
        What a cell holds.
    help
        One line for the input message and the README (at most 255 characters).
    example
        As a person would type it, metric.
    example_us
        The same for US work; ``example`` where None.
    required
        A row without it is an error.
    low, high
        Bounds; lengths in mm, areas in m2, volumes in m3, masses in kg, volume per area in
        m3/m2, money and counts as they are, percent as a share.  A value outside is an error.
    usual_low, usual_high
        Usual range in the same unit; a value outside is a warning.
    choices
        The only allowed words of a CHOICE; suggestions in a drop-down for every other kind.
    list_of
        ``Tab.Header`` whose values are the choices (a reference), such as ``Tiles.Code``.
    several
        It takes several names of that list, with commas; the reader of its tab checks them.
    default
        What an empty optional cell means: the very value where it is one, else words.
    unit
        Fixed unit shown in brackets where the kind has none from the Job (``Ω``, ``h``).
    width
        Column width [characters].
    live
        Result formulas read it by key, so that changing it updates results in place.
    typed
        On a result tab: people type here, and it is carried over.
    tells
        On a result tab: its records are put into the office's words; nothing looks them up.
    """

    header: str
    kind: Kind
    help: str
    example: str = ""
    example_us: str | None = None
    required: bool = False
    low: float | None = None
    high: float | None = None
    usual_low: float | None = None
    usual_high: float | None = None
    choices: tuple[str, ...] = ()
    list_of: str = ""
    several: bool = False
    default: str = ""
    unit: str = ""
    width: float = 12
    live: bool = False
    typed: bool = False
    tells: Tells | None = None


class Tab(Struct, frozen=True):
    """One tab of the workbook.

    Attributes
    ----------
    key
        Sheet name as generated, and its name in findings.
    table
        Name of the table object.
    purpose
        The one sentence in A2.
    columns
        In the order generated; the reader takes them in any order.
    needed
        The tab must be there and have records.
    result
        Written by the tool, rebuilt at every run.
    record
        What one row is ("a bathroom, or several alike"), for the README.
    printed_to
        Header of the last column that is printed; "" for all.  What is left out is what the
        person with the sheet of paper does without, so that the rest is large enough to read.
    """

    key: str
    table: str
    purpose: str
    columns: tuple[Column, ...]
    needed: bool = False
    result: bool = False
    record: str = ""
    printed_to: str = ""
    by_header: Mapping[str, Column] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Index the columns by header."""
        force_setattr(self, "by_header", {c.header: c for c in self.columns})

    @property
    def printed_columns(self) -> int | None:
        """How many columns are printed, from the left; None for all."""
        return [*self.by_header].index(self.printed_to) + 1 if self.printed_to else None


HEADER_ROW = 4
"""Sheet row of every table's header (1-based); A1 title, A2 purpose, A3 signature or hint."""

"""Heating cables as planned: rows, and all that the tabs say of a cable."""

from msgspec import Struct

from sheetcalc.domain.finding import IN_ROOMS, RowRef


class CableRow(Struct, frozen=True):
    """One row of a laid cable, in the order of laying, for the fitter's list.

    Attributes
    ----------
    number
        From the start at the thermostat.
    offset_m
        Distance of the row from the room's near wall (or left wall, where rows run along it) [m].
    length_m
        Cable used by the row and the turn after it [m].
    running_m
        Cable used from the start to the end of that turn [m].
    skip
        Knobs from this row to the next; 0 where the spacing is free.
    to_next_m
        Distance to the next row [m].
    """

    number: int
    offset_m: float
    length_m: float
    running_m: float
    skip: int = 0
    to_next_m: float = 0.0


class OnCircuit(Struct, frozen=True):
    """The circuit that one room's cables hang on.

    Attributes
    ----------
    name
        Of the circuit; ``H1``, ``H2``…
    load_amperes
        Load of everything on it, other rooms' too [A].
    size_amperes
        Standard size for 125 % of that [A]; 0 where none is enough.
    """

    name: str
    load_amperes: float
    size_amperes: float


class CablePlan(Struct, frozen=True):
    """One cable in one zone of one room, and the circuit it hangs on.

    Attributes
    ----------
    spacing_m
        Mean spacing: free floor by length.
    planned_m
        Length of the drawn path.
    density_w_m2
        Power by free floor.
    circuit_amperes
        Standard size for 125 % of the load of everything on the circuit; 0 where none is enough.
        Where alike rooms hang on several circuits, that of the largest.
    thermostat_share
        Load of everything on the thermostat by its rating.
    path
        Corners of the drawn path in the room's frame, corners not yet rounded [m].
    rows_list, check_lengths_m
        For the fitter: every row, and two places (row, running length) to check on the way.
    sensor
        Where the sensor lies, midway between two runs [m].
    unheated_share
        Share of the free floor farther than half the widest spacing from the cable.
    lead_needed_m
        Length of cold lead from the splice to the thermostat [m]; None where unknown.
    circuits
        Circuit of each of the alike rooms, in the order of ``copies``; empty until assigned.
    circuits_begun
        Circuits whose first load is this one, over all alike rooms; None: one for each room.
    load_amperes
        Load of everything of the room on the same thermostat; 0 where it is this cable alone.
    tolerance_rows
        First and last of the rows that can take up what the cable's own length differs by.
    """

    room: str
    copies: tuple[str, ...]
    phase: str
    zone: str
    surface: str
    cable: str
    watts: float
    volts: float
    length_m: float
    spacing_m: float
    rows: int
    planned_m: float
    free_area_m2: float
    density_w_m2: float
    amperes: float
    resistance_ohm: float
    resistance_low_ohm: float
    resistance_high_ohm: float
    circuit: str
    circuit_amperes: float
    thermostat: str
    basis: str
    path: tuple[tuple[float, float], ...] = ()
    source: RowRef = IN_ROOMS
    thermostat_share: float = 0.0
    rows_along: str = ""  # "length" or "width" of the room
    rows_list: tuple[CableRow, ...] = ()
    check_lengths_m: tuple[tuple[int, float], ...] = ()
    sensor: tuple[float, float] | None = None
    spacing_words: str = ""
    unheated_share: float = 0.0
    unheated_m2: float = 0.0
    lead_needed_m: float | None = None
    lead_m: float | None = None
    lead_path: tuple[tuple[float, float], ...] = ()
    leads: str = "both ends"
    temperature_coefficient_per_k: float | None = None
    length_tolerance: float | None = None
    warm_up_minutes: float | None = None
    kwh_a_day: float | None = None
    circuits: tuple[OnCircuit, ...] = ()
    circuits_begun: int | None = None
    load_amperes: float = 0.0
    tolerance_rows: tuple[int, int] | None = None

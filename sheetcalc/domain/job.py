"""The job: every setting of the Job tab, typed, with its default for metric work.

Labels, units, guidance and sources of the settings are declared in ``workbook.settings``; field
names here are the keys there.
"""

from datetime import date

from msgspec import Struct

from sheetcalc.domain.measure import JobUnits

_METRIC = JobUnits()


class Job(Struct, frozen=True):
    """Settings of a job.  Shares are fractions (0.33 for 33 %), lengths are 1/320 mm."""

    units: JobUnits = _METRIC
    # what the job is
    name: str = ""
    client: str = ""
    site_address: str = ""
    buyer: str = ""
    currency: str = "EUR"
    order_prefix: str = "PO"
    quote_date: date | None = None
    quote_valid_days: int = 30
    tax: float = 0.0
    overhead: float = 0.10
    profit: float = 0.10
    contingency: float = 0.05
    year_built: int | None = None
    # tiling
    perimeter_gap_mm320: int = 6 * 320
    smallest_cut_share: float = 0.5
    aims: str = "no sliver, fewest small cuts, balance, fewest cuts, fewest tiles"
    kerf_mm320: int = 3 * 320
    offcuts: str = "same room"
    counted_by: str = "setting-out"
    tile_under_cabinets: bool = False
    spare_tiles_share: float = 0.05
    movement_joint_spacing_mm320: int = 7620 * 320
    exposure: str = "interior"
    # mortar, grout, sealant
    trowel_angle_deg: float = 45.0
    skim_mm320: int = 1 * 320
    mortar_wet_density_kg_m3: float = 1650.0
    mortar_water_ratio: float = 0.22
    grout_depth_mm320: int | None = None  # None: the tile's thickness
    grout_dry_density_kg_m3: float = 1600.0
    bead_joint_width_mm320: int = 6 * 320
    bead_joint_depth_mm320: int = 6 * 320
    bead_fillet_mm320: int = 6 * 320
    # waterproofing
    wet_wall_height_mm320: int = 1800 * 320
    upturn_mm320: int = 150 * 320
    band_width_mm320: int = 125 * 320
    shower_slope: float = 0.02
    # heating
    clearance_wall_mm320: int = 76 * 320
    clearance_cabinet_mm320: int = 50 * 320
    clearance_outlet_mm320: int = 50 * 320
    clearance_drain_mm320: int = 150 * 320
    target_density_w_m2: float = 130.0
    highest_density_w_m2: float = 161.0
    supply_volts: float = 230.0
    circuit_amperes: tuple[float, ...] = (10.0, 16.0, 20.0, 32.0)
    continuous_factor: float = 1.25
    thermostat_amperes: float = 16.0
    resistance_below: float = 0.05
    resistance_above: float = 0.10
    rooms_per_circuit: str = "one each"
    shower_circuit: str = "with the room"
    reading_temperature_c: float = 20.0
    energy_price: float | None = None  # of a kilowatt-hour; None: no running cost is shown
    heating_hours: float = 24.0
    heating_duty: float = 0.4
    # block
    misclosure_tolerance_mm320: int = 20 * 320
    useful_leftover_mm320: int = 1000 * 320
    rolls_shared: str = "whole phase"
    lined_up: str = "as the roll says"
    long_strips: str = "join"
    roll_solver: bool = False
    source_choice: str = "first"
    deliveries: str = "each phase"
    pallet_mass_kg: float = 1000.0
    skip_size_m3: float = 6.0
    backups_kept: int = 10

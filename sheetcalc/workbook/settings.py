"""The settings of the Job tab: one for every field of the domain's ``Job`` and ``JobUnits``.

A setting's key is the field's name; those of the units are ``units.room_length`` and so on.
"""

from collections.abc import Mapping

from sheetcalc.workbook.columns import Kind
from sheetcalc.workbook.inputs.words import DELIVERIES
from sheetcalc.workbook.setting import OFFICE, PRACTICE, Setting, SettingValue
from sheetcalc.workbook.settings_heating import HEATING_SETTINGS

__all__ = ["SETTINGS", "SETTING_BY_KEY", "SETTING_BY_LABEL", "Setting", "SettingValue"]

AIMS = ("no sliver", "fewest small cuts", "balance", "fewest cuts", "fewest tiles")
OFFCUTS = ("none", "same room", "whole job")
EXPOSURES = ("interior", "sun or moisture", "above-ground slab", "exterior")
_LB_FT3 = 0.45359237 / 0.3048**3
_YD3 = 0.9144**3
_DENSITY = {"kg/m³": 1.0, "lb/ft³": _LB_FT3}

_UNITS = (
    Setting(
        "units.room_length", "Unit of room lengths", Kind.CHOICE, "m", "ft",
        "What a plain number means in Rooms, Floor pieces, Wall legs and Wall faces. The headers "
        "there show it too.",
        OFFICE, choices=("m", "mm", "in", "ft"), group="Units", required=True,
    ),
    Setting(
        "units.small_length", "Unit of small lengths", Kind.CHOICE, "mm", "in",
        "What a plain number means for tiles, joints, notches, depths and clearances.",
        OFFICE, choices=("mm", "in"), group="Units", required=True,
    ),
    Setting(
        "units.long_length", "Unit of long lengths", Kind.CHOICE, "m", "ft",
        "What a plain number means for rolls and cables.",
        OFFICE, choices=("m", "ft"), group="Units", required=True,
    ),
    Setting(
        "units.area", "Unit of area", Kind.CHOICE, "m²", "ft²",
        "For coverage, rates and prices by area, and for the results.",
        OFFICE, choices=("m²", "ft²"), group="Units", required=True,
    ),
    Setting(
        "units.volume", "Unit of volume", Kind.CHOICE, "L", "US gal",
        "For what a bag or pail yields, and for the results.",
        OFFICE, choices=("L", "m³", "US gal", "ft³"), group="Units", required=True,
    ),
    Setting(
        "units.mass", "Unit of mass", Kind.CHOICE, "kg", "lb",
        "For weights of packs, and for the results.",
        OFFICE, choices=("kg", "lb"), group="Units", required=True,
    ),
)  # fmt: skip

_JOB = (
    Setting(
        "name", "Job name", Kind.TEXT, None, None, "Stands on orders and the quote.", OFFICE,
        group="Job",
    ),
    Setting(
        "client", "Client", Kind.TEXT, None, None, "Who the quote is for.", OFFICE, group="Job",
    ),
    Setting(
        "site_address", "Site address", Kind.TEXT, None, None,
        "Where deliveries go, unless a phase says otherwise.", OFFICE, group="Job",
    ),
    Setting(
        "buyer", "Buyer", Kind.TEXT, None, None, "Your firm, as it stands on orders.", OFFICE,
        group="Job",
    ),
    Setting(
        "currency", "Currency", Kind.TEXT, "EUR", "USD",
        "Of every price in this workbook; one currency a workbook.", OFFICE, group="Job",
    ),
    Setting(
        "order_prefix", "Order number prefix", Kind.TEXT, "PO", "PO",
        "Order numbers begin with it. Default: PO.", OFFICE, group="Job",
    ),
    Setting(
        "quote_date", "Quote date", Kind.DATE, None, None, "Empty: the quote carries no date.",
        OFFICE, group="Job",
    ),
    Setting(
        "quote_valid_days", "Quote valid for", Kind.COUNT, 30, 30,
        "Days that the quote stands. Default: 30.", OFFICE, 1, 3650, units={"days": 1.0},
        group="Job",
    ),
    Setting(
        "tax", "Tax", Kind.PERCENT, 0.0, 0.0,
        "On orders and the quote; a supplier's own tax wins on its orders. Default: 0 %.",
        OFFICE, 0, 1, group="Job", live=True,
        usual=(None, 0.3),
    ),
    Setting(
        "overhead", "Overhead", Kind.PERCENT, 0.10, 0.10, "On cost, in the quote. Default: 10 %.",
        OFFICE, 0, 1, group="Job", live=True,
        usual=(None, 0.5),
    ),
    Setting(
        "profit", "Profit", Kind.PERCENT, 0.10, 0.10,
        "On cost and overhead, in the quote. Default: 10 %.", OFFICE, 0, 1, group="Job", live=True,
        usual=(None, 0.5),
    ),
    Setting(
        "contingency", "Contingency", Kind.PERCENT, 0.05, 0.05,
        "On cost, overhead and profit, in the quote. Default: 5 %.", OFFICE, 0, 1, group="Job",
        live=True,
        usual=(None, 0.3),
    ),
    Setting(
        "year_built", "Year built", Kind.COUNT, None, None,
        "Of the building. Up to 1980 resilient flooring, mastic and backing are presumed to hold "
        "asbestos. Empty: not known, asked for where a floor is taken up.",
        "29 CFR 1926.1101, as summarised in trade training papers (read second-hand)", 1000, 2200,
        group="Job",
    ),
)  # fmt: skip

_TILING = (
    Setting(
        "perimeter_gap_mm320", "Perimeter gap", Kind.SMALL_LENGTH, 6, 0.25,
        "Left free between tile and walls; outside corners and trim take half a joint. Default: "
        "6 mm (1/4 in).",
        PRACTICE, 0, 50,
        group="Tiling",
        usual=(3, 20),
    ),
    Setting(
        "smallest_cut_share", "Smallest cut", Kind.PERCENT, 0.5, 0.5,
        "Smallest cut piece, as a share of the tile. Default: 50 %.",
        "ANSI A108.02-4.3.2, as quoted in fcimag.com and floortrendsmag.com", 0, 1, group="Tiling",
    ),
    Setting(
        "aims", "Aims of the setting-out", Kind.CHOICES, ", ".join(AIMS), ", ".join(AIMS),
        "What is weighed first, second and so on when the start of the tiling is chosen.",
        PRACTICE, choices=AIMS, group="Tiling",
    ),
    Setting(
        "kerf_mm320", "Saw kerf", Kind.SMALL_LENGTH, 3, 0.125,
        "What a cut takes from a tile. Default: 3 mm (1/8 in).", PRACTICE, 0, 10, group="Tiling",
        usual=(1, 6),
    ),
    Setting(
        "offcuts", "Offcuts used again", Kind.CHOICE, "same room", "same room",
        "none, in the same room, or all over the job. Default: same room.", PRACTICE,
        choices=OFFCUTS, group="Tiling",
    ),
    Setting(
        "counted_by", "Tiles counted by", Kind.CHOICE, "setting-out", "setting-out",
        "setting-out counts every whole and cut tile; area divides by the tile with its joint, "
        "and needs a larger waste factor. Default: setting-out.",
        PRACTICE, choices=("setting-out", "area"), group="Tiling",
    ),
    Setting(
        "tile_under_cabinets", "Tile under cabinets", Kind.YES_NO, "no", "no",
        "Whether the floor is tiled under cabinets. Default: no.", PRACTICE, choices=("yes", "no"),
        group="Tiling",
    ),
    Setting(
        "spare_tiles_share", "Spare tiles", Kind.PERCENT, 0.05, 0.05,
        "Left with the client, on net; a line of its own. Default: 5 %.",
        "attic stock of 5 % often called for: TileLetter Nov 2016", 0, 1, group="Tiling",
        usual=(None, 0.25),
    ),
    Setting(
        "movement_joint_spacing_mm320", "Movement joint spacing", Kind.ROOM_LENGTH, 7.62, 25,
        "Longest distance between movement joints. Default: 7.62 m (25 ft) indoors; with sun, "
        "moisture or an above-ground slab 3.66 m (12 ft).",
        "TCNA EJ171, as quoted in TileLetter Aug 2018", 1000, 20_000, group="Tiling",
    ),
    Setting(
        "exposure", "Exposure", Kind.CHOICE, "interior", "interior",
        "What the tiled floor is exposed to; decides which movement joint spacing is asked for. "
        "Default: interior.",
        "TCNA EJ171, as quoted in TileLetter Aug 2018", choices=EXPOSURES, group="Tiling",
    ),
)  # fmt: skip

_MORTAR = (
    Setting(
        "trowel_angle_deg", "Trowel angle", Kind.NUMBER, 45, 45,
        "Angle of the notched trowel to the surface, where Finishes gives none. Default: 45°.",
        PRACTICE, 20, 90, units={"°": 1.0}, group="Mortar and grout",
    ),
    Setting(
        "skim_mm320", "Skim on the tile's back", Kind.SMALL_LENGTH, 1, 0.0625,
        "Back-buttering, where Finishes gives none; 0 for none. Default: 1 mm (1/16 in).",
        PRACTICE, 0, 20, group="Mortar and grout",
        usual=(0.5, 6),
    ),
    Setting(
        "mortar_wet_density_kg_m3", "Wet density of mortar", Kind.NUMBER, 1650, 103,
        "For bags without a Yield; read it from the bag. Usual 1500 to 1800 kg/m³ (94 to "
        "112 lb/ft³). Default: 1650 kg/m³ (103 lb/ft³).",
        PRACTICE, 500, 3000, units=_DENSITY, group="Mortar and grout",
    ),
    Setting(
        "mortar_water_ratio", "Water to mortar powder", Kind.NUMBER, 0.22, 0.22,
        "By mass, for bags without a Yield; read it from the bag. Usual 0.20 to 0.28. Default: "
        "0.22.",
        PRACTICE, 0.05, 0.8, group="Mortar and grout",
    ),
    Setting(
        "grout_depth_mm320", "Depth of grout", Kind.SMALL_LENGTH, None, None,
        "How deep the joints are filled. Empty: the tile's thickness.", PRACTICE, 1, 100,
        group="Mortar and grout",
        usual=(3, 30),
    ),
    Setting(
        "grout_dry_density_kg_m3", "Dry grout in a filled joint", Kind.NUMBER, 1600, 100,
        "Powder for a volume of joint, for bags without a Yield. Usual 1500 to 1800 kg/m³ (94 "
        "to 112 lb/ft³). Default: 1600 kg/m³ (100 lb/ft³).",
        PRACTICE, 500, 3000, units=_DENSITY, group="Mortar and grout",
    ),
    Setting(
        "bead_joint_width_mm320", "Sealant joint, width", Kind.SMALL_LENGTH, 6, 0.25,
        "Of movement joints and changes of plane. Default: 6 mm (1/4 in).",
        "architectural detailing text, northernarchitecture.us (not narrower than 1/4 in)", 1, 50,
        group="Mortar and grout",
        usual=(3, 20),
    ),
    Setting(
        "bead_joint_depth_mm320", "Sealant joint, depth", Kind.SMALL_LENGTH, 6, 0.25,
        "Half the width, not less than 6 mm (1/4 in). Default: 6 mm (1/4 in).",
        "architectural detailing text, northernarchitecture.us", 1, 50, group="Mortar and grout",
        usual=(3, 20),
    ),
    Setting(
        "bead_fillet_mm320", "Sealant fillet, leg", Kind.SMALL_LENGTH, 6, 0.25,
        "Of the three-cornered bead round baths, trays, cabinets and pipes. Default: 6 mm (1/4 "
        "in).", PRACTICE, 1, 50, group="Mortar and grout",
        usual=(3, 20),
    ),
)  # fmt: skip

_WATERPROOFING = (
    Setting(
        "wet_wall_height_mm320", "Waterproofing on shower walls", Kind.ROOM_LENGTH, 1.8, 6,
        "Height above the floor. Default: 1.8 m (6 ft).",
        "1.8 m: ABCB Housing Provisions SA 10.2.2 (summary page); 6 ft: IRC R307.2, figure from "
        "memory, not verified",
        0, 5000, group="Waterproofing",
        usual=(900, 3000),
    ),
    Setting(
        "upturn_mm320", "Waterproofing upturn", Kind.SMALL_LENGTH, 150, 6,
        "Up other walls beside a wet floor. Default: 150 mm (6 in).",
        "150 mm: NCC 2022 / AS 3740 notes page (single weak source)", 0, 3000,
        group="Waterproofing",
        usual=(50, 300),
    ),
    Setting(
        "band_width_mm320", "Width of band", Kind.SMALL_LENGTH, 125, 5,
        "Where a band is cut from a sheet, or none is named. Default: 125 mm (5 in).", PRACTICE, 20,
        1000, group="Waterproofing",
        usual=(60, 300),
    ),
    Setting(
        "shower_slope", "Slope of shower floors", Kind.PERCENT, 0.02, 0.02,
        "Fall to the drain. 2 % is 1/4 in per ft; not less than 2 %, not more than 4 %. "
        "Default: 2 %.",
        "IRC 2009 P2709.1, as quoted in The Building Code Forum", 0, 0.1, group="Waterproofing",
    ),
)  # fmt: skip

_BLOCK = (
    Setting(
        "misclosure_tolerance_mm320", "Misclosure tolerance", Kind.SMALL_LENGTH, 20, 0.75,
        "A walk of Wall legs that misses its start by no more is closed in proportion. Default: "
        "20 mm (3/4 in).", PRACTICE, 0, 500, group="Block and ordering",
        usual=(1, 100),
    ),
    Setting(
        "useful_leftover_mm320", "Smallest useful leftover", Kind.LONG_LENGTH, 1, 3,
        "A shorter rest of a roll is not kept for the next phase. Default: 1 m (3 ft).",
        PRACTICE, 0, 50_000, group="Block and ordering",
    ),
    Setting(
        "rolls_shared", "Rolls shared by", Kind.CHOICE, "whole phase", "whole phase",
        "'whole phase' cuts rolls across its rooms; 'each room' starts a roll for every room. "
        "Default: whole phase.", PRACTICE, choices=("whole phase", "each room"),
        group="Block and ordering",
    ),
    Setting(
        "lined_up", "Knobs or print lining up", Kind.CHOICE, "as the roll says",
        "as the roll says",
        "'as the roll says' goes by One way in Rolls and sheets; 'all rolls' and 'no rolls' "
        "overrule it. Strips then run one way and begin at whole knob pitches. Default: as the "
        "roll says.", PRACTICE,
        choices=("as the roll says", "all rolls", "no rolls"), group="Block and ordering",
    ),
    Setting(
        "long_strips", "Strips longer than the roll", Kind.CHOICE, "join", "join",
        "'join' lays them in parts that lap, with a warning; 'refuse' makes them an error. "
        "Default: join.", PRACTICE, choices=("join", "refuse"), group="Block and ordering",
    ),
    Setting(
        "roll_solver", "Solver for roll plans", Kind.YES_NO, "no", "no",
        "yes: bounds by linear programming, and plans above them tried again; needs the optional "
        "solver, and time. Default: no.", OFFICE, group="Block and ordering",
    ),
    Setting(
        "source_choice", "Source of a code with two suppliers", Kind.CHOICE, "first", "first",
        "The first row of the catalogue, or the cheapest. Default: first.", OFFICE,
        choices=("first", "cheapest"), group="Block and ordering",
    ),
    Setting(
        "deliveries", "Deliveries", Kind.CHOICE, "each phase", "each phase",
        "'each phase': an order and a delivery for a supplier and phase. 'each day': these "
        "orders, delivered on each day that something is needed. 'all at once': one order and "
        "delivery for the whole job. A supplier's own wins. Default: each phase.",
        OFFICE, choices=DELIVERIES, group="Block and ordering",
    ),
    Setting(
        "pallet_mass_kg", "Largest load of a pallet", Kind.NUMBER, 1000, 2200,
        "Goods on one pallet; pallets of a delivery are counted by it. Default: 1000 kg "
        "(2200 lb).", PRACTICE, 50, 5000, units={"kg": 1.0, "lb": 0.45359237},
        group="Block and ordering",
    ),
    Setting(
        "skip_size_m3", "Skip size", Kind.NUMBER, 6, 8,
        "Container (skip, dumpster) for what is taken up. Default: 6 m³ (8 yd³).", PRACTICE,
        0.1, 100, units={"m³": 1.0, "yd³": _YD3}, group="Block and ordering",
    ),
    Setting(
        "backups_kept", "Backups kept", Kind.COUNT, 10, 10,
        "How many dated copies of this workbook are kept beside it. Default: 10.", OFFICE, 1, 1000,
        group="Block and ordering",
    ),
)  # fmt: skip

SETTINGS: tuple[Setting, ...] = (
    *_UNITS, *_JOB, *_TILING, *_MORTAR, *_WATERPROOFING, *HEATING_SETTINGS, *_BLOCK,
)  # fmt: skip
"""Every setting, in the order of the Job tab."""

SETTING_BY_LABEL: Mapping[str, Setting] = {setting.label: setting for setting in SETTINGS}
SETTING_BY_KEY: Mapping[str, Setting] = {setting.key: setting for setting in SETTINGS}

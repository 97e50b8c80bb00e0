"""Wrong workbooks for the findings on tile, layers, what is bought, and cautions."""

from gallery import Edit, Said, Wrong, cell, record, setting
from gallery import wrong as entry

from sheetcalc.domain.measure import Length


def wrong(code: str, place: str, *edits: Edit) -> Wrong:
    """Make an entry whose finding comes with the calculation."""
    return entry(code, place, *edits, calculated=True)


def layer(role: str, item: str, surface: str = "floor", **values: object) -> Edit:
    """Add a layer to the finish."""
    order = values.pop("Order", 1)
    return record(
        "Build-up", Finish="Plain", Surface=surface, Order=order, Role=role, Item=item, **values
    )


def bag(code: str, kind: str, unit: str = "kg", **values: object) -> Edit:
    """Add a row of Bags and pails."""
    return record(
        "Bags and pails",
        Code=code,
        Description=code,
        Kind=kind,
        Pack_size=20,
        Pack_unit=unit,
        **values,
    )


def roll(code: str, kind: str, **values: object) -> Edit:
    """Add a row of Rolls and sheets."""
    return record(
        "Rolls and sheets",
        **({"Code": code, "Description": code, "Kind": kind, "Width": 1, "Length": 10} | values),
    )


def piece(name: str, kind: str, **values: object) -> Edit:
    """Add a floor piece."""
    return record("Floor pieces", Room="Cloakroom", Piece=name, Kind=kind, **values)


def tile(**values: object) -> tuple[Edit, ...]:
    """Change the tile."""
    return tuple(cell("Tiles", header.replace("_", " "), v) for header, v in values.items())


SHOWER = (
    piece("Shower", "shower floor", Left=0.9, Front=0.3, Length=0.9, Width=0.9),
    piece("Gully", "drain", Left=1.35, Front=0.75, Diameter=100),
    record(
        "Finishes",
        Finish="Plain",
        Surface="shower floor",
        Tile="T-3030",
        Joint=3,
        Trowel_notch="square 8 x 8 x 8 mm",
        Mortar="C-FLEX",
        Grout="G-GREY",
        Sealant="S-GREY",
    ),
)
NO_MORTAR = cell("Finishes", "Mortar", None)

ITEMS: tuple[Wrong, ...] = (
    wrong("ITEM-NOT-IN-CATALOGUE", "Build-up!E5", layer("underlay", "U-1")),
    wrong("ITEM-OF-ANOTHER-KIND", "Finishes!J5", cell("Finishes", "Mortar", "G-GREY")),
    wrong("ITEM-NOT-NAMED-ONE-TAKEN", "Finishes!J5", NO_MORTAR),
    wrong("ITEM-NOT-NAMED-SEVERAL", "Finishes!J5", NO_MORTAR, bag("C-RAPID", "mortar", Yield=14)),
    wrong(
        "ITEM-NOT-NAMED-NOT-ORDERED",
        "Finishes!L5",
        cell("Finishes", "Sealant", None),
        cell("Bags and pails", "Kind", "primer", 7),
    ),
    wrong(
        "BAG-WITHOUT-YIELD",
        "Bags and pails!I8",
        bag("L-1", "levelling compound"),
        layer("levelling compound", "L-1", Mean_depth=5),
    ),
    wrong(
        "BAG-WITHOUT-COVERAGE", "Bags and pails!J8", bag("P-1", "primer"), layer("primer", "P-1")
    ),
    wrong(
        "SUNDRY-OF-NOTHING",
        "Sundries!F5",
        record(
            "Sundries",
            Code="Z-1",
            Description="Additive",
            Basis="per kg of another item",
            Rate=0.2,
            Pack_size=5,
        ),
    ),
    wrong(
        "RATE-SHORT-OF-LENGTH",
        "Sundries!G5",
        record(
            "Sundries",
            Code="Z-1",
            Description="Edge trim",
            Basis="per m of open tile edge",
            Rate=1,
            Pack_size=8,
            Pack_unit="ft",
        ),
    ),
    wrong(
        "WET-AREA-LEFT-OUT",
        "Sundries!I5",
        *(
            record(
                "Finishes",
                Finish="Plain",
                Surface=surface,
                Tile="T-3030",
                Joint=3,
                Trowel_notch="square 8 x 8 x 8 mm",
                Skim=2,
            )
            for surface in ("wall", "wet area")
        ),
        *(
            record("Wall faces", Room="Cloakroom", Wall="far", Part=part, Length=size, Height=2)
            for part, size in (("face", 1.8), ("wet area", 0.9))
        ),
        record(
            "Sundries",
            Code="Z-1",
            Description="Spacers",
            Basis="per joint crossing",
            Rate=1,
            Surface="wall",
            Pack_size=500,
        ),
    ),
    wrong(
        "SUNDRY-OF-UNKNOWN",
        "Sundries!F5",
        record(
            "Sundries",
            Code="Z-1",
            Description="Additive",
            Basis="per kg of another item",
            Of="C-FLEXI",
            Rate=0.2,
            Pack_size=5,
        ),
    ),
)

BEDS: tuple[Wrong, ...] = (
    wrong("NOTCH-MISSING", "Finishes!G5", cell("Finishes", "Trowel notch", None)),
    wrong("NOTCH-UNWORKABLE", "Finishes!G5", cell("Finishes", "Trowel notch", "U 12 x 3 x 12 mm")),
    wrong(
        "BED-TOO-THIN",
        "Finishes!G5",
        cell("Finishes", "Trowel notch", "V 4 x 3 x 3 mm"),
        cell("Finishes", "Skim", 0),
    ),
    wrong(
        "CONTACT-WITHOUT-SKIM",
        "Finishes!I5",
        *tile(Length=600, Material="natural stone"),
        cell("Finishes", "Skim", 0),
    ),
    wrong("CONTACT-TO-CHECK", "Finishes!I5", *tile(Material="natural stone")),
    wrong(
        "BED-WITHOUT-NOTCH",
        "Build-up!G5",
        roll("U-1", "underlay roll"),
        layer("underlay", "U-1", Bed_mortar="C-FLEX"),
    ),
    wrong(
        "BED-NOT-COUNTED",
        "Build-up!F5",
        bag("L-1", "levelling compound"),
        layer(
            "levelling compound",
            "L-1",
            Mean_depth=5,
            Bed_mortar="C-FLEX",
            Trowel_notch="square 6 x 6 x 6 mm",
        ),
    ),
    wrong(
        "KNOBS-WITHOUT-FILL",
        "Rolls and sheets!K5",
        roll("U-1", "underlay roll", Knob_pitch=30),
        layer("underlay", "U-1"),
    ),
    wrong(
        "DEPTH-MISSING",
        "Build-up!H5",
        bag("L-1", "levelling compound"),
        layer("levelling compound", "L-1"),
    ),
)

LAYERS: tuple[Wrong, ...] = (
    wrong("SHOWER-NOT-WATERPROOFED", "Finishes!B6", *SHOWER),
    wrong(
        "BAND-MISSING",
        "Build-up!D5",
        *SHOWER,
        roll("W-1", "waterproofing sheet"),
        layer("waterproofing", "W-1", "shower floor"),
    ),
    wrong(
        "BANDS-DIFFER",
        "Build-up!E6",
        roll("W-1", "waterproofing sheet"),
        roll("B-1", "band", Width=0.12),
        roll("B-2", "band", Width=0.15),
        layer("waterproofing", "W-1"),
        layer("band", "B-1", Order=2),
        layer("band", "B-2", Order=3),
    ),
    wrong(
        "BAND-WIDER-THAN-SHEET",
        "Build-up!E6",
        *SHOWER,
        roll("W-1", "waterproofing sheet", Width=0.1),
        layer("waterproofing", "W-1", "shower floor"),
        layer("band", "W-1", "shower floor", Order=2),
    ),
    wrong("STONE-NOT-SEALED", "Finishes!M5", *tile(Material="natural stone")),
    wrong("TAKE-UP-WITHOUT-THICKNESS", "Rooms!K5", cell("Rooms", "Take up", "tile")),
    wrong(
        "STEP-AT-DOORWAY",
        "Floor pieces!B5",
        piece("Door", "doorway", Wall="near", Left=0.5, Length=0.8),
        layer("screed", "C-FLEX", Mean_depth=60),
    ),
    wrong(
        "STRIP-JOINED",
        "Rolls and sheets!G5",
        roll("U-1", "underlay roll", Length=1.1),
        layer("underlay", "U-1"),
    ),
    wrong(
        "STRIP-LONGER-THAN-ROLL",
        "Rolls and sheets!G5",
        roll("U-1", "underlay roll", Length=1.1),
        layer("underlay", "U-1"),
        setting("Strips longer than the roll", "refuse"),
    ),
    wrong(
        "STOCK-WITHOUT-PRICE",
        "Rolls and sheets!N6",
        roll("U-1", "underlay roll", Price=90),
        roll("U-2", "underlay roll", Length=20),
        layer("underlay", "U-1; U-2"),
    ),
)

ALLOWANCES: tuple[Wrong, ...] = (
    wrong(
        "WASTE-FACTOR-TWICE",
        "Waste factors!A6",
        record("Waste factors", Line="grout", Waste_X=0.1),
        record("Waste factors", Line="grout", Waste_X=0.12),
    ),
    wrong(
        "ASBESTOS-PRESUMED",
        "Job",
        cell("Rooms", "Take up", "resilient flooring"),
        cell("Rooms", "Take up thickness", 5),
        setting("Year built", 1972),
    ),
    wrong(
        "YEAR-BUILT-NOT-SAID",
        "Job",
        cell("Rooms", "Take up", "resilient flooring"),
        cell("Rooms", "Take up thickness", 5),
    ),
    wrong("TWO-PERSON-LIFT", "Tiles!A5", *tile(Box_weight=41)),
    wrong("SAW-WITH-WATER", "Job"),
    wrong("FLATNESS-TO-PREPARE", "Finishes!C5"),
)

TILING: tuple[Wrong, ...] = (
    wrong("SMALL-CUTS", "Finishes!A5", cell("Finishes", "Bond", "offset 1/4")),
    wrong("SURFACE-SMALLER-THAN-TILE", "Finishes!A5", *tile(Length=2400, Width=1600)),
    wrong(
        "OFFSET-BEYOND-A-THIRD",
        "Finishes!D5",
        *tile(Length=600),
        cell("Finishes", "Bond", "offset 1/2"),
    ),
    wrong("JOINT-TOO-NARROW", "Finishes!F5", cell("Finishes", "Joint", 1)),
    wrong("LARGE-FORMAT-TILE", "Finishes!A5", *tile(Length=600, Width=600)),
    wrong(
        "MOVEMENT-JOINTS-NEEDED",
        "Finishes!A5",
        cell("Rooms", "Length", 20),
        cell("Rooms", "Width", 10),
    ),
    wrong("TILE-TOO-LARGE-FOR-FOUR-WAY-FALL", "Finishes!C6", *SHOWER),
    wrong(
        "THIN-NECK-AT-HOLE",
        "Finishes!A5",
        piece("Outlet", "toilet outlet", Left=0.97, Front=0.6, Diameter=110),
    ),
    wrong("MOSAIC-SHEET-DIFFERS", "Finishes!F5", *tile(Chip_length=48, Chip_width=48)),
    wrong(
        "WEAVE-DOES-NOT-CLOSE",
        "Finishes!D5",
        *tile(Length=602),
        cell("Finishes", "Bond", "basket weave"),
    ),
    wrong(
        "WEAVE-LEAVES-GAPS",
        "Finishes!D5",
        *tile(Length=500),
        cell("Finishes", "Bond", "basket weave"),
    ),
    wrong(
        "GAP-LEAVES-NO-TILE",
        "",
        record("Wall faces", Room="Cloakroom", Wall="far", Part="face", Length=1.8, Height=0.05),
        record("Finishes", Finish="Plain", Surface="wall", Tile="T-3030", Joint=3),
        setting("Perimeter gap", 50),
    ),
    wrong(
        "SETTING-OUT-TOO-LARGE",
        "Finishes!D5",
        cell("Rooms", "Length", 30),
        cell("Rooms", "Width", 30),
        *tile(Length=20, Width=10, Thickness=5),
        cell("Finishes", "Bond", "herringbone"),
    ),
)

UNREACHED: tuple[Said, ...] = (
    # Item is a required column of Build-up
    Said("ITEM-NOT-NAMED-NONE", {"what": "underlay", "surface": "floor", "finish": "Plain"}),
    # an overlap that leaves nothing of the roll
    # it depends on what is installed
    Said("SOLVER-NOT-INSTALLED"),
    Said(
        "ROLL-TOO-SMALL",
        {
            "item": "B-1",
            "roll_width": Length(100 * 320),
            "roll_length": Length(10_000 * 320, small=False),
            "strip": "band 1",
            "width": Length(125 * 320),
        },
    ),
    # the smallest sample has no shower and no wet floor
    Said("PIPES-WITHOUT-COLLAR", {"count": 2}),
    Said(
        "SHOWER-SLOPE-UNUSUAL",
        {"slope": "1 %", "low": "2 %", "high": "4 %", "source": "1/4 to 1/2 in per ft"},
    ),
    Said(
        "CURB-HEIGHT-UNUSUAL",
        {
            "height": Length(250 * 320),
            "low": Length(2 * 8128),
            "high": Length(9 * 8128),
            "source": "2 to 9 in from the curb's top to the drain's",
        },
    ),
    # the list of the Line column refuses such a line before
    Said("WASTE-FACTOR-FOR-NO-LINE", {"line": "curtains", "nearest": "mats"}),
)

ENTRIES: tuple[Wrong | Said, ...] = (
    *ITEMS, *BEDS, *LAYERS, *ALLOWANCES, *TILING, *UNREACHED,
)  # fmt: skip

"""A workbook with more than 25 different mistakes, each said in its row's Note where it has one."""

from datetime import date

from sheetcalc.workbook.blank import filled_book
from sheetcalc.workbook.sheet import BookModel, Cell
from sheetcalc.workbook.template_data import Record, template_records

_A_DATE = Cell(date(2027, 4, 3), "input_date")
_BROKEN = Cell("#REF!", "input_number", formula="#REF!+1")

_ROOMS: list[Record] = [
    {"Room": "1", "Length": 2.4, "Width": 1.8, "Finish": "Sound", "Note": "right, so far"},
    {"Room": "1", "Length": 2.0, "Width": 1.5, "Finish": "Sound", "Note": "its name a second time"},
    {"Room": "2", "Length": 3500, "Width": 1.8, "Finish": "Sound", "Note": "millimetres in metres"},
    {"Room": "3", "Length": "1,600 mm", "Width": 1.8, "Finish": "Sound", "Note": "which comma"},
    {"Room": "4", "Length": "5' 13\"", "Width": 1.8, "Finish": "Sound", "Note": "13 inches"},
    {"Room": "5", "Length": -2.4, "Width": 1.8, "Finish": "Sound", "Note": "below zero"},
    {"Room": "6", "Length": _A_DATE, "Width": 1.8, "Finish": "Sound", "Note": "3/4 became a date"},
    {"Room": "7", "Length": _BROKEN, "Width": 1.8, "Finish": "Sound", "Note": "an error value"},
    {"Room": "8", "Length": "wide", "Width": 1.8, "Finish": "Sound", "Note": "no length"},
    {"Room": "9", "Length": True, "Width": 1.8, "Finish": "Sound", "Note": "TRUE for a length"},
    {"Room": "10", "Same as": "11", "Finish": "Sound", "Note": "goes in a circle"},
    {"Room": "11", "Same as": "10", "Finish": "Sound", "Note": "goes in a circle"},
    {"Room": "12", "Same as": "1O", "Finish": "Sound", "Note": "letter O for a nought"},
    {"Room": "13", "Length": 2, "Width": 1.5, "Finish": "Plian", "Note": "misspelt finish"},
    {"Room": "14", "Length": 2, "Width": 1.5, "Note": "no finish"},
    {"Room": "15", "Length": 2, "Finish": "Sound", "Note": "no width"},
    {"Room": "16", "Length": 2, "Width": 1.5, "Finish": "Sound", "Count": 0, "Note": "none"},
    {"Room": "17", "Length": 2, "Width": 1.5, "Finish": "Sound", "Count": 3,
     "Copies": "17-18", "Note": "two names for three rooms"},
    {"Room": "18", "Length": 2, "Width": 1.5, "Finish": "Sound", "Handed": "maybe",
     "Note": "neither yes nor no"},
    {"Room": "19", "Finish": "Sound", "Note": "no outline at all"},
    {"Room": "20", "Length": 3, "Width": 2, "Finish": "Sound", "Note": "see Floor pieces"},
    {"Room": "21", "Length": 3, "Width": 2, "Finish": "Sound", "Note": "see Wall faces"},
    {"Room": "22", "Finish": "Sound", "Note": "a floor in two parts"},
    {"Room": "23", "Length": 2, "Width": 1.5, "Finish": "Sound", "Take up": "tile and bed",
     "Note": "how thick is it"},
    {"Room": "24", "Length": 2, "Width": 1.5, "Finish": "Sound", "Phase": "Floor 9",
     "Note": "no such phase"},
    {"Room": "25", "Length": 2, "Width": 1.5, "Finish": "Plain", "Note": "a finish with faults"},
    {"Room": "26", "Length": 2, "Width": 1.5, "Finish": "Sound", "Note": "see Floor pieces"},
]  # fmt: skip

_PIECES: list[Record] = [
    {"Room": "99", "Piece": "Door", "Kind": "doorway", "Wall": "near", "Left": 0.2,
     "Length": 0.8, "Note": "no such room"},
    {"Room": "20", "Piece": "Bath", "Kind": "bath", "Left": 2.5, "Front": 1.3, "Length": 1.7,
     "Width": 0.7, "Note": "reaches through the wall"},
    {"Room": "26", "Piece": "Box", "Kind": "cupboard", "Left": 0, "Front": 0, "Length": 0.4,
     "Width": 0.4, "Note": "no such kind"},
    {"Room": "20", "Piece": "Kerb", "Kind": "curb", "Left": 0.9, "Front": 0.4, "Length": 0.1,
     "Width": 0.9, "Note": "how high"},
    {"Room": "20", "Piece": "Vanity", "Kind": "cabinet", "Left": 0, "Front": 1.2,
     "Length": 0.8, "Width": 0.5, "Note": "overlaps the tray"},
    {"Room": "20", "Piece": "Tray", "Kind": "shower tray", "Left": 0.4, "Front": 1.3,
     "Length": 0.7, "Width": 0.7, "Note": "overlaps the vanity"},
    {"Room": "20", "Piece": "Tray", "Kind": "void", "Left": 2.8, "Front": 0, "Length": 0.2,
     "Width": 0.2, "Note": "its name a second time"},
    {"Room": "20", "Piece": "Outlet", "Kind": "toilet outlet", "Left": 1.5, "Front": 0.6,
     "Note": "no diameter"},
    {"Room": "20", "Piece": "Way out", "Kind": "doorway", "Wall": "north", "Left": 0.2,
     "Length": 0.8, "Note": "no such wall"},
    {"Room": "22", "Piece": "West", "Kind": "floor", "Left": 0, "Front": 0, "Length": 1,
     "Width": 1, "Note": "apart from the other"},
    {"Room": "22", "Piece": "East", "Kind": "floor", "Left": 2, "Front": 0, "Length": 1,
     "Width": 1, "Note": "apart from the other"},
]  # fmt: skip

_FACES: list[Record] = [
    {"Room": "21", "Wall": "far", "Part": "face", "Length": 4, "Height": 2.1,
     "Note": "longer than its wall"},
    {"Room": "21", "Wall": "left", "Part": "face", "Length": 2, "Height": 2.1, "Note": "right"},
    {"Room": "21", "Wall": "left", "Part": "opening", "Left": 0.2, "Bottom": 1, "Length": 2.5,
     "Height": 0.8, "Note": "larger than its wall"},
    {"Room": "21", "Wall": "left", "Part": "niche", "Left": 0.2, "Bottom": 1, "Length": 0.3,
     "Height": 0.4, "Note": "how deep"},
    {"Room": "21", "Wall": "back", "Part": "face", "Length": 2, "Height": 2.1,
     "Note": "no such wall"},
]  # fmt: skip

_FINISHES: list[Record] = [
    {"Finish": "Sound", "Surface": "floor", "Tile": "T-5", "Joint": 3,
     "Trowel notch": "square 10 x 10 x 10 mm", "Mortar": "C-FLEX", "Grout": "G-GREY",
     "Sealant": "S-GREY"},
    {"Finish": "Plain", "Surface": "floor", "Tile": "T-1", "Bond": "offset 1/3", "Joint": 3,
     "Trowel notch": "square 10 x 10 x 10 mm", "Mortar": "C-FLEX", "Grout": "G-GREY",
     "Sealant": "S-GREY", "Heating": "Nowhere"},
    {"Finish": "Plain", "Surface": "wall", "Tile": "T-9", "Bond": _A_DATE, "Joint": -3,
     "Trowel notch": "square 1/4", "Run": "sideways", "Mortar": "C-FLEX", "Grout": "G-GREY",
     "Sealant": "S-GREY"},
    {"Finish": "Plain", "Surface": "ceiling", "Tile": "T-1", "Joint": 3},
    {"Finish": "Plain", "Surface": "floor", "Tile": "T-2", "Joint": 3},
]  # fmt: skip

_TILES: list[Record] = [
    {"Code": "T-1", "Supplier": "Kiln & Quary", "Description": "Floor tile", "Length": 600,
     "Width": 300, "Thickness": 9, "Pieces per box": 6, "Price": "32,40 EUR"},
    {"Code": "T-2", "Supplier": "Kiln & Quarry", "Description": "Thicker than long", "Length": 20,
     "Width": 20, "Thickness": 40, "Pieces per box": 0},
    {"Code": "T-3", "Supplier": "Kiln & Quarry", "Description": "Once", "Length": 300,
     "Width": 300, "Thickness": 8, "Pieces per box": 11},
    {"Code": "T-3", "Supplier": "Kiln & Quarry", "Description": "Twice", "Length": 300,
     "Width": 300, "Thickness": 8, "Pieces per box": 11},
    {"Code": "T-4", "Description": "Material unknown", "Material": "marzipan", "Length": 300,
     "Width": 300, "Thickness": 8, "Pieces per box": 11, "Edge": "rectified"},
    {"Code": "T-5", "Supplier": "Kiln & Quarry", "Description": "Nothing wrong with it",
     "Length": 300, "Width": 300, "Thickness": 8, "Pieces per box": 11, "Price": 21.9},
]  # fmt: skip

_WASTE: list[Record] = [
    {"Line": "tile", "Waste %": 5},
    {"Line": "grout", "Waste %": 0.1},
    {"Line": "grout", "Waste %": 0.12},
    {"Line": "curtains", "Waste %": 0.1},
]


def mistakes() -> BookModel:
    """Return the inputs."""
    office = template_records("metric")
    own: dict[str, list[Record]] = {
        "Rooms": _ROOMS,
        "Floor pieces": _PIECES,
        "Wall faces": _FACES,
        "Finishes": _FINISHES,
        "Build-up": [
            {"Finish": "Plain", "Surface": "floor", "Order": 1, "Role": "carpet", "Item": "U-KNOB"},
            {
                "Finish": "Plain",
                "Surface": "floor",
                "Order": 2,
                "Role": "underlay",
                "Item": "U-NOB",
            },
        ],
        "Tiles": _TILES,
        "Waste factors": _WASTE,
        "Phases": [{"Phase": "Floor 1", "Start": "next spring"}],
        "Decisions": [{"Code": "NO-SUCH-FINDING", "Decision": "accepted", "By": "A. Estimator"}],
    }
    settings = {"name": "Mistakes", "counted_by": "weight", "tax": 20, "circuit_amperes": "a few"}
    return filled_book("metric", office | own, settings, title="sheetcalc sample: mistakes")

"""The smallest job: one plain rectangle, metric, few cells."""

from sheetcalc.workbook.blank import filled_book
from sheetcalc.workbook.sheet import BookModel


def small_room() -> BookModel:
    """A cloakroom of 1.80 x 1.20 m with one tile, a mortar, a grout and a sealant."""
    return filled_book(
        "metric",
        {
            "Rooms": [{"Room": "Cloakroom", "Length": 1.8, "Width": 1.2, "Finish": "Plain"}],
            "Finishes": [
                {
                    "Finish": "Plain",
                    "Surface": "floor",
                    "Tile": "T-3030",
                    "Joint": 3,
                    "Trowel notch": "square 8 x 8 x 8 mm",
                    "Mortar": "C-FLEX",
                    "Grout": "G-GREY",
                    "Sealant": "S-GREY",
                }
            ],
            "Tiles": [
                {
                    "Code": "T-3030",
                    "Supplier": "Kiln & Quarry",
                    "Description": "Floor tile 300 x 300 slate grey",
                    "Length": 298,
                    "Width": 298,
                    "Thickness": 8,
                    "Pieces per box": 11,
                    "Price": 21.9,
                }
            ],
            "Bags and pails": [
                _bag("C-FLEX", "Flexible tile mortar, grey", "mortar", 20, "kg", "bag", 14.8, 18.9),
                _bag("G-GREY", "Grout, mid grey", "grout", 5, "kg", "bag", None, 9.8),
                _bag("S-GREY", "Sanitary silicone", "sealant", 310, "mL", "cartridge", None, 6.9),
            ],
            "Suppliers": [{"Supplier": "Kiln & Quarry"}],
        },
        {"name": "Cloakroom"},
        title="sheetcalc sample: one small room",
    )


def _bag(  # noqa: PLR0913, PLR0917 - a row of the catalogue
    code: str,
    description: str,
    kind: str,
    size: float,
    unit: str,
    package: str,
    litres: float | None,
    price: float,
) -> dict[str, str | float | None]:
    """One row of Bags and pails."""
    return {
        "Code": code,
        "Supplier": "Kiln & Quarry",
        "Description": description,
        "Kind": kind,
        "Pack size": size,
        "Pack unit": unit,
        "Package": package,
        "Yield": litres,
        "Pack price": price,
    }

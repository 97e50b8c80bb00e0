"""Lines of the takeoff that goods are bought for, as tasks of the crew name them."""

from typing import Final

GOODS_LINES: Final[tuple[str, ...]] = (
    "levelling", "screed", "primer", "boards", "tray formers", "underlay mortar", "underlay",
    "waterproofing", "bands", "corners", "collars", "heating cable", "tile", "spare tiles",
    "knob fill", "mortar", "grout", "sealant", "sealer", "edge trim", "sundries",
)  # fmt: skip
"""Keys of those lines, in the order of the takeoff."""

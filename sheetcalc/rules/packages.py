"""Package words of the catalogue and their UN/ECE Recommendation 21 codes.

BG, BX, RO, CT, PK, BO and TU were deleted from Recommendation 20 (units) with the note to use
Recommendation 21 (packages): UN/ECE Rec 20 Rev 17 and Rec 21 Rev 12, code lists read.
"""

from typing import Final

from sheetcalc.domain.catalogue import BagKind, RollKind

PACKAGE_CODES: Final[dict[str, str]] = {
    "bag": "BG",
    "bottle": "BO",
    "box": "BX",
    "bucket": "BJ",
    "can": "CA",
    "carton": "CT",
    "cartridge": "TU",
    "coil": "CL",
    "package": "PK",
    "pail": "PL",
    "pallet": "PX",
    "piece": "PP",
    "reel": "RL",
    "roll": "RO",
    "sheet": "ST",
    "tube": "TU",
}
"""Code by word.  Bag, bottle, box, carton, package, pallet, reel, roll and tube: code list read
(Rec 21 Rev 12).  Bucket, can, coil, pail, piece and sheet: from memory, not verified.
A cartridge is ordered as a tube: common practice, no source."""

_USUAL: Final[dict[BagKind | RollKind, str]] = {
    BagKind.SEALANT: "cartridge",
    BagKind.PREMIXED_MORTAR: "pail",
    BagKind.PREMIXED_GROUT: "pail",
    BagKind.PRIMER: "pail",
    BagKind.LIQUID_WATERPROOFING: "pail",
    BagKind.SEALER: "pail",
    BagKind.BACKER_ADHESIVE: "pail",
    RollKind.UNDERLAY_MAT: "sheet",
    RollKind.BACKER_BOARD: "sheet",
    RollKind.INSULATION_BOARD: "sheet",
}


def usual_package(kind: BagKind | RollKind) -> str:
    """Package of a thing whose row names none.

    Common practice, no source: powders come in bags, sealant in cartridges, what is wet in pails;
    what is unrolled in rolls, mats and boards by the sheet.

    >>> usual_package(BagKind.SEALANT), usual_package(BagKind.GROUT), usual_package(RollKind.BAND)
    ('cartridge', 'bag', 'roll')
    """
    return _USUAL.get(kind, "bag" if isinstance(kind, BagKind) else "roll")


def package_code(package: str) -> str:
    """UN/ECE Recommendation 21 code of a package word; "" for a word that is not in the list."""
    return PACKAGE_CODES.get(package.strip().lower(), "")


def several(noun: str) -> str:
    """Plural of a package or of a strip.

    >>> several("box"), several("bag")
    ('boxes', 'bags')
    """
    return f"{noun}{'es' if noun.endswith('x') else 's'}"


def counted_noun(number: float, noun: str) -> str:
    """Say a package, or a strip, behind a number of it; an office's own word stays as it is typed.

    >>> counted_noun(1, "box"), counted_noun(2.5, "box"), counted_noun(2, "Karton")
    ('box', 'boxes', 'Karton')
    """
    return several(noun) if number != 1 and (noun == "strip" or package_code(noun)) else noun

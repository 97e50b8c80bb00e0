"""Mosaic: laid, ordered and cut by sheet on chip joints, grouted by chip."""

import pytest
from tiling_cases import MM, laid, room, spec, tile

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.job import Job
from sheetcalc.domain.setting_out import CutShape
from sheetcalc.geometry.off_cuts.pooling import pool_off_cuts


def sheet(chip: float = 48, number: int = 6, joint: float = 3) -> Tile:
    """A square sheet of square chips, its size without an outer joint."""
    size = number * (chip + joint) - joint
    return tile(size, size, chip_length_mm320=round(chip * MM), chip_width_mm320=round(chip * MM))


def test_whole_sheets_fit_exactly() -> None:
    # 4 x 2 sheets of 303 with joints of 3: 1221 x 609
    out = laid(room(1221, 609), sheet())
    assert (out.whole, out.cut) == (8, 0)
    # chips 24 x 12: crossings 23 x 11; joints upright 23 x 12 x 48 mm, level 11 x 24 x 48 mm
    assert out.crossings == 23 * 11
    assert out.joint_length_m == pytest.approx((23 * 12 + 11 * 24) * 0.048)


def test_joints_are_those_of_the_chips() -> None:
    # computed: 25 x 25 mosaic, joint 3: 1.21684 L/m2 at 6 mm depth, so 0.202807 m2/m2
    out = laid(room(12000, 12000), sheet(25, 10))
    assert out.joint_area_m2 / out.area_m2 == pytest.approx(1.21684e-3 / 6e-3, rel=2e-3)


def test_sheets_are_cut_on_chip_joints() -> None:
    # one column of sheets: 303 and 3 chips more (150 = 3 x 48 + 2 x 3), with a joint between
    out = laid(room(303 + 3 + 150, 303), sheet())
    assert (out.whole, out.cut) == (1, 1)
    # chips 9 x 6, none cut: joints upright 8 x 6 x 48 mm, level 5 x 9 x 48 mm
    assert out.joint_length_m == pytest.approx((8 * 6 + 5 * 9) * 0.048)
    (piece,) = out.pieces
    assert (piece.shape, piece.length_mm320) == (CutShape.STRAIGHT, 150 * MM)


def test_half_sheets_pair_without_a_kerf() -> None:
    # two rows of one and a half sheets: the halves, 3 chips each, come from one sheet
    out = laid(room(456, 609), sheet())
    (pooled,) = pool_off_cuts([out], Job())
    assert (out.whole, out.cut, pooled.tiles_opened) == (2, 2, 3)


def test_a_sheet_that_does_not_match_its_chips_is_found() -> None:
    wrong = tile(330, 330, chip_length_mm320=48 * MM, chip_width_mm320=48 * MM)
    assert "MOSAIC-SHEET-DIFFERS" in {f.code for f in laid(room(900, 900), wrong).findings}
    right = laid(room(900, 900), sheet(), spec())
    assert "MOSAIC-SHEET-DIFFERS" not in {f.code for f in right.findings}


@pytest.mark.parametrize(
    ("size", "differs"),
    [(303, False), (306, False), (304, False), (304.5, True), (302, False), (301.5, True),
     (307, False), (307.5, True)],
)  # fmt: skip
def test_a_sheet_is_as_long_as_its_chips_with_or_without_the_last_joint(
    size: float,
    differs: bool,  # noqa: FBT001 - expected
) -> None:
    """By hand: six chips of 48 with joints of 3 make 303, and 306 with the joint to the next sheet.

    One millimetre either way is the sheet's own tolerance.
    """
    what = tile(size, size, chip_length_mm320=48 * MM, chip_width_mm320=48 * MM)
    found = {f.code for f in laid(room(900, 900), what).findings}
    assert ("MOSAIC-SHEET-DIFFERS" in found) is differs

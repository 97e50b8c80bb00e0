"""Mosaic: chips set out by the aims, then sheets laid over them so that fewest are used."""

import numpy as np
from msgspec.structs import replace

from sheetcalc.geometry.setting_out.aims import Aim
from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.request import Request
from sheetcalc.geometry.setting_out.slabs import Slabs
from sheetcalc.geometry.setting_out.weighing import weigh

_AIMS = (Aim.FEWEST_TILES, Aim.FEWEST_CUTS, Aim.BALANCE, Aim.NO_SLIVER, Aim.FEWEST_SMALL)


def sheet_lattice(req: Request, chips: Lattice) -> Lattice:
    """Sheets of a mosaic as a grid: whole chips with the joint between them."""
    along, across = req.sheet or (1, 1)
    joint = chips.pitch - chips.length
    return replace(
        chips,
        length=along * chips.pitch - joint,
        width=across * chips.rise - joint,
        pitch=along * chips.pitch,
        rise=across * chips.rise,
        part=along * chips.pitch,
        small_length=0,
        small_width=0,
    )


def lay_sheets(
    slabs: Slabs, req: Request, chips: Lattice, choice: Choice
) -> tuple[Lattice, Choice]:
    """Choose which chip of a sheet lies at the chosen start of the chips.

    The chips stay where they are; a sheet may begin at any of them.  Weighed: fewest sheets, then
    fewest cut ones, then balance.
    """
    sheets = sheet_lattice(req, chips)
    along, across = req.sheet or (1, 1)
    xs = choice.x + chips.pitch * np.arange(along, dtype=np.int64)
    ys = choice.y + chips.rise * np.arange(across, dtype=np.int64)
    return sheets, weigh(slabs, sheets, _AIMS, xs, ys)

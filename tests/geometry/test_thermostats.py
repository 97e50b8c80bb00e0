"""Where a thermostat may not hang without a word: in a doorway, near a bath or a shower."""

import pytest
from room_rows import piece, resolve, room_row

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.room import FloorPiece
from sheetcalc.geometry.heating.findings import thermostat_findings

DOOR = piece("Door", "doorway", 100, None, 500, wall="near")
DEEP = 700


def found(*pieces: FloorPiece) -> dict[str, Finding]:
    (room,), _ = resolve(room_row(DOOR, *pieces, length=2400, width=2400))
    return {finding.code: finding for finding in thermostat_findings(room)}


def on_the_right_wall(beyond: float) -> FloorPiece:
    """Put a thermostat on the wall along which something lies, so far beyond its end [mm]."""
    return piece("T", "thermostat", None, DEEP + beyond, wall="right")


def test_a_thermostat_in_a_doorway_is_an_error() -> None:
    assert "THERMOSTAT-IN-DOORWAY" in found(piece("T", "thermostat", 300, None, wall="near"))


# BS 7671 701.32, as quoted by 2kelectrical: zone 2 reaches 0.60 m beyond a bath or a basin; a
# shower without a basin has a zone 1 of 1.20 m round its outlet, at whatever edge that hangs
@pytest.mark.parametrize(
    ("kind", "beyond", "least"),
    [
        ("bath", 595, 600), ("bath", 600, None), ("bath", 605, None),
        ("shower tray", 595, 600), ("shower tray", 600, None), ("shower tray", 605, None),
        ("shower floor", 1195, 1200), ("shower floor", 1200, None), ("shower floor", 1205, None),
    ],
)  # fmt: skip
def test_a_thermostat_within_the_zones_of_a_bath_or_a_shower_is_a_warning(
    kind: str, beyond: float, least: float | None
) -> None:
    wet = piece("W", kind, 1300, 0, 1100, DEEP)
    warned = found(on_the_right_wall(beyond), wet).get("THERMOSTAT-BY-WATER")
    assert (warned is None) == (least is None)
    if warned is not None and least is not None:
        assert warned.facts["by"] == "W"
        assert warned.facts["least"].mm320 == least * 320  # type: ignore[union-attr]


def test_a_thermostat_far_from_a_bath_may_still_be_too_near_to_a_shower_floor() -> None:
    bath = piece("B", "bath", 0, 1700, 1100, DEEP)
    shower = piece("S", "shower floor", 1300, 0, 1100, DEEP)
    warned = found(on_the_right_wall(1000), bath, shower)["THERMOSTAT-BY-WATER"]
    assert warned.facts["by"] == "S"

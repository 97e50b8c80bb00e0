"""Insulation resistance of a floor heating cable: at which voltage it is read, and the limit."""

from typing import Final

from msgspec import Struct

EXTRA_LOW_VOLTS: Final = 50.0
"""A cable for so many volts a.c. or fewer is extra-low voltage: from memory, not verified."""


class InsulationTest(Struct, frozen=True):
    """How insulation is read, and what it has to be.

    Attributes
    ----------
    volts
        Test voltage, d.c. [V].
    least_mohm
        Least resistance [megohm].
    """

    volts: float
    least_mohm: float


MAINS: Final = InsulationTest(500.0, 1.0)
"""Mains circuit up to 500 V: BS 7671 Table 64, regulation 643.3.2, as quoted in Electrical
Wholesaler, May 2023."""

EXTRA_LOW: Final = InsulationTest(250.0, 0.5)
"""SELV and PELV: NICEIC Connections, spring 2018, Table 1 (read second-hand)."""


def is_extra_low(cable_volts: float) -> bool:
    """Whether a cable is taken for one of extra-low voltage; up to 50 V, from memory."""
    return cable_volts <= EXTRA_LOW_VOLTS


def insulation_test(cable_volts: float) -> InsulationTest:
    """Test voltage and limit for a cable, by the voltage that it is made for.

    BS 7671 Table 64 and NICEIC Connections, spring 2018, Table 1, both read second-hand; that
    extra-low voltage ends at 50 V is from memory, not verified.  An extra-low voltage is taken for
    SELV or PELV: how its supply is separated from the mains is for the licensed electrician.

    Parameters
    ----------
    cable_volts
        Rated voltage of the cable, a.c. [V].

    Returns
    -------
    InsulationTest
        At 24 V 250 V d.c. and 0.5 megohm, at 230 V 500 V d.c. and 1 megohm.

    Examples
    --------
    >>> insulation_test(24).least_mohm, insulation_test(230).least_mohm
    (0.5, 1.0)
    """
    return EXTRA_LOW if is_extra_low(cable_volts) else MAINS

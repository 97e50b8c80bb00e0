"""An order as its CSV file holds it: texts by header, to be compared with a later run's."""

from collections.abc import Mapping

from msgspec import Struct


class OrderRecord(Struct, frozen=True):
    """What was written of an order.

    Attributes
    ----------
    number, revision, issued, reference
        Which order it is.
    head
        Everything that holds for the whole order, by header.
    lines
        Each line by header, in their order; lines that were only listed as removed are left out.
    """

    number: str
    revision: int
    issued: str
    reference: str
    head: Mapping[str, str]
    lines: tuple[Mapping[str, str], ...]

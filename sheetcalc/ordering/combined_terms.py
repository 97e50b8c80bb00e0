"""What several workbooks say of a supplier they order from: an order has it once."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from typing import Final

from msgspec import Struct

from sheetcalc.domain.catalogue import Supplier
from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.inputs import Inputs

_NONE: Final = "-"
"""Shown where a workbook says nothing."""

_NO_SUPPLIER: Final = "no supplier"


class Ordering(Struct, frozen=True):
    """Workbooks that order from one supplier.

    Attributes
    ----------
    supplier
        Its name; "" where the goods have none.
    first
        The workbook whose terms the order takes.
    others
        Of workbooks that order from the supplier too.
    """

    supplier: str
    first: Inputs
    others: Sequence[Inputs]


def differing_terms(orders: Iterable[Ordering]) -> Iterator[Finding]:
    """Yield ``COMBINED-TERMS-DIFFER`` for what other workbooks say otherwise than the first.

    What differs in the same way for several suppliers, as a setting of the Job does, is told once.

    Parameters
    ----------
    orders
        One for each supplier.
    """
    differing: dict[tuple[str, str, str], list[str]] = {}
    for order in orders:
        told = [_terms(inputs, order.supplier) for inputs in (order.first, *order.others)]
        for what, taken in told[0].items():
            values = list(dict.fromkeys(terms[what] for terms in told if what in terms))
            if len(values) > 1:
                named = differing.setdefault((what, taken, "; ".join(values)), [])
                named.append(order.supplier or _NO_SUPPLIER)
    for (what, taken, said), suppliers in differing.items():
        facts: dict[str, Fact] = {
            "what": what, "suppliers": ", ".join(suppliers), "values": said, "taken": taken,
        }  # fmt: skip
        yield Finding("COMBINED-TERMS-DIFFER", facts=facts)


def _terms(inputs: Inputs, supplier: str) -> dict[str, str]:
    found = {"Tax": f"{inputs.tax_rate(supplier) * 100:g} %", "Buyer": inputs.job.buyer or _NONE}
    listed = inputs.catalogue.suppliers.get(supplier)
    return found | _listed(listed) if listed is not None else found


def _listed(supplier: Supplier) -> dict[str, str]:
    charge = supplier.delivery_charge or Decimal(0)
    return {
        "Address": supplier.address or _NONE,
        "E-mail": supplier.email or _NONE,
        "Account": supplier.account or _NONE,
        "Terms": supplier.terms or _NONE,
        "Delivery charge": f"{charge:.2f}",
    }

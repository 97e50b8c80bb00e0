"""What several workbooks say of a supplier they order from: an order has it once."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Final

from sheetcalc.domain.catalogue import Supplier
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.inputs import Inputs

_NONE: Final = "-"
"""Shown where a workbook says nothing."""


def differing_terms(first: Inputs, others: Sequence[Inputs], supplier: str) -> Iterator[Finding]:
    """Yield ``COMBINED-TERMS-DIFFER`` for what other workbooks say otherwise than the first.

    Parameters
    ----------
    first
        The workbook whose terms the order takes.
    others
        Of workbooks that order from the supplier too.
    supplier
        Its name.
    """
    told = [_terms(inputs, supplier) for inputs in (first, *others)]
    for what, value in told[0].items():
        values = list(dict.fromkeys(terms[what] for terms in told if what in terms))
        if len(values) > 1:
            yield Finding(
                "COMBINED-TERMS-DIFFER",
                facts={
                    "what": what,
                    "supplier": supplier,
                    "values": "; ".join(values),
                    "taken": value,
                },
            )


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

"""What several workbooks say otherwise of the suppliers that they order from together."""

from msgspec.structs import replace
from result_books import catalogue, inputs, supplier

from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.job import Job
from sheetcalc.ordering.combined_terms import Ordering, differing_terms

NAMES = ("Kiln & Quarry", "Adobe")


def workbook(tax: float, **addresses: str) -> Inputs:
    listed = {n: replace(supplier(n), address=addresses.get(n, "Clay Lane")) for n in NAMES}
    return inputs(catalogue(suppliers=listed), job=replace(Job(), tax=tax))


def told(first: Inputs, other: Inputs, *names: str) -> list[tuple[object, ...]]:
    found = differing_terms(Ordering(name, first, (other,)) for name in names)
    return [tuple(f.facts[k] for k in ("what", "suppliers", "values", "taken")) for f in found]


def test_a_setting_that_differs_is_told_once_with_the_suppliers_concerned() -> None:
    assert told(workbook(0.2), workbook(0.05), *NAMES, "") == [
        ("Tax", "Kiln & Quarry, Adobe, no supplier", "20 %; 5 %", "20 %")
    ]


def test_what_differs_of_one_supplier_is_told_of_that_one() -> None:
    assert told(workbook(0.2), workbook(0.2, Adobe="Mud Row"), *NAMES) == [
        ("Address", "Adobe", "Clay Lane; Mud Row", "Clay Lane")
    ]


def test_nothing_is_told_where_all_agree() -> None:
    assert told(workbook(0.2), workbook(0.2), *NAMES) == []

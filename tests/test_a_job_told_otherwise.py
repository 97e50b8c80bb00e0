"""A job told in other words has the same numbers: rows in another order, rooms turned, in feet."""

from collections import defaultdict
from collections.abc import Callable
from decimal import Decimal
from functools import cache

import pytest
import told_otherwise as told_as
from told_otherwise import Told
from workbook.raw_books import book

from sheetcalc.domain.run import Run
from sheetcalc.takeoff import calculate
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.wording import severity_of

_NOT_ADDED = frozenset({"waits", "finished height", "shower slope"})
"""Lines of which alike rooms have one."""


def calculated(told: Told) -> Run:
    """Run of a job, which must have no errors."""
    inputs, found = to_inputs(book(**told))
    assert inputs is not None, found
    run = calculate(inputs)
    errors = [f for f in (*found, *run.findings) if severity_of(f.code) == "error"]
    assert errors == []
    return run


@cache
def plain() -> Run:
    """The job as it stands."""
    return calculated(told_as.as_told())


def nets(run: Run) -> dict[tuple[str, str, str], float]:
    """Net quantities in SI units by line, item and words, all rooms together."""
    found: dict[tuple[str, str, str], float] = defaultdict(float)
    for line in run.lines:
        found[line.line, line.item, line.description] += line.net_si
    return found


def packs(run: Run) -> dict[str, int]:
    """Packs ordered of each item."""
    found: dict[str, int] = defaultdict(int)
    for order in run.orders:
        for line in order.lines:
            found[line.item] += line.packs
    return found


def test_the_job_has_every_line_that_is_compared() -> None:
    lines = {line for line, _, _ in nets(plain())}
    assert lines >= {
        "tile", "spare tiles", "mortar", "underlay mortar", "grout", "sealant", "sealer", "primer",
        "levelling", "boards", "underlay", "knob fill", "waterproofing", "bands", "sundries",
        "cuts", "demolition",
    }  # fmt: skip


@pytest.mark.parametrize(
    "otherwise",
    [
        lambda told: told_as.shuffled(told, 1),
        lambda told: told_as.shuffled(told, 2),
        told_as.in_parts,
        told_as.turned,
        told_as.mirrored,
        told_as.in_feet,
    ],
    ids=["shuffled", "shuffled again", "in parts", "turned", "mirrored", "in feet"],
)
def test_told_otherwise_every_quantity_and_every_order_is_the_same(
    otherwise: Callable[[Told], Told],
) -> None:
    run = calculated(otherwise(told_as.as_told()))
    assert nets(run) == pytest.approx(nets(plain()), rel=1e-9)
    assert packs(run) == packs(plain())


def test_surfaces_open_the_same_tiles_in_whatever_order_walls_are_listed() -> None:
    """Those that share offcuts give and take alike, not by who was typed first."""

    def tiles(run: Run) -> list[tuple[str, str, str, float]]:
        of = (line for line in run.lines if line.line == "tile")
        return sorted((line.room, line.surface, line.item, line.net_si) for line in of)

    told = told_as.as_told()
    faces = told["Wall faces"]
    the_other_first = calculated({**told, "Wall faces": faces[2:] + faces[:2]})
    assert tiles(the_other_first) == tiles(plain())


def test_rooms_that_are_counted_are_as_many_rooms_listed() -> None:
    told = told_as.as_told()
    counted = calculated(told | {"Rooms": [{**row, "Count": 3} for row in told["Rooms"]]})
    listed = calculated(told_as.copied(told, "xyz"))
    added = {key: net for key, net in nets(counted).items() if key[0] not in _NOT_ADDED}
    assert {key: nets(listed)[key] for key in added} == pytest.approx(added, rel=1e-9)
    assert packs(listed) == packs(counted)


@pytest.mark.parametrize("step", [1, -1], ids=["first phase first", "last phase first"])
def test_phases_in_one_workbook_order_what_each_orders_in_its_own(step: int) -> None:
    told, phases = told_as.copied(told_as.as_told(), "xy"), {"x": "P1", "y": "P2"}
    rooms = [{**row, "Phase": phases[str(row["Room"])[-1]]} for row in told["Rooms"]][::step]
    both = calculated(
        told | {"Rooms": rooms, "Phases": [{"Phase": name} for name in phases.values()]}
    )
    each = {(line.phase, line.item): line.packs for order in both.orders for line in order.lines}
    own = {(phase, item): n for phase in phases.values() for item, n in packs(plain()).items()}
    # the second phase's sheet and underlay come off the first one's rolls, and what the job has
    # once with the first one's goods
    assert [own.pop(("P2", item)) for item in ("Q", "U", "SB")] == [1, 1, 1]
    assert each == own


def test_gross_is_net_and_its_waste_whatever_the_waste() -> None:
    told = told_as.as_told()
    wasted = ("tile", "mortar", "underlay mortar", "grout", "sealant", "primer", "bands")
    run = calculated(told | {"Waste factors": [{"Line": x, "Waste %": 0.17} for x in wasted]})
    assert nets(run) == pytest.approx(nets(plain()))
    for line in run.lines:
        share = line.waste.share if line.waste else 0.0
        assert line.unit.to_si(line.gross_shown) == pytest.approx(line.net_si * (1 + share))
        if line.line in wasted:
            assert share == 0.17


def test_double_prices_double_every_order_and_the_materials_of_the_quote() -> None:
    dear = calculated(told_as.priced(told_as.as_told(), 2))
    once = {line.item: line.amount for order in plain().orders for line in order.lines}
    twice = {line.item: line.amount for order in dear.orders for line in order.lines}
    assert once
    assert twice == {item: 2 * (amount or Decimal(0)) for item, amount in once.items()}

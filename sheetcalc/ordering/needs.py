"""Quantity lines grouped to needs: one item, phase by phase.  Grouping is done with pandas."""

from collections.abc import Mapping, Sequence

import pandas as pd
from msgspec import Struct

from sheetcalc.domain.catalogue import Buyable
from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.measure import UNITS, Unit
from sheetcalc.domain.quantity import PackBy, QuantityLine
from sheetcalc.ordering.days import Days
from sheetcalc.ordering.items import find_item, tab_of

Parts = Mapping[tuple[PackBy, Unit], tuple[tuple[int, ...], float]]
"""How lines are counted -> their positions in the run, and the sum of their gross."""


class PhaseNeed(Struct, frozen=True):
    """What one phase needs of an item.

    Attributes
    ----------
    day, tasks
        Working day of the phase that the first of it is used on, and the rows of Labour that say
        so; none where no task uses it.
    parts
        The quantity lines behind it.
    """

    phase: str
    day: int
    tasks: tuple[RowRef, ...]
    parts: Parts

    @property
    def is_something(self) -> bool:
        """Whether anything is needed at all."""
        return any(needed > 0 for _, needed in self.parts.values())


class ItemNeed(Struct, frozen=True):
    """What a job needs of an item, by the first row of its code."""

    item: Buyable
    phases: tuple[PhaseNeed, ...]


def item_needs(
    inputs: Inputs, lines: Sequence[QuantityLine], home: str, findings: list[Finding]
) -> list[ItemNeed]:
    """Group lines by item and phase; lines that nothing is bought for are passed over.

    Goods of no phase are needed with the phase ``home``, the first one of the job.
    """
    days = Days(inputs)
    items: dict[tuple[str, str], Buyable] = {}
    unknown: set[tuple[str, str]] = set()
    bought: dict[tuple[str | None, PackBy, str], tuple[str, str, str] | None] = {}
    records = []
    for index, line in enumerate(lines):
        if line.pack_by is PackBy.NONE or not line.item:
            continue
        wanted = line.tab, line.pack_by, line.item
        if wanted not in bought:
            item = find_item(inputs.catalogue, line)
            key = (tab_of(item), item.code) if item else None
            bought[wanted] = (*key, line.pack_by.value) if key else None
            if item and key:
                items.setdefault(key, item)
        found = bought[wanted]
        if found is None:
            if (line.line, line.item) not in unknown:
                unknown.add((line.line, line.item))
                facts = {"item": line.item, "line": line.line}
                findings.append(Finding("ORDER-ITEM-UNKNOWN", line.source, None, facts, line.room))
            continue
        phase, unit = line.phase or home, line.unit.symbol
        records.append((index, *found, phase, unit, line.gross_shown))
    if not records:
        return []
    frame = pd.DataFrame.from_records(
        records, columns=["index", "tab", "item", "pack_by", "phase", "unit", "gross"]
    )
    keys = ["tab", "item", "phase", "pack_by", "unit"]
    groups = frame.groupby(keys, sort=False)
    places = groups.indices
    grouped: dict[
        tuple[str, str], dict[str, dict[tuple[PackBy, Unit], tuple[tuple[int, ...], float]]]
    ] = {}
    totals = groups["gross"].sum()
    for group, gross in zip(totals.index, totals, strict=True):
        tab, code, phase, pack_by, unit = group
        parts = grouped.setdefault((tab, code), {}).setdefault(phase, {})
        indices = tuple(records[at][0] for at in places[group])
        parts[PackBy(pack_by), UNITS[unit]] = (indices, float(gross))
    return [
        ItemNeed(
            items[key],
            tuple(_phase_need(phase, parts, lines, days) for phase, parts in phases.items()),
        )
        for key, phases in grouped.items()
    ]


def _phase_need(phase: str, parts: Parts, lines: Sequence[QuantityLine], days: Days) -> PhaseNeed:
    day, tasks = days.day_of(lines[at] for indices, _ in parts.values() for at in indices)
    return PhaseNeed(phase, day, tasks, parts)

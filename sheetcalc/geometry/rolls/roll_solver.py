"""Linear and integer programming over cutting patterns, where the optional solver is installed.

Gilmore and Gomory 1961 (abstract read): the dearest pattern at the present prices comes from a
knapsack, until none improves.  Farley's bound holds at every step (from memory, not verified; the
tests check it against solved cases).
"""

# ruff: noqa: PLC0415 -- the solver is optional and slow to load: it is imported where it is used

from collections import defaultdict
from collections.abc import Mapping, Sequence
from decimal import Decimal
from importlib.util import find_spec
from math import ceil, gcd
from typing import TYPE_CHECKING, Final

from msgspec import Struct, field

from sheetcalc.geometry.rolls.mixed_stock import Cut, Stock, cost_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_MOST_CELLS: Final = 20_000
_MOST_ROUNDS: Final = 600
_MOST_PATTERNS: Final = 4000
_MOST_NODES: Final = 2000
_SAME: Final = 1e-9


def solver_is_installed() -> bool:
    """Whether the optional solver (extra ``bounds``) can be imported."""
    return find_spec("scipy") is not None


def lp_bound(demand: Mapping[int, float], stock: int) -> int | None:
    """Fewest stock lengths by linear programming over all cutting patterns, rounded up.

    Parameters
    ----------
    demand
        How many of each length, fractions allowed, in the unit of ``stock``.
    stock
        Length of one piece of stock.

    Returns
    -------
    int or None
        A lower bound; None where the solver is not installed.
    """
    if not solver_is_installed():
        return None
    by_length = sum(size * count for size, count in demand.items()) / stock
    if not demand:
        return 0
    programme = _Programme.of(demand, (Stock(stock, Decimal(1)),), up=False)
    programme.solve(whole=True)
    return ceil(max(programme.bound, by_length) - 1e-7)


def better_plan(
    plan: Sequence[Cut], lengths: Sequence[int], stocks: Sequence[Stock], kerf: int = 0
) -> tuple[list[Cut], bool]:
    """Look for a cheaper plan by integer programming over patterns.

    Parameters
    ----------
    plan, lengths, stocks, kerf
        A plan that can be cut, and what it was made for, as for ``mixed_stock.pack_mixed``.

    Returns
    -------
    tuple
        The cheaper of both plans, and whether it is a new one.  Without the solver, or where the
        plan given reaches the bound, that one.
    """
    if not lengths or not solver_is_installed():
        return list(plan), False
    demand: defaultdict[int, float] = defaultdict(float)
    for length in lengths:
        demand[length + kerf] += 1
    programme = _Programme.of(demand, [Stock(s.length + kerf, s.cost) for s in stocks], up=True)
    programme.solve(whole=len(stocks) == 1)
    cost = float(cost_of(plan, stocks))
    if cost <= programme.least_cost() * (1 + _SAME):
        return list(plan), False
    programme.enumerate_patterns()
    found = _assigned(programme.integer_solution(), lengths, kerf)
    if found and cost_of(found, stocks) < cost_of(plan, stocks):
        return found, True
    return list(plan), False


def _assigned(
    patterns: Sequence[tuple[int, Mapping[int, int]]], lengths: Sequence[int], kerf: int
) -> list[Cut]:
    """Give the wanted lengths to patterns; what a pattern holds too many of is left out."""
    waiting: defaultdict[int, list[int]] = defaultdict(list)
    for i in range(len(lengths) - 1, -1, -1):
        waiting[lengths[i] + kerf].append(i)
    cuts = []
    for stock, pattern in patterns:
        held: list[int] = []
        for size in sorted(pattern, reverse=True):
            held += [waiting[size].pop() for _ in range(min(pattern[size], len(waiting[size])))]
        if held:
            cuts.append(Cut(stock, tuple(held)))
    return cuts if not any(waiting.values()) else []


class _Programme(Struct):
    """Cutting patterns and their prices; sizes and rooms in cells of a common measure."""

    sizes: list[int]
    real: list[int]
    wanted: "NDArray[np.float64]"
    rooms: list[int]
    costs: list[float]
    patterns: list[tuple[int, tuple[int, ...]]] = field(default_factory=list)
    bound: float = 0.0

    @classmethod
    def of(cls, demand: Mapping[int, float], stocks: Sequence[Stock], *, up: bool) -> "_Programme":
        """Lengths rounded up to cells for a plan that can be cut, down for a bound."""
        import numpy as np

        real = sorted(demand, reverse=True)
        longest = max(stock.length for stock in stocks)
        measure = gcd(*(stock.length for stock in stocks), *real)
        if longest // measure > _MOST_CELLS:
            measure = -(-longest // _MOST_CELLS)
        sizes = [-(-size // measure) if up else size // measure for size in real]
        made = cls(
            sizes,
            real,
            np.array([demand[size] for size in real], dtype=float),
            [stock.length // measure for stock in stocks],
            [float(stock.cost) for stock in stocks],
        )
        for i, size in enumerate(sizes):
            fitting = [(cost / (room // size), t) for t, (room, cost) in enumerate(
                zip(made.rooms, made.costs, strict=True)) if room >= size > 0]  # fmt: skip
            if fitting:
                _, t = min(fitting)
                times = made.rooms[t] // size
                made.patterns.append((t, tuple(times * (i == j) for j in range(len(sizes)))))
        return made

    def solve(self, *, whole: bool) -> None:
        """Price patterns in until none improves, or (``whole``) the bound rounds up alike."""
        for _ in range(_MOST_ROUNDS):
            value, prices = self._prices()
            ratio, pattern, stock = self._dearest(prices)
            self.bound = max(self.bound, value / max(ratio, 1.0))
            alike = whole and ceil(self.bound - 1e-7) >= ceil(value - 1e-7)
            if alike or ratio <= 1 + _SAME or (stock, pattern) in self.patterns:
                return
            self.patterns.append((stock, pattern))

    def least_cost(self) -> float:
        """No plan costs less: rounded up to whole pieces of stock where all cost the same."""
        if len(set(self.costs)) == 1:
            return ceil(self.bound / self.costs[0] - 1e-7) * self.costs[0]
        return self.bound

    def _prices(self) -> "tuple[float, NDArray[np.float64]]":
        """Cost of the best fractional plan, and what a piece of each size is worth in it."""
        import numpy as np
        from scipy.optimize import linprog

        costs = np.array([self.costs[t] for t, _ in self.patterns])
        matrix = np.array([pattern for _, pattern in self.patterns], dtype=float).T
        solved = linprog(costs, A_ub=-matrix, b_ub=-self.wanted, method="highs")
        return float(solved.fun or 0.0), -solved.ineqlin.marginals

    def _dearest(self, prices: "NDArray[np.float64]") -> tuple[float, tuple[int, ...], int]:
        """Pattern worth most for its cost: how many times its cost, what it holds, its stock."""
        import numpy as np

        room = max(self.rooms)
        value = np.zeros(room + 1)
        taken = np.full(room + 1, -1, dtype=np.int32)
        for i, size in enumerate(self.sizes):
            if prices[i] <= 0 or not 0 < size <= room:
                continue
            for begin in range(size, room + 1, size):
                end = min(begin + size, room + 1)
                with_it = value[begin - size : end - size] + prices[i]
                better = with_it > value[begin:end] + 1e-12
                value[begin:end][better] = with_it[better]
                taken[begin:end][better] = i
        ratio, stock = max((float(value[r]) / c, -t) for t, (r, c) in enumerate(
            zip(self.rooms, self.costs, strict=True)) if c > 0)  # fmt: skip
        at, counts = self.rooms[-stock], [0] * len(self.sizes)
        while at > 0 and taken[at] >= 0:
            i = int(taken[at])
            counts[i] += 1
            at -= self.sizes[i]
        return ratio, tuple(counts), -stock

    def enumerate_patterns(self) -> None:
        """Add every pattern that nothing more fits into, where they are not too many."""
        found: list[tuple[int, tuple[int, ...]]] = []
        for t, room in enumerate(self.rooms):
            if not _fill(self.sizes, self.wanted.tolist(), room, t, found):
                return
        self.patterns = list(dict.fromkeys([*self.patterns, *found]))

    def integer_solution(self) -> list[tuple[int, dict[int, int]]]:
        """Whole numbers of patterns that meet the demand at least cost; empty if none is found."""
        import numpy as np
        from scipy.optimize import Bounds, LinearConstraint, milp

        matrix = np.array([pattern for _, pattern in self.patterns], dtype=float).T
        solved = milp(
            np.array([self.costs[t] for t, _ in self.patterns]),
            integrality=np.ones(len(self.patterns), dtype=int),
            bounds=Bounds(0, np.inf),
            constraints=LinearConstraint(matrix, lb=self.wanted),
            options={"node_limit": _MOST_NODES},
        )
        if solved.x is None:
            return []
        plan: list[tuple[int, dict[int, int]]] = []
        for (t, pattern), times in zip(self.patterns, solved.x, strict=True):
            held = {self.real[i]: n for i, n in enumerate(pattern) if n}
            plan += [(t, held)] * round(times)
        return plan


def _fill(
    sizes: Sequence[int],
    wanted: Sequence[float],
    room: int,
    stock: int,
    found: list[tuple[int, tuple[int, ...]]],
) -> bool:
    """List the patterns of one stock length that nothing more fits into; False if too many."""
    counts = [0] * len(sizes)
    smallest = min(sizes)

    def go(i: int, left: int) -> bool:
        if i == len(sizes) or left < smallest:
            found.append((stock, tuple(counts)))
            return len(found) <= _MOST_PATTERNS
        most = min(left // sizes[i], int(wanted[i]))
        for n in range(most, -1, -1):
            counts[i] = n
            if not go(i + 1, left - n * sizes[i]):
                return False
        counts[i] = 0
        return True

    return go(0, room)

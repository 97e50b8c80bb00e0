"""Which cut pieces come from the offcut of another: fewest tiles opened.

A piece is cut where it lies in its tile, or there turned half round, so the edges that face a
neighbour are always factory edges; two pieces share a tile when the saw's kerf passes between
them.  Pieces are placed largest first where they leave the least.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from sheetcalc.domain.job import Job
from sheetcalc.domain.quantity import CutPiece, CutShape, SettingOut
from sheetcalc.geometry.off_cut_fits import Fits, fits_of


@dataclass(frozen=True, slots=True)
class Wanted:
    """Alike pieces to cut: which one of which surface, and how many."""

    surface: int
    piece: int
    count: int


def pool_off_cuts(
    setting_outs: Sequence[SettingOut], job: Job, counts: Sequence[int] | None = None
) -> tuple[SettingOut, ...]:
    """Let cut pieces come from offcuts as far as the Job allows.

    Parameters
    ----------
    setting_outs
        Surfaces; those with the same tile share offcuts within a room, or over the whole job.
    job
        ``offcuts`` (none, same room, whole job) and ``kerf_mm320``.
    counts
        How many alike rooms each stands for; only the whole job shares between them.

    Returns
    -------
    tuple of SettingOut
        In the same order, with tiles opened, and each row of the cut list saying what it is taken
        from.
    """
    if job.offcuts == "none":
        return tuple(setting_outs)
    whole_job = job.offcuts == "whole job"
    many = list(counts) if counts is not None and whole_job else [1] * len(setting_outs)
    pools: defaultdict[tuple[str, ...], list[int]] = defaultdict(list)
    for i, out in enumerate(setting_outs):
        if not out.by_area and out.pieces:
            room = () if whole_job else (out.room,)
            pools[(*room, out.tile, str(out.face_mm320))].append(i)
    done = [_afresh(out) for out in setting_outs]
    for members in pools.values():
        for i, out in _pooled(done, members, many, job).items():
            done[i] = out
    return tuple(done)


def _afresh(out: SettingOut) -> SettingOut:
    """Forget what pieces were taken from, so that pools can be made again."""
    if not any(piece.taken_from for piece in out.pieces):
        return out
    alike: Counter[CutPiece] = Counter()
    for piece in out.pieces:
        alike[replace(piece, count=0, taken_from="")] += piece.count
    pieces = tuple(replace(piece, count=number) for piece, number in alike.items())
    return replace(out, pieces=pieces, tiles_opened=out.whole + out.cut)


def _pooled(
    outs: Sequence[SettingOut], members: list[int], many: list[int], job: Job
) -> dict[int, SettingOut]:
    """Share offcuts among some surfaces with the same tile."""
    wanted = [
        Wanted(i, n, piece.count * many[i])
        for i in members
        for n, piece in enumerate(outs[i].pieces)
        if piece.shape is not CutShape.DRILLED
    ]
    pieces = [outs[w.surface].pieces[w.piece] for w in wanted]
    first = outs[members[0]]
    fits = fits_of(
        [p.outline for p in pieces], first.face_mm320, job.kerf_mm320, first.joint_mm320,
        first.sheet_chips,
    )  # fmt: skip
    tiles = open_tiles([w.count for w in wanted], fits)
    return _told(outs, many, wanted, tiles)


@dataclass(frozen=True, slots=True)
class Opened:
    """Alike opened tiles: kinds of pieces cut from one, the largest first, and how many."""

    kinds: tuple[int, ...]
    count: int


def open_tiles(counts: Sequence[int], fits: Fits) -> list[Opened]:
    """Choose which pieces share a tile.

    Parameters
    ----------
    counts
        How many of each kind of piece are wanted.
    fits
        Which kinds can share a tile.

    Returns
    -------
    list of Opened
        As few tiles as two orders of placing find: largest first, and hardest to pair first.
    """
    by_area = sorted(range(len(counts)), key=lambda t: (-fits.areas[t], t))
    partners = fits.alike | fits.turned
    hardest = sorted(
        range(len(counts)),
        key=lambda t: (int((partners[t] * np.asarray(counts)).sum()), -fits.areas[t], t),
    )
    plans = [_place(order, counts, fits) for order in (by_area, hardest)]
    return min(plans, key=lambda plan: sum(o.count for o in plan))


_State = tuple[tuple[int, bool], ...]


def _place(order: Iterable[int], counts: Sequence[int], fits: Fits) -> list[Opened]:
    """Place kinds in the order given, each where it leaves the least."""
    open_now: Counter[_State] = Counter()
    used: dict[_State, float] = {}
    for kind in order:
        left = counts[kind]
        while left > 0:
            best: _State | None = None
            best_turn = False
            for state, number in open_now.items():
                if number and (best is None or used[state] > used[best]):
                    turn = fits.joins(kind, state)
                    if turn is not None:
                        best, best_turn = state, turn
            if best is None:
                state = ((kind, False),)
                open_now[state] += 1
                used[state] = fits.areas[kind]
                left -= 1
                continue
            state = (*best, (kind, best_turn))
            # a kind that may share with itself is placed one at a time, others all at once
            number = min(left, open_now[best])
            open_now[best] -= number
            open_now[state] += number
            used[state] = used[best] + fits.areas[kind]
            left -= number
    return [
        Opened(tuple(sorted((k for k, _ in state), key=lambda k: (-fits.areas[k], k))), number)
        for state, number in open_now.items()
        if number
    ]


_Row = tuple[int, int | None, int]
"""Kind of piece, kind whose offcut it is (None: a new tile), and how many."""


def _told(
    outs: Sequence[SettingOut],
    many: Sequence[int],
    wanted: Sequence[Wanted],
    tiles: Sequence[Opened],
) -> dict[int, SettingOut]:
    """Write into each cut list what its pieces are taken from."""
    taken: Counter[tuple[int, int | None]] = Counter()
    opened: Counter[int] = Counter()
    for tile in tiles:
        first = tile.kinds[0]
        opened[wanted[first].surface] += tile.count
        taken[first, None] += tile.count
        for kind in tile.kinds[1:]:
            taken[kind, first] += tile.count
    rows: defaultdict[int, list[_Row]] = defaultdict(list)
    for (kind, host), number in sorted(
        taken.items(), key=lambda item: (item[0][0], item[0][1] is not None, item[0][1] or 0)
    ):
        rows[wanted[kind].surface].append((kind, host, number))
    numbers = {
        kind: place
        for own in rows.values()
        for place, (kind, host, _) in enumerate(own, start=1)
        if host is None
    }
    done = {}
    for i, own in rows.items():
        out = outs[i]
        pieces: list[CutPiece] = []
        for kind, host, number in own:
            piece = out.pieces[wanted[kind].piece]
            words = "" if host is None else _words(outs, i, wanted[host].surface, numbers[host])
            pieces.append(replace(piece, count=-(-number // many[i]), taken_from=words))
        pieces += [p for p in out.pieces if p.shape is CutShape.DRILLED]
        done[i] = replace(
            out,
            pieces=tuple(pieces),
            tiles_opened=out.whole + -(-opened[i] // many[i]),
            opened_mean=out.whole + opened[i] / many[i],
        )
    return done


def _words(outs: Sequence[SettingOut], here: int, there: int, number: int) -> str:
    """Say which cut's offcut a piece comes from."""
    words = f"offcut of cut {number}"
    if there == here:
        return words
    words += f" of {outs[there].surface}"
    return words if outs[there].room == outs[here].room else f"{words} in {outs[there].room}"

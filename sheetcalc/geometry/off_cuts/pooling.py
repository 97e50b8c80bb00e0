"""Which cut pieces come from the offcut of another: fewest tiles opened.

A piece is cut where it lies in its tile, or there turned half round (square tile: by a right
angle too), so the edges that face a neighbour are always factory edges; two pieces share a tile
when the saw's kerf passes between them.  Pieces are placed largest first where they leave the
least.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Ring
from sheetcalc.domain.setting_out import CutPiece, CutShape, SettingOut
from sheetcalc.geometry.off_cuts.fits import fits_of
from sheetcalc.geometry.off_cuts.placing import Opened, open_tiles

__all__ = ["Opened", "open_tiles", "pool_off_cuts"]


class _Wanted(Struct):
    """Pieces of one row of one surface's cut list that are still to be placed."""

    surface: int
    piece: int
    left: int


def pool_off_cuts(
    setting_outs: Sequence[SettingOut],
    job: Job,
    counts: Sequence[int] | None = None,
    stages: Sequence[int] | None = None,
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
    stages
        When each is laid: a tile that serves several stages is opened in the first of them, so
        no stage waits for the offcuts of a later one.

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
    when = list(stages) if stages is not None else [0] * len(setting_outs)
    pools: defaultdict[tuple[str, ...], list[int]] = defaultdict(list)
    for i, out in enumerate(setting_outs):
        if not out.by_area and out.pieces:
            room = () if whole_job else (out.room,)
            pools[(*room, out.tile, str(out.face_mm320))].append(i)
    done = [_afresh(out) for out in setting_outs]
    for members in pools.values():
        for i, out in _pooled(done, members, (many, when), job).items():
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
    outs: Sequence[SettingOut],
    members: list[int],
    how_many_when: tuple[list[int], list[int]],
    job: Job,
) -> dict[int, SettingOut]:
    """Share offcuts among some surfaces with the same tile."""
    many, when = how_many_when
    kinds = defaultdict[tuple[Ring, int], list[_Wanted]](list)
    for i in members:
        for n, piece in enumerate(outs[i].pieces):
            if piece.shape is not CutShape.DRILLED:
                kinds[piece.outline, when[i]].append(_Wanted(i, n, piece.count * many[i]))
    wanted = list(kinds.values())
    first = outs[members[0]]
    shapes = {ring: at for at, ring in enumerate(dict.fromkeys(ring for ring, _ in kinds))}
    fits = fits_of(
        list(shapes), first.face_mm320, job.kerf_mm320, first.joint_mm320, first.sheet_chips
    ).repeated([shapes[ring] for ring, _ in kinds])
    counts = [sum(w.left for w in several) for several in wanted]
    tiles = open_tiles(counts, fits, [stage for _, stage in kinds])
    cut = _Cut(Counter(), Counter())
    for hosts, number in _handed_out(tiles, wanted):
        host = min(hosts, key=lambda place: when[place[0]])  # the largest of the earliest
        cut.opened[host[0]] += number
        cut.taken[host, None] += number
        for place in _less_one(hosts, host):
            cut.taken[place, host] += number
    return _told(outs, many, members, cut)


_Place = tuple[int, int]
"""A surface, and the number of one of its pieces."""


def _less_one(places: Sequence[_Place], one: _Place) -> list[_Place]:
    """Everything but one; alike ones stay."""
    rest = list(places)
    rest.remove(one)
    return rest


def _handed_out(
    tiles: Sequence[Opened], wanted: Sequence[list[_Wanted]]
) -> Iterator[tuple[list[_Place], int]]:
    """Hand the tiles' pieces to the surfaces that want them, in their order."""
    for tile in tiles:
        left = tile.count
        needs = Counter(tile.kinds)
        while left > 0:
            number, hosts = left, []
            for kind in tile.kinds:
                queue = wanted[kind]
                while not queue[0].left:
                    queue.pop(0)
                number = min(number, max(queue[0].left // needs[kind], 1))
            for kind in tile.kinds:
                queue = wanted[kind]
                while not queue[0].left:
                    queue.pop(0)
                take = queue[0]
                take.left -= number
                hosts.append((take.surface, take.piece))
            yield hosts, number
            left -= number


class _Cut(Struct, frozen=True):
    """What was decided: tiles opened by surface; pieces by place and by whose offcut they are."""

    opened: Counter[int]
    taken: Counter[tuple[_Place, _Place | None]]


_Row = tuple[int, tuple[tuple[_Place | None, int], ...], int]
"""Piece, whose offcuts it is taken from (None: a new tile) in how many rooms, how many."""


def _told(
    outs: Sequence[SettingOut], many: Sequence[int], members: Sequence[int], cut: _Cut
) -> dict[int, SettingOut]:
    """Write into each cut list what its pieces are taken from."""
    sources: defaultdict[_Place, list[tuple[_Place | None, int]]] = defaultdict(list)
    for (place, host), number in cut.taken.items():
        sources[place].append((host, number))
    rows: dict[int, list[_Row]] = {i: [] for i in members}
    for place in sorted(sources):
        found = sorted(sources[place], key=lambda s: (s[0] is not None, s[0] or (0, 0)))
        rows[place[0]] += _rows(place[1], found, many[place[0]])
    numbers: dict[_Place, int] = {}
    for i, own in rows.items():
        for row, (piece, hosts, _) in enumerate(own, start=1):
            if any(host is None for host, _ in hosts):
                numbers.setdefault((i, piece), row)
    done = {}
    for i, own in rows.items():
        out = outs[i]
        pieces = [
            replace(
                out.pieces[piece],
                count=number,
                taken_from=_words(outs, i, hosts, numbers),
            )
            for piece, hosts, number in own
        ]
        pieces += [p for p in out.pieces if p.shape is CutShape.DRILLED]
        from_others = any(
            host is not None and host[0] != i for _, hosts, _ in own for host, _ in hosts
        )
        opened = out.whole + -(-cut.opened[i] // many[i])
        done[i] = replace(
            out,
            pieces=tuple(pieces),
            tiles_opened=opened,
            opened_mean=out.whole + cut.opened[i] / many[i],
            lower_bound=min(out.lower_bound, opened) if from_others else out.lower_bound,
        )
    return done


def _rows(piece: int, found: Sequence[tuple[_Place | None, int]], many: int) -> Iterator[_Row]:
    """Rows of the cut list of one room: one for each source that all alike rooms share alike.

    What does not go round evenly over alike rooms becomes one row that names its sources.
    """
    rest: list[tuple[_Place | None, int]] = []
    for host, number in found:
        each, left = divmod(number, many)
        if each:
            yield piece, ((host, 0),), each
        if left:
            rest.append((host, left))
    if rest:
        yield piece, tuple(rest), sum(number for _, number in rest) // many


def _words(
    outs: Sequence[SettingOut],
    here: int,
    hosts: Sequence[tuple[_Place | None, int]],
    numbers: dict[_Place, int],
) -> str:
    """Say what a piece is taken from; "" for a new tile."""
    if len(hosts) == 1:
        host = hosts[0][0]
        return "" if host is None else _off_cut(outs, here, host, numbers)
    total = sum(number for _, number in hosts)
    parts = [
        f"{'a new tile' if host is None else _off_cut(outs, here, host, numbers)} "
        f"for {number} of {total}"
        for host, number in hosts
    ]
    return f"{'' if hosts[0][0] is None else 'by turns '}{', '.join(parts)} in alike rooms"


def _off_cut(
    outs: Sequence[SettingOut], here: int, host: _Place, numbers: dict[_Place, int]
) -> str:
    there = host[0]
    words = f"offcut of cut {numbers[host]}"
    if there == here:
        return words
    words += f" of {outs[there].surface}"
    return words if outs[there].room == outs[here].room else f"{words} in {outs[there].room}"

"""What must hold for every room: splitting, mirroring, and shapely as an independent judge."""

import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from room_rows import mm, one_room, piece, resolve, room_row

from sheetcalc.domain.measure import mm320_to_m
from sheetcalc.domain.room import FloorPiece, Room, Surface
from sheetcalc.geometry.plane.regions import mirrored, perimeter_mm320

SIDE = st.integers(600, 6000)


@st.composite
def furnished(draw: st.DrawFn) -> tuple[int, int, list[FloorPiece]]:
    """Sizes of a room, and pieces in it that don't overlap: one a quarter."""
    length, width = draw(SIDE), draw(SIDE)
    half_length, half_width = length // 2, width // 2
    pieces = []
    for i, (left, front) in enumerate(
        ((0, 0), (half_length, 0), (0, half_width), (half_length, half_width))
    ):
        kind = draw(
            st.sampled_from(
                ["none", "void", "inset", "shower floor", "curb", "bath", "cabinet", "column",
                 "drain"]
            )
        )  # fmt: skip
        if kind == "none":
            continue
        across = draw(st.integers(20, half_length))
        deep = draw(st.integers(20, half_width))
        at = (
            left + draw(st.integers(0, half_length - across)),
            front + draw(st.integers(0, half_width - deep)),
        )
        height = 100 if kind == "curb" else None
        pieces.append(piece(f"P{i}", kind, *at, across, deep, height=height))
    return length, width, pieces


def resolved(length: int, width: int, pieces: list[FloorPiece], *, handed: bool) -> Room | None:
    rooms, _ = resolve(room_row(*pieces, length=length, width=width, handed=handed))
    return rooms[0] if rooms else None


def on_floor(room: Room) -> dict[str, Surface]:
    return {s.key: s for s in room.surfaces if s.key.startswith(("floor", "inset", "shower"))}


@given(furnished())
@settings(max_examples=150, deadline=None)
def test_areas_are_those_of_shapely(room: tuple[int, int, list[FloorPiece]]) -> None:
    length, width, pieces = room
    own = resolved(length, width, pieces, handed=False)
    assume(own is not None)
    assert own is not None
    boxes = {
        p.name: shapely.box(
            p.left_mm320 or 0,
            p.front_mm320 or 0,
            (p.left_mm320 or 0) + (p.length_mm320 or 0),
            (p.front_mm320 or 0) + (p.width_mm320 or 0),
        )
        for p in pieces
    }
    outline = shapely.box(0, 0, mm(length), mm(width))
    voids = shapely.union_all([boxes[p.name] for p in pieces if p.kind == "void"])
    taken = shapely.union_all(list(boxes.values()))
    shape = outline.difference(voids)
    assert own.outline.area_mm320 == shape.area
    assert abs(own.measures.outline_perimeter_m - shape.length / 320_000) < 1e-9
    main = on_floor(own).get("floor")
    assert (main.region.area_mm320 if main else 0) == outline.difference(taken).area


@given(furnished())
@settings(max_examples=100, deadline=None)
def test_a_mirrored_room_has_mirrored_surfaces_and_the_same_measures(
    room: tuple[int, int, list[FloorPiece]],
) -> None:
    length, width, pieces = room
    own = resolved(length, width, pieces, handed=False)
    other = resolved(length, width, pieces, handed=True)
    assert (own is None) == (other is None)
    assume(own is not None)
    assert own is not None
    assert other is not None
    assert other.outline == mirrored(own.outline, mm(length) or 0)
    here, there = on_floor(own), on_floor(other)
    assert {k: mirrored(s.region, mm(length) or 0) for k, s in here.items()} == {
        k: s.region for k, s in there.items()
    }
    assert own.measures == other.measures


@given(SIDE, SIDE, st.integers(1, 599), st.sampled_from(("across", "along")))
@settings(max_examples=100, deadline=None)
def test_splitting_a_room_into_two_floor_pieces_changes_nothing(
    length: int, width: int, cut: int, way: str
) -> None:
    if way == "across":
        parts = (piece("A", "floor", 0, 0, cut, width),
                 piece("B", "floor", cut, 0, length - cut, width))  # fmt: skip
    else:
        parts = (piece("A", "floor", 0, 0, length, cut),
                 piece("B", "floor", 0, cut, length, width - cut))  # fmt: skip
    whole, split = one_room(length=length, width=width), one_room(*parts)
    assert split.outline == whole.outline
    assert split.measures == whole.measures
    assert split.walls == whole.walls


@given(furnished())
@settings(max_examples=100, deadline=None)
def test_edges_of_the_floor_add_up_to_its_perimeter(
    room: tuple[int, int, list[FloorPiece]],
) -> None:
    length, width, pieces = room
    own = resolved(length, width, pieces, handed=False)
    assume(own is not None)
    assert own is not None
    floors = sum(s.region.area_m2 for s in on_floor(own).values())
    assert floors <= own.outline.area_m2 + 1e-9
    base_m = mm320_to_m(sum(own.measures.base_stretches_mm320))
    assert base_m <= own.measures.outline_perimeter_m + 1e-9
    for shower in own.measures.showers:
        round_it = mm320_to_m(perimeter_mm320(on_floor(own)[shower.surface].region))
        assert shower.wall_edge_m + shower.curb_edge_m <= round_it + 1e-9

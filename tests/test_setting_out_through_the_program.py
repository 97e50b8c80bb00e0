"""Setting-out through the program: rooms through doorways, handed rooms, offcuts of a whole job."""

import pytest
from tiling_jobs import checked, errors, run_of, work_of
from workbook.raw_books import PLAIN_FINISH, PLAIN_TILE, Values

from sheetcalc import planning
from sheetcalc.domain.job import Job
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out.drawing import tiles_of
from sheetcalc.geometry.setting_out.fields import Field
from sheetcalc.geometry.setting_out.room import set_out_field

MM = 320


def piece(room: str, name: str, kind: str, **values: str | float) -> Values:
    return {"Room": room, "Piece": name, "Kind": kind} | {
        header.replace("_", " "): value for header, value in values.items()
    }


def door(room: str, left: float, **values: str | float) -> Values:
    return piece(room, "Door", "doorway", Wall="near", Left=left, Length=0.8, **values)


BATH: Values = {"Room": "Bath", "Length": 2.1, "Width": 1.6, "Finish": "Plain"}
HALL: Values = {"Room": "Hall", "Length": 2.8, "Width": 1.3, "Finish": "Plain"}
REVEAL = piece("Bath", "Reveal", "floor", Left=0.6, Front=-0.12, Length=0.8, Width=0.12)
BATH_DOOR = piece(
    "Bath", "Door", "doorway", Left=0.6, Front=-0.12, Length=0.8, Through_to="Hall"
)  # fmt: skip


def through(*rooms: Values, pieces: tuple[Values, ...] = ()) -> dict[str, tuple[Values, ...]]:
    rows = pieces or (REVEAL, BATH_DOOR, door("Hall", 1.0))
    return {"Rooms": rooms or (BATH, HALL), "Floor_pieces": rows}


def floor(run: object, room: str) -> SettingOut:
    return work_of(run, room).setting_outs["floor"]  # type: ignore[arg-type]


def test_joint_lines_run_on_through_a_doorway() -> None:
    """Back to back: the hall is turned half round, its door from 1.0 m meets the bath's."""
    run = run_of(**through())
    bath, hall = floor(run, "Bath"), floor(run, "Hall")
    assert "laid through as one surface with the floor beyond Door" in bath.searched
    assert "joints run on through Door" in hall.start
    # a point (x, y) of the hall lies at (2.4 - x, -0.12 - y) of the bath: 0.6 + 0.8 + 1.0 = 2.4
    along, across = 603 * MM, 303 * MM
    x, y = hall.origin
    far = 2400 * MM - x - 600 * MM, -120 * MM - y - 300 * MM
    assert (far[0] - bath.origin[0]) % along == 0
    assert (far[1] - bath.origin[1]) % across == 0
    # without the column, each has a start of its own
    alone = {k: v for k, v in BATH_DOOR.items() if k != "Through to"}
    apart = run_of(**through(pieces=(REVEAL, alone, door("Hall", 1.0))))
    assert "laid through" not in floor(apart, "Bath").searched


def test_a_doorway_that_the_tile_runs_on_through_has_no_threshold_and_no_step() -> None:
    """The hall has a second door, of 0.7 m, to the stairs."""
    stairs = piece("Hall", "Stairs", "doorway", Wall="left", Front=0.3, Width=0.7)
    bought = {"Supplier": "S", "Description": "It", "Rate": 1, "Pack size": 1, "Pack unit": "piece"}
    sundries = [
        {**bought, "Code": "T", "Basis": "per doorway"},
        {**bought, "Code": "M", "Basis": "per m of doorway"},
    ]

    def ends(*pieces: Values) -> tuple[dict[str, float], list[str]]:
        run = run_of(**through(pieces=pieces), Sundries=sundries)
        each = {f"{x.item} {x.room}": x.each_si for x in run.lines if x.line == "sundries"}
        return each, [x.description for x in run.lines if x.line == "finished height"]

    run_on, heights = ends(REVEAL, BATH_DOOR, door("Hall", 1.0), stairs)
    assert run_on == {"T Hall": 1, "M Hall": pytest.approx(0.7)}
    assert heights == ["Finished height at Stairs"]
    alone = {k: v for k, v in BATH_DOOR.items() if k != "Through to"}
    apart, heights = ends(REVEAL, alone, door("Hall", 1.0), stairs)
    assert apart == {"T Bath": 1, "T Hall": 2, "M Bath": 0.8, "M Hall": pytest.approx(1.5)}
    assert len(heights) == 3


def test_a_block_of_alike_pairs_is_laid_through_pair_by_pair() -> None:
    second: tuple[Values, ...] = (
        {"Room": "Bath 2", "Same as": "Bath", "Finish": "Plain"},
        {"Room": "Hall 2", "Same as": "Hall", "Finish": "Plain"},
    )
    run = run_of(**through(BATH, HALL, *second))
    for first, other in (("Bath", "Bath 2"), ("Hall", "Hall 2")):
        one, two = floor(run, first), floor(run, other)
        assert (one.origin, one.pieces, one.searched) == (two.origin, two.pieces, two.searched)
        assert two.room == other
    assert not [f for f in run.findings if f.code == "THROUGH-NOT-POSSIBLE"]


def test_either_room_may_say_so() -> None:
    alone = {k: v for k, v in BATH_DOOR.items() if k != "Through to"}
    one = run_of(**through())
    other = run_of(**through(pieces=(REVEAL, alone, door("Hall", 1.0, Through_to="Bath"))))
    assert floor(one, "Hall").origin == floor(other, "Hall").origin


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"Length": 0.9}, "differ in width"),
        ({"Through to": "Bath"}, "own room"),
        ({"Wall": "far", "Left": 0.2, "Front": None}, ""),
    ],
)
def test_doorways_that_do_not_meet_are_named(change: dict[str, object], why: str) -> None:
    other = {**door("Hall", 1.0), **({} if "Through to" in change else change)}
    mine = {**BATH_DOOR, **(change if "Through to" in change else {})}
    run = run_of(**through(pieces=(REVEAL, mine, other)))
    found = [str(f.facts["why"]) for f in run.findings if f.code == "THROUGH-NOT-POSSIBLE"]
    assert (not found and not why) or why in found[0]


def test_floors_with_other_joints_are_not_laid_through() -> None:
    wide: Values = {**PLAIN_FINISH, "Finish": "Wide", "Joint": 5}
    run = run_of(Finishes=[PLAIN_FINISH, wide], **through(BATH, {**HALL, "Finish": "Wide"}))
    (found,) = (f for f in run.findings if f.code == "THROUGH-NOT-POSSIBLE")
    assert "tile, bond, run or joint" in str(found.facts["why"])
    assert (found.room, found.surface) == ("Bath", "floor")


def test_rooms_that_would_overlap_are_named() -> None:
    """Two doorways of the bath in one wall lead into two wide halls: these would overlap."""
    third: Values = {**HALL, "Room": "Store"}
    big: Values = {**BATH, "Length": 3.0}
    rows = (
        piece("Bath", "A", "doorway", Wall="near", Left=0.1, Length=0.8, Through_to="Hall"),
        piece("Bath", "B", "doorway", Wall="near", Left=1.2, Length=0.8, Through_to="Store"),
        door("Hall", 1.0),
        door("Store", 1.0),
    )
    run = run_of(**through(big, HALL, third, pieces=rows))
    (found,) = (f for f in run.findings if f.code == "THROUGH-NOT-POSSIBLE")
    assert "overlap" in str(found.facts["why"])


def test_through_needs_a_doorway_and_a_known_room() -> None:
    bad = piece("Bath", "Tub", "bath", Left=0, Front=0.5, Length=1.7, Width=0.7, Through_to="Hall")
    _, findings = checked(**through(pieces=(bad,)))
    assert "THROUGH-NEEDS-DOORWAY" in errors(findings)
    _, findings = checked(**through(pieces=(door("Hall", 1.0, Through_to="Hal"),)))
    assert "NAME-UNKNOWN" in errors(findings)


TRICKY = (
    piece("Left", "Duct", "void", Left=1.9, Front=1.25, Length=0.2, Width=0.35),
    piece("Left", "WC", "toilet outlet", Left=0.4, Front=1.2, Diameter=110),
    piece("Left", "Alcove", "floor", Left=2.1, Front=0.3, Length=0.45, Width=0.7),
)
FACES: tuple[Values, ...] = (
    {"Room": "Left", "Wall": "left", "Part": "face", "Length": 1.6, "Height": 2.1},
    {"Room": "Left", "Wall": "left", "Part": "wet area", "Left": 0.7, "Length": 0.9, "Height": 2.1},
)


@pytest.mark.parametrize("bond", ["grid", "offset 1/2", "offset 1/3", "offset 1/3 alternate"])
def test_a_handed_room_has_the_mirrored_tiles(bond: str) -> None:
    left: Values = {"Room": "Left", "Length": 2.1, "Width": 1.6, "Finish": "Plain"}
    right: Values = {"Room": "Right", "Same as": "Left", "Handed": "yes", "Finish": "Plain"}
    rows = [
        {**PLAIN_FINISH, "Surface": surface, "Bond": bond}
        for surface in ("floor", "wall", "wet area")
    ]
    run = run_of(Rooms=[left, right], Floor_pieces=TRICKY, Wall_faces=FACES, Finishes=rows)
    one, two = work_of(run, "Left").setting_outs, work_of(run, "Right").setting_outs
    for key in ("floor", "wall left", "wet area left"):
        mine, theirs = one[key], two[key.replace("left", "right")]
        assert _lines(mine, mine.region.bounds[0] + theirs.region.bounds[2]) == _lines(theirs)
        assert (mine.whole, mine.cut, mine.tiles_opened) == (
            theirs.whole, theirs.cut, theirs.tiles_opened,
        )  # fmt: skip


def _lines(out: SettingOut, mirrored_in: int | None = None) -> set[tuple[tuple[int, int], ...]]:
    def point(x: float, y: float) -> tuple[int, int]:
        left = x if mirrored_in is None else mirrored_in - x
        return round(left / 32), round(y / 32)

    return {tuple(sorted({point(x, y) for x, y in t.ring})) for t in tiles_of(out)}


OFFCUTS = "Offcuts used again"
AIMS = "Aims of the setting-out"


def strips(offcuts: str, *rows: Values) -> dict[str, float]:
    """Net tiles of each phase; rooms of 0.905 x 0.312 m hold one tile and an end of 290 mm.

    0.905 less two gaps of 6 is 893 = 600 + 3 + 290; an end leaves 600 - 290 - 3 = 307 of its tile.
    """
    rooms = [{"Length": 0.905, "Width": 0.312, "Finish": "Plain", **row} for row in rows]
    phases: list[Values] = [{"Phase": "P1"}, {"Phase": "P2"}]
    run = run_of({OFFCUTS: offcuts, AIMS: "fewest cuts"}, Rooms=rooms, Phases=phases)
    tiles: dict[str, float] = {}
    for line in run.lines:
        if line.line == "tile":
            tiles[line.phase] = tiles.get(line.phase, 0.0) + line.net_si
    return tiles


def test_alike_rooms_share_tiles_over_the_whole_job() -> None:
    three = {"Room": "A", "Phase": "P1", "Count": 3}
    assert strips("same room", three) == {"P1": 6.0}
    # three ends come from two tiles
    assert strips("whole job", three) == {"P1": pytest.approx(5.0, abs=1e-9)}


def test_a_later_phase_uses_up_the_offcuts_of_an_earlier_one() -> None:
    early, late = {"Room": "A", "Phase": "P1"}, {"Room": "B", "Phase": "P2"}
    # one end each: the first phase opens the tile, wherever it stands in the workbook
    assert strips("whole job", early, late) == {"P1": 2.0, "P2": 1.0}
    assert strips("whole job", late, early) == {"P1": 2.0, "P2": 1.0}
    assert strips("same room", early, late) == {"P1": 2.0, "P2": 2.0}


def test_an_earlier_phase_never_opens_more_for_a_later_one() -> None:
    rooms: list[Values] = [
        {"Room": f"{phase}{n}", "Phase": phase, "Length": size, "Width": 1.1, "Finish": "Plain",
         "Count": 3}
        for phase in ("P1", "P2")
        for n, size in enumerate((1.45, 2.35))
    ]  # fmt: skip
    third: Values = {**PLAIN_FINISH, "Bond": "offset 1/3"}

    def first_phase(rows: list[Values]) -> float:
        phases: list[Values] = [{"Phase": "P1"}, {"Phase": "P2"}]
        run = run_of({OFFCUTS: "whole job"}, Rooms=rows, Phases=phases, Finishes=[third])
        return sum(x.net_si for x in run.lines if x.line == "tile" and x.phase == "P1")

    assert first_phase(rooms) == pytest.approx(first_phase(rooms[:2]), abs=1e-9)


def test_the_tile_of_the_tests_is_sixty_by_thirty() -> None:
    assert (PLAIN_TILE["Length"], PLAIN_TILE["Width"], PLAIN_FINISH["Joint"]) == (600, 300, 3)


def test_walls_that_several_of_many_rooms_have_are_set_out_once(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Rooms of one width and three lengths: their left walls are alike, their far ones are not.

    The far walls are the smaller ones, so the left walls' courses run on in them.
    """
    rooms = tuple(BATH | {"Room": f"{n}", "Length": 2.1 + n / 10} for n in range(3))
    tabs = {
        "Rooms": rooms,
        "Wall_faces": tuple(
            {"Room": f"{n}", "Wall": wall, "Part": "face", "Length": length, "Height": 2.1}
            for n in range(3)
            for wall, length in (("left", 1.6), ("far", 1.2 + n / 10))
        ),
        "Finishes": (PLAIN_FINISH, PLAIN_FINISH | {"Surface": "wall"}),
    }
    each_by_itself = run_of(**tabs)
    laid: list[str] = []

    def noted(field: Field, job: Job) -> list[SettingOut]:
        laid.append(field.first.key)
        return set_out_field(field, job)

    monkeypatch.setattr(planning, "_KINDS_WORTH_SHARING", 1)
    monkeypatch.setattr(planning, "set_out_field", noted)
    assert run_of(**tabs) == each_by_itself
    assert laid == ["wall left"]

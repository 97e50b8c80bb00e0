"""The order of the work in a room: days, waits, tests, cautions."""

from collections.abc import Iterator, Sequence
from datetime import date

from msgspec import Struct

from sheetcalc.domain.catalogue import Catalogue, LabourTask, Tile
from sheetcalc.domain.finish import Finish, LayerRole, SurfaceKind
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.measure import MM320_PER_METRE
from sheetcalc.domain.quantity import QuantityLine
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.rules.cautions import (
    GROUT_WAIT_HOURS,
    asbestos_presumed,
    needs_two_people,
)
from sheetcalc.rules.flatness import flatness_for
from sheetcalc.rules.membrane import (
    FLOOD_COLD_C,
    FLOOD_WAIT_HOURS,
    FLOOD_WAIT_HOURS_COLD,
    TEST_HEAD_M,
    TEST_MINUTES,
)
from sheetcalc.rules.pack_contents import pack_weight, package_of
from sheetcalc.rules.working_days import working_day
from sheetcalc.units import show_quantity, show_tape
from sheetcalc.workbook.results.findings import Worded

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


class Step(Struct, frozen=True):
    """One step of the work: day of the phase, what, and hours to wait after it; "" for none."""

    day: str
    what: str
    wait: str = ""


def steps(
    run: Run, work: RoomWork, lines: Sequence[QuantityLine], words: Words = ENGLISH
) -> tuple[Step, ...]:
    """Give the work of a room in order.

    Parameters
    ----------
    run
        With the Labour tab and, where it is priced, the tasks that each type of room has.
    work
        The room.
    lines
        Its quantity lines.
    words
        The office's.

    Returns
    -------
    tuple of Step
        Tasks of Labour by their day; without any, the usual order (common practice, no source)
        of what the room needs.
    """
    tasks = _tasks(run, work)
    if not tasks:
        usual = _usual(work, {line.line for line in lines}, run.inputs)
        return tuple(Step(s.day, words.say(s.what), words.shown(s.wait)) for s in usual)
    phase = run.inputs.phases.get(work.room.phase or "")
    start = phase.start if phase else None
    return tuple(
        Step(
            _day(task.day or 1, start, run.inputs.holidays, words),
            task.task,
            words.fill("{hours} h", hours=f"{task.wait_hours:g}") if task.wait_hours else "",
        )
        for task in sorted(tasks, key=lambda task: task.day or 1)
    )


def _tasks(run: Run, work: RoomWork) -> list[LabourTask]:
    """Tasks that the room has any of: as priced, or by finish and surface where nothing is."""
    if run.quote is not None:
        numbers = {t.number for t in run.quote.types if work.room.name in t.rooms}
        return [line.task for line in run.quote.labour if line.type_number in numbers]
    tiled = {out.kind.value for out in work.setting_outs.values()}
    return [
        task
        for task in run.inputs.catalogue.labour
        if task.finish in {None, work.room.finish} and (not task.surface or task.surface in tiled)
    ]


def _day(number: int, start: date | None, holidays: frozenset[date], words: Words) -> str:
    if start is None:
        return str(number)
    day = working_day(start, number, holidays)
    return f"{number} · {day.day} {words.say(_MONTHS[day.month - 1])}"


def _usual(work: RoomWork, lines: set[str], inputs: Inputs) -> Iterator[Step]:
    """Order the usual steps that the room has anything of; common practice, no source."""
    room = work.room
    finish = inputs.finishes.get(room.finish)
    low, high = GROUT_WAIT_HOURS
    stone = _any_stone(work, inputs.catalogue)
    known = [
        (bool(room.take_up), f"Take up: {room.take_up}", ""),
        (True, "Check the base: sound, dry, flat", ""),
        ("primer" in lines or "levelling" in lines, "Prime and level", "as on the pack"),
        ("underlay" in lines, "Lay underlay", "as on the pack"),
        ("waterproofing" in lines, "Waterproof", f"{FLOOD_WAIT_HOURS} h"),
        (bool(room.measures.shower_floors), "Water test of the shower", ""),
        (bool(work.cables), "Lay cable and sensor, read", ""),
        (stone, "Seal stone before setting", "as on the pack"),
        (bool(work.setting_outs), "Mark start lines, lay dry, set tile", f"{low:g} to {high:g} h"),
        (bool(work.setting_outs), "Grout, clean", f"{low:g} h"),
        ("sealant" in lines, "Sealant along edges and corners", ""),
        (stone or "sealer" in lines, "Seal stone and joints", ""),
        (_base(finish), "Set base course", ""),
    ]
    for number, (needed, what, wait) in enumerate((k for k in known if k[0]), 1):
        if needed:
            yield Step(str(number), what, wait)


def _base(finish: Finish | None) -> bool:
    return finish is not None and SurfaceKind.BASE in finish.surfaces


def _any_stone(work: RoomWork, catalogue: Catalogue) -> bool:
    tiles = (catalogue.tiles.get(out.tile) for out in work.setting_outs.values())
    return any(t is not None and "stone" in t.material.casefold() for t in tiles)


def checks(
    work: RoomWork, finish: Finish | None, inputs: Inputs, words: Words = ENGLISH
) -> Iterator[str]:
    """Name the tests of a room, each with what passes."""
    units = inputs.job.units
    if work.room.measures.shower_floors:
        head = show_tape(round(TEST_HEAD_M * MM320_PER_METRE), units.small_length)
        yield words.fill(
            "Water test: {head} of water, {minutes} min at least, drain plugged, no leak; not "
            "before {hours} h after waterproofing ({longer} h below {cold})",
            head=head,
            minutes=TEST_MINUTES,
            hours=FLOOD_WAIT_HOURS,
            longer=FLOOD_WAIT_HOURS_COLD,
            cold=units.temperature.shown(FLOOD_COLD_C),
        )
    longest = max((o.face_mm320[0] for o in work.setting_outs.values()), default=0)
    if longest and finish is not None:
        yield words.fill("Base flat to {flat}", flat=words.say(flatness_for(longest).words))
    if (
        any(finish.layer(kind, LayerRole.WATERPROOFING) for kind in SurfaceKind)
        if finish
        else False
    ):
        yield words.say("Wet areas: 95 % of each tile's back in mortar; lift one and look")
    if work.setting_outs:
        yield words.say("Lippage and joints looked at before grouting")


def cautions(
    run: Run,
    work: RoomWork,
    lines: Sequence[QuantityLine],
    findings: Sequence[Worded],
    words: Words = ENGLISH,
) -> Iterator[str]:
    """Say what to mind in a room: its warnings, heavy packs, dust, the building's age."""
    inputs = run.inputs
    room = work.room
    if room.take_up and asbestos_presumed(inputs.job.year_built):
        yield words.fill(
            "Building of {year}: asbestos is presumed in what is taken up until a survey says "
            "otherwise; no sanding",
            year=inputs.job.year_built,
        )
    told: dict[str, list[Worded]] = {}
    for finding in findings:
        if finding.room == room.name and finding.severity == "warning":
            told.setdefault(finding.code, []).append(finding)
    for same in told.values():
        more = f" {words.fill('(and {number} more alike)', number=len(same) - 1)}"
        yield f"{_sentence(same[0].found)}{more if len(same) > 1 else ''}: {same[0].what_to_do}"
    heavy = _heavy(lines, inputs, words)
    if heavy:
        yield words.fill("Two people to lift: {packs}", packs=", ".join(heavy))
    if any(line.line == "cuts" for line in lines):
        yield words.say("Cut wet; a handheld saw indoors also asks for a respirator")
    for line in lines:
        if line.line == "finished height":
            height = show_tape(round(line.each_si * MM320_PER_METRE), inputs.job.units.small_length)
            yield f"{words.told(line.description)}: {height}"


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]


def _heavy(lines: Sequence[QuantityLine], inputs: Inputs, words: Words) -> list[str]:
    catalogue = inputs.catalogue
    heavy = []
    for item in dict.fromkeys(line.item for line in lines if line.item):
        row = catalogue.tiles.get(item) or catalogue.bags.get(item) or catalogue.rolls.get(item)
        weight = pack_weight(row) if row is not None else None
        if row is not None and weight and needs_two_people(weight):
            shown = show_quantity(weight, inputs.job.units.mass)
            noun = "box" if isinstance(row, Tile) else package_of(row)
            heavy.append(
                words.fill(
                    "a {package} of {item} ({weight})",
                    package=words.say(noun),
                    item=item,
                    weight=shown,
                )
            )
    return heavy

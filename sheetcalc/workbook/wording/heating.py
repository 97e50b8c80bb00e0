"""Words of findings on heating: cables, thermostats, circuits and resistance readings."""

from sheetcalc.workbook.wording.wording import PRACTICE, error, note, warning

_OHM = "R = V²/P and P = V²/R, textbook identities, from memory"

WORDINGS = (
    error(
        "HEATING-RANGE-EMPTY",
        "range {range}, which no heating cable belongs to ({zone})",
        "a Range that stands in Heating cables",
        "add the cables of the range, or correct the name in the Finish's Heating",
        "Heating in Finishes names a Range. Every row of Heating cables with that Range may be "
        "chosen; a zone takes the cable, or the two or three, whose planned path fits it.",
    ),
    warning(
        "HEATING-NOT-ON-FLOOR",
        "range {range} for surface {surface}",
        "Heating on a floor, an inset of the floor or a shower floor",
        "empty the cell, or name the range in the row of the floor that is meant",
        "Cables are laid under floors only. A range named for a wall, a curb or a base is passed "
        "over.",
    ),
    error(
        "CABLE-VOLTAGE-DIFFERS",
        "range {range} is made for {cable_volts} only; {zone}",
        "cables for the Job's supply of {supply_volts} V",
        "name a range for {supply_volts} V, or correct the supply voltage in Job",
        "A cable on another voltage than its own is refused. At half its voltage it gives a "
        "quarter of its power; at double it takes four times as much and burns.",
        _OHM,
    ),
    warning(
        "CABLE-RESISTANCE-MISSING",
        "no resistance for cable {cable}",
        "its resistance at 20 °C (68 °F); {watts} W at {volts} V works out as {worked} Ω",
        "type the resistance from the cable's label; until then the worked one is the one expected",
        "Readings at three stages are held against the cable's stated resistance. Without one the "
        "program works it out from watts and volts, which is only as exact as the rounded watts.",
        _OHM,
    ),
    error(
        "CABLE-RESISTANCE-DIFFERS",
        "{stated} Ω for cable {cable}",
        "{worked} Ω by {watts} W at {volts} V, within {low} to {high} Ω",
        "compare watts, volts and resistance with the cable's label; one of them is wrong",
        "The stated resistance is compared with V²/P and the Job's resistance tolerance (5 % below "
        "to 10 % above: thought to be IEC 60800, from memory, not verified).",
        _OHM,
    ),
    warning(
        "NO-FREE-FLOOR",
        "no floor free for cable in {zone}",
        "floor left over after the clearances from walls, cabinets, outlets and drains",
        "check the pieces and the clearances in Job, or leave Heating empty for this surface",
        "Free floor is the zone less its clearances. Nothing of it is left here, so no cable is "
        "ordered and the zone stays unheated.",
        PRACTICE,
    ),
    warning(
        "NO-CABLE-FITS",
        "no stocked cable fits {zone}, {area} of free floor: {reason}",
        "a cable near {target_watts} W; the nearest are {nearest}",
        "{remedies}; or leave the zone unheated on purpose",
        "A fixed-length cable is never cut, so a zone is heated only by a cable whose planned path "
        "comes out even. No cable is ordered for this zone and it stays unheated. What is "
        "proposed was planned and checked like any other path: a cable at a smaller spacing, a "
        "smaller clearance, the zone in two, a cable of another length at the same power per "
        "metre. Whether a spacing or a clearance may be smaller is for the cable's data sheet and "
        "the rules of the place.",
        PRACTICE,
    ),
    note(
        "FLOOR-LEFT-UNHEATED",
        "{area} of the free floor of {zone} stays unheated ({where})",
        "parts wide enough for two runs side by side, and joined to the rest by as much",
        "nothing, or another spacing, a cable of another length, or smaller clearances in Job",
        "Parts too narrow for two runs, or cut off from the rest, are left out of the path; where "
        "the lengths in stock do not fill the floor, parts of it are left as well.",
        PRACTICE,
    ),
    warning(
        "FLOOR-LARGELY-UNHEATED",
        "{share} % of the free floor of {zone}, {area}, stays unheated ({where})",
        "a cable that heats all of it: the power over all free floor is {mean}, over the part that "
        "is heated {rest}",
        "stock a cable of another length, change clearances in Job, draw the part as a zone of "
        "its own, or accept that it stays cold",
        "No cable in stock comes out even over all of this floor, and the one that leaves least "
        "cold was taken. Surface temperature and warm-up on the Cable schedule go by all free "
        "floor; the heated part is warmer.",
        PRACTICE,
    ),
    warning(
        "THERMOSTAT-MISSING",
        "no thermostat in a heated room",
        "a Floor pieces row of kind thermostat on a wall",
        "add it; until then the cable's ends lie nearest the first doorway",
        "Both ends of a two-ended cable come out where the thermostat is. Without one the ends lie "
        "nearest the first doorway, and whether the cold leads reach is not checked.",
    ),
    warning(
        "THERMOSTATS-SEVERAL",
        "{count} thermostats",
        "{needed} for the room",
        "leave as many as expected, or accept: every cable is brought to {name}",
        "All cables of a room are joined at one thermostat, the first row. Where the Job gives "
        "shower floors a circuit of their own, that has a thermostat of its own: the second row, "
        "or one beside the first.",
    ),
    error(
        "THERMOSTAT-IN-DOORWAY",
        "thermostat {name} within doorway {doorway}",
        "a place on the wall beside it",
        "move the thermostat or the doorway",
        "Cold leads don't pass a doorway, and no thermostat hangs in one.",
        PRACTICE,
    ),
    warning(
        "THERMOSTAT-BY-WATER",
        "thermostat {name} {distance} from {by}",
        "at least {least} from it",
        "hang it elsewhere, outside the room too, or have the electrician say what may hang there",
        "Zone 1 is the bath or shower itself, zone 2 reaches 0.60 m beyond it; of a shower "
        "without a basin zone 1 reaches 1.20 m round its outlet, which is not drawn, so that it "
        "is taken from the edge of a shower floor. What may hang in the zones is restricted. "
        "Measured in plan; screens and heights are not looked at.",
        "BS 7671 701.32 and 701.512.3, as quoted by 2kelectrical",
    ),
    warning(
        "COLD-LEAD-BLOCKED",
        "no way for the cold lead of cable {cable} in {zone} to the thermostat",
        "a way over the floor that passes no doorway and crosses no cable",
        "move the thermostat, or lead it up another wall and have the electrician say how",
        "Cold leads are brought to the thermostat round fixtures and laid cable, never past a "
        "doorway and never across a heating cable.",
        PRACTICE,
    ),
    warning(
        "COLD-LEAD-TOO-SHORT",
        "cable {cable} in {zone} has {lead} of cold lead",
        "{needed} from its splice to the thermostat",
        "move the thermostat, take a cable with a longer lead, or have the lead lengthened",
        "The lead runs along the walls, keeps clear of doorways, through the curb where there is "
        "one, and up to the thermostat. A cold lead may be longer, the heating part never leaves "
        "its zone.",
        PRACTICE,
    ),
    note(
        "COLD-LEADS-CROWDED",
        "{leads} cold leads drawn on one line, room side by side for {fitting}",
        "room for all of them, {apart} from each other and from heating cables",
        "lead some of them another way, or give a larger clearance from walls",
        "Every lead's way is the shortest for itself, so that leads run on one line where they go "
        "together: one for each cable, or two where it has them at both ends. Its length up to "
        "the thermostat is reckoned on that line.",
        PRACTICE,
    ),
    warning(
        "THERMOSTAT-OVERLOADED",
        "{load} A on a thermostat for {rating} A ({share} %)",
        "at most {rating} A",
        "plan a relay (contactor) or a second thermostat",
        "Ratings of 15 A (120 and 240 V) and 16 A (230 V) are common practice, no source.",
        PRACTICE,
    ),
    warning(
        "CIRCUIT-OVERLOADED",
        "{load} A of heating, {needed} A as a continuous load",
        "at most {largest} A, the largest circuit size in Job",
        "split the room's cables over two circuits, or add a circuit size in Job",
        "Fixed electric space heating is a continuous load: conductors and their protection are "
        "sized for at least 125 % of it.",
        "NEC 424.4(B), 424.3(B) up to 2017, as quoted by Mike Holt, October 2019",
    ),
    warning(
        "RESISTANCE-OUT-OF-BAND",
        "{reading} Ω {stage}, cable {cable} in {zone}",
        "{low} to {high} Ω",
        "measure again; if it stays, do not cover the cable: it may be damaged or another one",
        "The band is the cable's resistance at 20 °C (68 °F) with the Job's tolerance (5 % below "
        "to 10 % above: thought to be IEC 60800, from memory, not verified), corrected for the "
        "room's temperature where the alloy's coefficient is given. A warning, not an error: the "
        "takeoff of the other rooms goes on, and nobody is led to write down another reading.",
        "thought to be IEC 60800, from memory, not verified",
    ),
    warning(
        "RESISTANCE-DRIFTS",
        "{reading} Ω {stage} after {before} Ω {stage_before}, cable {cable} in {zone}",
        "a change of at most {share} %",
        "measure again before going on; a change between stages is a sign of damage",
        "A cable's resistance does not change by being laid and covered. A change of more than 5 % "
        "since any stage before is looked into.",
        PRACTICE,
    ),
    warning(
        "INSULATION-TOO-LOW",
        "{reading} MΩ {stage}, cable {cable} in {zone}",
        "at least {limit} MΩ at {volts} V d.c.",
        "do not connect it; have the cable located and repaired",
        "Insulation resistance of a mains circuit up to 500 V: at least 1 MΩ at 500 V d.c. Of a "
        "cable for up to 50 V, taken for SELV or PELV: at least 0.5 MΩ at 250 V d.c. (that "
        "extra-low voltage ends at 50 V is from memory, not verified). The maker of the cable may "
        "ask for more.",
        "BS 7671 Table 64, regulation 643.3.2, as quoted in Electrical Wholesaler, May 2023; for "
        "SELV and PELV NICEIC Connections, spring 2018, Table 1",
    ),
    warning(
        "READING-NOT-A-NUMBER",
        "{text}",
        "a plain number: ohms for the cable, megohms for the insulation (>999 or OL where the "
        "meter ends)",
        "type the number alone, units stand in the header",
        "Readings are compared with the expected band and the insulation's limit, so each is a "
        "plain number. OL, what a meter shows beyond its range, is an open cable, or insulation "
        "better than the meter can tell. What was typed is kept as it is.",
    ),
    warning(
        "READING-WITHOUT-CABLE",
        "a reading of cable {cable} in {room}, {zone}, which is no longer planned",
        "a cable of the Cable schedule",
        "check whether the plan changed after the cable was laid; the reading is kept",
        "Readings that people typed are never dropped. This one belongs to a cable that the last "
        "run did not plan.",
    ),
)
"""Words of the heating findings."""

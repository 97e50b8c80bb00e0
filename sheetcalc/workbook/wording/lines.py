"""Words of findings on the lines of the takeoff: items, mortar, layers, waste and cautions."""

from sheetcalc.rules.cautions import (
    ASBESTOS_SOURCE,
    LIFT_SOURCE,
    SILICA_SOURCE,
    STEP_SOURCE,
)
from sheetcalc.rules.mortar import CONTACT_SOURCE, LEAST_BED_SOURCE
from sheetcalc.workbook.wording.wording import PRACTICE, Wording, error, note, warning

_GEOMETRY = "derived from the volume of the trowel's ridges"
_WHERE = "{surface} of finish {finish}"

_ITEMS = (
    error(
        "ITEM-NOT-IN-CATALOGUE",
        f"{{what}} {{code}}, which no catalogue tab holds ({_WHERE})",
        "a code of the catalogue; nearest: {nearest}",
        "correct the code, or add the item to its catalogue tab",
        "A line orders exactly the item that is named. The codes most like it are listed.",
    ),
    error(
        "ITEM-OF-ANOTHER-KIND",
        f"{{code}} named as {{what}} ({_WHERE}), which is an item of another kind",
        "an item that the catalogue lists as {what}",
        "name another item, or correct the Kind (or Basis) of {code} in its catalogue tab",
        "An item is looked for among those of its kind, so that grout is never spread as mortar.",
    ),
    warning(
        "ITEM-NOT-NAMED-ONE-TAKEN",
        f"no {{what}} named for {_WHERE}; {{code}} was taken, the only one of its kind",
        "the code of a {what}",
        "type {code} here if it is meant, or name another",
        "If none is named and the catalogue holds one of the kind, that one is ordered.",
    ),
    error(
        "ITEM-NOT-NAMED-SEVERAL",
        f"no {{what}} named for {_WHERE}, and the catalogue holds several: {{codes}}",
        "the code of one of them",
        "type one of the codes",
        "With several of a kind the program does not choose.",
    ),
    error(
        "ITEM-NOT-NAMED-NONE",
        f"no {{what}} named for {_WHERE}, and none in the catalogue",
        "the code of a {what}",
        "add it to the catalogue and name it here, or remove the row",
        "A layer of the build-up orders an item; without one the row means nothing.",
    ),
    note(
        "ITEM-NOT-NAMED-NOT-ORDERED",
        f"no {{what}} named for {_WHERE}, and none in the catalogue",
        "the code of a {what}, if it is to be ordered",
        "add it to Bags and pails and name it here; until then the Takeoff lists how much is "
        "needed and nothing is ordered",
        "Catalogue tabs may be empty; what has no item is listed and not ordered.",
    ),
    error(
        "BAG-WITHOUT-YIELD",
        "no Yield for {code}, which is needed by volume and sold by something else",
        "the volume that a pack gives as mixed",
        "read it from the bag and type it",
        "Mortar and grout without a Yield are worked out from the Job's densities, what is sold by "
        "volume from its pack; for anything else no density is assumed.",
    ),
    error(
        "BAG-WITHOUT-COVERAGE",
        "no Coverage for {code}, which is brushed or rolled on",
        "the area that a pack covers in one coat",
        "read it from the pack and type it",
        "Primer, sealer and liquid waterproofing are counted in area times coats.",
    ),
    error(
        "SUNDRY-OF-NOTHING",
        "{code} is bought per kg of another item, and Of is empty",
        "the code of the other item",
        "type the code of the item whose mass it goes by",
        "The basis needs the item that is weighed.",
    ),
    error(
        "SUNDRY-OF-UNKNOWN",
        "{code} is bought by the weight of {of}, which no catalogue tab holds",
        "a code of the catalogue; nearest: {nearest}",
        "correct the code in Of",
        "The basis needs the item that is weighed.",
    ),
    warning(
        "RATE-SHORT-OF-LENGTH",
        "{code} is bought {basis}, {rate} for each",
        "at least {one} for each",
        "correct the Rate, or take the basis by the m or by the ft that the Rate counts in",
        "What is laid along an edge, a wall or a doorway is as long as that. A Rate of 1 ft for "
        "each metre buys less than a third of it.",
    ),
    warning(
        "WET-AREA-LEFT-OUT",
        "{name} counts {basis} on walls, and nothing counts so on the wet areas of finish {finish}",
        "the same for the wet areas, which are tiled too",
        "in Sundries add ', wet area' to its Surface; in Labour add a row for them",
        "A wet area is a part of a wall that takes the finish's row for wet areas, so what is for "
        "the Surface wall alone passes it over.",
    ),
)

_MORTAR = (
    warning(
        "NOTCH-MISSING",
        f"no trowel notch for {_WHERE}",
        "the trowel's notch, such as square 10 x 10 x 10 mm",
        "type the notch; until then no mortar is worked out for this surface",
        "The bed follows from the notch and the trowel's angle, so without a notch there is none.",
    ),
    error(
        "NOTCH-UNWORKABLE",
        f"a {{notch}} at {{angle}} for {_WHERE}",
        "sizes above zero, an angle up to 90°, and a U notch at least half as deep as it is wide",
        "correct the notch or the angle",
        "The volume of the ridges is that of the notches; a U has a half circle at its bottom.",
        _GEOMETRY,
    ),
    warning(
        "BED-TOO-THIN",
        f"a bed of {{bed}} with skim for {_WHERE}",
        "at least {least} between tile and backing after embedding",
        "take a larger notch, hold the trowel steeper, or back-butter",
        "The mean bed from the notch, with the skim on the tile's back, is held against the least "
        "bed: 3/32 in where small lengths are in inches, 2 mm where they are in millimetres.",
        LEAST_BED_SOURCE,
    ),
    warning(
        "CONTACT-WITHOUT-SKIM",
        f"no skim on the tile's back for {_WHERE}, a tile with a side of {{side}}",
        "{share} of the back in contact with mortar ({why}: {source})",
        "give a Skim (back-buttering), or accept this and lift tiles to check",
        "Wet areas and stone ask for more contact than dry interior floors; a long tile set on "
        "ridges alone seldom reaches it (that part: common practice, no source).",
        CONTACT_SOURCE,
    ),
    note(
        "CONTACT-TO-CHECK",
        f"{_WHERE} is {{why}}",
        "{share} of each tile's back in contact with mortar ({source})",
        "lift tiles while setting and look; comb one way, along the short side of a rectangle",
        "Wet areas and stone ask for 95 % contact, dry interior floors for 80 %.",
        CONTACT_SOURCE,
        alike=("share", "source"),
    ),
    error(
        "BED-WITHOUT-NOTCH",
        f"bed mortar under the {{role}} and no trowel notch ({_WHERE})",
        "the notch that it is spread with",
        "type the trowel notch of this layer",
        "Mortar under an underlay or a board has a notch of its own.",
    ),
    warning(
        "BED-NOT-COUNTED",
        f"a bed for the {{role}}, which is none that mortar beds ({_WHERE})",
        "a bed under a board, underlay, tray former, waterproofing sheet or band",
        "clear Bed mortar and Trowel notch of this layer, or give them to the layer that lies in "
        "mortar",
        "Nothing is counted for the bed of this layer: what is poured, brushed or rolled on lies "
        "in none, and corners and collars are so small that they are set with the mortar of the "
        "band or sheet (common practice, no source).",
    ),
    error(
        "KNOBS-WITHOUT-FILL",
        "{code} has a Knob pitch and no Fill",
        "the volume of mortar for an area that fills its knobs, 0 for none",
        "read it from the underlay's paper and type it",
        "Only a knobbed underlay, that is one with a Knob pitch, takes mortar to fill. What fills "
        "it is as much as the bed itself, so it is not assumed.",
    ),
)

_LAYERS = (
    error(
        "DEPTH-MISSING",
        f"no Mean depth for the {{role}} under {_WHERE}",
        "its mean depth",
        "type the mean depth",
        "What is poured is counted by area times mean depth.",
    ),
    warning(
        "SHOWER-NOT-WATERPROOFED",
        "a tiled {surface}, and no waterproofing for it in finish {finish}",
        "a Build-up row with role waterproofing for the {surface}",
        "add the row, or accept this if it is made waterproof by others",
        "Tile and grout are not waterproof; a shower floor, its curb and the wet areas of its "
        "walls have a membrane behind them.",
        PRACTICE,
    ),
    warning(
        "PIPES-WITHOUT-COLLAR",
        "{count} pipes or outlets pass through a floor that is made waterproof, and no collar is "
        "ordered for them",
        "a Build-up row with role collar, and a Sundries row with basis 'per pipe'",
        "add both, or accept this if they are sealed by others",
        "Water finds the hole. Drains have their collar; pipes and toilet outlets through a wet "
        "floor take one too.",
        PRACTICE,
    ),
    warning(
        "SHOWER-SLOPE-UNUSUAL",
        "the Job's slope of shower floors is {slope}",
        "from {low} to {high} ({source})",
        "correct the Job's slope, or accept it if the rules of the place differ",
        "Too little fall leaves water standing; too much is hard to stand on and to tile.",
        "IRC 2009 P2709.1, as quoted in The Building Code Forum",
    ),
    warning(
        "CURB-HEIGHT-UNUSUAL",
        "the curb is {height} high",
        "from {low} to {high} from the curb's top to the drain's ({source})",
        "correct its Height, or accept it if the drain lies lower or the rules of the place differ",
        "The Height of a curb is held against the depth of a shower: the drain lies no higher "
        "than the floor, so a higher curb is deeper still.",
        "IRC 2009 P2709.1, as quoted in The Building Code Forum",
    ),
    warning(
        "BAND-MISSING",
        "rooms of finish {finish} have parts made waterproof, and no band for their changes of "
        "plane and butted seams",
        "a Build-up row with role band for a surface that these rooms have",
        "add the row, or accept this if the sheet is lapped or the liquid reinforced at every one "
        "of them",
        "Membranes leak first at corners, along the foot of walls and at seams.  A lapped sheet's "
        "upturn is then counted with its lap on the floor; for a liquid nothing is added.",
        PRACTICE,
    ),
    warning(
        "BANDS-DIFFER",
        "band {code} and also {others} in finish {finish}",
        "one band for the room",
        "name the same band in every row; {code} is taken for all",
        "Bands are counted once for the room, along all changes of plane and seams, so one item "
        "is ordered.",
    ),
    error(
        "BAND-WIDER-THAN-SHEET",
        "bands of {band} cut from {code}, which is {sheet} wide",
        "a sheet at least as wide as the Job's band",
        "name a band or another sheet, or change Width of band in Job",
        "A Build-up row with role band may name a sheet: bands are then cut side by side from its "
        "width.",
    ),
    note(
        "STONE-NOT-SEALED",
        f"{{material}} and no sealer for {_WHERE}",
        "a Sealer, if the stone is to be sealed",
        "name a sealer: two coats are counted, before setting and before grouting",
        "Stone takes up water and grout; most is sealed before setting and before grouting.",
        PRACTICE,
    ),
    error(
        "TAKE-UP-WITHOUT-THICKNESS",
        "{take_up} is taken up, and no Take up thickness",
        "its thickness with its bed",
        "type the thickness, or empty Take up",
        "Volume, mass and skips of the waste follow from it.",
    ),
    warning(
        "STEP-AT-DOORWAY",
        "the new floor lies {step} {way} than the old one at doorway {door}",
        "a step of at most {limit}, for a bevelled threshold",
        "plan {threshold}, or change the build-up",
        "Layers, bed and tile are added up, less what is taken up; the floor beyond the doorway is "
        "taken as level with the old one.",
        STEP_SOURCE,
    ),
)

_WASTE = (
    error(
        "WASTE-FACTOR-TWICE",
        "a waste factor for {criteria} of {share}, and {other_share} in row {other_row}",
        "one row for the same line, finish, bond and way of counting",
        "delete one of the rows",
        "The most specific row wins: line with finish and bond, line with finish, line with bond, "
        "line. Of two that are equally specific neither can.",
    ),
    error(
        "WASTE-FACTOR-FOR-NO-LINE",
        "a waste factor for {line}, which is no line of the takeoff",
        "a line that has an allowance; nearest: {nearest}",
        "take the line from the list",
        "Lines whose packs come from a plan, and lines that are not bought, have no allowance.",
    ),
)

_CAUTIONS = (
    warning(
        "ASBESTOS-PRESUMED",
        "floors taken up ({rooms}) in a building of {year}",
        "a survey for asbestos: up to {last_year} it is presumed in resilient flooring, mastic "
        "and backing",
        "have it sampled before anything is disturbed; no sanding; removal by those licensed for "
        "it; then accept this with who and when",
        "Resilient floor covering, mastic and backing are presumed to contain asbestos in "
        "buildings constructed no later than 1980. This is a caution, not a survey.",
        ASBESTOS_SOURCE,
    ),
    note(
        "YEAR-BUILT-NOT-SAID",
        "floors taken up ({rooms}), and no Year built in Job",
        "the year: up to {last_year} asbestos is presumed in resilient flooring and mastic",
        "type the year that the building was built",
        "Without the year the caution on asbestos can't be given or left out.",
        ASBESTOS_SOURCE,
    ),
    note(
        "TWO-PERSON-LIFT",
        "a {package} of {code} weighs {weight} ({how})",
        "at most {limit} for one person",
        "plan two people or a hoist for it",
        "23 kg (51 lb) is the load constant of the NIOSH lifting equation, before its other "
        "multipliers, which only lower it.",
        LIFT_SOURCE,
    ),
    note(
        "SAW-WITH-WATER",
        "{cuts} cuts in tile",
        "a saw with integrated water delivery",
        "cut wet; a handheld saw indoors also asks for a respirator (APF 10)",
        "Dust of tile and stone holds crystalline silica. Table 1 lists the saws and what goes "
        "with them.",
        SILICA_SOURCE,
    ),
    note(
        "FLATNESS-TO-PREPARE",
        f"a longest edge of {{edge}} on {_WHERE}",
        "a base flat to {flatness}",
        "check the base with a straightedge before setting, and level it if need be",
        "An edge of 15 in or more asks for the tighter class. This threshold is not that of the "
        "term 'large format', which is reported as above 23 in.",
        "ANSI A108.02-4.2.2 / A108.01, as quoted in floortrendsmag 113806 (edges from 15 in); "
        "below, from memory, not verified",
        alike=("flatness",),
    ),
)

WORDINGS: tuple[Wording, ...] = (*_ITEMS, *_MORTAR, *_LAYERS, *_WASTE, *_CAUTIONS)

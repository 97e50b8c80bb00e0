"""Words of findings on setting-out: cuts, joints, bonds, movement joints, falls."""

from sheetcalc.workbook.wording.wording import PRACTICE, error, note, warning

WORDINGS = (
    note(
        "SMALL-CUTS",
        "{small} cut tiles on {surface} are smaller than {share} of a tile; their smallest sides "
        "are {smallest}",
        "no cuts smaller than half a tile, as a rule",
        "look at the drawing; another tile size, joint or direction may avoid them",
        "Usually no cuts smaller than half size should be made, and cuts lie on the outer edges of "
        "the field. The setting-out is the best one by the Job's order of aims; small cuts that "
        "are left come from the shape of the surface or from the bond. The limit is the Job's "
        "smallest cut.",
        "ANSI A108.02-4.3.2, as quoted in fcimag 95138, 94416, floortrendsmag 100744, 111279",
        alike=("finish", "share"),
    ),
    note(
        "SURFACE-SMALLER-THAN-TILE",
        "{surface} is smaller than one tile {tile}: it is one cut tile",
        "a surface of at least one tile, or one cut piece on purpose",
        "nothing, if one piece is meant",
        "A surface smaller than a tile cannot meet the limit for small cuts; it is counted as one "
        "cut tile.",
        PRACTICE,
    ),
    warning(
        "OFFSET-BEYOND-A-THIRD",
        "{bond} ({offset}) on {surface} with tile {tile}, whose longest side is {longest}",
        "an offset of at most 33 % where a side is over 15 in (381 mm)",
        "choose offset 1/3, or have a mock-up with its lippage approved and say so in Decisions",
        "Long tile is bowed a little: laid half over half, the middle of one lies beside the ends "
        "of two others, and they stand proud. With any side over 15 in the offset is at most 33 % "
        "unless a mock-up and its lippage are approved. A third is within 33 %.",
        "ANSI A108.02-4.3.8.2, as quoted in fcimag 96103 and tileletter.com",
        alike=("finish", "tile", "bond"),
    ),
    warning(
        "JOINT-TOO-NARROW",
        "a joint of {joint} on {surface} with tile {tile}",
        "at least {least}: {rule}",
        "widen the Joint in Finishes, or measure the tile's Size spread and Edge warpage again",
        "The joint is at least three times the spread of facial sizes and never under 1/16 in. In "
        "running bond with a side over 15 in it is at least 1/8 in for rectified and 3/16 in for "
        "calibrated tile, plus the warpage of the longest edge.",
        "ANSI A108.02-2017 4.3.8, as quoted in tileletter.com, fcimag 96103 and ctasc.com",
        alike=("finish", "tile", "joint", "least"),
    ),
    note(
        "LARGE-FORMAT-TILE",
        "tile {tile} on {kind} has a side of {longest}",
        "a flat base, a bed that is fully supported, and lippage within {lippage} plus the tile's "
        "own warpage",
        "prepare the base to the tighter class, and allow for back-buttering",
        "A facial dimension over 23 in (584 mm) makes a tile large format. The tighter flatness of "
        "the base starts lower, with an edge of 15 in. Lippage is at most 1/32 in with joints "
        "under 1/4 in, 1/16 in with wider ones, plus inherent warpage (ANSI A108.02-2013 4.3.7, "
        "as quoted in tileletter.com Feb 2016).",
        "ANSI A108 terms, as quoted in floortrendsmag Dec 2024",
        alike=("lippage",),
    ),
    warning(
        "MOVEMENT-JOINTS-NEEDED",
        "{surface} is larger than one bay of {spacing} ({exposure})",
        "movement joints within it: {number}, on these lines: {places}",
        "have the designer decide where they go; the lines named are joints of this setting-out "
        "where nothing else is said, and are drawn on the room card",
        "Within a field, movement joints are at most 25 ft apart inside, and 12 ft in sun, "
        "moisture, outside or on slabs above ground, or the Job's spacing where that is smaller. "
        "Where they go is the designer's decision, not the tile contractor's. They are proposed on "
        "joint lines, as even as these allow. In an offset bond one direction has no straight "
        "joint line, in herringbone and oblique fields neither has: tiles are cut through there. "
        "A base course follows the joints of the floor and the wall beside it.",
        "TCNA EJ171, as quoted in TileLetter Aug 2018",
    ),
    warning(
        "TILE-TOO-LARGE-FOR-FOUR-WAY-FALL",
        "tile {tile} with a side of {longest} on {surface}, which falls {slope} four ways to a "
        "drain: it stands {rock} off where two falls meet",
        "at most {allowed} (the lippage limit)",
        "cut the tile along the hips ({cuts}), use a channel with a fall one way, or a mosaic",
        "A large tile cannot follow a four-way fall: where two falls meet, along the hips, a flat "
        "tile misses both by about a quarter of slope times side. Hips then become cut lines: in a "
        "rectangle with one drain the cut list and the drawing part every tile that lies across "
        "one, with a joint as wide as the saw's kerf or as the other joints, so that both parts "
        "come from one tile.",
        "derived from the slope and the lippage limit (ANSI A108.02-2013 4.3.7, as quoted in "
        "tileletter.com Feb 2016); no published source for the tile size",
        alike=("finish", "tile"),
    ),
    note(
        "THIN-NECK-AT-HOLE",
        "a hole on {surface} leaves {neck} of tile beside it",
        "{least} or more, or the hole cut out to the edge",
        "cut the tile in two through the hole, or drill with care; have a spare ready",
        "A narrow strip between a drilled hole and an edge breaks easily while it is drilled and "
        "set.",
        PRACTICE,
    ),
    warning(
        "MOSAIC-SHEET-DIFFERS",
        "sheets of {tile} on {surface}: {chips} chips with a joint of {joint} make {length} x "
        "{width}",
        "the Length and Width of the sheet in Tiles",
        "type the joint that the chips have on the sheet, and the sheet's size without a joint",
        "The joint between sheets is the one between chips, or the sheets show. Chips per sheet "
        "are worked out from sheet, chip and joint.",
        PRACTICE,
    ),
    warning(
        "WEAVE-DOES-NOT-CLOSE",
        "basket weave on {surface} with tile {tile}: {number} widths with their joints make "
        "{wanted}, the tile is {length} long",
        "a tile as long as {number} widths and the joints between them",
        "choose another bond, or a tile made for basket weave",
        "In a basket weave tiles lie in squares, so their length is a whole number of widths and "
        "joints. Otherwise joints differ in width; the setting-out spreads the difference.",
        PRACTICE,
    ),
    error(
        "WEAVE-LEAVES-GAPS",
        "basket weave on {surface} with tile {tile}: {number} widths with their joints make "
        "{wanted}, the tile is {length} long, so joints would be {widest} wide",
        "a tile as long as {number} widths and the joints between them",
        "choose another bond, or a tile made for basket weave",
        "In a basket weave tiles lie in squares, so their length is a whole number of widths and "
        "joints. Where joints come out more than twice as wide as asked for, the tiles that were "
        "counted would leave the floor open.",
        PRACTICE,
    ),
    warning(
        "GAP-LEAVES-NO-TILE",
        "{surface} is nowhere wider than two perimeter gaps of {gap}",
        "a surface that has room for tile between its gaps",
        "check its size and the perimeter gap in Job",
        "The perimeter gap is taken off along every edge first. Nothing is left to tile here, so "
        "no tile is counted.",
    ),
    error(
        "THROUGH-NEEDS-DOORWAY",
        "a {kind} that leads through to room {other}",
        "Through to only for a doorway",
        "empty the cell, or type it in the row of the doorway between the two rooms",
        "Floor tile runs on from room to room through a doorway; where the doorways of two rooms "
        "meet tells how the rooms lie to each other.",
    ),
    warning(
        "THROUGH-NOT-POSSIBLE",
        "the floor can't run on through {door} ({width}) to room {there}: {why}",
        "two doorways of one width that meet, and floors with the same tile, bond, run and joint",
        "correct what is named, or empty Through to; each room has a start of its own until then",
        "Two rooms are laid through as one where their doorways meet. Each row of Rooms is brought "
        "into the frame of the first one by turning and shifting it until the doorways lie on each "
        "other. The floor in the opening is drawn as a floor piece of one of the rooms, as deep as "
        "the wall is thick. A doorway leads to the one of the other room that leads back, or to "
        "its only one of that width.",
    ),
    note(
        "SETTING-OUT-TOO-LARGE",
        "{surface} would take {number} tiles in {bond} at {degrees}",
        "at most {most} tiles for a bond that is laid tile by tile",
        "nothing: tiles are counted by area and module there; use the waste factor for area",
        "Grids and 1/n bonds along a side are set out however many tiles there are. Other bonds "
        "and oblique surfaces are laid tile by tile, which very small tile on a very large floor "
        "would make slow without making the count better.",
    ),
)

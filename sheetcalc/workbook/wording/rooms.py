"""Words of findings about rooms: outlines, pieces, walls."""

from sheetcalc.workbook.wording.wording import Wording, error, note, warning

_ROWS = (
    error(
        "ROOM-NAME-TWICE",
        "a second room named {room}",
        "each name once",
        "give one of the two rows another name, or use Count for alike rooms",
        "Pieces, legs and faces find their room by its name, so a name may stand on one row of "
        "Rooms only. Several alike rooms are one row with a Count, or a row with Same as.",
    ),
    error(
        "COPIES-DISAGREE",
        "{copies} names in Copies, Count {count}",
        "as many names as Count says",
        "put the missing names into Copies, or correct Count",
        "Copies names the rooms that a row stands for; every card and every line of the "
        "resistance log is made from it, so it must name exactly Count rooms.",
    ),
    warning(
        "ROOM-IN-TWO-ROWS",
        "{rooms}, for which the row of {other} stands already",
        "each room in one row of Rooms, by its name or in Copies",
        "take it out of one of the two rows; if the rows are two rooms of one number, accept this",
        "Each row counts for all the rooms in its Copies, or for the room of its own name. A room "
        "that stands in two rows is measured, ordered and quoted twice.",
    ),
    error(
        "SAME-AS-UNKNOWN",
        "Same as names {same_as}, which is no room",
        "the name of another row of Rooms; the nearest are {known}",
        "correct the name in Same as",
        "A row with Same as takes its outline, pieces, legs and faces from another row of Rooms, "
        "found by its name.",
    ),
    error(
        "SAME-AS-CIRCULAR",
        "Same as runs in a circle: {chain}",
        "a chain that ends at a room with a description of its own",
        "give one room of the circle its own Length and Width, pieces or legs, and empty its "
        "Same as",
        "Each room of the chain takes its description from the next; if they run in a circle, "
        "none of them has one.",
    ),
    error(
        "SAME-AS-WITH-OWN-PARTS",
        "Same as {same_as}, and {parts}",
        "either a description of its own, or Same as",
        "remove the room's own rows and sizes, or empty its Same as",
        "A row with Same as takes the whole description of the other room. Anything of its own "
        "would be ignored, so it is refused.",
    ),
    error(
        "SAME-AS-FAULTY",
        "{same_as}, which this room is the same as, has errors",
        "a description without errors",
        "correct the errors of {same_as}; this room follows",
        "A room that takes its description from another can't be measured while that one has "
        "errors.",
    ),
    warning(
        "SAME-AS-HANDED",
        "{same_as}, which this row is the same as, is Handed; Handed is not taken over, so here "
        "{root} lies {lies}",
        "the measured room in Same as, and Handed on each row that is its mirror image",
        "set Handed of this row to yes where it is the mirror image of {root} as that was "
        "measured, else to no; then name {root} in Same as, or accept this",
        "A row with Same as takes outline, pieces, legs and faces as they were measured, and "
        "mirrors them by its own Handed alone. Where the row named is mirrored itself, a person "
        "may mean its mirror image or the room as it lies: drawings, cables and cut lists are of "
        "the one that is said here.",
    ),
    error(
        "ROOM-WITHOUT-OUTLINE",
        "no Length and Width, no floor pieces, no wall legs",
        "one description of the outline",
        "fill in Length and Width, or draw the room in Floor pieces (kind floor) or Wall legs",
        "A rectangle is given by Length and Width on the row itself; other shapes by floor pieces "
        "that touch, or by a walk round the walls.",
    ),
    error(
        "ROOM-SIZE-INCOMPLETE",
        "one size of the rectangle, no {missing}",
        "both Length and Width, or neither",
        "fill in {missing}",
        "Length is the size from left to right, Width the size away from the door.",
    ),
    error(
        "SIZE-NOT-POSITIVE",
        "{size}",
        "more than nothing",
        "measure again and correct the size",
        "A size of zero or below describes nothing that can be tiled.",
    ),
    error(
        "OUTLINES-DISAGREE",
        "Length {length} and Width {width}, but {other} give {other_length} by {other_width}",
        "one outline, or two that agree within the misclosure tolerance",
        "empty Length and Width if the walls are right, or remove the wall legs",
        "Length and Width say that the room is a rectangle. Where wall legs are given too, they "
        "must walk round that same rectangle.",
    ),
    error(
        "FLOOR-PIECE-OVERLAPS",
        "{piece} overlaps {other}",
        "floor pieces that touch the outline and each other, but do not overlap",
        "move or shorten {piece} so that it begins where the other ends",
        "Pieces of kind floor add to the outline: an L, an alcove, a door reveal. Where they "
        "overlap, a floor would be measured twice, or a size is wrong.",
    ),
    error(
        "ROOM-IN-TWO-PARTS",
        "a floor in {parts} parts",
        "one connected floor",
        "correct the pieces so that they touch along an edge, or describe two rooms",
        "Parts that touch in a corner only are apart as well. A void across the whole room "
        "divides it.",
    ),
    error(
        "ROOM-WITHOUT-FLOOR",
        "an outline with nothing inside it",
        "a floor",
        "correct the voids or the wall legs",
        "What is left of the outline after the voids has no area.",
    ),
    error(
        "LEGS-TOO-FEW",
        "{legs} wall legs",
        "at least three",
        "walk the whole way round the room, one row a wall",
        "Fewer than three walls enclose nothing.",
    ),
    error(
        "LEG-NAME-TWICE",
        "a second leg named {leg}",
        "each leg's name once in a room",
        "rename one of them",
        "Faces, doorways and thermostats find their wall by the leg's name.",
    ),
    error(
        "LEGS-OUT-OF-ORDER",
        "legs in the order {legs}",
        "the legs of a room in the order of the walk, one row below the other",
        "sort the rows of the room by the number of the leg (as a number: 2 before 10), or number "
        "them as they are walked",
        "The walk goes from row to row. Rows that were sorted by something else make another room, "
        "which may close all the same. Names that are no numbers are not compared.",
    ),
    error(
        "LEGS-TURNS-OFF",
        "turns that add up to {turned} degrees",
        "360 degrees, one full turn",
        "check each Turn; leave the turn of leg 1 straight if you have not measured it",
        "Walking once round a room turns a person once round. Where the turn of leg 1 from the "
        "last leg is given, all turns must add up to 360 degrees.",
    ),
    error(
        "LEGS-DO-NOT-CLOSE",
        "a walk of {walked} that ends {misclosure} from where it began "
        "({to_the_right} to the right, {away} away)",
        "a misclosure of at most {tolerance}",
        "measure again the legs that run in the direction of the gap",
        "A walk round the walls should end where it began. Within the Job's misclosure tolerance "
        "it is closed by the compass rule; beyond it, a leg or a turn is wrong.",
        "compass rule of surveying handbooks, from memory, not verified",
    ),
    note(
        "LEGS-CLOSED",
        "a walk of {walked} that ends {misclosure} from where it began",
        "nothing to do: the tolerance is {tolerance}",
        "measure again if that seems much",
        "The walk was closed by the compass rule: every corner was moved against the misclosure, "
        "in proportion to the distance walked up to it; the last by nearly all of it.",
        "compass rule of surveying handbooks, from memory, not verified",
    ),
    error(
        "LEGS-CROSS",
        "leg {second} crosses or touches leg {first}",
        "walls that meet only at their ends",
        "check the turns and lengths of both legs",
        "A walk that crosses itself encloses no room that can be measured.",
    ),
    error(
        "PIECE-NAME-TWICE",
        "a second piece named {piece}",
        "each piece's name once in a room",
        "rename one of them",
        "Results name surfaces by their piece, so a name may stand once in a room.",
    ),
    error(
        "PIECE-SIZE-MISSING",
        "a {kind} without {missing}",
        "a {missing}",
        "fill in {missing} of {piece}",
        "Rectangles need Length and Width, round pieces a Diameter, a curb its Height too, a "
        "doorway a Length.",
    ),
    error(
        "PIECE-SHAPE-UNCLEAR",
        "{extra} on a {kind} that is {shape}",
        "the sizes of one shape",
        "empty {extra} of {piece}",
        "A drain or a column is round with a Diameter, or a rectangle with Length and Width. "
        "Outlets and pipes are round, all other pieces are rectangles.",
    ),
    error(
        "PIECE-PLACE-MISSING",
        "a {kind} without a place",
        "Left and Front, or a Wall and one distance",
        "fill in where {piece} is",
        "On the near or far wall the distance is Left, on the right or left wall it is Front, on "
        "a leg it runs from the leg's start.",
    ),
    error(
        "PIECE-OUTSIDE-OUTLINE",
        "{kind} {piece} sticks out of the room",
        "inside the outline, which lies between Left {least_left} and {most_left} and Front "
        "{least_front} and {most_front}",
        "check Left and Front (round pieces: of the centre), and that Length runs to the right",
        "Left is measured to the right and Front away from the near left corner; Length is the "
        "size along Left, Width the size along Front.",
    ),
    error(
        "PIECES-OVERLAP",
        "{kind} {piece} overlaps {other_kind} {other}",
        "pieces that do not overlap",
        "move one of them, or correct its size",
        "Only a drain wholly within a shower floor and a pipe in a cabinet may overlap. Where a "
        "void, a column or a curb meets one of these, a shower floor or an inset, precedence "
        "decides with a warning. In a wet room outlets, pipes, baths and cabinets may lie on the "
        "shower floor, with a warning.",
    ),
    warning(
        "PIECES-MEET",
        "{kind} {piece} overlaps {other_kind} {other}",
        "pieces that do not overlap",
        "accept it if {takes} takes the floor that both cover, or if a hole is drilled there; "
        "else correct one of them",
        "Where pieces meet, a void goes before a column, a column before a curb, a curb before a "
        "shower floor, and these before all others; a bath or a cabinet stands on a shower floor "
        "and takes its place from it. A hole is drilled in what it lies in.",
    ),
    warning(
        "SHOWER-WITHOUT-DRAIN",
        "no drain in {piece}",
        "a drain within each shower floor",
        "add the drain to Floor pieces",
        "Without a drain there is no fall to set out, no collar and no hole.",
    ),
    error(
        "DOORWAY-NOT-ON-OUTLINE",
        "doorway {piece} ({size} wide, at Left {left}, Front {front}, on {wall}) is not on a wall",
        "a stretch of one wall",
        "place it on the outline, or name its Wall and one distance",
        "A doorway is a length on the outline. With a door reveal as a floor piece, it lies on "
        "the reveal's edge.",
    ),
    error(
        "DOORWAYS-OVERLAP",
        "doorway {piece} overlaps doorway {other}",
        "doorways beside each other",
        "correct the place of one of them",
        "Two doorways cannot take the same stretch of wall.",
    ),
    error(
        "THERMOSTAT-NOT-ON-OUTLINE",
        "thermostat {piece} (at Left {left}, Front {front}, on {wall}) is not on a wall",
        "a point of the outline",
        "place it on a wall, or name its Wall and one distance",
        "Cold leads and the sensor go to the thermostat, so it has to be on a wall.",
    ),
    error(
        "WALL-UNKNOWN",
        "no wall named {wall}",
        "near, right, far, left, or the name of a leg; the nearest are {known}",
        "correct the name of the wall",
        "Where a side has several stretches, the longest keeps the plain name and the others are "
        "numbered: near 2.",
    ),
    error(
        "FACE-LONGER-THAN-WALL",
        "a face that reaches to {reach} on wall {wall}",
        "at most the wall's {wall_length}",
        "correct Left or Length of the face, or the room's size",
        "Left and Length are measured along the wall, from its left end as seen from inside.",
    ),
    error(
        "PART-LARGER-THAN-WALL",
        "{part} of {length} by {height} on wall {wall}",
        "no larger than the tiled face, {longest} by {highest}",
        "correct its size, or add the face that it lies in",
        "Openings, niches, wet areas and insets lie within a face of the same wall.",
    ),
    error(
        "PART-OUTSIDE-FACE",
        "{part} of {length} by {height} that sticks out of the faces of wall {wall}",
        "within a face of the same wall",
        "correct Left and Bottom, or add the face that it lies in",
        "Openings, niches, wet areas and insets lie within a face of the same wall; Left and "
        "Bottom are seen from inside the room.",
    ),
    error(
        "WALL-PARTS-OVERLAP",
        "{part} overlaps {other} on wall {wall}",
        "parts beside each other",
        "correct Left, Bottom or the sizes",
        "Only an opening, a niche or an inset may lie in a wet area.",
    ),
    error(
        "NICHE-WITHOUT-DEPTH",
        "a niche on wall {wall} without Depth",
        "its Depth",
        "fill in Depth",
        "Sides, top and bottom of a niche are tiled by its depth.",
    ),
    error(
        "WET-AREA-WITHOUT-FINISH",
        "a wet area on wall {wall}; finish {finish} has no row for wet area",
        "a row with Surface wet area in Finishes (or in Build-up, where it is layered only)",
        "add the row to finish {finish}",
        "A wet area never stays untiled silently.",
    ),
    warning(
        "FACE-OVER-DOORWAY",
        "the {part} on {wall} is tiled over doorway {piece}",
        "an opening in the {part} where the doorway is",
        "add an opening to Wall faces, with Bottom 0 and the height of the doorway",
        "A doorway on the floor has no height: only an opening keeps tile off the wall there.",
    ),
    note(
        "FACE-BEHIND-BATH",
        "the {part} on {wall} is tiled behind {piece} too",
        "a {part} that begins at the rim, where the bath is built in before the tile",
        "give the {part} its Bottom at the rim, and the wall beside the bath a face of its own; "
        "leave it where the wall is tiled first",
        "Tile, mortar and grout behind the bath are counted and ordered as drawn.",
    ),
    warning(
        "SHOWER-WALL-LEFT-DRY",
        "{length} of wall beside a shower floor or tray has no wet area, and no membrane: {wall}",
        "a wet area on every wall beside a shower, or waterproofing on its walls",
        "draw the wet areas in Wall faces, or accept this where no tile is to be",
        "A wall without a wet area takes the tile and the mortar of a dry wall, and nothing is "
        "made waterproof behind it (common practice, no source). In a room whose floor is a shower "
        "floor throughout, this is said only where no wall beside it has any.",
    ),
    warning(
        "SURFACE-NOT-TILED",
        "{part} is measured; finish {finish} has no row for {surface}",
        "a row with Surface {surface} in Finishes",
        "add the row, or accept that it is not tiled",
        "A surface without a row in its finish is not tiled and nothing is ordered for it.",
    ),
)

WORDINGS: tuple[Wording, ...] = _ROWS

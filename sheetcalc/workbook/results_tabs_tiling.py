"""The result tabs of setting-out: where the first tile goes, and what to cut."""

from sheetcalc.workbook.columns import Column, Kind, Tab, Tells


def _c(header: str, help_text: str, width: float = 12, tells: Tells | None = None) -> Column:
    return Column(header, Kind.RESULT, help_text, width=width, tells=tells)


_ALIKE = _c("Alike", "All rooms that are set out alike; empty for one.", 13)
_TILE = _c("Tile", "Code of the tile.", 11)

SETTING_OUT = Tab(
    key="Setting out",
    table="OutSettingOut",
    record="one tiled surface",
    result=True,
    purpose="Where the first tile goes on each surface, to mark with a tape, and what that gives "
    "in one room. Alike rooms share a row. Printed up to Tiles opened.",
    printed_to="Tiles opened",
    columns=(
        _c("Room", "Room; the first of several alike.", 11.5),
        _c("Rooms", "How many rooms are set out so.", 8),
        _ALIKE,
        _c("Surface", "Tiled surface.", 17, Tells.NAMES),
        _TILE,
        _c("Bond", "Pattern.", 11, Tells.NAMES),
        _c("Run", "Direction of the tile's long side.", 11.5, Tells.SENTENCES),
        _c("Joint", "Width of the joints.", 7),
        _c(
            "From the left",
            "Left edge of the first tile: from the wall or edge on its left that Start names, to "
            "1 mm or 1/16 in.",
            9,
        ),
        _c(
            "From the front",
            "Start line, the near (on a wall the lower) edge of the first tile: from the wall or "
            "edge before it that Start names, to 1 mm or 1/16 in.",
            9,
        ),
        _c("Start", "Where to begin, which row to lay first, in words.", 34, Tells.SENTENCES),
        _c("Whole", "Whole tiles.", 7.5),
        _c("Cut", "Cut tiles.", 6),
        _c("Notched", "Pieces with a notch among them.", 9.5),
        _c("Holed", "Tiles with a round hole.", 7.5),
        _c("Smallest cut", "Shortest chord of any cut piece.", 9.5),
        _c("Balance", "Largest difference between opposite cuts.", 9.5),
        _c(
            "Lower bound",
            "No layout needs fewer tiles; lower where its pieces come from other surfaces.",
            8,
        ),
        _c(
            "Tiles opened",
            "Tiles taken from boxes after offcuts; with offcuts of the whole job the mean of alike "
            "rooms.",
            8.5,
        ),
        _c("How found", "What was searched, and whether it is proven best.", 60, Tells.SENTENCES),
    ),
)

CUT_LIST = Tab(
    key="Cut list",
    table="OutCutList",
    record="one cut size of one surface",
    result=True,
    purpose="What to cut for one room, surface by surface, largest first, to 1 mm or 1/16 in. "
    "Alike rooms share their rows.",
    columns=(
        _c("Room", "Room; the first of several alike.", 16),
        _c("Rooms", "How many rooms need the same; Setting out names them.", 8),
        _c("Surface", "Tiled surface.", 23, Tells.NAMES),
        _TILE,
        _c("Cut", "Number of the cut, as on the room card; alike pieces have several.", 10),
        _c("Count", "How many alike in one room.", 7.5),
        _c("Length", "Along the tile's length.", 9),
        _c("Width", "Along the tile's width.", 9),
        _c("Shape", "What the saw has to do.", 11, Tells.SENTENCES),
        _c(
            "Cut out",
            "What is cut out of that rectangle, or its corners, measured from the left bottom "
            "corner with the tile's length from left to right.",
            34,
            Tells.SENTENCES,
        ),
        _c(
            "Keeps", "Edges of the tile that stay uncut; they face the neighbours.", 21, Tells.NAMES
        ),
        _c("Holes", "Round holes to drill, marked on site.", 7),
        _c("Taken from", "A new tile, or the offcut of another cut.", 28, Tells.SENTENCES),
    ),
)

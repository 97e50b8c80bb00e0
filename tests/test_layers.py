"""Who may import whom, and which library belongs to which room of the house."""

import ast
import re
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[1] / "sheetcalc"
MODULES = sorted(PACKAGE.rglob("*.py"))

MAY_IMPORT = {
    "domain": {"domain"},
    "rules": {"rules", "domain"},
    "geometry": {"geometry", "rules", "domain"},
    "units": {"units", "domain"},
    "lines": {"lines", "geometry", "rules", "domain", "units"},
    "pricing": {"pricing", "rules", "domain"},
    "ordering": {"ordering", "pricing", "rules", "domain"},
    "quoting": {"quoting", "lines", "pricing", "rules", "domain"},
    "comparing": {"comparing", "domain"},
    "planning": {"planning", "lines", "geometry", "rules", "domain"},
    "takeoff": {
        "takeoff",
        "planning",
        "quoting",
        "lines",
        "ordering",
        "pricing",
        "geometry",
        "rules",
        "domain",
    },
    "cards": {"cards", "drawing", "geometry", "rules", "domain", "units"},
    "drawing": {"drawing", "geometry", "rules", "domain", "units"},
    "templates_folder": {"templates_folder"},
    "cluster": {"cluster"},
    "watching": {"watching"},
    "workbook": {"workbook", "rules", "domain", "units", "templates_folder", "pricing"},
    "excel": {"excel", "workbook", "domain", "units", "templates_folder"},
}
"""Room of the house -> rooms it may import; ``workflows`` and ``cli`` stand above them all."""

ONLY_IN = {
    "click": {"cli"},
    "rich": {"cli"},
    "pint": {"units"},
    "pandas": {"ordering"},
    "shapely": {"geometry"},
    "numpy": {"geometry"},
    "openpyxl": {"excel"},
    "xlsxwriter": {"excel"},
    "lxml": {"excel"},
    "zipfile": {"excel"},
    "watchdog": {"watching"},
    "distributed": {"cluster"},
    "dask": {"cluster"},
    "PIL": {"drawing"},
    "scipy": {"geometry"},
}
"""Library -> the one room that may import it."""

INNER = {
    "geometry": {
        "plane": set(),
        "off_cuts": set(),
        "setting_out": {"plane", "off_cuts"},
        "rooms": {"plane", "setting_out"},
        "rolls": {"plane"},
        "heating": {"plane"},
    },
    "excel": {
        "opc": set(),
        "tabs": {"opc"},
        "reading": {"opc", "tabs"},
        "generating": {"opc", "tabs"},
        "grafting": {"opc", "tabs", "generating"},
        "saving": {"opc", "tabs", "generating", "grafting"},
    },
}
"""Room with rooms inside -> each of these and which of its neighbours it may import."""


def room_of(module: Path) -> str:
    """First folder, or the file's own name for a module at the top of the package."""
    parts = module.relative_to(PACKAGE).with_suffix("").parts
    return parts[0]


@cache
def imports_of(module: Path) -> tuple[tuple[int, str], ...]:
    """Line and dotted name of everything that a module imports."""
    found = []
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}:{node.lineno} imports relatively: name the package"
            found.append((node.lineno, node.module or ""))
    return tuple(found)


def test_the_map_for_developers_names_every_room_that_there_is() -> None:
    text = (PACKAGE.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = text.split("## The house")[1].split("##")[0].splitlines()
    named = {
        name
        for row in rows
        if row.startswith("| `")
        for name in re.findall(r"`([^`]+)`", row.split("|")[1])
    }
    rooms = {f"{path.name}/" if path.is_dir() else path.name for path in PACKAGE.glob("[!_]*")}
    assert named == rooms - {"py.typed"}


def test_every_module_stands_in_a_room_that_is_known() -> None:
    above = {"__init__", "__main__", "cli", "workflows"}
    rooms = {room_of(module) for module in MODULES}
    assert sorted(rooms - above - MAY_IMPORT.keys()) == [], "say in MAY_IMPORT what it may import"


def test_a_module_imports_only_from_the_rooms_below_it() -> None:
    wrong = [
        f"{module.relative_to(PACKAGE)}:{line} imports {name}, but {room} may import only "
        f"{sorted(MAY_IMPORT[room])}"
        for module in MODULES
        if (room := room_of(module)) in MAY_IMPORT
        for line, name in imports_of(module)
        if name.startswith("sheetcalc.") and name.split(".")[1] not in MAY_IMPORT[room]
    ]
    assert wrong == [], "move the code down, or pass the value in"


def test_a_room_inside_a_room_imports_only_the_neighbours_it_may() -> None:
    inside = [m for m in MODULES if room_of(m) in INNER and m.parent.parent != PACKAGE]
    assert {room_of(module) for module in inside} == INNER.keys()
    wrong = []
    for module in inside:
        room, inner, *_ = module.relative_to(PACKAGE).parts
        may = INNER[room][inner] | {inner}
        wrong += [
            f"{module.relative_to(PACKAGE)}:{line} imports {name}, but {room}/{inner} may import "
            f"only {sorted(may)}"
            for line, name in imports_of(module)
            if name.startswith(f"sheetcalc.{room}.") and name.split(".")[2] not in may
        ]
    assert wrong == [], "move the code down, or pass the value in"


def test_a_library_is_imported_in_one_room_only() -> None:
    wrong = [
        f"{module.relative_to(PACKAGE)}:{line} imports {name}, which belongs to {rooms}"
        for module in MODULES
        for line, name in imports_of(module)
        if (rooms := ONLY_IN.get(name.split(".")[0])) and room_of(module) not in rooms
    ]
    assert wrong == [], "call a function there instead"


def test_only_the_command_line_is_imported_by_nobody() -> None:
    for module in MODULES:
        if room_of(module) in {"cli", "__main__"}:
            continue
        for line, name in imports_of(module):
            assert not f"{name}.".startswith("sheetcalc.cli."), (
                f"{module}:{line} imports the command line"
            )

"""The README's tables are the declaration's; its commands are the ones that run."""

import os
import re
from pathlib import Path

from sheetcalc.cli import main
from sheetcalc.workbook.reference import with_reference

ROOT = Path(__file__).resolve().parents[1]
README = ROOT / "README.md"
OPTION = re.compile(r"(?<!-)--[a-z][a-z-]*")


def test_the_column_reference_is_rendered_from_the_declaration() -> None:
    text = README.read_text(encoding="utf-8")
    if os.environ.get("SHEETCALC_UPDATE_GOLDEN") == "1":
        README.write_text(with_reference(text), encoding="utf-8")
        return
    assert with_reference(text) == text, (
        "README.md is out of step with the declaration: SHEETCALC_UPDATE_GOLDEN=1 renders it"
    )


def test_the_readme_begins_with_the_job_in_one_paragraph_and_then_two_commands() -> None:
    text = README.read_text(encoding="utf-8")
    head = text.split("## Five minutes")[0]
    assert head.count("```sh") == 2
    assert "sheetcalc takeoff" in head
    assert "pytest" in head


def test_every_command_is_shown_with_options_that_it_has() -> None:
    text = README.read_text(encoding="utf-8")
    options = {
        name: {option for parameter in command.params for option in parameter.opts}
        for name, command in main.commands.items()
    }
    calls = re.findall(r"(?m)(?:^|[/`])sheetcalc ([a-z]+)([^#`\n]*)", text)
    assert {name for name, _ in calls} == options.keys()
    assert [call for call in calls if not set(OPTION.findall(call[1])) <= options[call[0]]] == []
    about_commands = text.split("## Five minutes")[1]
    assert set(OPTION.findall(about_commands)) <= set().union(*options.values())

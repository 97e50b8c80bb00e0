"""The README's tables are the declaration's; its commands are the ones that run."""

from pathlib import Path

from sheetcalc.cli import main
from sheetcalc.workbook.reference import with_reference

ROOT = Path(__file__).resolve().parents[1]


def test_the_column_reference_is_rendered_from_the_declaration() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    assert with_reference(text) == text, (
        "README.md is out of step with the declaration: write with_reference(text) into it"
    )


def test_the_readme_begins_with_the_job_in_one_paragraph_and_then_two_commands() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    head = text.split("## Five minutes")[0]
    assert head.count("```sh") == 2
    assert "sheetcalc takeoff" in head
    assert "pytest" in head


def test_every_command_of_the_walk_exists() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    walk = text.split("## Five minutes")[1].split("```")[1]
    names = {line.split()[1] for line in walk.splitlines() if line.startswith("sheetcalc ")}
    assert names
    assert names <= set(main.commands)

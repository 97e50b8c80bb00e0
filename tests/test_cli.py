"""The command line as a person types it: words, exit codes, JSON."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from sheetcalc import workflows
from sheetcalc.cli import main
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.lines import JOB_LINES, LINES
from sheetcalc.rules.allowances import WASTE_LINES
from sheetcalc.rules.bases import BASES
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.results_tabs import RESULT_TABS
from sheetcalc.workbook.settings import SETTINGS
from sheetcalc.workbook.wording.table import WORDINGS
from tests.samples import SAMPLES


@pytest.fixture(scope="module")
def samples(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Inputs of two samples, never taken off here."""
    folder = tmp_path_factory.mktemp("inputs")
    for name in ("small-room.xlsx", "mistakes.xlsx"):
        (folder / name).write_bytes(write_book(SAMPLES[name](), load_house_style()))
    return folder


@pytest.fixture
def small(samples: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(samples / "small-room.xlsx", tmp_path))


@pytest.fixture
def wrong(samples: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(samples / "mistakes.xlsx", tmp_path))


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, [str(a) for a in arguments])


def test_a_sound_workbook_ends_with_0_and_one_line(small: Path) -> None:
    result = run("takeoff", small)
    assert result.exit_code == 0, result.output
    assert "1 room" in result.output.splitlines()[-1]


def test_check_writes_nothing(small: Path) -> None:
    before = small.read_bytes()
    assert run("check", small).exit_code == 0
    assert small.read_bytes() == before
    assert [p.name for p in small.parent.iterdir()] == [small.name]


def test_errors_end_with_1_and_say_where_and_what_to_do(wrong: Path) -> None:
    result = run("check", wrong)
    assert result.exit_code == 1
    assert "what to do" in result.output
    assert "Rooms!" in result.output


def test_no_workbook_ends_with_3_and_leaves_the_file(tmp_path: Path) -> None:
    note = tmp_path / "note.xlsx"
    note.write_text("this is no workbook")
    result = run("takeoff", note)
    assert result.exit_code == 3
    assert note.read_text() == "this is no workbook"
    assert "Traceback" not in result.output


def test_an_empty_file_and_a_missing_file_end_with_3(tmp_path: Path) -> None:
    (tmp_path / "empty.xlsx").touch()
    assert run("takeoff", tmp_path / "empty.xlsx").exit_code == 3
    assert run("check", tmp_path / "nowhere.xlsx").exit_code == 3


def test_a_workbook_open_elsewhere_ends_with_4_and_is_left_alone(small: Path) -> None:
    small.with_name(f".~lock.{small.name}#").touch()
    before = small.read_bytes()
    result = run("takeoff", small)
    assert result.exit_code == 4
    assert small.read_bytes() == before


def test_several_files_are_all_done_and_the_highest_code_returned(
    small: Path, wrong: Path, tmp_path: Path
) -> None:
    (tmp_path / "note.xlsx").write_text("no workbook")
    result = run("takeoff", "--json", small, wrong, tmp_path / "note.xlsx")
    assert result.exit_code == 3
    document = json.loads(result.output)
    assert document["exit_code"] == 3
    assert [book["exit_code"] for book in document["books"]] == [0, 1, 3]


def test_a_folder_stands_for_its_workbooks_but_not_their_backups(small: Path) -> None:
    assert run("takeoff", small.parent).exit_code == 0
    assert len(list(small.parent.glob("*.backup-*"))) == 1
    document = json.loads(run("takeoff", "--json", small.parent).output)
    assert [Path(book["path"]).name for book in document["books"]] == [small.name]


def test_notes_of_several_workbooks_are_summed_up_errors_and_warnings_are_not(
    small: Path, wrong: Path
) -> None:
    other = Path(shutil.copy(small, small.with_name("other-room.xlsx")))
    alone = run("check", small).output
    assert "note SAW-WITH-WATER  small-room.xlsx" in alone
    assert "notes," not in alone
    result = run("check", small, other, wrong)
    lines = result.output.splitlines()
    assert not [line for line in lines if line.startswith("note ")]
    (told,) = [line for line in lines if "SAW-WITH-WATER" in line]
    assert told.startswith("  SAW-WITH-WATER  ")
    assert "small-room.xlsx, other-room.xlsx" in told
    document = json.loads(run("check", "--json", small, other, wrong).output)
    asked = [
        finding
        for book in document["books"]
        for finding in book["findings"]
        if finding["severity"] in {"error", "warning"}
    ]
    assert len([line for line in lines if line.startswith(("error ", "warning "))]) == len(asked)
    assert "SAW-WITH-WATER" not in run("check", "-q", small, other).output


def test_wrong_usage_ends_with_2() -> None:
    assert run("takeoff").exit_code == 2
    assert run("blank").exit_code == 2
    assert run("explain", "NO-SUCH-CODE").exit_code == 2


@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_example_is_a_workbook_without_errors(units: str, tmp_path: Path) -> None:
    book = tmp_path / "example.xlsx"
    assert run("blank", book, "--units", units, "--example").exit_code == 0
    result = run("takeoff", "--quiet", book)
    assert result.exit_code == 0, result.output


@pytest.mark.parametrize("name", ["bathroom", "bathroom.xls", "bathroom.xlsm"])
def test_blank_gives_a_workbook_a_name_that_programs_open_it_by(name: str, tmp_path: Path) -> None:
    result = run("blank", tmp_path / name)
    assert result.exit_code == 2
    assert "so call it" in result.output
    assert list(tmp_path.iterdir()) == []


def test_a_date_that_may_mean_two_days_is_wrong_usage_with_what_to_type(small: Path) -> None:
    slip = run("orders", small, "--to", small.parent / "out", "--date", "3/4/2027")
    assert slip.exit_code == 2
    assert "'3/4/2027': want year-month-day, such as 2027-03-01" in slip.output


def test_backups_are_passed_over_where_the_workbook_is_named_too(small: Path) -> None:
    """A shell makes a list of files of ``*.xlsx``, backups among them."""
    backup = small.with_name(f"{small.stem}.backup-20260131-142233.xlsx")
    shutil.copy(small, backup)
    result = run("check", backup, small)
    assert len([line for line in result.output.splitlines() if line.startswith(str(small))]) == 1
    assert str(backup) not in result.output
    assert str(backup) in run("check", backup).output
    refused = run("takeoff", "--no-cards", backup)
    assert refused.exit_code == 3
    assert "FILE-IS-BACKUP" in refused.output


def test_blank_never_overwrites(small: Path) -> None:
    before = small.read_bytes()
    assert run("blank", small).exit_code == 3
    assert small.read_bytes() == before


def test_a_blank_workbook_asks_to_be_filled_in(tmp_path: Path) -> None:
    book = tmp_path / "blank.xlsx"
    assert run("blank", "-q", book).exit_code == 0
    result = run("check", book)
    assert result.exit_code == 1
    assert "Rooms" in result.output


@pytest.mark.parametrize(
    "name", ["NOT-A-WORKBOOK", "tile", "per joint crossing", "Perimeter gap", "mortar"]
)
def test_explain_tells_codes_lines_bases_and_settings(name: str) -> None:
    result = run("explain", name)
    assert result.exit_code == 0
    assert name.casefold() in result.output.casefold()


def test_explain_knows_everything_that_a_workbook_or_a_message_can_name() -> None:
    """Collected from the declarations themselves, not from the list that explain keeps."""
    names = {
        *(tab.key for tab in (*INPUT_TABS, *RESULT_TABS)),
        *(column.header for tab in (*INPUT_TABS, *RESULT_TABS) for column in tab.columns),
        *(f"{tab.key} {column.header}" for tab in INPUT_TABS for column in tab.columns),
        *(setting.label for setting in SETTINGS),
        *(setting.key for setting in SETTINGS),
        *(line.key for line in (*LINES, *JOB_LINES)),
        *WASTE_LINES,
        *BASES,
        *WORDINGS,
    }
    texts = {name: workflows.explain(name) for name in names}
    assert [name for name, told in texts.items() if not told.known] == []
    assert all(len(told.text) > len(name) + 20 for name, told in texts.items())


def test_a_name_of_several_words_needs_no_quotation_marks() -> None:
    assert run("explain", "per", "joint", "crossing").output == (
        run("explain", "per joint crossing").output
    )


def test_the_shell_completes_commands_options_and_what_can_be_explained() -> None:
    """As a shell asks: the words so far and which of them is being typed."""

    def completed(words: str) -> set[str]:
        asked = {
            "_SHEETCALC_COMPLETE": "bash_complete",
            "COMP_WORDS": words,
            "COMP_CWORD": str(len(words.split(" ")) - 1),
        }
        done = CliRunner().invoke(main, env=asked, prog_name="sheetcalc")
        return {line.partition(",")[2] for line in done.output.splitlines()}

    assert {"takeoff", "quote", "watch"} <= completed("sheetcalc ")
    assert completed("sheetcalc takeoff --leave") == {"--leave-out-faulty"}
    assert completed("sheetcalc explain length-comma") == {
        code for code in WORDINGS if code.startswith("LENGTH-COMMA")
    }


def test_explain_suggests_the_nearest_name() -> None:
    assert "NOT-A-WORKBOOK" in run("explain", "NOT-A-WORKBOK").output


def test_the_help_says_what_each_command_does_without_cutting_it_short() -> None:
    result = run("--help")
    told = result.output.split("Commands:")[1].strip().splitlines()
    assert len(told) == len(main.commands)
    assert [line for line in told if not line.endswith(".") or line.endswith("...")] == []

"""The wheel holds the whole package and the templates; it works away from the checkout."""

import os
import subprocess
import sys
import tomllib
import venv
import zipfile
from pathlib import Path

import pytest

from sheetcalc.templates_folder import templates_folder

ROOT = Path(__file__).resolve().parents[1]


def test_every_package_is_listed() -> None:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    listed = set(settings["tool"]["setuptools"]["packages"]) - {"sheetcalc._templates"}
    found = {
        ".".join(init.parent.relative_to(ROOT).parts)
        for init in (ROOT / "sheetcalc").rglob("__init__.py")
    }
    assert listed == found


def test_an_editable_install_finds_the_templates_of_the_checkout() -> None:
    assert (templates_folder() / "house_style.toml").is_file()


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the source archive of what is committed or about to be, and the wheel from that."""
    folder = tmp_path_factory.mktemp("wheel")
    source = folder / "source"
    source.mkdir()
    for name in ("sheetcalc", "templates", "pyproject.toml", "README.md"):
        subprocess.run(["cp", "-r", str(ROOT / name), str(source)], check=True)  # noqa: S603, S607 - our own files
    subprocess.run(  # noqa: S603 - this interpreter
        [
            sys.executable,
            "-c",
            f"from setuptools.build_meta import build_sdist; build_sdist({str(folder)!r})",
        ],
        check=True,
        capture_output=True,
        cwd=source,
    )
    (archive,) = folder.glob("*.tar.gz")
    subprocess.run(  # noqa: S603 - this interpreter
        [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", str(folder), str(archive)],
        check=True,
        capture_output=True,
    )
    return next(folder.glob("*.whl"))


def test_the_wheel_holds_every_module_and_every_template(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = set(archive.namelist())
    modules = {str(path.relative_to(ROOT)) for path in (ROOT / "sheetcalc").rglob("*.py")}
    templates = {
        f"sheetcalc/_templates/{path.relative_to(ROOT / 'templates')}"
        for path in (ROOT / "templates").rglob("*")
        if path.is_file()
    }
    assert modules <= names
    assert templates <= names


def test_an_installed_wheel_takes_off_a_sample_away_from_the_checkout(
    wheel: Path, tmp_path: Path
) -> None:
    home = tmp_path / "venv"
    venv.create(home, with_pip=False, system_site_packages=False)
    version = f"python{sys.version_info.major}.{sys.version_info.minor}"
    site = home / "lib" / version / "site-packages"
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(site)
    # the libraries are those of this environment; the package itself is not on that path
    (site / "libraries.pth").write_text(
        "\n".join(p for p in sys.path if p.endswith("site-packages")), encoding="utf-8"
    )
    book = tmp_path / "book.xlsx"
    python = home / "bin" / "python"
    # whoever runs the tests may have put the checkout on the path
    alone = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}

    def run(*arguments: str) -> str:
        done = subprocess.run(  # noqa: S603 - the interpreter just made
            [str(python), *arguments],
            capture_output=True,
            text=True,
            cwd=tmp_path,
            env=alone,
            check=False,
        )
        assert done.returncode == 0, done.stderr + done.stdout
        return done.stdout

    assert str(home) in run("-c", "import sheetcalc; print(sheetcalc.__file__)")
    run("-m", "sheetcalc", "blank", str(book), "--example")
    told = run("-m", "sheetcalc", "takeoff", str(book), "--quiet", "--no-cards")
    assert "3 rooms" in told
    run("-m", "sheetcalc", "quote", str(book), "--to", str(tmp_path / "out"), "--quiet")
    assert (tmp_path / "out" / "book - quote.xlsx").is_file()

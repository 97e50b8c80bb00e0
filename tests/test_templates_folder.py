"""Templates are found in an installed package, in the checkout, and in an office's own folder."""

from pathlib import Path

import pytest

from sheetcalc import templates_folder as module
from sheetcalc.templates_folder import templates_folder


def _templates(folder: Path) -> Path:
    folder.mkdir(parents=True)
    (folder / "house_style.toml").write_text("", encoding="utf-8")
    return folder


def test_an_installed_package_uses_the_templates_it_carries(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    carried = _templates(tmp_path / "site" / "sheetcalc" / "_templates")
    _templates(tmp_path / "site" / "templates")
    monkeypatch.setattr(module, "_PACKAGE", tmp_path / "site" / "sheetcalc")
    assert templates_folder() == carried


def test_a_checkout_uses_its_templates_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = _templates(tmp_path / "checkout" / "templates")
    monkeypatch.setattr(module, "_PACKAGE", tmp_path / "checkout" / "sheetcalc")
    assert templates_folder() == found


def test_an_offices_own_folder_comes_first(tmp_path: Path) -> None:
    own = _templates(tmp_path / "office")
    assert templates_folder(own) == own


def test_a_folder_without_templates_is_named(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError, match="nowhere"):
        templates_folder(tmp_path / "nowhere")

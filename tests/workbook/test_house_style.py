"""The house style can be read by everybody: contrasts of text and borders."""

from pathlib import Path

import pytest

from sheetcalc.workbook.house_style import CellStyle, contrast, load_house_style
from sheetcalc.workbook.results_tabs import RESULT_TABS

STYLE = load_house_style()
ALL = sorted(STYLE.styles.values(), key=lambda style: style.key)
PAPER = "#FFFFFF"


@pytest.mark.parametrize("style", ALL, ids=lambda style: style.key)
def test_text_stands_out_from_its_fill(style: CellStyle) -> None:
    """4.5 : 1, the limit for text that house_style.toml states."""
    assert contrast(style.colour, style.fill or PAPER) >= 4.5


@pytest.mark.parametrize(
    "style", [s for s in ALL if s.border or s.bottom], ids=lambda style: style.key
)
def test_borders_stand_out_from_the_paper_and_from_the_fill(style: CellStyle) -> None:
    """3 : 1, as house_style.toml states; a border in the fill's own colour is its edge."""
    for border in filter(None, (style.border, style.bottom)):
        assert contrast(border, PAPER) >= 3
        if border != style.fill:
            assert contrast(border, style.fill or PAPER) >= 3


def test_contrast_is_that_of_known_pairs() -> None:
    """Black on white is 21; #767676 on white is the well-known grey just above 4.5."""
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.005)
    assert contrast("#FFFFFF", "#767676") == contrast("#767676", "#FFFFFF")


def test_what_the_contract_names_has_a_named_style() -> None:
    names = {style.name for style in ALL}
    wanted = ("input", "header", "result", "error", "warning", "OK")
    assert {f"Sheetcalc {word}" for word in wanted} <= names


def test_inputs_have_a_border_and_result_tabs_have_styles() -> None:
    assert all(s.border for s in ALL if s.key.startswith("input"))
    assert RESULT_TABS
    assert all(s.border for s in ALL if s.key.startswith("result"))


def test_an_unknown_colour_is_refused(tmp_path: Path) -> None:
    (tmp_path / "house_style.toml").write_text(
        '[font]\nname = "Arial"\nsize = 10\n[palette]\n[tabs]\n[styles.text]\ncolour = "mauve"\n',
        encoding="utf-8",
    )
    with pytest.raises(ValueError, match="mauve"):
        load_house_style(tmp_path)


def test_an_unknown_word_is_refused(tmp_path: Path) -> None:
    (tmp_path / "house_style.toml").write_text(
        '[font]\nname = "Arial"\nsize = 10\n[palette]\n[tabs]\n[styles.text]\nshadow = true\n',
        encoding="utf-8",
    )
    with pytest.raises(ValueError, match="shadow"):
        load_house_style(tmp_path)


def test_a_style_based_on_nothing_is_refused(tmp_path: Path) -> None:
    (tmp_path / "house_style.toml").write_text(
        '[font]\nname = "Arial"\nsize = 10\n[palette]\n[tabs]\n[styles.text]\nbased_on = "ink"\n',
        encoding="utf-8",
    )
    with pytest.raises(ValueError, match="not above it"):
        load_house_style(tmp_path)


def test_an_office_writes_down_only_what_it_wants_otherwise(tmp_path: Path) -> None:
    (tmp_path / "house_style.toml").write_text(
        '[palette]\nslate = "#401010"\n[styles.title]\nsize = 20\n', encoding="utf-8"
    )
    style = load_house_style(tmp_path)
    assert style.styles.keys() == STYLE.styles.keys()
    assert (style["title"].size, style["title"].colour) == (20, "#401010")
    assert style["title"].bold == STYLE["title"].bold


def test_text_that_can_not_be_read_on_its_fill_is_refused(tmp_path: Path) -> None:
    """#777777 on white is 4.48 : 1, just below the limit; #767676 just above."""
    styles = tmp_path / "house_style.toml"
    styles.write_text('[styles.purpose]\ncolour = "#777777"\n', encoding="utf-8")
    with pytest.raises(ValueError, match=r"purpose.* 4\.5 : 1"):
        load_house_style(tmp_path)
    styles.write_text('[styles.purpose]\ncolour = "#767676"\n', encoding="utf-8")
    assert load_house_style(tmp_path)["purpose"].colour == "#767676"


def test_a_folder_without_a_house_style_is_named(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError, match="house_style"):
        load_house_style(tmp_path)

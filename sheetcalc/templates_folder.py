"""Where the templates are: in the installed package, or in the checkout; or an office's own.

A wheel carries them as ``sheetcalc/_templates``; an editable install finds the checkout's folder.
"""

from pathlib import Path
from typing import Final

_PACKAGE = Path(__file__).resolve().parent

KNOWN: Final = ("house_style.toml", "office.toml", "words.toml", "logo.png", "metric", "us")
"""What a folder of templates may hold; what an office's own lacks comes from the program's."""


def templates_folder(own: Path | None = None) -> Path:
    """Return the folder that holds the templates.

    Parameters
    ----------
    own
        An office's own folder; None for the templates that come with the program.

    Raises
    ------
    FileNotFoundError
        Where there is no such folder: a broken installation, or a wrong path.
    """
    if own is not None:
        if any((own / name).exists() for name in KNOWN):
            return own
        message = f"{own} is no folder of templates: it holds none of {', '.join(KNOWN)}"
        raise FileNotFoundError(message)
    candidates = [_PACKAGE / "_templates", _PACKAGE.parent / "templates"]
    for folder in candidates:
        if (folder / "house_style.toml").is_file():
            return folder
    message = f"no house_style.toml in {' or '.join(str(folder) for folder in candidates)}"
    raise FileNotFoundError(message)


def template_file(name: str, own: Path | None = None) -> Path:
    """Return the path of one template: the office's own, or the program's where it has none.

    Parameters
    ----------
    name
        Path within a folder of templates, such as ``metric/tiles.csv``; it need not be there.
    own
        An office's own folder.

    Raises
    ------
    FileNotFoundError
        As ``templates_folder``.
    """
    if own is not None and (templates_folder(own) / name).exists():
        return own / name
    return templates_folder() / name

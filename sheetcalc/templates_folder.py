"""Where the templates are: in the installed package, or in the checkout.

A wheel carries them as ``sheetcalc/_templates``; an editable install finds the checkout's folder.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def templates_folder(own: Path | None = None) -> Path:
    """Return the folder that holds ``house_style.toml`` and the price lists.

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
        candidates = [own]
    else:
        candidates = [_PACKAGE / "_templates", _PACKAGE.parent / "templates"]
    for folder in candidates:
        if (folder / "house_style.toml").is_file():
            return folder
    message = f"no house_style.toml in {' or '.join(str(folder) for folder in candidates)}"
    raise FileNotFoundError(message)

"""Make the README's pictures from a sample: ``python -m tests.samples.pictures``.

Needs headless LibreOffice, pdftoppm (of the poppler tools), and a font as wide as the house
style's: with another the columns of the pages are wider (Liberation Sans stands in for Arial).
"""

import shutil
import subprocess
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SAMPLES = ROOT / "sample_workbooks"
PICTURES = SAMPLES / "pictures"

PAGES: Mapping[str, tuple[str, str]] = {
    "takeoff.png": ("larch-court.xlsx", "Takeoff"),
    "order.png": ("larch-court.xlsx", "Order - Tideline Membranes"),
    "room-card.png": ("larch-court.xlsx", "Room 1.02"),
}
"""Picture -> the sample, and words that its page begins with."""


def pdf_of(sample: Path, folder: Path) -> Path:
    """Print a workbook to PDF."""
    subprocess.run(  # noqa: S603 - the office found on this machine, no shell
        [
            shutil.which("soffice") or "soffice",
            f"-env:UserInstallation=file://{folder}/profile",
            "--headless",
            "--convert-to",
            "pdf",
            "--outdir",
            str(folder),
            str(sample),
        ],
        check=True,
        capture_output=True,
    )
    return folder / f"{sample.stem}.pdf"


def pages_of(pdf: Path) -> Iterator[tuple[int, str]]:
    """Number and first words of every page."""
    text = subprocess.run(  # noqa: S603 - no shell
        [shutil.which("pdftotext") or "pdftotext", str(pdf), "-"],
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    for number, page in enumerate(text.split("\f"), 1):
        yield number, page.strip()


def main() -> None:
    """Print each sample once and cut out the pages named above."""
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch:
        printed: dict[str, Path] = {}
        for picture, (sample, words) in PAGES.items():
            if sample not in printed:
                printed[sample] = pdf_of(SAMPLES / sample, Path(scratch))
            pdf = printed[sample]
            page = next(n for n, text in pages_of(pdf) if text.startswith(words))
            stem = PICTURES / picture.removesuffix(".png")
            subprocess.run(  # noqa: S603 - no shell
                [
                    shutil.which("pdftoppm") or "pdftoppm",
                    *("-r", "80", "-png", "-singlefile", "-f", str(page), "-l", str(page)),
                    str(pdf),
                    str(stem),
                ],
                check=True,
            )


if __name__ == "__main__":
    main()

"""Builds a pattern's letter booklet and leaves what WeasyPrint was given: leave_html.py PATTERN FOLDER

FOLDER/booklet.html and the files that it names, as `booklet.publish.pdf.write_pdf` gets them, so that the bench can
time WeasyPrint alone on the very same input.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping
from pathlib import Path

from booklet.cli import main
from booklet.publish import pdf


def leave(pattern: str, folder: Path) -> None:
    """Raises RuntimeError when the build failed or set no booklet."""
    real = pdf.write_pdf

    def write_pdf(html: str, assets: Mapping[str, bytes], target: Path) -> list[str]:
        for name, content in assets.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        (folder / "booklet.html").write_text(html, encoding="utf-8")
        return real(html, assets, target)

    pdf.write_pdf = write_pdf
    status = main(["build", pattern, "--paper", "letter", "--into", str(folder / "build")])
    if status or not (folder / "booklet.html").is_file():
        raise RuntimeError(f"the build of {pattern} ended with {status} and set no booklet here")


if __name__ == "__main__":
    leave(sys.argv[1], Path(sys.argv[2]))

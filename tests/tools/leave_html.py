"""Leaves what the typesetter gets for a pattern's letter booklet: leave_html.py PATTERN FOLDER

FOLDER/booklet.html and the files that it names, so that the bench can time WeasyPrint alone on the very same input.
"""

from __future__ import annotations

import sys
from pathlib import Path

from booklet.pipeline import check_folder
from booklet.publish.booklets import booklet_jobs
from booklet.publish.edition import Edition


def leave(pattern: Path, folder: Path) -> None:
    checked = check_folder(pattern)
    if checked.pattern is None or checked.errors:
        raise SystemExit(f"{pattern} does not check clean")
    edition = Edition(checked.name, checked.pattern, checked.benches, checked.findings)
    (job,) = booklet_jobs(edition, ("letter",), each_view=False)
    for name, content in job.assets.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    (folder / "booklet.html").write_text(job.html, encoding="utf-8")


if __name__ == "__main__":
    leave(Path(sys.argv[1]), Path(sys.argv[2]))

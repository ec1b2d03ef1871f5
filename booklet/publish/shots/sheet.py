"""The shot list as a table for a spreadsheet."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from booklet.publish.shots.rows import note_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from booklet.publish.shots.rows import Row

# A cell that begins with one of these is taken for a formula by spreadsheets. Source: OWASP, CSV Injection, from
# memory.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
COLUMNS = (
    "Take",
    "Filmed",
    "Step",
    "Title",
    "Set-up",
    "Camera",
    "Sample",
    "Garment at the start",
    "Show",
    "Say",
    "About other views",
    "On screen",
    "Minutes",
    "Estimated",
    "Figure",
)


def shot_sheet(rows: Iterable[Row], figures: Mapping[int, Sequence[str]]) -> str:
    """A row a take, in the order given. Lines end as RFC 4180 wants. figures: the files that show a step, by number."""
    sheet = io.StringIO()
    writer = csv.writer(sheet, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for row in rows:
        writer.writerow(_cell(words) for words in _words(row, figures))
    return sheet.getvalue()


def _words(row: Row, figures: Mapping[int, Sequence[str]]) -> tuple[str, ...]:
    shot, filmed = row.shot, row.filmed
    return (
        str(shot.take),
        str(row.place),
        "" if shot.step is None else str(shot.step),
        shot.step_title,
        shot.setup,
        row.camera,
        "" if filmed.sample is None else str(filmed.sample),
        filmed.garment.says,
        shot.show,
        shot.say,
        shot.others,
        "; ".join(note_words(note) for note in shot.notes),
        f"{shot.minutes:g}",
        "yes" if shot.estimated else "",
        "; ".join(figures.get(shot.step, ())) if shot.step is not None else "",
    )


def _cell(words: str) -> str:
    return f"'{words}" if words.startswith(_FORMULA) else words

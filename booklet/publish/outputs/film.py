"""The film's files: its chapters in every form, and the shot list."""

from __future__ import annotations

import csv
import io
from types import MappingProxyType
from typing import TYPE_CHECKING

from booklet.publish.chapters.description import description
from booklet.publish.chapters.draft import draft
from booklet.publish.chapters.edit_list import edit_list
from booklet.publish.chapters.ffmetadata import ffmetadata
from booklet.publish.chapters.json_chapters import json_chapters
from booklet.publish.chapters.span import spans
from booklet.publish.chapters.timeline import timeline
from booklet.publish.chapters.webvtt import webvtt

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from booklet.plan.plan import FilmPlan
    from booklet.publish.edition import Edition

NAME = "film"

# A cell that begins with one of these is taken for a formula by spreadsheets. Source: OWASP, CSV Injection, from
# memory.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_COLUMNS = ("Take", "Step", "Title", "Set-up", "Camera", "Show", "Say", "Minutes", "Estimated", "Figure")


def files(edition: Edition) -> dict[str, bytes]:
    film = edition.plan.films
    if film is None:
        return {}
    title = f"{edition.plan.title}, view {film.view.letter}"
    chapters = spans(film)
    whole = edition.view_plan(film.view.letter)
    return {
        "film/chapters.txt": description(chapters).encode(),
        "film/description.txt": draft(whole, film).encode(),
        "film/chapters.vtt": webvtt(chapters, title, "planned times").encode(),
        "film/chapters.ffmeta": ffmetadata(chapters, title).encode(),
        "film/chapters.json": json_chapters(chapters, title, edition.plan.studio).encode(),
        "film/chapters.edl": edit_list(chapters, title).encode(),
        "film/chapters.otio": timeline(chapters, title).encode(),
        # The mark at the start tells spreadsheets that this is UTF-8.
        "film/shots.csv": shot_list(film, _figures(edition)).encode("utf-8-sig"),
    }


def _figures(edition: Edition) -> dict[int, list[str]]:
    """The files of each step's figures, as the build writes them, by its number."""
    files = edition.figure_files
    return {step.number: [files[one] for one in step.figures if one in files] for step in edition.plan.steps}


def shot_list(film: FilmPlan, figures: Mapping[int, Sequence[str]] = MappingProxyType({})) -> str:
    """A row a take, in the order of the film. Lines end as RFC 4180 wants.

    figures: by the number of a step, the files that show it.
    """
    camera = dict(film.setups)
    sheet = io.StringIO()
    writer = csv.writer(sheet, lineterminator="\r\n")
    writer.writerow(_COLUMNS)
    for shot in film.shots:
        step = "" if shot.step is None else str(shot.step)
        minutes = f"{shot.minutes:g}"
        shown = "; ".join(figures.get(shot.step, ())) if shot.step is not None else ""
        words = (shot.step_title, shot.setup, camera.get(shot.setup, ""), shot.show, shot.say)
        row = (str(shot.take), step, *map(_cell, words), minutes, "yes" if shot.estimated else "", shown)
        writer.writerow(row)
    return sheet.getvalue()


def _cell(words: str) -> str:
    return f"'{words}" if words.startswith(_FORMULA) else words

"""The film's chapters in every form, and a draft of its description."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.publish.chapters.description import description
from booklet.publish.chapters.draft import draft
from booklet.publish.chapters.edit_list import edit_list
from booklet.publish.chapters.ffmetadata import ffmetadata
from booklet.publish.chapters.json_chapters import json_chapters
from booklet.publish.chapters.span import is_planned, spans
from booklet.publish.chapters.timeline import timeline
from booklet.publish.chapters.webvtt import webvtt

if TYPE_CHECKING:
    from booklet.publish.edition import Edition

NAME = "film"


def files(edition: Edition) -> dict[str, bytes]:
    film = edition.plan.films
    if film is None:
        return {}
    title = f"{edition.plan.title}, view {film.view.letter}"
    chapters = spans(film)
    times = "planned times" if is_planned(film) else "times as recorded"
    whole = edition.view_plan(film.view.letter)
    return {
        "film/chapters.txt": description(chapters).encode(),
        "film/description.txt": draft(whole, film).encode(),
        "film/chapters.vtt": webvtt(chapters, title, times).encode(),
        "film/chapters.ffmeta": ffmetadata(chapters, title).encode(),
        "film/chapters.json": json_chapters(chapters, title, edition.plan.studio).encode(),
        "film/chapters.edl": edit_list(chapters, title).encode(),
        "film/chapters.otio": timeline(chapters, title).encode(),
    }

"""The film's files: chapters for the video's description, chapters as WebVTT, and the shot list."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.plan.plan import Chapter, FilmPlan
    from booklet.publish.edition import Edition

NAME = "film"

# A cell that begins with one of these is taken for a formula by spreadsheets. Source: OWASP, CSV Injection, from
# memory.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_COLUMNS = ("Take", "Step", "Title", "Set-up", "Camera", "Show", "Say", "Minutes", "Estimated")


def files(edition: Edition) -> dict[str, bytes]:
    film = edition.plan.films
    if film is None:
        return {}
    title = f"{edition.plan.title}, view {film.view.letter}"
    return {
        "film/chapters.txt": description(film).encode(),
        "film/chapters.vtt": webvtt(film, title).encode(),
        # The mark at the start tells spreadsheets that this is UTF-8.
        "film/shots.csv": shot_list(film).encode("utf-8-sig"),
    }


def description(film: FilmPlan) -> str:
    """A line a chapter, to be pasted into the video's description.

    Angle brackets are not taken there (from memory), so that others stand for them.
    """
    lines = [f"{_clock(chapter.start)} {chapter.title}\n" for chapter in film.chapters]
    return "".join(lines).replace("<", "‹").replace(">", "›")


def webvtt(film: FilmPlan, title: str) -> str:
    """A cue a chapter, one after the other, to the end of the film. Source: W3C, WebVTT, chapters and syntax."""
    blocks = ["WEBVTT", f"NOTE {_cue_text(title)}: planned times"]
    blocks += [f"{_stamp(start)} --> {_stamp(end)}\n{_cue_text(chapter.title)}" for chapter, start, end in _spans(film)]
    return "\n\n".join(blocks) + "\n"


def _spans(film: FilmPlan) -> Iterator[tuple[Chapter, int, int]]:
    ends = [chapter.start for chapter in film.chapters[1:]] + [film.seconds]
    for chapter, end in zip(film.chapters, ends, strict=False):
        yield chapter, chapter.start, end


def _cue_text(words: str) -> str:
    """One line in which no sign is a tag, and no `-->` is left."""
    line = " ".join(words.split())
    return line.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _clock(seconds: int) -> str:
    """`0:00`, `12:05`, `1:02:05`: the first must be 0:00."""
    minutes, rest = divmod(seconds, 60)
    if minutes < 60:
        return f"{minutes}:{rest:02d}"
    return f"{minutes // 60}:{minutes % 60:02d}:{rest:02d}"


def _stamp(seconds: int) -> str:
    minutes, rest = divmod(seconds, 60)
    return f"{minutes // 60:02d}:{minutes % 60:02d}:{rest:02d}.000"


def shot_list(film: FilmPlan) -> str:
    """A row a take, in the order of the film. Lines end as RFC 4180 wants."""
    camera = dict(film.setups)
    sheet = io.StringIO()
    writer = csv.writer(sheet, lineterminator="\r\n")
    writer.writerow(_COLUMNS)
    for shot in film.shots:
        step = "" if shot.step is None else str(shot.step)
        minutes = f"{shot.minutes:g}"
        words = (shot.step_title, shot.setup, camera.get(shot.setup, ""), shot.show, shot.say)
        row = (str(shot.take), step, *map(_cell, words), minutes, "yes" if shot.estimated else "")
        writer.writerow(row)
    return sheet.getvalue()


def _cell(words: str) -> str:
    return f"'{words}" if words.startswith(_FORMULA) else words

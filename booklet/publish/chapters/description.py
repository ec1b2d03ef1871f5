"""Chapters as lines of a video's description."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.publish.chapters.span import Span, clock


def description(chapters: Iterable[Span]) -> str:
    """A line a chapter: its time, then its title.

    Angle brackets are not taken there (from memory), so that others stand for them.
    """
    lines = "".join(f"{clock(chapter.start)} {chapter.title}\n" for chapter in chapters)
    return lines.replace("<", "‹").replace(">", "›")

"""Chapters as WebVTT, for a player. Source: W3C, WebVTT, chapters and syntax."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.publish.chapters.span import Span


def webvtt(chapters: Iterable[Span], title: str, note: str) -> str:
    """A cue a chapter, one after the other, to the end of the film."""
    blocks = ["WEBVTT", f"NOTE {_cue_text(title)}: {note}"]
    blocks += [f"{stamp(one.start)} --> {stamp(one.end)}\n{_cue_text(one.title)}" for one in chapters]
    return "\n\n".join(blocks) + "\n"


def stamp(milliseconds: int) -> str:
    seconds, rest = divmod(milliseconds, 1000)
    minutes, second = divmod(seconds, 60)
    return f"{minutes // 60:02d}:{minutes % 60:02d}:{second:02d}.{rest:03d}"


def _cue_text(words: str) -> str:
    """One line in which no sign is a tag, and no `-->` is left."""
    line = " ".join(words.split())
    return line.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")

"""FFmpeg's metadata file: `ffmpeg -i film.mp4 -i chapters.ffmeta -map_metadata 1 -codec copy with-chapters.mp4`.

Source: FFmpeg Formats Documentation, Metadata (FFMETADATA1): sections, escapes and the time base.
"""

from __future__ import annotations

from collections.abc import Iterable

from booklet.publish.chapters.span import Span

# Signs that stand for something else in the file, and are written with a backslash before them.
_ESCAPED = ("\\", "=", ";", "#", "\n")


def ffmetadata(chapters: Iterable[Span], title: str) -> str:
    """Times in thousandths of a second; the time base is written, as without it they would be billionths."""
    lines = [";FFMETADATA1", f"title={_escaped(title)}"]
    for chapter in chapters:
        times = ("TIMEBASE=1/1000", f"START={chapter.start}", f"END={chapter.end}")
        lines += ["", "[CHAPTER]", *times, f"title={_escaped(chapter.title)}"]
    return "\n".join(lines) + "\n"


def _escaped(words: str) -> str:
    for sign in _ESCAPED:
        words = words.replace(sign, f"\\{sign}")
    return words

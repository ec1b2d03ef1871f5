"""An edit list with a marker a chapter, for an editing program: CMX 3600.

Source: the EDL adapter of OpenTimelineIO (otio-cmx3600-adapter): events, `* LOC:` markers, non-drop frames.
"""

from __future__ import annotations

from collections.abc import Sequence

from booklet.publish.chapters.span import Span

# Frames a second. Our choice: that of European cameras, an exact number of milliseconds each.
RATE = 25
# The form takes plain capitals, figures and a few signs; a title longer than this is cut by some readers. From memory.
LONGEST = 60


def edit_list(chapters: Sequence[Span], title: str, rate: int = RATE) -> str:
    """One event as long as the film, with a marker at the start of each chapter."""
    end = max((chapter.end for chapter in chapters), default=0)
    whole = f"{timecode(0, rate)} {timecode(end, rate)}"
    lines = [f"TITLE: {_plain(title)}", "FCM: NON-DROP FRAME", "", f"001  FILM     V     C        {whole} {whole}"]
    lines += ["* FROM CLIP NAME: FILM"]
    lines += [f"* LOC: {timecode(chapter.start, rate)} GREEN   {_plain(chapter.title)}" for chapter in chapters]
    return "\n".join(lines) + "\n"


def timecode(milliseconds: int, rate: int) -> str:
    """Hours, minutes, seconds and frames; the frame in which a time lies."""
    seconds, rest = divmod(milliseconds, 1000)
    minutes, second = divmod(seconds, 60)
    return f"{minutes // 60:02d}:{minutes % 60:02d}:{second:02d}:{rest * rate // 1000:02d}"


def _plain(words: str) -> str:
    """Without signs that a reader of 1970s' form may not know."""
    kept = "".join(sign if sign.isascii() and sign.isprintable() else _STANDS_FOR.get(sign, " ") for sign in words)
    return " ".join(kept.split())[:LONGEST].rstrip().upper()


_STANDS_FOR = {"–": "-", "—": "-", "’": "'", "‘": "'", "“": '"', "”": '"', "×": "x", "…": "..."}

"""WebVTT and SRT -> cues, through webvtt-py. Sources: W3C, WebVTT; SRT has no standard, and is read as players do."""

from __future__ import annotations

import re
from io import StringIO
from typing import Any

from booklet.recorded.cues import BadRecording, Cue, Slip

# A film of a day has fewer captions. Our choice.
MOST_CUES = 40_000
# A caption holds a line or two; past this it is something else. Our choice.
LONGEST = 2_000
_TIMING = re.compile(
    r"\s*((?:\d{1,10}:)?\d{1,2}:\d{1,2}[.,]\d{1,3})\s*-->\s*((?:\d{1,10}:)?\d{1,2}:\d{1,2}[.,]\d{1,3})"
)
# Two times on a line that were meant as those of a caption: as `00:01.000 -> 00:02.000`.
_TIME = r"(?:\d{1,10}:)?\d{1,2}:\d{1,2}[.,:]\d{1,3}"
_ALMOST = re.compile(rf"[ \t]{{0,8}}{_TIME}[ \t]{{0,8}}[-–—=]{{0,4}}>?[ \t]{{0,8}}{_TIME}\s*\Z")
# A tag ends with its line at the latest, so that a stray `<` takes no more away.
_TAG = re.compile(r"<[^<>\n]{0,200}>")
_MEND = "Write it as 00:12:40.000 --> 00:12:43.500, the end after the start."


def read_captions(text: str, srt: bool) -> tuple[list[Cue], list[Slip]]:
    """Cues by their start. Raises BadRecording where it is no such file; a cue that can't be read is a slip."""
    kind = "SRT" if srt else "WebVTT"
    if not text.strip("\ufeff \r\n"):
        raise BadRecording("This file is empty.", "Export the captions again, with their times.")
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    arrows = [number for number, line in enumerate(lines, 1) if "-->" in line or _ALMOST.match(line)]
    if len(arrows) > MOST_CUES:
        raise BadRecording(f"This file has more than {MOST_CUES:,} captions.", "Name the captions of one film.")
    captions = _parsed("\n".join(lines), srt, kind)
    cues: list[Cue] = []
    slips: list[Slip] = []
    following = iter(captions)
    caption = next(following, None)
    for number in arrows:
        match = _TIMING.match(lines[number - 1])
        start, end = (_seconds(match[1]), _seconds(match[2])) if match else (0.0, 0.0)
        mine = match is not None and caption is not None and _seconds(caption.start) == start
        if not mine:
            slips.append(_unread(lines, number, match is not None))
            continue
        assert caption is not None
        words = _words(caption.text)
        caption = next(following, None)
        if end <= start:
            slips.append(Slip(number, "This caption ends before it begins, so it is left out.", _MEND))
        elif words:
            cues.append(Cue(start, end, words, number + 1))
    if not cues:
        raise BadRecording(f"This {kind} file has no captions.", "Export the captions again, with their times.")
    return sorted(cues, key=lambda cue: cue.start), [slip for slip in slips if slip.says]


def _parsed(text: str, srt: bool, kind: str) -> list[Any]:
    from webvtt import WebVTT
    from webvtt.errors import MalformedCaptionError, MalformedFileError

    try:
        read: Any = WebVTT.from_buffer(StringIO(text), format="srt" if srt else "vtt")
        return list(read.captions)
    except (MalformedFileError, MalformedCaptionError):
        raise BadRecording(f"This is no {kind} file.", _other_kind(text, srt)) from None


def _other_kind(text: str, srt: bool) -> str:
    """The mend of a file that is not of the kind that its name says; it may be of the other one."""
    is_srt = re.match(r"\s*\d{1,6}\s*\n" + _TIMING.pattern, text[:300]) is not None
    if srt and text.lstrip("\ufeff").startswith("WEBVTT"):
        return "It is WebVTT. Let its name end in .vtt, and write that name in film.yaml."
    if not srt and is_srt:
        return "It is SRT. Let its name end in .srt, and write that name in film.yaml."
    first = "a number, a line of times, and the words" if srt else "WEBVTT in its first line"
    return f"Export the captions again; {'SRT' if srt else 'WebVTT'} begins with {first}."


def _unread(lines: list[str], number: int, timed: bool) -> Slip:
    """Why the library passed a line of times over. Nothing is said where it holds no words."""
    below = lines[number] if number < len(lines) else ""
    if timed and not below.strip():
        return Slip(number, "", "")
    return Slip(number, "The times of this caption can't be read, so it is left out.", _MEND)


def _words(text: str) -> str:
    """On one line, without tags and what stands for sounds, as in [music]."""
    plain = _TAG.sub(" ", text[:LONGEST])
    return " ".join(re.sub(r"\[[^\[\]\n]{0,60}\]|[♪♫]", " ", plain).split())


def _seconds(stamp: str) -> float:
    seconds = 0.0
    for part in stamp.replace(",", ".").split(":"):
        seconds = seconds * 60 + float(part)
    return round(seconds, 3)

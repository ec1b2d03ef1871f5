"""A CMX 3600 edit list -> its markers, at the time they have in the finished film.

Source: the form as OpenTimelineIO's adapter for CMX 3600 reads and writes it (otio-cmx3600-adapter, commit 4b02a66).
"""

from __future__ import annotations

import re
from typing import NamedTuple

from booklet.recorded.cues import BadRecording, Marker, Slip

MOST_MARKERS = 10_000
_CODE = r"\d{2}:\d{2}:\d{2}[:;]\d{2}"
# The name of a reel may have blanks: 001  REEL  V  C  [duration]  source in, source out, record in, record out
_EVENT = re.compile(
    rf"\s*\d+\s+\S.{{0,64}}?\s+\S+\s+\S+(?:\s+\d+)?\s+({_CODE})\s+({_CODE})\s+({_CODE})\s+({_CODE})\s*\Z"
)
# The adapter's own pattern of a marker, after its `* LOC:`
_LOCATOR = re.compile(rf"\s*\*\s*LOC:\s*({_CODE})\s+(\w*)(?:\s+|$)(.*)")
_MARKED = re.compile(r"\s*\*\s*LOC:")


class _Event(NamedTuple):
    source: int
    ends: int
    record: int


def read_edit_list(text: str) -> tuple[list[Marker], list[Slip]]:
    """Markers by their time in the film. Lists often begin at a whole hour, 01:00:00:00 as a rule, which is 0 then.

    A marker's time is that of the source; one that lies in its event's cut moves with it. Drop-frame codes are counted
    as such where the list says so. No list says its frame rate: it is told from the highest number of a frame, and a
    wrong guess moves a marker by less than a second.
    """
    lines = text.removeprefix("\ufeff").splitlines()
    highest = max((int(code[-2:]) for code in re.findall(_CODE, text)), default=0)
    dropped = ";" in text or any(_says_drop(line) for line in lines)
    rate = rate_of(highest, dropped)
    drop = False
    event: _Event | None = None
    first: int | None = None
    found: list[tuple[int, str, int]] = []
    slips: list[Slip] = []
    for number, line in enumerate(lines, 1):
        if line.strip().upper().startswith("FCM:"):
            drop = _says_drop(line)
        elif match := _EVENT.match(line):
            codes = [_frames(code, rate, drop) for code in match.groups()]
            if None in codes:
                slips.append(_bad_code(number))
                continue
            source, ends, record, _ = (code or 0 for code in codes)
            event = _Event(source, ends, record)
            first = record if first is None else min(first, record)
        elif match := _LOCATOR.match(line):
            at = _frames(match[1], rate, drop)
            if at is None:
                slips.append(_bad_code(number))
                continue
            inside = event is not None and event.source <= at <= event.ends
            moved = at - event.source + event.record if event is not None and inside else at
            if name := match[3].strip():
                found.append((moved, name[:300], number))
        elif _MARKED.match(line):
            slips.append(_bad_code(number))
        if len(found) > MOST_MARKERS:
            raise BadRecording(f"This list has more than {MOST_MARKERS:,} markers.", "Name the list of one film.")
    if event is None:
        raise BadRecording("This is no CMX 3600 edit list: it has no event.", "Export it again as an EDL.")
    if not found:
        raise BadRecording(
            "This edit list has no markers.", "Export it with its markers, which stand in lines that begin “* LOC:”."
        )
    hour = _frames("01:00:00;00" if dropped else "01:00:00:00", rate, dropped) or 1
    start = (first or 0) // hour * hour
    # Drop-frame codes are those of 29.97 or 59.94 frames a second.
    real = rate * 1000 / 1001 if dropped else rate
    markers = [Marker(round(max(0, at - start) / real, 3), name, line) for at, name, line in found]
    return sorted(markers, key=lambda marker: marker.start), slips


def rate_of(highest: int, dropped: bool = False) -> int:
    """Frames a second, told from the highest number of a frame; drop-frame codes have 30 or 60."""
    return next(rate for rate in ((30, 60, 100) if dropped else (24, 25, 30, 60, 100)) if highest < rate)


def _says_drop(line: str) -> bool:
    words = line.strip().upper()
    return words.startswith("FCM:") and "NON" not in words and "DROP" in words


def _bad_code(number: int) -> Slip:
    says = "A time code in this line can't be read, so the line is left out."
    return Slip(number, says, "Write it as 00:12:40:00: hours, minutes, seconds and frames.")


def _frames(code: str, rate: int, drop: bool) -> int | None:
    """How many frames since 00:00:00:00. Drop frame leaves out two numbers a minute but for each tenth (SMPTE 12M)."""
    hours, minutes, seconds, frames = (int(part) for part in re.split("[:;]", code))
    if minutes > 59 or seconds > 59:
        return None
    count = ((hours * 60 + minutes) * 60 + seconds) * rate + frames
    if (drop or ";" in code) and rate in (30, 60):
        passed = hours * 60 + minutes
        count -= (rate // 15) * (passed - passed // 10)
    return count

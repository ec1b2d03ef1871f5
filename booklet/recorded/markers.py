"""A table of markers -> moments: a time and a name a line, as CSV. Source: RFC 4180, and what editors export."""

from __future__ import annotations

import csv
import io
import re

from booklet.recorded.cues import BadRecording, Marker, Slip

MOST_MARKERS = 10_000
LONGEST_NAME = 300
# 12:40, 1:02:05, 1:02:05.5, 12:40.250, 760 or 760.5 seconds. A decimal comma is taken where cells are parted by “;”.
_CLOCK = re.compile(r"(?:(?:(\d{1,3}):)?(\d{1,4}):)?(\d{1,6}(?:\.\d{1,6})?)\Z", re.ASCII)
_HEADS = ("time", "start", "in", "position", "timecode")
_NAMES = ("name", "title", "marker", "comment", "text", "description")


def read_markers(text: str) -> tuple[list[Marker], list[Slip]]:
    """Markers by their time. A first line without a time names the columns; else time and name are the first two."""
    text = text.removeprefix("\ufeff")
    first = text.partition("\n")[0]
    parted = max(",;\t", key=first.count)
    time_at, name_at = 0, 1
    found: list[Marker] = []
    slips: list[Slip] = []
    reader = csv.reader(io.StringIO(text), delimiter=parted)
    before = 0
    try:
        for row in reader:
            line, before = before + 1, reader.line_num
            if not any(cell.strip() for cell in row):
                continue
            cells = [cell.strip() for cell in row]
            if line == 1 and seconds_of(cells[0]) is None:
                time_at, name_at = _columns(cells)
                continue
            seconds = seconds_of(cells[time_at].replace(",", ".")) if len(cells) > max(time_at, name_at) else None
            if seconds is None:
                shown = cells[time_at][:40] if len(cells) > time_at else ""
                slips.append(Slip(line, f"“{shown}” is no time, so this marker is left out.", "Write it as 12:40."))
            elif cells[name_at]:
                found.append(Marker(seconds, cells[name_at][:LONGEST_NAME], line))
            if len(found) > MOST_MARKERS:
                raise BadRecording(f"This file has more than {MOST_MARKERS:,} markers.", "Name those of one film.")
    except csv.Error as error:
        raise BadRecording(f"This table can't be read: {error}.", "Export it again as CSV.", before + 1) from None
    if not found:
        raise BadRecording(
            "This table has no markers.", "A line a marker: the time, then the name, as in 12:40,Step 7."
        )
    return sorted(found, key=lambda marker: marker.start), slips


def _columns(heads: list[str]) -> tuple[int, int]:
    words = [head.lower() for head in heads]
    time_at = next((at for at, word in enumerate(words) if word.startswith(_HEADS)), 0)
    name_at = next((at for at, word in enumerate(words) if at != time_at and word.startswith(_NAMES)), None)
    return time_at, name_at if name_at is not None else (1 if time_at == 0 else 0)


def seconds_of(words: str) -> float | None:
    """`12:40` is 760; None where it is no time. Below what stands before them, minutes and seconds are less than 60."""
    match = _CLOCK.match(words.strip())
    if match is None:
        return None
    hours, minutes, seconds = int(match[1] or 0), int(match[2] or 0), float(match[3])
    if (match[2] is not None and seconds >= 60) or (match[1] is not None and minutes >= 60):
        return None
    return round(hours * 3600 + minutes * 60 + seconds, 3)

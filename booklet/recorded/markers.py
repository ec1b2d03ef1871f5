"""A table of markers -> moments: a time and a name a line, as CSV. Source: RFC 4180, and what editors export."""

from __future__ import annotations

import csv
import io
import re
from typing import NamedTuple

from booklet.recorded.cues import BadRecording, Marker, Slip
from booklet.recorded.edit_list import rate_of

MOST_MARKERS = 10_000
LONGEST_NAME = 300
# 12:40, 1:02:05, 1:02:05.5, 12:40.250, 760 or 760.5 seconds. A decimal comma is taken where cells are parted by “;”.
_CLOCK = re.compile(r"(?:(?:(\d{1,3}):)?(\d{1,4}):)?(\d{1,6}(?:\.\d{1,6})?)\Z", re.ASCII)
# A time code with frames, as editing programs write it: hours, minutes, seconds, frames.
_CODE = re.compile(r"(\d{1,2}:\d{2}:\d{2})[:;](\d{2})\Z", re.ASCII)
_HEADS = ("time", "start", "in", "position", "timecode")
_NAMES = ("name", "title", "marker", "comment", "text", "description")
_MEND = "Write it as 12:40, with the name beside it: 12:40,Step 7."


class _Row(NamedTuple):
    line: int
    cells: list[str]


def read_markers(text: str) -> tuple[list[Marker], list[Slip]]:
    """Markers by their time. A first line without a time names the columns; else it has the time and the name itself.

    Frames are told as in an edit list: no table says how many there are in a second, and time codes often begin at a
    whole hour, which is 0 then. Raises BadRecording.
    """
    text = text.removeprefix("\ufeff")
    first = text.partition("\n")[0]
    rows = _rows(text, max(",;\t", key=first.count))
    time_at, name_at, headed = _columns(rows[0].cells) if rows else (0, 1, False)
    body = rows[1:] if headed else rows
    codes = [match for row in body if (match := _CODE.match(_cell(row, time_at)))]
    rate = rate_of(max((int(code[2]) for code in codes), default=0), any(";" in code[0] for code in codes))
    found: list[Marker] = []
    slips: list[Slip] = []
    for row in body:
        written = _cell(row, time_at)
        seconds = _seconds(written, rate)
        if seconds is None:
            says = f"“{written[:40]}” is no time" if written else "There is no time in this line"
            slips.append(Slip(row.line, f"{says}, so this marker is left out.", _MEND))
        elif name := _cell(row, name_at):
            found.append(Marker(seconds, name[:LONGEST_NAME], row.line))
        else:
            slips.append(Slip(row.line, f"The marker at {written[:40]} has no name, so it is left out.", _MEND))
    if not found:
        why = " " + slips[0].says.partition(", so ")[0] + "." if slips else ""
        raise BadRecording(f"This table has no markers.{why}", _MEND, slips[0].line if slips else 1)
    if codes and (hours := int(min(marker.start for marker in found) // 3600)):
        found = [marker._replace(start=round(marker.start - hours * 3600, 3)) for marker in found]
    return sorted(found, key=lambda marker: marker.start), slips


def _rows(text: str, parted: str) -> list[_Row]:
    """Those that hold something. Raises BadRecording."""
    rows: list[_Row] = []
    reader = csv.reader(io.StringIO(text), delimiter=parted)
    before = 0
    try:
        for cells in reader:
            line, before = before + 1, reader.line_num
            if any(cell.strip() for cell in cells):
                rows.append(_Row(line, [cell.strip() for cell in cells]))
            if len(rows) > MOST_MARKERS:
                raise BadRecording(f"This file has more than {MOST_MARKERS:,} markers.", "Name those of one film.")
    except csv.Error as error:
        raise BadRecording(f"This table can't be read: {error}.", "Export it again as CSV.", before + 1) from None
    return rows


def _cell(row: _Row, at: int) -> str:
    return row.cells[at] if at < len(row.cells) else ""


def _seconds(written: str, rate: int) -> float | None:
    code = _CODE.match(written)
    if code is None:
        return seconds_of(written.replace(",", "."))
    whole = seconds_of(code[1])
    return None if whole is None else round(whole + int(code[2]) / rate, 3)


def _heads(word: str, head: str) -> bool:
    """`Time (s)` is headed `time`, and `Index` is not headed `in`."""
    return word == head or word.startswith(f"{head} ") or (len(head) > 2 and word.startswith(head))


def _columns(cells: list[str]) -> tuple[int, int, bool]:
    """By the first line: where the time stands, where the name, and whether that line is none of the markers."""
    times = [at for at, cell in enumerate(cells) if _seconds(cell, 100) is not None]
    if times:
        # A number alone may be a step's; what has a colon is a time.
        time_at = next((at for at in times if ":" in cells[at]), times[0])
        named = next((at for at, cell in enumerate(cells) if cell and at not in times), 0 if time_at else 1)
        return time_at, named, False
    words = [cell.lower() for cell in cells]
    heads = [at for head in _HEADS for at, word in enumerate(words) if _heads(word, head)]
    time_at = heads[0] if heads else 0
    name_at = next((at for at, word in enumerate(words) if at != time_at and word.startswith(_NAMES)), None)
    headed = bool(heads) or not any(sign.isdecimal() for sign in cells[time_at])
    return time_at, name_at if name_at is not None else (1 if time_at == 0 else 0), headed


def seconds_of(words: str) -> float | None:
    """`12:40` is 760; None where it is no time. Below what stands before them, minutes and seconds are less than 60."""
    match = _CLOCK.match(words.strip())
    if match is None:
        return None
    hours, minutes, seconds = int(match[1] or 0), int(match[2] or 0), float(match[3])
    if (match[2] is not None and seconds >= 60) or (match[1] is not None and minutes >= 60):
        return None
    return round(hours * 3600 + minutes * 60 + seconds, 3)

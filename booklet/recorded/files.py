"""The file that film.yaml names under `recorded:`: only one of the pattern's own folder is ever read."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, NamedTuple

from booklet.finding import Place
from booklet.read.inside import inside, is_address
from booklet.recorded.captions import read_captions
from booklet.recorded.cues import BadRecording, Cue, Marker, Recording, Slip
from booklet.recorded.edit_list import read_edit_list
from booklet.recorded.markers import read_markers
from booklet.recorded.timeline import read_timeline

if TYPE_CHECKING:
    from collections.abc import Callable

    from booklet.model.pattern import Pattern
    from booklet.read.faults import Faults
    from booklet.read.tree import Text

# The captions of three hours take about 300 kB, a timeline with all its metadata some MB. Our choice.
MOST_BYTES = 8_000_000
# A file with more slips than this is told of once. Our choice.
MOST_SLIPS = 5
_KINDS = ".vtt or .srt (captions), .csv (markers), .edl (an edit list) or .otio (a timeline)"


class _Read(NamedTuple):
    cues: list[Cue]
    markers: list[Marker]
    slips: list[Slip]


def read_recording(pattern: Pattern, faults: Faults) -> Recording | None:
    """What was recorded; None where nothing is named, or after saying why it can't be read."""
    named = pattern.film.recorded if pattern.film else None
    if named is None:
        return None
    name = named.value.strip()
    if not is_address(name) and _ending(name) not in _READERS:
        says = f"“{name[:80]}” is of no kind that is read."
        faults.add("recording-not-read", named.place, says, f"Name a file that ends in {_KINDS}.")
        return None
    text = _text_of(pattern, named, faults)
    if text is None:
        return None
    try:
        read = _read(name, text)
    except BadRecording as error:
        place = Place(name, error.line, 1, error.line, 1)
        faults.add("recording-not-read", place, error.says, error.mend)
        return None
    for slip in read.slips[:MOST_SLIPS]:
        place = Place(name, slip.line, 1, slip.line, 1)
        faults.add("recorded-line-not-read", place, slip.says, slip.mend, level="warning")
    if len(read.slips) > MOST_SLIPS:
        more = len(read.slips) - MOST_SLIPS
        line = read.slips[MOST_SLIPS].line
        says = f"From here on, {more} more can't be read and {'is' if more == 1 else 'are'} left out."
        faults.add(
            "recorded-line-not-read", Place(name, line, 1, line, 1), says, "Export the file again.", level="warning"
        )
    return Recording(name, tuple(read.cues), tuple(read.markers))


def _read(name: str, text: str) -> _Read:
    """By the ending of the file's name. Raises BadRecording."""
    reader = _READERS[_ending(name)]
    if reader is None:
        cues, slips = read_captions(text, _ending(name) == "srt")
        return _Read(cues, [], slips)
    markers, slips = reader(text)
    return _Read([], markers, slips)


def _ending(name: str) -> str:
    return name.lower().rpartition(".")[2]


# None: captions.
_READERS: dict[str, Callable[[str], tuple[list[Marker], list[Slip]]] | None] = {
    "vtt": None, "srt": None, "csv": read_markers, "edl": read_edit_list, "otio": read_timeline,
}  # fmt: skip


def _text_of(pattern: Pattern, named: Text, faults: Faults) -> str | None:
    name = named.value.strip()
    if is_address(name):
        says = f"“{name[:80]}” is an address; nothing is fetched for a film."
        faults.add(
            "recording-not-read", named.place, says, "Save the file into the pattern's folder and write its name."
        )
        return None
    try:
        path = inside(pattern.folder, name)
        if path is None:
            says = f"“{name[:80]}” lies outside the pattern's folder."
            faults.add("recording-not-read", named.place, says, "Copy the file into the folder and write its name.")
            return None
        if not os.path.isfile(path):
            says = f"There is no file “{name[:80]}” in the pattern's folder."
            faults.add("recording-not-read", named.place, says, "Look at its name, or add the file.")
            return None
        if os.path.getsize(path) > MOST_BYTES:
            says = f"“{name[:80]}” is larger than {MOST_BYTES // 1_000_000} MB."
            faults.add("recording-not-read", named.place, says, "Name a file with the captions or markers of one film.")
            return None
        with open(path, "rb") as file:
            return _decoded(file.read())
    except (OSError, ValueError) as error:
        why = "is no text in UTF-8" if isinstance(error, UnicodeDecodeError) else "can't be opened"
        faults.add("recording-not-read", named.place, f"“{name[:80]}” {why}.", "Export it again, as UTF-8.")
        return None


def _decoded(data: bytes) -> str:
    """UTF-8; UTF-16 where the file begins with its mark, as some editors save captions."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16")
    return data.decode("utf-8-sig").replace("\0", "\ufffd")

"""An OpenTimelineIO file -> its markers, at the time they have in the finished film.

Read as JSON by the published schema (OpenTimelineIO, "Serialized Data": Timeline.1, Stack.1, Track.1, Clip, Gap,
Transition.1, Marker); OpenTimelineIO's own reader is a compiled library of 20 MB, and the tests hold ours against it.
"""

from __future__ import annotations

import json
from typing import Any

from booklet.recorded.cues import BadRecording, Marker, Slip

MOST_MARKERS = 10_000
DEEPEST = 20
_MEND = "Export the timeline again as OpenTimelineIO (.otio)."


def read_timeline(text: str) -> tuple[list[Marker], list[Slip]]:
    """Markers of the timeline, its tracks, clips and gaps, by their time in the film."""
    try:
        root = json.loads(text)
    except (ValueError, RecursionError):
        raise BadRecording("This is no OpenTimelineIO file: it can't be read as JSON.", _MEND) from None
    if not isinstance(root, dict) or not str(root.get("OTIO_SCHEMA", "")).startswith("Timeline."):
        raise BadRecording("This is no OpenTimelineIO timeline.", _MEND)
    found: list[tuple[float, str]] = []
    try:
        _inside(root.get("tracks") or {}, 0.0, 0, found)
    except (TypeError, ValueError, KeyError, AttributeError, OverflowError):
        raise BadRecording("This timeline holds a time or an item that can't be read.", _MEND) from None
    if not found:
        raise BadRecording("This timeline has no markers.", "Set a marker where each step begins, and export again.")
    return [Marker(round(start, 3), name, _line(text, name)) for start, name in sorted(found)], []


def _line(text: str, name: str) -> int:
    """Where a name stands first in the file."""
    at = max(text.find(json.dumps(name)), text.find(json.dumps(name, ensure_ascii=False)), 0)
    return text.count("\n", 0, at) + 1


def _inside(item: dict[str, Any], begins: float, depth: int, found: list[tuple[float, str]]) -> float:
    """Adds the markers of an item that begins so many seconds into the film. Gives how long it lasts."""
    if depth > DEEPEST:
        raise BadRecording(f"This timeline nests more than {DEEPEST} deep.", _MEND)
    kind = str(item.get("OTIO_SCHEMA", "")).partition(".")[0]
    trimmed = _range(item.get("source_range"))
    starts = trimmed[0] if trimmed else 0.0
    if trimmed is None and kind == "Clip":
        available = _range(_media(item).get("available_range"))
        starts, trimmed = (available[0], available) if available else (0.0, None)
    for marker in item.get("markers") or ():
        at = _range(marker.get("marked_range"))
        name = " ".join(str(marker.get("name") or marker.get("comment") or "").split())
        if at is not None and name:
            found.append((max(0.0, begins + at[0] - starts), name[:300]))
        if len(found) > MOST_MARKERS:
            raise BadRecording(f"This timeline has more than {MOST_MARKERS:,} markers.", "Name that of one film.")
    lasts = 0.0
    for child in item.get("children") or ():
        if str(child.get("OTIO_SCHEMA", "")).startswith("Transition."):
            continue
        offset = begins - starts + (lasts if kind == "Track" else 0.0)
        length = _inside(child, offset, depth + 1, found)
        lasts = lasts + length if kind == "Track" else max(lasts, length)
    return trimmed[1] if trimmed else lasts


def _media(clip: dict[str, Any]) -> dict[str, Any]:
    """What a clip shows: Clip.1 has one, Clip.2 several and the name of the active one."""
    single = clip.get("media_reference")
    several = clip.get("media_references") or {}
    return single or several.get(clip.get("active_media_reference_key", "DEFAULT_MEDIA")) or {}


def _range(written: Any) -> tuple[float, float] | None:
    """Start and duration in seconds; None where nothing is written."""
    return (_time(written["start_time"]), _time(written["duration"])) if isinstance(written, dict) else None


def _time(written: dict[str, Any]) -> float:
    value, rate = float(written["value"]), float(written["rate"])
    if not (rate > 0 and abs(value) < 1e12):  # `NaN` too
        raise ValueError("no time")
    return value / rate

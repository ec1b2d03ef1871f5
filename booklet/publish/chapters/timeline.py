"""A timeline with a marker a chapter, as OpenTimelineIO's own JSON. Source: OpenTimelineIO, file format and schemas."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from booklet.publish.chapters.edit_list import RATE
from booklet.publish.chapters.span import Span


def timeline(chapters: Sequence[Span], title: str, rate: int = RATE) -> str:
    """One track with one clip as long as the film; its media is missing, to be joined in the editing program."""
    end = max((chapter.end for chapter in chapters), default=0)
    clip = {
        "OTIO_SCHEMA": "Clip.1",
        "metadata": {},
        "name": "Film",
        "source_range": _range(0, end, rate),
        "effects": [],
        "markers": [
            {
                "OTIO_SCHEMA": "Marker.2",
                "metadata": {},
                "name": chapter.title,
                "color": "GREEN",
                "marked_range": _range(chapter.start, chapter.start, rate),
                "comment": "",
            }
            for chapter in chapters
        ],
        "media_reference": {"OTIO_SCHEMA": "MissingReference.1", "metadata": {}, "name": "", "available_range": None},
    }
    track = {**_composition("Track.1", "Film", [clip]), "kind": "Video"}
    whole = {
        "OTIO_SCHEMA": "Timeline.1",
        "metadata": {},
        "name": title,
        "global_start_time": None,
        "tracks": _composition("Stack.1", "tracks", [track]),
    }
    return json.dumps(whole, ensure_ascii=False, indent=2) + "\n"


def _composition(schema: str, name: str, children: list[dict[str, Any]]) -> dict[str, Any]:
    return {
        "OTIO_SCHEMA": schema,
        "metadata": {},
        "name": name,
        "source_range": None,
        "effects": [],
        "markers": [],
        "children": children,
    }


def _range(start: int, end: int, rate: int) -> dict[str, Any]:
    return {"OTIO_SCHEMA": "TimeRange.1", "start_time": _time(start, rate), "duration": _time(end - start, rate)}


def _time(milliseconds: int, rate: int) -> dict[str, Any]:
    return {"OTIO_SCHEMA": "RationalTime.1", "rate": float(rate), "value": float(milliseconds * rate // 1000)}

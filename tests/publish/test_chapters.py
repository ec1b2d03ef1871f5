"""Chapters in every form, read back by the programs and libraries that they are for."""

from __future__ import annotations

import itertools
import json
import subprocess
from pathlib import Path

import opentimelineio as otio
import pytest

from booklet.publish.chapters.edit_list import edit_list, timecode
from booklet.publish.chapters.ffmetadata import ffmetadata
from booklet.publish.chapters.json_chapters import json_chapters
from booklet.publish.chapters.span import Span, clock, spans
from booklet.publish.chapters.timeline import timeline
from tests.plan import small

HOSTILE = [
    Span(0, 12_345, "Step 1: a = b; c # d \\ e"),
    Span(12_345, 61_000, 'Needle --> <b>up</b> & "quoted"'),
    Span(61_000, 3_725_040, "Trim to ⅝ in – “all round”"),
]


def demo_spans(name: str) -> list[Span]:
    planned = small.demo(name).plan.films
    assert planned is not None
    return spans(planned)


@pytest.mark.parametrize("name", small.DEMOS)
def test_chapters_follow_each_other_without_gaps(name: str) -> None:
    found = demo_spans(name)
    assert found[0].start == 0
    assert all(one.end == two.start for one, two in itertools.pairwise(found))


def test_ffmpeg_takes_the_chapters_into_a_video(tmp_path: Path) -> None:
    """A real, generated video, then ffprobe: every start, end and title as they were, signs and all.

    Source: FFmpeg Formats Documentation, Metadata.
    """
    chapters = [
        Span(0, 1_250, HOSTILE[0].title),
        Span(1_250, 2_500, HOSTILE[1].title),
        Span(2_500, 4_000, "⅝ in\nnext"),
    ]
    (tmp_path / "chapters.ffmeta").write_text(ffmetadata(chapters, "Vest; view A"), encoding="utf-8")
    made = tmp_path / "film.mkv"
    _run("ffmpeg", "-v", "error", "-f", "lavfi", "-i", "color=size=64x64:rate=10:duration=4", "-i",
         str(tmp_path / "chapters.ffmeta"), "-map_metadata", "1", "-map", "0", str(made))  # fmt: skip
    probed = json.loads(_run("ffprobe", "-v", "error", "-show_chapters", "-show_format", "-of", "json", str(made)))
    assert [round(float(row["start_time"]) * 1000) for row in probed["chapters"]] == [one.start for one in chapters]
    assert [round(float(row["end_time"]) * 1000) for row in probed["chapters"]] == [one.end for one in chapters]
    assert [row["tags"]["title"] for row in probed["chapters"]] == [one.title for one in chapters]
    assert probed["format"]["tags"]["title"] == "Vest; view A"


def _run(*command: str) -> str:
    return subprocess.run(command, check=True, capture_output=True, text=True, timeout=60).stdout


def test_json_chapters_hold_what_their_rules_want() -> None:
    """Source: JSON Chapters 1.2.0 (podcast namespace): version, chapters, startTime in seconds, ascending."""
    read = json.loads(json_chapters(HOSTILE, "Vest", "Example Studio"))
    assert read["version"] == "1.2.0"
    assert [row["startTime"] for row in read["chapters"]] == [0.0, 12.345, 61.0]
    assert [row["title"] for row in read["chapters"]] == [one.title for one in HOSTILE]
    assert set(read["chapters"][0]) <= {"startTime", "endTime", "title", "img", "url", "toc", "location"}


def test_the_edit_list_is_read_by_an_independent_reader() -> None:
    """By the EDL adapter of OpenTimelineIO: a marker a chapter, on its frame."""
    read = otio.adapters.read_from_string(edit_list(HOSTILE, "Vest", 25), "cmx_3600", rate=25)
    (clip,) = read.find_clips()
    assert [round(marker.marked_range.start_time.to_seconds() * 25) for marker in clip.markers] == [0, 308, 1525]
    assert clip.markers[2].name == 'TRIM TO IN - "ALL ROUND"'
    assert round(clip.source_range.duration.to_seconds() * 25) == 93_126


def test_the_timeline_is_read_by_its_own_library() -> None:
    read = otio.adapters.read_from_string(timeline(HOSTILE, "Vest", 25), "otio_json")
    (clip,) = read.find_clips()
    assert [marker.name for marker in clip.markers] == [one.title for one in HOSTILE]
    assert [marker.marked_range.start_time.value for marker in clip.markers] == [0, 308, 1525]
    assert read.duration().to_seconds() == pytest.approx(3725.04)


def test_times_are_spelled_for_people_and_for_frames() -> None:
    assert [clock(time) for time in (0, 59_999, 754_000, 3_725_000)] == ["0:00", "0:59", "12:34", "1:02:05"]
    assert timecode(3_725_040, 25) == "01:02:05:01"

"""Captions, markers, edit lists and timelines are read as independent readers read them."""

from __future__ import annotations

import random
from pathlib import Path

import opentimelineio as otio
import pysubs2
import pytest

from booklet.recorded.captions import read_captions
from booklet.recorded.cues import BadRecording, Marker
from booklet.recorded.edit_list import read_edit_list
from booklet.recorded.markers import read_markers, seconds_of
from booklet.recorded.timeline import read_timeline
from tests.recorded.scores import DEMOS

TUNIC = DEMOS[0] / "captions.vtt"
FRAME = 1 / 24


def test_webvtt_is_read_as_pysubs2_reads_it() -> None:
    """pysubs2 is a reader of captions independent of ours; it counts in milliseconds."""
    text = TUNIC.read_text(encoding="utf-8")
    theirs = [(one.start / 1000, one.end / 1000, one.plaintext.split()) for one in pysubs2.SSAFile.from_string(text)]
    cues, slips = read_captions(text, srt=False)
    assert slips == []
    assert [(cue.start, cue.end, cue.text.split()) for cue in cues] == theirs


def test_srt_is_read_as_pysubs2_writes_and_reads_it() -> None:
    subtitles = pysubs2.SSAFile.from_string(TUNIC.read_text(encoding="utf-8"))
    text = subtitles.to_string("srt")
    theirs = [(one.start / 1000, one.plaintext.split()) for one in pysubs2.SSAFile.from_string(text, "srt")]
    cues, _ = read_captions(text, srt=True)
    assert [(cue.start, cue.text.split()) for cue in cues] == theirs
    assert all(text.splitlines()[cue.line - 1].split()[0] == cue.text.split()[0] for cue in cues)


def test_the_line_of_a_cue_is_that_of_its_words() -> None:
    lines = TUNIC.read_text(encoding="utf-8").splitlines()
    cues, _ = read_captions("\n".join(lines), srt=False)
    assert all(cue.text.startswith(lines[cue.line - 1]) for cue in cues)


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
def test_tags_sounds_and_line_ends_are_no_words(ends: str) -> None:
    text = ends.join(
        ["\ufeffWEBVTT", "", "a", "00:01.000 --> 00:02.000 align:left", "<v Ada><b>Press</b> it", "[music]"]
    )
    cues, _ = read_captions(text, srt=False)
    assert [(cue.text, cue.line) for cue in cues] == [("Press it", 5)]


def timeline(chance: random.Random) -> otio.schema.Timeline:
    """Clips and gaps in a track, each with markers somewhere in it."""
    track = otio.schema.Track("V1")
    for number in range(chance.randint(1, 6)):
        start, lasts = chance.randint(0, 5000), chance.randint(48, 5000)
        whole = otio.opentime.TimeRange(otio.opentime.RationalTime(start, 24), otio.opentime.RationalTime(lasts, 24))
        item = (
            otio.schema.Clip(f"clip {number}", source_range=whole)
            if number % 3
            else otio.schema.Gap(source_range=whole)
        )
        for _ in range(chance.randint(0, 3)):
            at = otio.opentime.RationalTime(start + chance.randint(0, lasts - 1), 24)
            none = otio.opentime.RationalTime(0, 24)
            name = f"STEP {chance.randint(1, 40)}"
            item.markers.append(otio.schema.Marker(name, otio.opentime.TimeRange(at, none)))
        track.append(item)
    whole = otio.schema.Timeline("film")
    whole.tracks.append(track)
    return whole


def markers_of(whole: otio.schema.Timeline) -> list[tuple[float, str]]:
    """By OpenTimelineIO's own arithmetic of time."""
    found = []
    for item in whole.tracks.find_children():
        for marker in getattr(item, "markers", ()):
            at = item.transformed_time(marker.marked_range.start_time, whole.tracks)
            found.append((round(at.to_seconds(), 3), marker.name))
    return sorted(found)


@pytest.mark.parametrize("seed", range(20))
def test_a_timeline_is_read_as_opentimelineio_reads_it(seed: int) -> None:
    whole = timeline(random.Random(seed))
    theirs = markers_of(otio.adapters.read_from_string(otio.adapters.write_to_string(whole, "otio_json"), "otio_json"))
    text = otio.adapters.write_to_string(whole, "otio_json")
    if not theirs:
        with pytest.raises(BadRecording):
            read_timeline(text)
        return
    markers, _ = read_timeline(text)
    assert [(one.start, one.name) for one in markers] == theirs


@pytest.mark.parametrize("seed", range(20))
def test_an_edit_list_is_read_as_its_adapter_for_opentimelineio_reads_it(seed: int) -> None:
    """Written and read by otio-cmx3600-adapter. A gap is no event there, so that its markers are lost."""
    text = otio.adapters.write_to_string(timeline(random.Random(seed)), "cmx_3600", rate=24)
    theirs = markers_of(otio.adapters.read_from_string(text, "cmx_3600", rate=24))
    if not theirs:
        with pytest.raises(BadRecording):
            read_edit_list(text)
        return
    markers, slips = read_edit_list(text)
    assert slips == []
    assert len(markers) == len(theirs)
    for mine, (at, name) in zip(markers, theirs, strict=True):
        assert mine.name == name
        # The rate is told from the frames that occur.
        assert mine.start == pytest.approx(at, abs=0.1)


def test_a_list_that_begins_at_an_hour_begins_at_nothing() -> None:
    event = "001  AX V C 00:00:10:00 00:00:20:00 01:00:05:00 01:00:15:00\n* LOC: 00:00:12:12 RED     HEM"
    assert read_edit_list(f"TITLE: film\n{event}\n")[0] == [Marker(7.5, "HEM", 3)]


def test_drop_frame_codes_lose_two_numbers_a_minute() -> None:
    """SMPTE 12M: 01:00:00;00 is frame 107,892, and one hour but for 3.6 ms. From memory."""
    event = "001  AX V C 00:00:00;00 01:00:10;00 00:00:00;00 01:00:10;00"
    locators = "* LOC: 01:00:00;00 RED LAST\n* LOC: 00:00:00;29 RED A"
    first, last = read_edit_list(f"TITLE: film\nFCM: DROP FRAME\n{event}\n{locators}\n")[0]
    assert (first.name, last.name) == ("A", "LAST")
    assert first.start == pytest.approx(29 * 1001 / 30000, abs=0.001)
    assert last.start == pytest.approx(107892 * 1001 / 30000, abs=0.001)


def test_markers_are_read_with_and_without_heads_and_with_other_signs_between() -> None:
    wanted = [Marker(0.0, "Welcome", 1), Marker(760.5, "Step 7, the darts", 2)]
    assert read_markers('0:00,Welcome\n12:40.5,"Step 7, the darts"\n')[0] == wanted
    assert read_markers("0;Welcome\n760,5;Step 7, the darts\n")[0] == wanted
    headed, _ = read_markers("\ufeffName\tNote\tTimecode\r\nWelcome\t\t0:00\r\n\r\nHem\t\t1:02:05\r\n")
    assert headed == [Marker(0.0, "Welcome", 2), Marker(3725.0, "Hem", 4)]


@pytest.mark.parametrize(
    ("words", "seconds"),
    [("12:40", 760.0), ("1:02:05", 3725.0), ("0:07.25", 7.25), ("75:00", 4500.0), ("90", 90.0)]
    + [(words, None) for words in ("12:60", "1:75:00", "soon", "-1:00", "1:2:3:4", "", "٣:٠٠")],
)
def test_a_time_of_a_film(words: str, seconds: float | None) -> None:
    assert seconds_of(words) == seconds


HOSTILE = {
    "empty.vtt": b"",
    "arrows.vtt": b"WEBVTT\n\n" + b"-->" * 50_000,
    "bytes.vtt": bytes(range(256)) * 40,
    "open.vtt": b"WEBVTT\n\n00:00.000 --> 00:01.000\n" + b"<" * 60_000,
    "deep.otio": b'{"a":' * 50_000,
    "list.otio": b"[]",
    "nan.otio": b'{"OTIO_SCHEMA":"Timeline.1","tracks":{"OTIO_SCHEMA":"Track.1","markers":[{"name":"x",'
    b'"marked_range":{"start_time":{"value":NaN,"rate":0},"duration":{"value":0,"rate":24}}}]}}',
    "child.otio": b'{"OTIO_SCHEMA":"Timeline.1","tracks":{"children":[7]}}',
    "quotes.csv": b'0:00,"' + b"x" * 200_000,
    "nul.csv": b"0:00,a\0b\n",
    "words.edl": b"* LOC: 99:99:99:99 RED X\n" * 5,
    "many.srt": b"1\n0:0:0,0 --> 0:0:0,0\n" * 9,
    "utf16.srt": "1\n00:00:01,000 --> 00:00:02,000\nPress\n".encode("utf-16"),
    "two.csv": b"a\nb\n",
    "dir.edl": b"\xff\xfe\x00",
    "times.vtt": b"WEBVTT\n\n9999999999:00:00.000 --> 99999999999:00:00.000\nlate\n",
}


# Odd, but with something to read in it.
READABLE = {"utf16.srt", "nul.csv", "open.vtt"}


@pytest.mark.parametrize("name", sorted(HOSTILE))
def test_a_bad_file_is_a_located_finding_and_never_a_traceback(name: str, tmp_path: Path) -> None:
    from booklet.pipeline import check_folder, with_film
    from tests.rules.harness import write_pattern

    steps = "steps:\n  - {id: hold, title: Hold, work: [{staystitch: front.neckline, at: 1/2 in}]}\n"
    files = {"film.yaml": f"view: A\nrecorded: {name}\n".encode(), name: HOSTILE[name]}
    write_pattern(tmp_path / "vest", steps, files)
    found = [one for one in with_film(check_folder(tmp_path / "vest")).findings if one.rule.startswith("record")]
    assert bool(found) is (name not in READABLE)
    assert all(one.place.file in (name, "film.yaml") and one.place.line > 0 and one.mend for one in found)


def test_a_link_out_of_the_folder_and_a_huge_file_are_not_read(tmp_path: Path) -> None:
    from booklet.pipeline import check_folder, with_film
    from tests.rules.harness import write_pattern

    (tmp_path / "outside.vtt").write_text("WEBVTT\n\n00:00.000 --> 00:01.000\nsecret\n", encoding="utf-8")
    steps = "steps:\n  - {id: hold, title: Hold, work: [{staystitch: front.neckline, at: 1/2 in}]}\n"
    write_pattern(tmp_path / "vest", steps, {"film.yaml": b"view: A\nrecorded: in.vtt\n"})
    (tmp_path / "vest" / "in.vtt").symlink_to(tmp_path / "outside.vtt")
    (found,) = (one for one in with_film(check_folder(tmp_path / "vest")).findings if one.rule == "recording-not-read")
    assert "lies outside" in found.says
    (tmp_path / "vest" / "in.vtt").unlink()
    (tmp_path / "vest" / "in.vtt").write_bytes(b"WEBVTT\n" * 1_200_000)
    (found,) = (one for one in with_film(check_folder(tmp_path / "vest")).findings if one.rule == "recording-not-read")
    assert "larger than 8 MB" in found.says


def test_a_drop_frame_list_that_begins_at_an_hour_begins_at_nothing() -> None:
    """SMPTE 12M: 01:00:00;00 is frame 107,892 of 30000/1001 a second, even where no frame's number tells the rate."""
    event = "001  AX V C 00:00:00;00 00:40:00;00 01:00:00;00 01:40:00;00"
    (found,) = read_edit_list(f"TITLE: film\nFCM: DROP FRAME\n{event}\n* LOC: 01:12:40;10 RED HEM\n")[0]
    assert found.start == pytest.approx((760 * 30 + 10 - 2 * (12 - 1)) * 1001 / 30000, abs=0.001)


def test_a_marker_of_which_the_time_code_is_none_is_told() -> None:
    event = "001  AX V C 00:00:00:00 00:40:00:00 00:00:00:00 00:40:00:00"
    markers, slips = read_edit_list(f"{event}\n* LOC: 9:23 RED A\n* LOC: 00:99:11:02 RED B\n* LOC: 00:09:23:00 RED C\n")
    assert [(one.name, one.line) for one in markers] == [("C", 4)]
    assert [slip.line for slip in slips] == [2, 3]


@pytest.mark.parametrize(
    "text",
    [
        "0:58,Step 7\n1:02:03.5,Hem\n",
        "Step 7,0:58\nHem,1:02:03.5\n",
        "7,0:58\nHem,1:02:03.5\n",
        "Name,Time\n7,0:58\nHem,1:02:03.5\n",
        "Index;Time;Name\n1;0:58;Step 7\n2;1:02:03,5;Hem\n",
        "Marker Name,Note,In,Out\nStep 7,,00:00:58:00,00:00:59:00\nHem,,01:02:03:12,01:02:04:00\n",
    ],
    ids=["time first", "name first", "number first", "headed", "decimal comma", "time codes"],
)
def test_a_table_of_markers_may_have_its_columns_in_any_order(text: str) -> None:
    markers, slips = read_markers(text)
    assert slips == []
    assert [one.start for one in markers] == [58.0, 3723.5]
    assert [one.name for one in markers] in (["Step 7", "Hem"], ["7", "Hem"])


def test_time_codes_of_a_table_that_begins_at_an_hour_begin_at_nothing() -> None:
    markers, _ = read_markers("In,Name\n01:00:00:00,Welcome\n01:12:40:00,Step 7\n")
    assert [one.start for one in markers] == [0.0, 760.0]


def test_no_line_of_a_table_is_lost_without_a_word() -> None:
    """Not the first either, which might be taken for the heads."""
    markers, slips = read_markers("-1:00,Step 1\n5:06,Step 3\nlater,Step 4\n7:00,\n,Step 5\n")
    assert [one.name for one in markers] == ["Step 3"]
    assert [slip.line for slip in slips] == [1, 3, 4, 5]
    with pytest.raises(BadRecording, match="“soon” is no time") as error:
        read_markers("Time,Name\nsoon,Step 1\n")
    assert error.value.line == 2


def test_captions_of_the_other_kind_are_told_by_their_name() -> None:
    srt = "1\n00:00:01,000 --> 00:00:02,000\nPress\n"
    with pytest.raises(BadRecording) as error:
        read_captions(srt, srt=False)
    assert error.value.mend == "It is SRT. Let its name end in .srt, and write that name in film.yaml."
    with pytest.raises(BadRecording) as error:
        read_captions("WEBVTT\n\n00:01.000 --> 00:02.000\nPress\n", srt=True)
    assert error.value.mend == "It is WebVTT. Let its name end in .vtt, and write that name in film.yaml."
    with pytest.raises(BadRecording, match="This file is empty"):
        read_captions("\ufeff\r\n", srt=False)


def test_a_caption_with_a_misspelt_arrow_is_told() -> None:
    text = "WEBVTT\n\n00:01.000 -> 00:02.000\nPress\n\n00:03.000 --> 00:04.000\nHem it\n"
    cues, slips = read_captions(text, srt=False)
    assert ([cue.text for cue in cues], [slip.line for slip in slips]) == (["Hem it"], [3])

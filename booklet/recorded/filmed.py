"""What was filmed when: a recording aligned with the steps, or its markers' names, and what was corrected by hand."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.read.faults import Faults, nearest
from booklet.read.tree import same_name
from booklet.recorded.chapters import Aligned, align
from booklet.recorded.corrected import Corrected, corrected_times
from booklet.recorded.files import read_recording
from booklet.recorded.spoken import steps_named, words_of
from booklet.recorded.takes import Candidate, candidates, film_view

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern
    from booklet.recorded.cues import Marker, Recording


class Chapter(NamedTuple):
    """A take where it is filmed. take: its index among the takes; start, end: seconds; confidence: sure | look;
    source: recorded | corrected; line: of the recording's file; why: what makes it unsure."""

    take: int
    start: float
    end: float
    confidence: str
    source: str
    line: int
    why: str = ""


class Filmed(NamedTuple):
    """chapters: by their start; takes: all that may be filmed; missing: those that are not; gone: those said by
    hand not to be; strangers: markers that name none; aligned: where captions were; findings: of the reading and of the
    corrections."""

    view: str
    takes: tuple[Candidate, ...]
    recording: Recording | None
    chapters: tuple[Chapter, ...]
    missing: tuple[int, ...]
    gone: frozenset[int]
    strangers: tuple[Marker, ...]
    aligned: Aligned | None
    findings: tuple[Finding, ...]


@lru_cache(maxsize=4)
def what_was_filmed(pattern: Pattern) -> Filmed | None:
    """None where film.yaml neither names a recording nor gives a time."""
    film = pattern.film
    if film is None or (film.recorded is None and not film.times):
        return None
    faults = Faults()
    view = film_view(pattern)
    takes = candidates(pattern, view)
    recording = read_recording(pattern, faults)
    heard: list[Chapter] = []
    strangers: list[Marker] = []
    aligned = None
    if recording is not None and recording.cues:
        aligned = align(recording.cues, takes)
        lines = [cue.line for cue in recording.cues]
        heard = [
            Chapter(one.take, one.start, 0.0, "sure" if one.sure else "look", "recorded", lines[one.cue], one.why)
            for one in aligned.found
        ]
    elif recording is not None:
        heard, strangers = _marked(recording.markers, takes)
    corrected = corrected_times(pattern, view, takes, recording, {one.take: one.start for one in heard}, faults)
    ends = recording.ends if recording else 0.0
    chapters = _with_ends(_settled(heard, corrected, recording), ends)
    there = {chapter.take for chapter in chapters}
    missing = tuple(at for at in range(len(takes)) if at not in there) if recording is not None else ()
    return Filmed(
        view,
        tuple(takes),
        recording,
        chapters,
        missing,
        frozenset(corrected.gone),
        tuple(strangers),
        aligned,
        tuple(faults.findings),
    )


def _settled(heard: Sequence[Chapter], corrected: Corrected, recording: Recording | None) -> list[Chapter]:
    """What was corrected wins."""
    kept = [one for one in heard if one.take not in corrected.times and one.take not in corrected.gone]
    mine = [
        Chapter(take, start, 0.0, "sure", "corrected", _line_at(recording, start))
        for take, start in corrected.times.items()
    ]
    return sorted([*kept, *mine], key=lambda one: (one.start, one.take))


def _line_at(recording: Recording | None, seconds: float) -> int:
    """The line of what is said or marked at a time, or last before it; 1 where nothing is."""
    if recording is None:
        return 1
    lines = [(cue.start, cue.line) for cue in recording.cues]
    lines += [(marker.start, marker.line) for marker in recording.markers]
    return max((row for row in lines if row[0] <= seconds + 1), default=(0.0, 1))[1]


def _with_ends(chapters: Sequence[Chapter], ends: float) -> tuple[Chapter, ...]:
    """Each ends where the next begins, the last with the film."""
    following = [*(chapter.start for chapter in chapters[1:]), ends]
    return tuple(
        chapter._replace(end=max(end, chapter.start)) for chapter, end in zip(chapters, following, strict=False)
    )


def _marked(markers: Sequence[Marker], takes: Sequence[Candidate]) -> tuple[list[Chapter], list[Marker]]:
    """Markers by the step or take that they name, the first of each; and those that name none."""
    chapters: dict[int, Chapter] = {}
    strangers = []
    for marker in markers:
        take, sure = _named(marker.name, takes)
        if take is None:
            strangers.append(marker)
        elif take not in chapters:
            why = "" if sure else f"its marker “{marker.name[:60]}” names it only nearly"
            confidence = "sure" if sure else "look"
            chapters[take] = Chapter(take, marker.start, 0.0, confidence, "recorded", marker.line, why)
    return list(chapters.values()), strangers


def _named(name: str, takes: Sequence[Candidate]) -> tuple[int | None, bool]:
    """Which take a marker names: by its title or id, its number, or nearly its title."""
    wanted = same_name(name)
    words = words_of(name)
    numbers = [*steps_named(words), *([int(wanted)] if wanted.isdecimal() and len(wanted) < 5 else [])]
    for at, take in enumerate(takes):
        if wanted == same_name(take.title) or (take.step is not None and wanted == same_name(take.step.id)):
            return at, True
    for at, take in enumerate(takes):
        if take.step is not None and take.step.number in numbers:
            return at, True
        if same_name(take.title) in wanted:
            return at, True
    near = nearest(wanted, [take.title for take in takes])
    return next((at for at, take in enumerate(takes) if take.title == near), None), False


def times_object(filmed: Filmed) -> dict[str, Any]:
    """For a program: when each step is filmed."""
    times = []
    for chapter in filmed.chapters:
        take = filmed.takes[chapter.take]
        times.append(
            {
                "step": take.id,
                "number": take.step.number if take.step is not None else None,
                "title": take.title,
                "start": chapter.start,
                "end": chapter.end,
                "confidence": chapter.confidence,
                "source": chapter.source,
                "line": chapter.line,
            }
        )
    recorded = filmed.recording.file if filmed.recording is not None else None
    return {"view": filmed.view, "recorded": recorded, "times": times}

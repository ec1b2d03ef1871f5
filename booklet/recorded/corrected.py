"""Times that a person settled by hand, in film.yaml under `times:`. They win, whatever the captions say."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.read.faults import nearest
from booklet.read.tree import same_name
from booklet.recorded.cues import clock
from booklet.recorded.markers import seconds_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from booklet.model.pattern import Pattern
    from booklet.read.faults import Faults
    from booklet.read.tree import Text
    from booklet.recorded.cues import Recording
    from booklet.recorded.takes import Candidate

NOT_FILMED = "not filmed"
# Captions that move a step so far from where a person saw it are of another cut of the film. In seconds; our choice.
FAR = 60.0
# More times than these that lie behind the end have one cause. Our choice.
FEW = 3


class Corrected(NamedTuple):
    """times: seconds, by take; gone: takes that are said not to be filmed."""

    times: dict[int, float]
    gone: set[int]


def corrected_times(
    pattern: Pattern,
    view: str,
    takes: Sequence[Candidate],
    recording: Recording | None,
    heard: Mapping[int, float],
    faults: Faults,
) -> Corrected:
    """heard: where each take begins by the recording alone. A correction that does not fit is a finding."""
    found = Corrected({}, set())
    late: list[tuple[Text, float]] = []
    for name, written in pattern.film.times if pattern.film else ():
        take = _take(name, takes)
        if take is None:
            _no_such(pattern, view, name, takes, faults)
            continue
        if same_name(written.value) == NOT_FILMED:
            found.gone.add(take)
            continue
        seconds = seconds_of(written.value)
        if seconds is None:
            says = f"“{written.value[:40]}” is no time of a film."
            faults.add(
                "time-does-not-fit", written.place, says, "Write it as 12:40, 1:02:05 or “not filmed”.", level="warning"
            )
            continue
        if recording is not None and seconds > recording.ends:
            late.append((written, seconds))
        elif take in heard and abs(heard[take] - seconds) > FAR and recording is not None:
            says = (
                f"{takes[take].called[0].upper()}{takes[take].called[1:]} is set to {clock(seconds)} by hand, and "
                f"{recording.file} has it at {clock(heard[take])}."
            )
            mend = "Look at both. The time by hand holds; take it out where it is of an earlier cut."
            faults.add("time-does-not-fit", written.place, says, mend, level="warning", step=takes[take].id)
        found.times[take] = seconds
    if recording is not None:
        _behind(late, recording, faults)
    return found


def _behind(late: Sequence[tuple[Text, float]], recording: Recording, faults: Faults) -> None:
    """Times behind the end of the recording: each by itself, or all at the first where it is likely another film."""
    end = f"the end of {recording.file}, at {clock(recording.ends)}"
    mend = "Correct the time, or name the whole recording."
    if len(late) > FEW:
        says = f"{len(late)} of these times lie behind {end}; this is the first, {clock(late[0][1])}."
        mend = "Look whether it is the recording of this film, and of all of it."
        faults.add("time-does-not-fit", late[0][0].place, says, mend, level="warning")
        return
    for written, seconds in late:
        says = f"{clock(seconds)} lies behind {end}."
        faults.add("time-does-not-fit", written.place, says, mend, level="warning")


def _take(name: Text, takes: Sequence[Candidate]) -> int | None:
    wanted = same_name(name.value)
    by_id = (at for at, take in enumerate(takes) if take.step is not None and same_name(take.step.id) == wanted)
    by_title = (at for at, take in enumerate(takes) if take.step is None and same_name(take.title) == wanted)
    return next(by_id, next(by_title, None))


def _no_such(pattern: Pattern, view: str, name: Text, takes: Sequence[Candidate], faults: Faults) -> None:
    step = pattern.step(name.value)
    if step is not None:
        says = f"View {view}, which is filmed, does not sew {step.called}."
        faults.add("time-does-not-fit", name.place, says, "Take this time out.", level="warning")
        return
    near = nearest(name.value, [take.id or take.title for take in takes])
    says = f"No step has the id “{name.value[:60]}”, and no take of its own this title."
    mend = f"Did you mean “{near}”?" if near else "Write a step's id, or the title of a take in film.yaml."
    faults.add("time-does-not-fit", name.place, says, mend, level="warning")

"""How well takes are found in speech: the share near the truth, and those that are sure and wrong."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from booklet.check.order.compare import moved_between
from booklet.model.build import build_pattern
from booklet.read.faults import Faults
from booklet.read.folder import read_folder
from booklet.recorded.chapters import align
from booklet.recorded.takes import candidates
from tests.recorded.speech import Film, Noise, film

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern
    from booklet.recorded.chapters import Aligned
    from booklet.recorded.cues import Cue
    from booklet.recorded.takes import Candidate

ROOT = Path(__file__).resolve().parent.parent.parent
DEMOS = [ROOT / "steps" / name for name in ("saltmarsh-tunic", "lantern-tote", "pebble-joggers")]
OTHERS = sorted(
    path for path in (ROOT / "tests" / "faults" / "patterns").iterdir() if (path / "pattern.yaml").is_file()
)
NEAR = 10.0


class Score(NamedTuple):
    """Of `shown` takes: near the truth, sure, sure and wrong. Of `missing` ones: named as such; falsely: shown
    and named so. Of `swapped` pairs that are both found: moved, as the film's order is told."""

    shown: int
    near: int
    sure: int
    wrong: tuple[str, ...]
    missing: int
    named: int
    falsely: int
    swapped: int = 0
    moved: int = 0

    def __add__(self, other: Score) -> Score:  # type: ignore[override]
        return Score(*(one + two for one, two in zip(self, other, strict=True)))  # type: ignore[operator]


def pattern_of(folder: Path) -> Pattern:
    pattern = build_pattern(read_folder(folder, faults := Faults()), faults)
    assert pattern is not None
    return pattern


def score(
    aligned: Aligned,
    takes: list[Candidate],
    truth: dict[int, float],
    missing: list[int],
    swapped: list[tuple[int, int]],
    name: str,
) -> Score:
    near, sure, wrong = 0, 0, []
    found = {one.take: one for one in aligned.found}
    for take, one in found.items():
        right = take in truth and abs(one.start - truth[take]) <= NEAR
        near += right
        sure += one.sure
        if one.sure and not right:
            true = f"{truth[take]:.0f}" if take in truth else "not shown"
            wrong.append(f"{name}, {takes[take].called}: {one.start:.0f} s for {true}")
    named = sum(take not in found for take in missing)
    falsely = sum(take in truth for take in aligned.missing)
    both = [pair for pair in swapped if all(take in found for take in pair)]
    moved = moved_between(sorted(found), [one.take for one in aligned.found])
    told = sum(any(take in moved for take in pair) for pair in both)
    return Score(len(truth), near, sure, tuple(wrong), len(missing), named, falsely, len(both), told)


def run(folder: Path, seeds: int, noise: Noise, first: int = 0) -> Score:
    """Every view, with so many seeds, the first of which is `first`."""
    pattern = pattern_of(folder)
    total = Score(0, 0, 0, (), 0, 0, 0)
    for letter in pattern.views:
        takes = candidates(pattern, letter)
        for seed in range(first, first + seeds):
            made: Film = film(takes, f"{folder.name} {letter} {seed}", noise)
            name = f"{folder.name} {letter}{seed}"
            total += score(align(made.cues, takes), takes, made.truth, made.missing, made.swapped, name)
    return total


def long_film(takes: list[Candidate], cues: int) -> tuple[list[Cue], dict[int, float]]:
    """So many cues of loose speech: the film again and again, one after the other."""
    whole: list[Cue] = []
    begins, seed = 0.0, 0
    while len(whole) < cues:
        made = film(takes, f"long {seed}", Noise(swapped=0, missing=0))
        whole += [cue._replace(start=cue.start + begins, end=cue.end + begins) for cue in made.cues]
        begins, seed = whole[-1].end, seed + 1
    return whole[:cues], made.truth

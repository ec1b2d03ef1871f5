"""Where each take begins in a recording, and how sure that is."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING, NamedTuple

from booklet.recorded.evidence import ANNOUNCES, Listener
from booklet.recorded.follow import follow
from booklet.recorded.phrases import phrases_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.recorded.cues import Cue
    from booklet.recorded.evidence import Evidence, Matrix, Row
    from booklet.recorded.follow import Followed
    from booklet.recorded.phrases import Phrase
    from booklet.recorded.takes import Candidate

# Within how many seconds must a beginning be known, to be sure of it? Half of what a shown chapter lasts at least.
NEAR = 8.0
# How far from where the likeliest path has it may a take begin? And how much more does a phrase count than its
# neighbours, where it is to begin? Our choice.
FAR, OF_ITSELF = 45.0, 0.25
# What is sure? Our choice, tuned on the tests' speech, so that none was sure and wrong.
SURE, ENOUGH, RIVAL = 0.93, 3.0, 0.35
# For how long may it be open which take is shown, and how far back are words of it looked for? In seconds.
OPEN, BACK = 9.0, 60.0
# Its first words count where they say at least this share of what is said of it soon after: less may be chance.
FIRST_WORDS = 0.6
# Of a title, how much must be said to announce it without a word that opens something?
WHOLE_TITLE = 0.95
# Over how many seconds, against how many takes to either side, and by how much must it speak for its own take?
WEIGHED, NEIGHBOURS, MARGIN = 25.0, 3, 2.0
# What opens a take by itself, however long it takes to come to it.
OPENED = ("strong", "after pause")
# Within how many seconds of its beginning is a take opened again?
SOON = 45.0
# Less than this said of a take is none of it.
LEAST = 1.2
# A phrase that says so much for a take likely speaks of it; one that says so much surely does.
TELLS, TELLS_FIRMLY = 1.5, 2.5


class Run(NamedTuple):
    """Phrases first to last, both of the same take. weight: how much they say for it; idle: that of them nothing is."""

    take: int
    first: int
    last: int
    weight: float


class Found(NamedTuple):
    """A take where it begins: seconds, the phrase and its cue; how likely that is; sure, or to be looked at.

    why: what makes it unsure, in words; runs: everywhere it is shown, in their order.
    """

    take: int
    start: float
    phrase: int
    cue: int
    likely: float
    sure: bool
    why: str
    runs: tuple[Run, ...]


class Aligned(NamedTuple):
    """found: by time; missing: takes of which nothing is heard; tells: how much each phrase says for the take in which
    it is said."""

    found: list[Found]
    missing: list[int]
    phrases: list[Phrase]
    tells: list[float]
    listener: Listener | None


def align(cues: Sequence[Cue], takes: Sequence[Candidate]) -> Aligned:
    phrases = phrases_of(cues)
    if not phrases or not takes:
        return Aligned([], list(range(len(takes))), phrases, [], None)
    listener = Listener(takes, phrases)
    evidence = listener.listen(phrases)
    followed = follow(evidence, phrases)
    runs = _runs(followed, evidence.scores)
    found = []
    for take in range(len(takes)):
        mine = [run for run in runs if run.take == take]
        if mine and max(run.weight for run in mine) >= _least(takes[take]):
            found.append(_found(take, mine, phrases, followed, evidence))
    there = {one.take for one in found}
    missing = [take for take in range(len(takes)) if take not in there]
    found.sort(key=lambda one: one.start)
    tells = [float(evidence.scores[at, take]) for at, take in enumerate(followed.path)]
    return Aligned(found, missing, phrases, tells, listener)


def _least(take: Candidate) -> float:
    """An optional step is often only spoken of, as not being sewn."""
    return 1.5 * ENOUGH if take.step is not None and take.step.optional else LEAST


def _runs(followed: Followed, scores: Matrix) -> list[Run]:
    runs: list[Run] = []
    at = 0
    for take, group in groupby(followed.path):
        length = len(list(group))
        told = sum(float(scores[row, take]) for row in range(at, at + length) if not followed.idle[row])
        runs.append(Run(take, at, at + length - 1, told))
        at += length
    return runs


def _found(take: int, runs: list[Run], phrases: Sequence[Phrase], followed: Followed, evidence: Evidence) -> Found:
    scores = evidence.scores
    best = max(run.weight for run in runs)
    main = next(run for run in runs if run.weight >= RIVAL * best)
    column = followed.enters[:, take]
    begins = phrases[main.first].start
    at = _likeliest(main, column, phrases)
    at = _after_idle_talk(at, main, phrases, scores, TELLS)
    start = phrases[at].start
    firm = phrases[_after_idle_talk(at, main, phrases, scores, TELLS_FIRMLY)].start
    likely = min(1.0, sum(float(column[row]) for row in _around(at, phrases, NEAR)))
    why = ""
    if any(run is not main and run.weight >= RIVAL * best for run in runs):
        why = "more than one stretch of the film speaks of it"
    elif max(firm, start) - min(begins, start, _idle_since(at, phrases, followed.path, scores)) > NEAR:
        why = "idle talk stands before it"
    elif evidence.announced[at, take] <= 1 and _opened_later(at, main, phrases, scores):
        why = "it may begin a little later"
    elif phrases[at].aside and phrases[at].opens not in OPENED:
        why = "what is said there is of another time"
    elif _spoken_of_before(at, take, phrases, followed.path, scores):
        why = "it is spoken of before that"
    elif _words_are_shared(at, take, phrases, followed.path, scores):
        why = "what is said before it may be of it too"
    elif _open(at, main, phrases, followed.path, evidence) > OPEN:
        why = "nothing there tells it from the one before"
    elif _margin(at, main, phrases, scores) < MARGIN:
        why = "what is said there may be of another step"
    elif likely < SURE:
        why = "the words leave open where it begins"
    elif main.weight < ENOUGH or _said_once(main, evidence):
        why = "little is said of it"
    return Found(take, start, at, phrases[at].cue, likely, not why, why, tuple(runs))


def _spoken_of_before(at: int, take: int, phrases: Sequence[Phrase], path: Sequence[int], scores: Matrix) -> bool:
    """Whether something shortly before speaks for it, and more than for what is shown there."""
    for row in _before(at, phrases):
        more = scores[row, take] - max(scores[row, path[row]], 0.0)
        if phrases[at].start - phrases[row].start > NEAR and more >= TELLS_FIRMLY:
            return True
    return False


def _said_once(run: Run, evidence: Evidence) -> bool:
    """Whether a single phrase speaks for it, which may be chance, and none that has its whole title."""
    rows = slice(run.first, run.last + 1)
    telling = int((evidence.scores[rows, run.take] >= TELLS).sum())
    return telling < 2 and float(evidence.announced[rows, run.take].max()) < WHOLE_TITLE * ANNOUNCES


def _words_are_shared(at: int, take: int, phrases: Sequence[Phrase], path: Sequence[int], scores: Matrix) -> bool:
    """Whether words just before speak for it nearly as much as for the take before: it may have begun there."""
    for row in _before(at, phrases):
        more = scores[row, take] - scores[row, path[row]]
        if path[row] != take and more <= -TELLS_FIRMLY and not phrases[row].aside:
            return False
        if scores[row, take] >= LEAST and phrases[at].start - phrases[row].start > NEAR:
            return True
    return False


def _open(at: int, run: Run, phrases: Sequence[Phrase], path: Sequence[int], evidence: Evidence) -> float:
    """For how many seconds it is open which is shown: from the last words of the take before to its own first ones."""
    titled = evidence.announced[at : at + 2, run.take].max()
    if at == 0 or titled >= WHOLE_TITLE * ANNOUNCES or (titled > 1 and phrases[at].opens == "strong"):
        return 0.0
    scores = evidence.scores
    before = path[at - 1] if path[at - 1] != run.take else path[max(run.first - 1, 0)]
    gap = scores[:, run.take] - scores[:, before]
    since = next((row + 1 for row in _before(at, phrases) if gap[row] <= -TELLS and not phrases[row].aside), at)
    rows = [row for row in range(at, run.last + 1) if phrases[row].start - phrases[at].start <= BACK]
    enough = max(TELLS, FIRST_WORDS * max(float(gap[row]) for row in rows))
    until = next((row for row in rows if gap[row] >= enough and scores[row, run.take] > 1), rows[-1])
    return phrases[until].start - phrases[since].start


def _before(at: int, phrases: Sequence[Phrase]) -> Iterator[int]:
    """The phrases shortly before one, from the last on."""
    for row in range(at - 1, -1, -1):
        if phrases[at].start - phrases[row].start > BACK:
            return
        yield row


def _margin(at: int, run: Run, phrases: Sequence[Phrase], scores: Matrix) -> float:
    """By how much what is said from its beginning on speaks for the take rather than for the likeliest one near it."""
    rows = [row for row in range(at, run.last + 1) if phrases[row].start - phrases[at].start <= WEIGHED]
    told = scores[rows].sum(axis=0)
    near = [other for other in range(max(0, run.take - NEIGHBOURS), run.take + NEIGHBOURS + 1) if other != run.take]
    return min((float(told[run.take] - told[other]) for other in near if other < len(told)), default=MARGIN)


def _likeliest(run: Run, column: Row, phrases: Sequence[Phrase]) -> int:
    """The phrase near which the take most likely begins: that is what a viewer notices, not the very phrase."""
    rows = [at for at in _around(run.first, phrases, FAR) if at <= run.last]
    mass = {at: sum(float(column[row]) for row in _around(at, phrases, NEAR)) for at in rows}
    return max(rows, key=lambda at: (mass[at] + OF_ITSELF * float(column[at]), -at))


def _around(at: int, phrases: Sequence[Phrase], seconds: float) -> list[int]:
    """Phrases that begin within so many seconds."""
    first = last = at
    while first > 0 and phrases[at].start - phrases[first - 1].start <= seconds:
        first -= 1
    while last + 1 < len(phrases) and phrases[last + 1].start - phrases[at].start <= seconds:
        last += 1
    return list(range(first, last + 1))


def _opened_later(at: int, run: Run, phrases: Sequence[Phrase], scores: Matrix) -> bool:
    """Whether something is opened again soon after, and the take spoken of there."""
    for row in range(at + 1, run.last):
        if phrases[row].start - phrases[at].start > SOON:
            break
        if phrases[row].opens == "strong" and scores[row, run.take] + scores[row + 1, run.take] >= 1:
            return phrases[row].start - phrases[at].start > NEAR
    return False


def _idle_since(at: int, phrases: Sequence[Phrase], path: Sequence[int], scores: Matrix) -> float:
    """Since when nothing was said that tells of a take, before something that does not open one itself."""
    since = at
    if phrases[at].opens not in OPENED:
        while since > 0 and scores[since - 1, path[since - 1]] < TELLS_FIRMLY:
            since -= 1
    return phrases[since].start


def _after_idle_talk(at: int, run: Run, phrases: Sequence[Phrase], scores: Matrix, tells: float) -> int:
    """The sentence in which a take is first spoken of, where only idle talk stands before it and nothing opens it."""
    if phrases[at].opens in OPENED:
        return at
    told = next((row for row in range(at, run.last + 1) if scores[row, run.take] >= tells), at)
    while told > at and phrases[told].opens == "within":
        told -= 1
    return told

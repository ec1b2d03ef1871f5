"""Which take is shown at each stretch of speech: a hidden Markov model of a film that follows its booklet or not.

Each take has two states, sewing and idle talk. From a take the film goes on to the next, leaves some out, or jumps
anywhere, rarely. Sources: Rabiner 1989, A Tutorial on Hidden Markov Models (forward, backward, Viterbi), from memory.
Time and memory: phrases x takes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.recorded.phrases import OPENS

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy

    from booklet.recorded.evidence import Evidence, Matrix, Row
    from booklet.recorded.phrases import Phrase

    Whole = numpy.ndarray[tuple[int, int], numpy.dtype[numpy.int32]]

# Of those that leave a take, how many go on by one, by two, by three, back by one or by two, and anywhere? Our choice.
GOES = {1: 0.76, 2: 0.09, 3: 0.03, -1: 0.04, -2: 0.02}
JUMP = 1 - sum(GOES.values())
# How often does talk turn idle, and turn back? Our choice.
IDLES, RESUMES = 0.08, 0.08
# What a known word that is nobody's says for idle talk. Our choice.
_TINY = 1e-300


class Followed(NamedTuple):
    """path: the take of each phrase; idle: whether it is idle talk there; enters: how likely each take begins at each
    phrase, given all of the film."""

    path: list[int]
    idle: list[bool]
    enters: Matrix


def follow(evidence: Evidence, phrases: Sequence[Phrase]) -> Followed:
    import numpy

    scores, announced = evidence
    moves = _Moves(scores.shape[1])
    leaves = [OPENS[phrase.opens] for phrase in phrases]
    path, idle = moves.best(scores, announced, leaves)
    shifted = numpy.clip(scores - numpy.maximum(scores.max(axis=1, keepdims=True), 0.0), -60.0, 0.0)
    base = numpy.clip(-numpy.maximum(scores.max(axis=1), 0.0), -60.0, 0.0)
    enters = moves.enters(numpy.exp(shifted), numpy.exp(base), announced, leaves)
    return Followed(path, idle, enters)


class _Moves:
    """Passing from one phrase to the next, for all takes at once."""

    def __init__(self, takes: int) -> None:
        import numpy

        self.np = numpy
        self.takes = takes
        self.goes = [(by, share) for by, share in GOES.items() if abs(by) < takes]

    def first(self) -> tuple[Row, Row]:
        """How likely each take is the first: the planned one, then any."""
        begin = self.np.full(self.takes, 0.4 / self.takes)
        begin[0] += 0.6
        return begin * 0.8, begin * 0.2

    def entering(self, left: Row) -> Row:
        """Where what leaves its take goes. left: how much leaves each."""
        into = self.np.full(self.takes, JUMP * left.sum() / self.takes)
        for by, share in self.goes:
            self.slid(into, by)[:] += share * self.slid(left, -by)
        return into

    @staticmethod
    def slid(row: Row, by: int) -> Row:
        """The part of a row that something `by` places before comes to."""
        return row[by:] if by > 0 else row[:by]

    def leaving(self, ahead: Row) -> Row:
        """The same backward: what each take, left, comes to. ahead: what entering each comes to."""
        comes = self.np.full(self.takes, JUMP * ahead.sum() / self.takes)
        for by, share in self.goes:
            self.slid(comes, -by)[:] += share * self.slid(ahead, by)
        return comes

    def enters(self, sewing: Matrix, idling: Row, announced: Matrix, leaves: Sequence[float]) -> Matrix:
        """Forward and backward, scaled row by row. Gives how likely each take is entered at each phrase."""
        np = self.np
        count = len(leaves)
        forward = np.empty((count, 2, self.takes))
        work, idle = self.first()
        for at in range(count):
            if at:
                leave = leaves[at]
                into = self.entering((work + idle) * leave) * announced[at]
                stay, rest = work * (1 - leave), idle * (1 - leave)
                work, idle = stay * (1 - IDLES) + rest * RESUMES + into, stay * IDLES + rest * (1 - RESUMES)
            work, idle = work * sewing[at], idle * idling[at]
            whole = work.sum() + idle.sum() + _TINY
            work, idle = work / whole, idle / whole
            forward[at, 0], forward[at, 1] = work, idle
        enters: Matrix = np.zeros((count, self.takes))
        after_work, after_idle = np.ones(self.takes), np.ones(self.takes)
        for at in range(count - 1, 0, -1):
            leave = leaves[at]
            ahead_work, ahead_idle = after_work * sewing[at], after_idle * idling[at]
            work, idle = forward[at - 1]
            entered = self.entering((work + idle) * leave) * (ahead_work * announced[at])
            left = self.leaving(ahead_work * announced[at]) * leave
            before_work = (1 - leave) * ((1 - IDLES) * ahead_work + IDLES * ahead_idle) + left
            before_idle = (1 - leave) * (RESUMES * ahead_work + (1 - RESUMES) * ahead_idle) + left
            total = float(work @ before_work + idle @ before_idle) + _TINY
            enters[at] = entered / total
            scale = max(before_work.max(), before_idle.max()) + _TINY
            after_work, after_idle = before_work / scale, before_idle / scale
        begun = forward[0, 0] * after_work
        enters[0] = begun / ((forward[0, 0] * after_work + forward[0, 1] * after_idle).sum() + _TINY)
        return enters

    def best(self, scores: Matrix, announced: Matrix, leaves: Sequence[float]) -> tuple[list[int], list[bool]]:
        """The likeliest path (Viterbi), in logarithms."""
        np = self.np
        count, takes = scores.shape
        log = np.log
        came = np.empty((count, 2, takes), dtype=np.int32)  # of the state before: take, or takes + take where it idled
        work, idle = (log(row) for row in self.first())
        work = work + scores[0]
        own = np.arange(takes, dtype=np.int32)
        for at in range(1, count):
            stay, leave = log(1 - leaves[at]), log(leaves[at])
            fromwhere = np.where(work >= idle, own, own + takes).astype(np.int32)
            better = np.maximum(work, idle)
            top = int(better.argmax())
            enter = np.full(takes, better[top] + log(JUMP / takes))
            whence = np.full(takes, fromwhere[top], dtype=np.int32)
            for by, share in self.goes:
                moved = self.slid(better, -by) + log(share)
                there, origin = self.slid(enter, by), self.slid(whence, by)
                wins = moved > there
                there[:] = np.where(wins, moved, there)
                origin[:] = np.where(wins, self.slid(fromwhere, -by), origin)
            options = np.stack(
                [work + (stay + log(1 - IDLES)), idle + (stay + log(RESUMES)), enter + (leave + log(announced[at]))]
            )
            chosen = options.argmax(axis=0)
            came[at, 0] = np.choose(chosen, [own, own + takes, whence])
            idles = np.stack([idle + (stay + log(1 - RESUMES)), work + (stay + log(IDLES))])
            picked = idles.argmax(axis=0)
            came[at, 1] = np.where(picked == 0, own + takes, own)
            work, idle = options.max(axis=0) + scores[at], idles.max(axis=0)
        return self._back(came, work, idle)

    def _back(
        self, came: numpy.ndarray[tuple[int, int, int], numpy.dtype[numpy.int32]], work: Row, idle: Row
    ) -> tuple[list[int], list[bool]]:
        state = int(self.np.concatenate([work, idle]).argmax())
        path: list[int] = []
        idling: list[bool] = []
        for at in range(len(came) - 1, -1, -1):
            idles, take = divmod(state, self.takes)
            path.append(take)
            idling.append(bool(idles))
            state = int(came[at, idles, take])
        return path[::-1], idling[::-1]

"""Half-made samples: with how many can takes be filmed in an order, and how few changes does each number come to?

A sample serves a run of takes: they follow each other in the order of making, and each finds the sample as the takes
before it left it. So with n samples the takes are cut into n + 1 runs, and only within a run must one wait for another.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from booklet.plan.film.sequence import Ordered, fewest_blocks

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from booklet.plan.film.prerequisites import Item

# How many rows does the search for the best cuts keep? Few, as it tries many; the best are then searched in full.
QUICK = 20
# Up to how many takes is every cut tried? With more, so many cuts are tried, evenly spread. Our choice, so that a
# second or two is enough.
FULL_TAKES, FEW_CUTS = 60, 24
# From how many takes on are no samples looked for? Our choice: a film of that length takes days anyway.
MOST_TAKES = 120


class Way(NamedTuple):
    """One way to film: with so many samples sewn beforehand. cuts: where a run of takes begins, in order of making."""

    cuts: tuple[int, ...]
    ordered: Ordered

    @property
    def samples(self) -> int:
        return len(self.cuts)


def ways(kinds: Sequence[int], items: Sequence[Item], most: int) -> list[Way]:
    """With no sample, with one, and so on, as long as another one saves a change. kinds: the set-up of each item."""
    before = [item.before for item in items]
    found = [Way((), fewest_blocks(kinds, before))]
    if len(items) > MOST_TAKES:
        return found
    starts = [at for at in range(1, len(items)) if items[at].step is None or items[at].step != items[at - 1].step]
    cutting = _Cutting(kinds, before, starts)
    while len(found) <= most and found[-1].ordered.blocks > len(set(kinds)):
        cuts = cutting.best(found[-1].cuts)
        if cuts is None:
            break
        ordered = fewest_blocks(kinds, cut(before, cuts))
        if ordered.blocks >= found[-1].ordered.blocks:
            break
        at_least = min(cutting.bound(len(cuts)), ordered.blocks)
        found.append(Way(cuts, ordered._replace(at_least=at_least)))
    return found


class _Cutting:
    def __init__(self, kinds: Sequence[int], before: Sequence[int], starts: Sequence[int]) -> None:
        self.kinds = kinds
        self.before = before
        self.starts = starts
        self.full = len(kinds) <= FULL_TAKES
        self.tries = starts if self.full else starts[:: max(1, -(-len(starts) // FEW_CUTS))]
        self.width = max(QUICK * FULL_TAKES**2 // max(len(kinds), FULL_TAKES) ** 2, 4)
        self._quick: dict[tuple[int, ...], Ordered] = {}

    def best(self, cuts: tuple[int, ...]) -> tuple[int, ...] | None:
        """One cut more, where it saves most; and of two, each moved once more to where it saves most."""
        best = self._first(tuple(sorted((*cuts, at))) for at in self.tries if at not in cuts)
        if best is None or len(best) != 2 or not self.full:
            return best
        for moved in best:
            rest = tuple(at for at in best if at != moved)
            best = self._first(tuple(sorted((*rest, at))) for at in self.tries if at not in rest) or best
            if moved not in best:
                break
        return best

    def _first(self, tries: Iterable[tuple[int, ...]]) -> tuple[int, ...] | None:
        return min(tries, key=lambda cuts: (self._tried(cuts).blocks, cuts), default=None)

    def _tried(self, cuts: tuple[int, ...]) -> Ordered:
        if cuts not in self._quick:
            self._quick[cuts] = fewest_blocks(self.kinds, cut(self.before, cuts), self.width)
        return self._quick[cuts]

    def bound(self, samples: int) -> int:
        """No order with so many samples has fewer blocks. With one, where every cut was tried, it is the best of
        them; else the takes of some run that wait for each other need as many as the best cuts leave the worst run."""
        if samples == 1 and self.full:
            return min(self._tried((at,)).at_least for at in self.starts)
        bounds = [0, *self.starts, len(self.kinds)]
        tall = {start: self._tall(start) for start in bounds[:-1]}
        # least[end]: the tallest run of the best cuts of what comes before `end`, into one run, then two, and so on.
        least = {end: tall[0][end - 1] for end in bounds[1:]}
        for _ in range(samples):
            least = {
                end: min(
                    [least[end], *(max(least[start], tall[start][end - 1]) for start in bounds[1:-1] if start < end)]
                )
                for end in bounds[1:]
            }
        return max(least[len(self.kinds)], len(set(self.kinds)))

    def _tall(self, start: int) -> dict[int, int]:
        """Of the run from `start` on, by its last item: the most blocks that items waiting for each other need."""
        ends: dict[int, int] = {}
        found: dict[int, int] = {}
        tallest = 0
        for each in range(start, len(self.kinds)):
            waits = self.before[each] >> start << start
            ends[each] = 1
            while waits:
                low = waits & -waits
                waits ^= low
                first = low.bit_length() - 1
                ends[each] = max(ends[each], ends[first] + (self.kinds[first] != self.kinds[each]))
            tallest = max(tallest, ends[each])
            found[each] = tallest
        return found


def cut(before: Sequence[int], cuts: Sequence[int]) -> list[int]:
    """What must come before each, where each run has a sample of its own."""
    return [
        each & ((1 << end) - (1 << start))
        for start, end in pairwise([0, *cuts, len(before)])
        for each in before[start:end]
    ]


def runs_needed(items: Sequence[Item], order: Sequence[int]) -> list[int]:
    """Where each further run begins, for takes filmed in that order: the fewest runs there can be, none cut in a step.

    Each is as long as it can be: a longer run never makes the rest need more.
    """
    place = {item: at for at, item in enumerate(order)}
    starts: list[int] = []
    begun = step_begins = 0
    for at, item in enumerate(items):
        if item.step is None or at == 0 or items[at - 1].step != item.step:
            step_begins = at
        too_far = any(item.before >> other & 1 and place[other] > place[at] for other in range(begun, step_begins))
        if too_far:
            starts.append(step_begins)
            begun = step_begins
    return starts

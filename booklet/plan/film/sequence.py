"""An order with few changes: things of several kinds, some of which must come before others.

The things are numbered along an order that keeps every `before`. An order is built in blocks of one kind. It is never
worse to take everything of a block's kind that may come now: that costs no change and hinders nothing. So an order is
found by its row of kinds alone, and the search goes from row to row: all rows of one block, all of two, and so on. Of
two rows of one length, one whose things are all done by the other too is given up. That is exact as long as no more
than `width` rows of a length are kept; where more come, the likeliest are kept, and what the others could have come to
at best bounds the answer from below.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

# How many rows are kept of one length, and with how many is each compared? Our choice: most plans of a hundred takes
# stay exact and within a second. Of longer plans fewer rows are kept, as each holds more.
WIDTH, FULL_WIDTH = 600, 100
COMPARED = 150


class Ordered(NamedTuple):
    """order: all things; blocks: of one kind in it; at_least: no order has fewer blocks."""

    order: tuple[int, ...]
    blocks: int
    at_least: int


class _Row(NamedTuple):
    done: int
    kinds: tuple[int, ...]


def blocks_in(order: Iterable[int], kinds: Sequence[int]) -> int:
    """How many blocks of one kind an order has; one more than its changes."""
    found, last = 0, None
    for each in order:
        found += kinds[each] != last
        last = kinds[each]
    return found


def fewest_blocks(kinds: Sequence[int], before: Sequence[int], width: int = WIDTH) -> Ordered:
    """kinds: of each thing; before: all things that must come before it, as the bits of a number."""
    width = max(width * FULL_WIDTH**2 // max(len(kinds), FULL_WIDTH) ** 2, 1)
    problem = _Problem(kinds, before)
    given = tuple(range(len(kinds)))
    best = Ordered(given, blocks_in(given, kinds), problem.left(0))
    rows = [_Row(0, ())]
    dropped = best.blocks
    for length in range(1, best.blocks):
        following: dict[int, _Row] = {}
        for row in rows:
            for kind in problem.kinds:
                done = problem.filled(row.done, kind) if not row.kinds or kind != row.kinds[-1] else row.done
                # A row that can't become shorter than the given order is no use.
                if done != row.done and done not in following and length + problem.left(done) < best.blocks:
                    following[done] = _Row(done, (*row.kinds, kind))
        if problem.all in following:
            kinds_of = following[problem.all].kinds
            return Ordered(problem.replayed(kinds_of), length, max(problem.left(0), min(length, dropped)))
        rows = _undominated(following.values())
        if len(rows) > width:
            rows.sort(key=lambda row: (problem.left(row.done), -row.done.bit_count(), row.kinds))
            dropped = min(dropped, min(length + problem.left(row.done) for row in rows[width:]))
            del rows[width:]
        if not rows:
            break
    return best._replace(at_least=max(best.at_least, dropped))


def _undominated(rows: Iterable[_Row]) -> list[_Row]:
    kept: list[_Row] = []
    for row in sorted(rows, key=lambda row: (-row.done.bit_count(), row.kinds)):
        if not any(row.done & ~other.done == 0 for other in kept[:COMPARED]):
            kept.append(row)
    return kept


class _Problem:
    def __init__(self, kinds: Sequence[int], before: Sequence[int]) -> None:
        self.before = before
        self.kinds = sorted(set(kinds))
        self.members = {kind: [each for each, its in enumerate(kinds) if its == kind] for kind in self.kinds}
        self.masks = {kind: sum(1 << each for each in members) for kind, members in self.members.items()}
        self.all = (1 << len(kinds)) - 1
        self.tall = self._tall(kinds)
        self.tallest = sorted(range(len(kinds)), key=lambda each: -self.tall[each])

    def _tall(self, kinds: Sequence[int]) -> list[int]:
        """Of each thing, the most blocks that things waiting for each other can need, from it on."""
        tall = [1] * len(kinds)
        for each in range(len(kinds) - 1, -1, -1):
            waiting = self.before[each]
            while waiting:
                low = waiting & -waiting
                waiting ^= low
                first = low.bit_length() - 1
                tall[first] = max(tall[first], tall[each] + (kinds[first] != kinds[each]))
        return tall

    def left(self, done: int) -> int:
        """No fewer blocks than this are still to come."""
        if done == self.all:
            return 0
        tallest = next(self.tall[each] for each in self.tallest if not done >> each & 1)
        return max(tallest, sum(1 for mask in self.masks.values() if mask & ~done))

    def filled(self, done: int, kind: int) -> int:
        """With everything of one kind that may come now."""
        for each in self.members[kind]:
            if not self.before[each] & ~done:
                done |= 1 << each
        return done

    def replayed(self, kinds: Iterable[int]) -> tuple[int, ...]:
        order: list[int] = []
        done = 0
        for kind in kinds:
            after = self.filled(done, kind)
            order += [each for each in self.members[kind] if (after & ~done) >> each & 1]
            done = after
        return tuple(order)

"""The order nearest to the written one that sews: the one with the fewest steps moved."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.check.order.compare import moved_between
from booklet.check.order.trial import Spent, is_error

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.check.found import Found
    from booklet.check.order.trial import Trials
    from booklet.model.pattern import Step

    Order = tuple[Step, ...]

# How many of the best orders does the search follow at once, and how many moves far? Our choice.
WIDTH, DEPTH = 3, 6


class Nearest(NamedTuple):
    """order: None where none was found that sews.

    proven: every order with fewer steps moved was tried and does not sew; with no order, that every order was tried.
    """

    order: tuple[Step, ...] | None
    moved: tuple[Step, ...]
    proven: bool


def nearest_order(trials: Trials) -> Nearest:
    """An order sews when nothing in it must be mended, and nothing is to be looked at that the written one has not."""
    search = _Search(trials)
    if search.sews(search.written):
        return Nearest(search.written, (), True)
    guided = search.guided()
    fewest = len(search.moves(guided)) if guided else len(search.written)
    # One moved step is the fewest there can be. What is left of the trials goes into proving or bettering the rest.
    better, complete = (None, True) if fewest == 1 else search.exhaust(fewest)
    order = better or guided
    return Nearest(order, tuple(search.moves(order)) if order else (), complete)


class _Search:
    def __init__(self, trials: Trials) -> None:
        self.trials = trials
        self.written: Order = trials.written
        self.place = {step: at for at, step in enumerate(self.written)}
        self.own = {key for key, (rule, _) in trials.own.items() if not is_error(rule)}
        self.known: dict[Order, list[tuple[str, Found]]] = {}

    def faults(self, order: Order) -> list[tuple[str, Found]]:
        """What keeps an order from sewing. Raises Spent."""
        if order not in self.known:
            found = self.trials.faults(order)
            self.known[order] = [each for key, each in found.items() if key not in self.own]
        return self.known[order]

    def sews(self, order: Order) -> bool:
        return not self.faults(order)

    def moves(self, order: Order) -> list[Step]:
        return moved_between(self.written, order)

    def far(self, order: Order) -> tuple[int, int, tuple[int, ...]]:
        """How far an order is from the written one: steps moved, then places; and a last word, so that no two tie."""
        places = tuple(self.place[step] for step in order)
        return len(self.moves(order)), sum(abs(at - place) for at, place in enumerate(places)), places

    def guided(self) -> Order | None:
        """Moves the steps that the findings speak of, and follows the few best orders. None where that ends."""
        row, seen = [self.written], {self.written}
        try:
            for _ in range(min(DEPTH, len(self.written))):
                coming: list[tuple[int, tuple[int, int, tuple[int, ...]], Order]] = []
                for order in row:
                    for other in self._guesses(order):
                        if other not in seen:
                            seen.add(other)
                            coming.append((len(self.faults(other)), self.far(other), other))
                coming.sort()
                if coming and coming[0][0] == 0:
                    return coming[0][2]
                row = [order for _, _, order in coming[:WIDTH]]
        except Spent:
            pass
        return min((order for order, faults in self.known.items() if not faults), key=self.far, default=None)

    def _guesses(self, order: Order) -> Iterator[Order]:
        involved: dict[Step, None] = {}
        for _, found in self.faults(order):
            involved.update(dict.fromkeys(step for step in (found.move, found.step) if step is not None))
            lines = {(related.place.file, related.place.line) for related in found.related}
            involved.update(dict.fromkeys(step for step in order if _stands_at(step, lines)))
        for step in involved:
            if step in self.place:
                yield from _moves_of(order, step)

    def exhaust(self, fewest: int) -> tuple[Order | None, bool]:
        """Every order with fewer moved steps, nearest first; and whether all of them could be tried."""
        row, seen = [self.written], {self.written}
        for _ in range(fewest - 1):
            coming = []
            # So that no more is laid out than can be tried.
            most = self.trials.left // (len(self.written) * len(self.trials.runs)) + 1
            for order in row:
                for step in self.written:
                    new = [other for other in _moves_of(order, step) if other not in seen]
                    seen.update(new)
                    coming += new
                    if len(coming) > most:
                        return self._first(coming), False
            coming.sort(key=self.far)
            try:
                found = next((order for order in coming if self.sews(order)), None)
            except Spent:
                return self._first(coming), False
            if found is not None:
                return found, True
            row = coming
        return None, True

    def _first(self, orders: Sequence[Order]) -> Order | None:
        """The nearest that sews, as far as the trials reach."""
        try:
            return next((order for order in sorted(orders, key=self.far) if self.sews(order)), None)
        except Spent:
            return None


def _moves_of(order: Order, step: Step) -> Iterator[Order]:
    """Every order that differs by the place of one step, the nearest places first."""
    at = order.index(step)
    rest = (*order[:at], *order[at + 1 :])
    for to in sorted(range(len(order)), key=lambda to: (abs(to - at), to)):
        if to != at:
            yield (*rest[:to], step, *rest[to:])


def _stands_at(step: Step, lines: set[tuple[str, int]]) -> bool:
    return any(file == step.place.file and step.place.line <= line <= step.place.end_line for file, line in lines)

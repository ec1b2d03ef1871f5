"""One view, sewn again and again in other orders: what does each order do that the written one does not?"""

from __future__ import annotations

from itertools import groupby
from operator import itemgetter
from typing import TYPE_CHECKING, NamedTuple

from booklet.check.allowed import rule_of
from booklet.check.engine import level_of, look, spot
from booklet.sew.view import runs_of, sew_view

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Sequence

    from booklet.check.found import Found
    from booklet.check.order.related import Related
    from booklet.finding import Place
    from booklet.model.pattern import Pattern, Step, View
    from booklet.sew.bench import Act, Bench

# How many steps may all the trials of one view sew between them? Our choice: a second or two for a usual booklet, and
# never minutes for a long one.
MOST_STEPS = 80_000


class Harm(NamedTuple):
    """What an order does that the written one does not. rule: "" where an entry comes to speak of another seam."""

    rule: str
    place: Place
    step: Step | None
    says: str


class Spent(Exception):
    """What may be tried for one view has been tried."""


class Trials:
    """The written order of a view, and what it may be compared with.

    written: every step of the view, optional ones too; bench: the written order, sewn; own: what is found in it;
    swaps: what came of two neighbours changing places, for the other of the two.
    A trial sews the view in full and, as `check` does, again without its optional steps.
    """

    def __init__(self, pattern: Pattern, view: View, most: int | None = None) -> None:
        self.pattern = pattern
        self.view = view
        self.left = MOST_STEPS if most is None else most
        self.written: tuple[Step, ...] = tuple(pattern.steps_of(view.letter))
        self.runs = runs_of(pattern, view)
        self.own: dict[tuple[object, ...], tuple[str, Found]] = {}
        self.swaps: dict[tuple[frozenset[Step], bool], tuple[Harm | None, Related]] = {}
        self._speaks: list[dict[int, tuple[int, int]]] = []
        for run in self.runs:
            bench = sew_view(pattern, view, run)
            self.own.update(_open_faults(bench))
            self._speaks.append(_speaks_of(bench))
            if not run:
                self.bench = self.last = bench

    def harms(self, order: Sequence[Step], runs: Collection[frozenset[str]] | None = None) -> list[Harm]:
        """Nothing where the order is as good as the written one: `last` is then its bench. Else what one rule finds.

        Raises Spent. runs: which of the runs besides the full one; all of them where it is not given.
        """
        for at, run in enumerate(self.runs):
            if run and runs is not None and run not in runs:
                continue
            bench = self._sewn(order, run)
            new = self._new_faults(bench) or self._other_seams(bench, self._speaks[at])
            if new:
                return new
            if not run:
                self.last = bench
        return []

    def faults(self, order: Sequence[Step]) -> dict[tuple[object, ...], tuple[str, Found]]:
        """Everything that is found in an order and not allowed, in the order of the rules. Raises Spent."""
        found: dict[tuple[object, ...], tuple[str, Found]] = {}
        for run in self.runs:
            found.update(_open_faults(self._sewn(order, run)))
        return found

    def _sewn(self, order: Sequence[Step], run: frozenset[str]) -> Bench:
        self.left -= len(order)
        if self.left < 0:
            raise Spent
        return sew_view(self.pattern, self.view, run, order)

    def _new_faults(self, bench: Bench) -> list[Harm]:
        """What the first rule finds that finds anything the written order has not."""
        for _, found in groupby(look(bench), itemgetter(0)):
            new = {key: item for key, item in _open_ones(bench.pattern, found).items() if key not in self.own}
            if new:
                return [harm_of(*item) for item in new.values()]
        return []

    def _other_seams(self, bench: Bench, written: dict[int, tuple[int, int]]) -> list[Harm]:
        return [
            Harm("", act.place, act.step, f"“{act.name}” here would speak of another seam.")
            for act in bench.acts
            if written.get(id(act.entry), _spoken(act)) != _spoken(act)
        ]


def harm_of(rule: str, found: Found) -> Harm:
    return Harm(rule, found.place, found.step, found.says)


def is_error(rule: str) -> bool:
    return level_of(rule) == "error"


def _open_faults(bench: Bench) -> dict[tuple[object, ...], tuple[str, Found]]:
    return _open_ones(bench.pattern, look(bench))


def _open_ones(pattern: Pattern, found: Iterable[tuple[str, Found]]) -> dict[tuple[object, ...], tuple[str, Found]]:
    """Those that the writer has not allowed, each once."""
    return {spot(rule, item): (rule, item) for rule, item in found if not _allowed(pattern, rule, item)}


def _allowed(pattern: Pattern, rule: str, item: Found) -> bool:
    step = item.step
    given = (*(step.allow if step else ()), *(step.section.allow if step else ()), *pattern.allow)
    return any(rule_of(allow) == rule for allow in given)


def _speaks_of(bench: Bench) -> dict[int, tuple[int, int]]:
    """By entry, the entry whose seam it spoke of, and the entry of any other work."""
    return {id(act.entry): _spoken(act) for act in bench.acts}


def _spoken(act: Act) -> tuple[int, int]:
    seam = act.seam.act.entry if act.seam is not None else None
    return id(seam), id(act.target.entry if act.target is not None else None)

"""The day of filming: in which order the takes are filmed, and with which samples."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.plan.film.garment import Garment, garment, numbers_named
from booklet.plan.film.prerequisites import prerequisites
from booklet.plan.film.samples import runs_needed, ways
from booklet.plan.film.sequence import blocks_in
from booklet.plan.film.takes import placed_takes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.model.pattern import Pattern
    from booklet.plan.film.prerequisites import Item, Prerequisites
    from booklet.plan.film.samples import Way
    from booklet.plan.plan import FilmPlan, Shot
    from booklet.sew.bench import Bench

# For how many samples are the changes told, besides those that the writer asked for? Our choice.
TOLD = 4
# How many takes are put in order? More are told as the film has them: our choice, so that no list takes minutes.
MOST_TAKES = 600


class Filmed(NamedTuple):
    """One take on the day. take: its number in the film; block: of one set-up, from 1; sample: None where it shows
    none; garment: as it must be at its start."""

    take: int
    block: int
    sample: int | None
    garment: Garment


class Sample(NamedTuple):
    """garment: as it must be before the first of its takes; takes: their numbers in the film, as they are filmed."""

    number: int
    garment: Garment
    takes: tuple[int, ...]
    says: str


class Choice(NamedTuple):
    """With so many samples sewn beforehand, so many changes of set-up; no order has fewer than `at_least`."""

    samples: int
    changes: int
    at_least: int


class Filming(NamedTuple):
    """takes: in the order of filming; sewing_changes: of the order of sewing; choices: what other numbers of samples
    would come to; says: how good the order is."""

    takes: tuple[Filmed, ...]
    samples: tuple[Sample, ...]
    changes: int
    at_least: int
    sewing_changes: int
    choices: tuple[Choice, ...]
    says: str

    @property
    def beforehand(self) -> int:
        """How many samples must be sewn before the day."""
        return sum(1 for sample in self.samples if sample.garment.sewn)


def filming_of(pattern: Pattern, bench: Bench, film: FilmPlan) -> Filming:
    """bench: the film's view, with all its optional steps."""
    placed = placed_takes(pattern, film.view.letter)
    if not placed or len(placed) > MOST_TAKES:
        return _as_written(film.shots)
    wanted = pattern.film.samples if pattern.film else 0
    needs = prerequisites(pattern, bench, placed)
    kinds = _kinds(film.shots, needs.items)
    found = ways(kinds, needs.items, max(wanted, TOLD))
    way = found[min(wanted, len(found) - 1)]
    if not _sews(pattern, bench, needs, way.ordered.order):
        needs = prerequisites(pattern, bench, placed, strict=True)
        found = ways(kinds, needs.items, max(wanted, TOLD))
        way = found[min(wanted, len(found) - 1)]
    return _day(needs, kinds, way, found)


def _as_written(shots: Sequence[Shot]) -> Filming:
    """The order of the film, for one garment that is sewn as it is filmed."""
    takes: list[Filmed] = []
    block, sewn, last = 0, "cut, nothing sewn", None
    for at, shot in enumerate(shots):
        block += at == 0 or shot.setup != shots[at - 1].setup
        if shot.step is not None and last is not None and shot.step != last:
            sewn = f"sewn to step {last}"
        last = shot.step if shot.step is not None else last
        takes.append(Filmed(shot.take, block, 1, Garment((), (), None, sewn)))
    changes = max(block - 1, 0)
    least = max(len({shot.setup for shot in shots}) - 1, 0)
    return Filming(
        tuple(takes), (), changes, least, changes, (), f"{_changes(changes)} of set-up, in the order of sewing."
    )


def _kinds(shots: Sequence[Shot], items: Sequence[Item]) -> list[int]:
    """The set-up of each item; takes that name none share one."""
    setups = [shots[item.at].setup for item in items]
    known = {name: at for at, name in enumerate(dict.fromkeys(setups))}
    return [known[name] for name in setups]


def _sews(pattern: Pattern, bench: Bench, needs: Prerequisites, order: Sequence[int]) -> bool:
    """Whether the bench finds nothing new, with each step where its first take is filmed and where its last one is."""
    from booklet.check.order.another import Another, sew_order

    items = needs.items
    starts = [0, *runs_needed(items, order), len(items)]
    run_of = [sum(1 for start in starts[1:] if at >= start) for at in range(len(items))]
    day = sorted(order, key=lambda item: run_of[item])  # sorted() keeps the order of filming within a run.
    filmed = [step for item in day if (step := items[item].step) is not None]
    firsts = list(dict.fromkeys(filmed))
    lasts = list(dict.fromkeys(filmed[::-1]))[::-1]
    left_out = [step for step in pattern.steps_of(bench.view.letter) if step not in needs.steps]
    for tried in {tuple(firsts): 0, tuple(lasts): 0}:
        if list(tried) == sorted(tried):
            continue
        another = Another(tuple(needs.steps[at] for at in tried), tuple(left_out), ())
        if sew_order(pattern, bench.view, another).new:
            return False
    return True


def _day(needs: Prerequisites, kinds: Sequence[int], way: Way, found: Sequence[Way]) -> Filming:
    order = way.ordered.order
    items = needs.items
    starts = runs_needed(items, order)
    samples, sample_of = _samples(needs, order, [0, *starts])
    takes: list[Filmed] = []
    block, last = 0, None
    for item in order:
        block += kinds[item] != last
        last = kinds[item]
        takes.append(Filmed(items[item].at + 1, block, sample_of[item], _at_start(needs, item)))
    choices = [Choice(each.samples, each.ordered.blocks - 1, each.ordered.at_least - 1) for each in found]
    changes, at_least = way.ordered.blocks - 1, way.ordered.at_least - 1
    sewing = blocks_in(range(len(items)), kinds) - 1
    says = _quality(changes, at_least, sewing, len(starts))
    return Filming(tuple(takes), samples, changes, at_least, sewing, tuple(choices), says)


def _at_start(needs: Prerequisites, item: int) -> Garment:
    mine = needs.items[item]
    numbers = [step.number for step in needs.steps]
    begun = mine.step if any(other.step == mine.step for other in needs.items[:item]) else None
    shown = mine.step is not None or bool(mine.sewn)
    return garment(mine.sewn, numbers, begun, shown, "its pieces cut")


def _samples(
    needs: Prerequisites, order: Sequence[int], starts: Sequence[int]
) -> tuple[tuple[Sample, ...], dict[int, int | None]]:
    """Of each run the sample, and of each item the number of its sample."""
    numbers = [step.number for step in needs.steps]
    items = needs.items
    samples: list[Sample] = []
    sample_of: dict[int, int | None] = dict.fromkeys(range(len(items)), None)
    for start, end in zip(starts, [*starts[1:], len(items)], strict=True):
        mine = [item for item in order if start <= item < end and (items[item].step is not None or items[item].sewn)]
        if not mine:
            continue
        own = {items[item].step for item in mine}
        sewn = frozenset[int]().union(*(items[item].sewn for item in mine)) - own
        made = garment(sewn, numbers)
        takes = sorted(items[item].at + 1 for item in mine)
        named = numbers_named([take - 1 for take in takes], range(1, len(items) + 1))
        says = f"{made.says}; for {'take' if len(takes) == 1 else 'takes'} {named}"
        number = len(samples) + 1
        samples.append(Sample(number, made, tuple(items[item].at + 1 for item in mine), f"Sample {number}: {says}."))
        sample_of |= dict.fromkeys(mine, number)
    return tuple(samples), sample_of


def _quality(changes: int, at_least: int, sewing: int, samples: int) -> str:
    with_samples = "" if not samples else f" with {samples} half-made sample{'s' if samples > 1 else ''}"
    words = f"{_changes(changes)} of set-up{with_samples}"
    if changes == at_least:
        best = f"no order has fewer{with_samples and ' with as many'}"
    else:
        best = f"fewer may be possible, though not fewer than {at_least}"
    return f"{words}; {best}. In the order of sewing there are {sewing}."


def _changes(number: int) -> str:
    return "1 change" if number == 1 else f"{number} changes"

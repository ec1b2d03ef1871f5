"""The day of filming, played through: every take finds its garment as the booklet has it there."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from booklet.plan.film.filming import MOST_TAKES, Filming, filming_of
from booklet.plan.film.garment import garment
from booklet.plan.film.prerequisites import Prerequisites, prerequisites
from booklet.plan.film.takes import placed_takes
from booklet.publish.edition import Edition
from tests.plan import small

STEPS = """\
  - id: mark
    title: Mark
    text: Mark.
    work: [{mark: front.bust dart}]
    film: [{setup: table, show: Chalk}]
  - id: sleeves
    title: Sleeves
    text: Sew.
    for: sleeves
    work: [{sew: [sleeve.underarm front, sleeve.underarm back]}]
    film: [{setup: machine, show: Underarm}, {setup: iron, show: Open}]
  - id: darts
    title: Darts
    text: Sew.
    work: [{dart: front.bust dart}, {press: down}]
    film: [{setup: machine, show: The point}, {setup: iron, show: Over the ham}]
  - id: sides
    title: Sides
    text: Sew.
    work: [{sew: [front.side, back.side]}, {press: open}]
    film: [{setup: machine, show: The side}, {setup: iron, show: Open}]
"""
FILM = """\
view: B
takes:
  - {title: Hello, when: first, setup: table, needs: finished}
  - {title: Fabric, when: first, setup: table}
  - {title: Look, when: after darts, setup: table}
  - {title: Bye, when: last, setup: table}
"""


def needs_of(edition: Edition) -> Prerequisites:
    film = edition.plan.films
    assert film is not None
    bench = next(bench for bench in edition.benches if bench.view.letter == film.view.letter)
    return prerequisites(edition.pattern, bench, placed_takes(edition.pattern, film.view.letter))


def filmed(edition: Edition, samples: int) -> Filming:
    film, pattern = edition.plan.films, edition.pattern
    assert film is not None
    assert pattern.film is not None
    bench = next(bench for bench in edition.benches if bench.view.letter == film.view.letter)
    before, pattern.film.samples = pattern.film.samples, samples
    try:
        return filming_of(pattern, bench, film)
    finally:
        pattern.film.samples = before


@cache
def demo_filming(name: str, samples: int) -> Filming:
    return filmed(small.demo(name), samples)


def play(edition: Edition, filming: Filming) -> None:
    """Each sample is sewn to where its card says, then only by the takes that are filmed with it.

    At the start of a take everything is sewn that the booklet has sewn there of the same things, and nothing that comes
    after it; the step's own earlier takes are filmed.
    """
    needs = needs_of(edition)
    by_take = {item.at + 1: item for item in needs.items}
    numbers = [step.number for step in needs.steps]
    parts: dict[int, list[int]] = {}
    for item in needs.items:
        if item.step is not None:
            parts.setdefault(item.step, []).append(item.at + 1)
    done = {sample.number: {take for at, takes in parts.items() if numbers[at] in sample.garment.sewn for take in takes}
            for sample in filming.samples}  # fmt: skip
    for shot in filming.takes:
        item = by_take[shot.take]
        if shot.sample is None:
            assert not item.sewn
            continue
        mine = done[shot.sample]
        assert {take for at in item.sewn for take in parts[at]} <= mine, f"take {shot.take}: not sewn far enough"
        later = {take for at in parts if item.step is not None and item.step in _below(needs, at) for take in parts[at]}
        later |= {take for at in item.holds for take in parts[at]}
        assert not later & mine, f"take {shot.take}: sewn too far"
        if item.step is not None:
            own = parts[item.step]
            assert [take for take in own if take in mine] == own[: own.index(shot.take)]
            mine.add(shot.take)
        assert shot.garment.sewn == tuple(numbers[at] for at in sorted(item.sewn))


def _below(needs: Prerequisites, at: int) -> frozenset[int]:
    return next(item.sewn for item in needs.items if item.step == at)


@pytest.mark.parametrize("samples", [0, 1, 2, 4])
@pytest.mark.parametrize("name", small.DEMOS)
def test_the_day_can_be_filmed_as_planned(name: str, samples: int) -> None:
    """With as many samples as the writer asked for, or fewer where more would save nothing."""
    filming = demo_filming(name, samples)
    play(small.demo(name), filming)
    assert len(filming.samples) <= samples + 1
    film = small.demo(name).plan.films
    assert film is not None
    assert sorted(shot.take for shot in filming.takes) == [shot.take for shot in film.shots]
    assert sorted(take for sample in filming.samples for take in sample.takes) == sorted(
        shot.take for shot in filming.takes if shot.sample is not None
    )


@pytest.mark.parametrize("name", small.DEMOS)
def test_never_worse_than_the_order_of_sewing_and_better_with_each_sample(name: str) -> None:
    changes = [demo_filming(name, samples).changes for samples in (0, 1, 2, 4)]
    assert changes == sorted(changes, reverse=True)
    assert changes[0] <= demo_filming(name, 0).sewing_changes
    for samples in (0, 1, 2, 4):
        filming = demo_filming(name, samples)
        setups = [small.demo(name).plan.films.shots[shot.take - 1].setup for shot in filming.takes]  # type: ignore[union-attr]
        assert filming.changes == sum(one != other for one, other in pairwise(setups))
        assert filming.at_least <= filming.changes


def test_with_one_garment_nothing_is_sewn_beforehand(tmp_path: Path) -> None:
    """It is sewn as it is filmed; what needs it finished comes last, what needs nothing may come first."""
    edition = small.edition(tmp_path, STEPS, film=FILM)
    filming = edition.filming
    assert filming is not None
    play(edition, filming)
    assert filming.beforehand == 0
    order = [shot.take for shot in filming.takes]
    assert order.index(1) > max(order.index(take) for take in (3, 4, 5, 6, 7, 9, 10))
    assert [shot.sample for shot in filming.takes if shot.take == 2] == [None]


def test_a_look_between_keeps_its_place(tmp_path: Path) -> None:
    """After the darts and before the sides, and not held up by sleeves that lie aside."""
    edition = small.edition(tmp_path, STEPS, film=FILM)
    needs = needs_of(edition)
    look = next(item for item in needs.items if item.at == 7)
    ids = [step.id for step in needs.steps]
    assert [ids[at] for at in sorted(look.sewn)] == ["mark", "darts"]
    assert [ids[at] for at in sorted(look.holds)] == ["sides"]


def test_samples_are_told_in_plain_words(tmp_path: Path) -> None:
    """With its number, how far it is sewn, and for which takes."""
    film = FILM.replace("view: B\n", "view: B\nsamples: 2\n")
    edition = small.edition(tmp_path, STEPS, film=film)
    filming = edition.filming
    assert filming is not None
    play(edition, filming)
    assert [sample.says for sample in filming.samples] == [
        "Sample 1: cut, nothing sewn; for takes 3 to 7.",
        "Sample 2: sewn to step 3, with or without step 2; for takes 8 to 10.",
        "Sample 3: finished; for takes 1 and 11.",
    ]
    assert filming.says == (
        "2 changes of set-up with 2 half-made samples; no order has fewer with as many. In the order of sewing there "
        "are 8."
    )


def test_takes_without_set_ups_need_no_change(tmp_path: Path) -> None:
    """A pattern without any film plan has a list that ends well."""
    edition = small.edition(tmp_path, "  - {id: one, title: One, text: Sew., work: [{press part: front}]}\n")
    filming = edition.filming
    assert filming is not None
    assert (filming.changes, filming.at_least, [shot.take for shot in filming.takes]) == (0, 0, [1])


@pytest.mark.parametrize(
    ("sewn", "begun", "shown", "says"),
    [
        (set(), None, True, "cut, nothing sewn"),
        (set(), 0, True, "cut, nothing sewn; step 1 begun"),
        (set(), None, False, "none needed"),
        ({0, 1, 2}, None, True, "sewn to step 4"),
        ({0, 2}, None, True, "sewn to step 4, with or without step 3"),
        ({0, 1, 2, 4}, 5, True, "sewn to step 8, with or without step 7; step 9 begun"),
        ({4}, None, True, "step 8 sewn"),
        ({3, 4, 5}, None, True, "steps 7 to 9 sewn"),
        ({0, 3, 5, 6}, None, True, "sewn to step 10, with or without steps 3, 4 and 8"),
        (set(range(8)), None, True, "finished"),
    ],
)
def test_how_far_a_garment_is_sewn(sewn: set[int], begun: int | None, shown: bool, says: str) -> None:
    """Numbers of other views' steps are no gap."""
    assert garment(sewn, [1, 3, 4, 7, 8, 9, 10, 12], begun, shown).says == says


def test_a_film_longer_than_can_be_put_in_order_keeps_the_order_of_sewing(tmp_path: Path) -> None:
    """Many hundreds of takes are told as the film has them, and that is said."""
    takes = ", ".join("{setup: machine}, {setup: iron}" for _ in range(MOST_TAKES // 2 + 1))
    steps = (
        f"  - {{id: one, title: One, text: Sew., work: [{{press part: front}}], film: [{takes}]}}\n"
        "  - {id: two, title: Two, text: Sew., work: [{press part: back}]}\n"
    )
    filming = small.edition(tmp_path, steps).filming
    assert filming is not None
    assert [shot.take for shot in filming.takes] == list(range(1, MOST_TAKES + 4))
    assert filming.says == f"{MOST_TAKES + 2} changes of set-up, in the order of sewing."
    assert [shot.garment.says for shot in filming.takes[-2:]] == ["cut, nothing sewn", "sewn to step 1"]


def test_no_takes_no_day(tmp_path: Path) -> None:
    """A view whose only step may be left out is filmed in no time."""
    steps = "  - {id: one, title: One, optional: true, text: Sew., work: [{press part: front}]}\n"
    filming = small.edition(tmp_path, steps).filming
    assert filming is not None
    assert (filming.takes, filming.samples, filming.changes) == ((), (), 0)

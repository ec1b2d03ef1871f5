"""Another order in the film than in the booklet, and whether the garment comes out in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.order.another import Another, sew_order
from booklet.check.order.compare import moved_between
from booklet.finding import Finding, Related
from booklet.recorded.against.places import beside, capital, line_of
from booklet.recorded.cues import clock

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.model.pattern import Pattern, Step
    from booklet.recorded.filmed import Chapter, Filmed


def find(pattern: Pattern, filmed: Filmed) -> Iterator[Finding]:
    by_step = {step: chapter for chapter in filmed.chapters if (step := filmed.takes[chapter.take].step) is not None}
    shown = list(by_step)
    written = [step for step in pattern.steps_of(filmed.view) if step in by_step]
    moved = moved_between(written, shown)
    if not moved:
        return
    # A step of which the place is only guessed is sewn where the booklet has it: no fault is found by a guess.
    certain = [step for step in shown if by_step[step].confidence != "look"]
    order = _whole(pattern.steps_of(filmed.view), certain)
    sewn = sew_order(pattern, pattern.views[filmed.view], order)
    for step in moved:
        chapter = by_step[step]
        says = f"At {clock(chapter.start)} the film sews {step.called}, {_instead(step, shown, written)}. "
        says += _comes_out(sewn) if chapter.confidence != "look" else "Its time is not sure: look there first."
        mend = "Say so in the film, so that nobody loses the place, or cut the film in the booklet's order."
        place = line_of(filmed, chapter.line)
        related = beside(filmed.takes[chapter.take])
        views, time = (filmed.view,), chapter.start
        yield Finding("filmed-in-another-order", "warning", views, step.id, place, says, mend, related, time=time)
    yield from _broken(pattern, filmed, by_step, sewn)


def _comes_out(sewn: Another) -> str:
    if any(one.level == "error" for one in sewn.new):
        return "In this order the garment does not come out."
    more = ", with something to look at again" if sewn.new else ""
    return f"The garment comes out in this order too{more}."


def _whole(written: Sequence[Step], shown: Sequence[Step]) -> Another:
    """The film's order, with what it does not show where the booklet has it: after the step before it."""
    order = list(shown)
    left_out = []
    for at, step in enumerate(written):
        if step in order:
            continue
        if step.optional:
            left_out.append(step)
            continue
        before = next((other for other in reversed(written[:at]) if other in order), None)
        order.insert(order.index(before) + 1 if before is not None else 0, step)
    return Another(tuple(order), tuple(left_out), ())


def _instead(step: Step, shown: Sequence[Step], written: Sequence[Step]) -> str:
    """`before step 15, “…”; the booklet has it after that`."""
    at, place = shown.index(step), written.index(step)
    late = next((other for other in shown[at + 1 :] if written.index(other) < place), None)
    if late is not None:
        return f"before {late.called}; the booklet has it after that"
    early = next((other for other in reversed(shown[:at]) if written.index(other) > place), None)
    assert early is not None
    return f"after {early.called}; the booklet has it before that"


def _broken(
    pattern: Pattern, filmed: Filmed, by_step: dict[Step, Chapter], sewn: Another
) -> Iterator[Finding]:  # fmt: skip
    """What breaks in the order of the film and not in the booklet's: of each rule and step, where the film sews it."""
    steps = {step.id: step for step in by_step}
    for one in sewn.new:
        step = steps.get(one.step or "")
        place = line_of(filmed, by_step[step].line) if step is not None else one.place
        at = f"At {clock(by_step[step].start)}: " if step is not None else ""
        says = f"{at}{'in' if at else 'In'} the order of the film, {one.says[:1].lower()}{one.says[1:]}"
        mend = f"{capital(one.mend)} Or cut the film in the booklet's order."
        related = (Related(f"See “{one.rule}”, found here", one.place),)
        time = by_step[step].start if step is not None else None
        views = (filmed.view,)
        yield Finding("filmed-order-does-not-sew", one.level, views, one.step, place, says, mend, related, time=time)

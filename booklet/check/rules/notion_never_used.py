"""A notion is listed for a view, and no step of the view uses it.

What it finds: a button, zipper, snap, hook, elastic or cord under `notions` that no entry of `work` uses; a buttonhole
is made for a button, and does not sew it on. What is
only used up, such as thread or needles, is never found. Elastic and cord may also be spoken of in the words of a
step, and so may all of them in a step without `work`.

Why it matters at the machine: the sewer buys it for nothing, or the step that should use it has been forgotten.

Wrong:
    notions:
      - {item: zipper, count: 1}
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Right:
    notions:
      - {item: thread}
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.notions import kind_of, listed_for, meant, row_of, using
from booklet.finding import Related
from booklet.model.pattern import Notion, Step
from booklet.sew.bench import Act, Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    if bench.left_out or not bench.steps:
        return
    used: set[int] = set()
    holes: dict[int, Act] = {}
    for act in using(bench, broken=True):
        for notion in meant(bench, act):
            if act.name == "buttonhole":
                holes.setdefault(id(notion), act)
            else:
                used.add(id(notion))
    for notion in bench.pattern.notions:
        row = row_of(notion.item)
        if not row or id(notion) in used or not listed_for(notion, bench.view.letter):
            continue
        if not any(_spoken_of(notion, step, "needs work" in row) for step in bench.steps):
            yield _found(notion, holes.get(id(notion)))


def _found(notion: Notion, hole: Act | None) -> Found:
    if hole is not None:
        return Found(
            notion.place,
            None,
            f"“{notion.item}” is on the notions list and has its buttonhole, but no step sews it on.",
            f"Add “button:” after the buttonhole in {hole.step.called}.",
            (Related("The buttonhole is made here", hole.place),),
        )
    return Found(
        notion.place,
        None,
        f"“{notion.item}” is on the notions list, but no step uses it.",
        "Add the step that uses it, or give the notion its views with “for”, or take it off the list.",
    )


def _spoken_of(notion: Notion, step: Step, needs_work: bool) -> bool:
    """The benefit of the doubt: a step that has no `work` yet, or an elastic sewn on in a way of its own."""
    if needs_work and step.has_work:
        return False
    words = f"{step.title} {step.text.value if step.text else ''}".lower()
    return notion.key in words or kind_of(notion.item) in words

"""A casing is sewn, and nothing is threaded into it.

What it finds: a `casing` in a view in which no `insert` goes into it. What a step says of elastic or cord in words
counts only where the step has no `work`, as with other notions.

Why it matters at the machine: the waist has nothing to hold it up, or the elastic is still on the table when the gap
is sewn shut.

Wrong:
    steps:
      - {id: casing, title: Sew the casing, for: B, work: [{casing: sleeve.hem, turns: [1/4 in, 3/4 in]}]}

Right:
    steps:
      - {id: casing, title: Sew the casing, for: B, work: [{casing: sleeve.hem, turns: [1/4 in, 3/4 in]}]}
      - {id: elastic, title: Thread the elastic, for: B, work: [{insert: elastic}]}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import told
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.craft.load import table
from booklet.finding import Related
from booklet.sew.bench import Act, Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    casings = bench.of("casing")
    inserts = bench.of("insert")
    if bench.left_out or not casings or any(act.broken or act.target is None for act in inserts):
        return
    if any(_in_words(f"{step.title} {step.text.value if step.text else ''}") for step in bench.steps if not step.work):
        return
    filled = {id(act.target) for act in inserts}
    for act in casings:
        if act.broken or not act.edges or id(act) in filled or told(bench, act.step):
            continue
        if any(_joins(act, other) for other in inserts):
            continue
        yield _found(act, inserts)


def _in_words(text: str) -> bool:
    words = {word for name in ("elastic", "cord") for word in (name, *table("notions")[name]["also"])}
    return any(word in text.lower() for word in words)


def _joins(act: Act, insert: Act) -> bool:
    """Whether what is threaded goes into a casing of the same step: one elastic may run through both."""
    target = insert.target
    return target is not None and target.step is act.step


def _found(act: Act, inserts: list[Act]) -> Found:
    return Found(
        act.place,
        act.step,
        f"Nothing is threaded into the casing of {listed(name.written for name in act.entry.things)}.",
        "Add “insert:” with its elastic or cord after the casing.",
        tuple(Related("This goes into another casing", other.place) for other in inserts[:1]),
    )

"""A step uses a notion that the list of its view does not have.

What it finds: a button, zipper, snap, hook, elastic or cord in `work` that stands under `notions` for none of the
views that sew the step. Where the entry names none, the usual one is meant: `buttonhole` and `button` mean a button.

Why it matters at the machine: the sewer has not bought it.

Wrong:
    steps:
      - {id: snaps, title: Fix the snaps, work: [{snap: front.neckline, count: 2}]}

Right:
    steps:
      - {id: buttons, title: Sew the buttons, work: [{button: front.neckline, count: 3}]}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.notions import meant, using, word_of
from booklet.check.words import listed
from booklet.finding import Related
from booklet.read.faults import nearest
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    missing: dict[str, list[Act]] = {}
    for act in using(bench):
        if not meant(bench, act):
            missing.setdefault(same_name(word_of(act)[0]), []).append(act)
    for acts in missing.values():
        yield _found(bench, acts)


def _found(bench: Bench, acts: list[Act]) -> Found:
    act = acts[0]
    word, named = word_of(act)
    elsewhere = [notion for notion in bench.pattern.notions if notion.key == same_name(word)]
    parts = bench.part_names if act.entry.operation.options.get("with") else ()
    near = nearest(word, [*(notion.item for notion in bench.pattern.notions), *parts])
    says = f"“{word}” is used here, but the notions list has none"
    if elsewhere:
        says += " for a view that sews this step"
        mend = "Add this view to the “for” or “count” of the notion, or leave the step out of the view."
    elif near:
        mend = f"Did you mean “{near}”? Otherwise add “- {{item: {word}}}” to the notions."
    else:
        mend = f"Add “- {{item: {word}}}” to the notions, or say which one is meant: “notion: …”."
    related = [Related("It is listed here", notion.place) for notion in elsewhere]
    related += [Related("It is used here too", other.place) for other in acts[1:]]
    also = listed(dict.fromkeys(other.step.called for other in acts[1:] if other.step is not act.step))
    return Found(
        named.place if named else act.place,
        act.step,
        f"{says}{f'; {also} needs it too' if also else ''}.",
        mend,
        tuple(related),
    )

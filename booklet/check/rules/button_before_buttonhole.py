"""Buttons are sewn on before their buttonholes are made.

What it finds: `button` before a `buttonhole` of the same notion on the same piece; or, where the view has one entry
of each, before it.

Why it matters at the machine: the place of a button is marked through its buttonhole. Sewn on first, the two seldom
meet.

Wrong:
    steps:
      - {id: buttons, title: Sew on the buttons, work: [{button: back.centre back, count: 3}]}
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: back.centre back, count: 3}]}

Right:
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: back.centre back, count: 3}]}
      - {id: buttons, title: Sew on the buttons, work: [{button: back.centre back, count: 3}]}

Source: published: chestofbooks.com, Home and School Sewing, Fastenings: buttonholes first, then the buttons opposite
them.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_after
from booklet.check.found import Found
from booklet.finding import Related
from booklet.read.tree import Text, same_name
from booklet.sew.bench import Act, Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    holes, buttons = _by_notion(bench.of("buttonhole")), _by_notion(bench.of("button"))
    for notion, sewn in buttons.items():
        made = holes.get(notion, [])
        alone = len(made) == 1 and len(sewn) == 1
        by_piece: dict[object, Act] = {}
        for hole in made:
            for edge in hole.edges:
                by_piece[edge.cut] = hole
        for act in sewn:
            partner = made[0] if alone else next((by_piece[e.cut] for e in act.edges if e.cut in by_piece), None)
            if partner is not None and partner.time > act.time:
                yield _found(act, partner)


def _by_notion(acts: list[Act]) -> dict[str, list[Act]]:
    found: dict[str, list[Act]] = {}
    for act in acts:
        notion: Text | None = act.entry.options.get("notion")
        found.setdefault(same_name(notion.value) if notion else "button", []).append(act)
    return found


def _found(act: Act, hole: Act) -> Found:
    there = "later in this step" if hole.step is act.step else f"only in {hole.step.called}"
    return Found(
        act.place,
        act.step,
        f"The buttons are sewn on before their buttonholes, which are made {there}.",
        put_after("the buttons", hole.step, act.step),
        (Related("The buttonholes are made here", hole.place),),
        move=movable(act.step, hole.step),
    )

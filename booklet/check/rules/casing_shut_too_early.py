"""The opening of a casing is sewn shut before anything is threaded through it.

What it finds: `topstitch` or `close` of a casing's edge, along the row of the casing, between the casing and the
`insert` that fills it.

Why it matters at the machine: there is no way in for the elastic or the cord.

Wrong:
    steps:
      - {id: casing, title: Sew the casing, for: B, work: [{casing: sleeve.hem, turns: [1 in], at: 7/8 in}]}
      - {id: shut, title: Close the casing, for: B, work: [{topstitch: sleeve.hem, at: 7/8 in}]}
      - {id: elastic, title: Thread the elastic, for: B, work: [{insert: elastic, into: sleeve.hem}]}

Right:
    steps:
      - {id: casing, title: Sew the casing, for: B, work: [{casing: sleeve.hem, turns: [1 in], at: 7/8 in}]}
      - {id: elastic, title: Thread the elastic, for: B, work: [{insert: elastic, into: sleeve.hem}]}
      - {id: shut, title: Close the casing, for: B, work: [{topstitch: sleeve.hem, at: 7/8 in}]}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import between, movable, place_of, put_after, told
from booklet.check.found import Found
from booklet.check.numbers import same
from booklet.check.words import listed
from booklet.finding import Related
from booklet.length import Length
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    shut: dict[Act, list[Act]] = {}
    for insert in bench.of("insert"):
        casing = insert.target
        at = casing.entry.measure("at") if casing is not None and casing.name == "casing" else None
        if casing is not None and at is not None:
            rows = [act for edge in casing.edges for act in edge.acts if _is_its_row(bench, act, at)]
            row = between(rows, casing.time, insert.time)
            if row is not None:
                shut.setdefault(row, []).append(insert)
    for row, inserts in shut.items():
        last = inserts[-1]
        if told(bench, row.step, last.step):
            continue
        words = listed(insert.entry.word.value.strip() if insert.entry.word else "elastic" for insert in inserts)
        there = "later in this step" if last.step is row.step else f"only later, in {last.step.called}"
        yield Found(
            place_of(row, row.edges[0]),
            row.step,
            f"The casing is sewn shut too early: the {words} {'are' if len(inserts) > 1 else 'is'} threaded {there}.",
            put_after("this row", last.step, row.step),
            tuple(Related("This is threaded later", insert.place) for insert in inserts),
            move=movable(row.step, last.step),
        )


def _is_its_row(bench: Bench, act: Act, at: Length) -> bool:
    if act.name not in ("topstitch", "close"):
        return False
    row = act.entry.measure("at")
    return row is not None and same(row, at, bench.pattern.house)

"""A buttonhole is too short for its button.

What it finds: `buttonhole` with a `long:` that is less than the button's `size:` and `thick:` together; where the list
does not say how thick it is, one that is no longer than the size.

Why it matters at the machine: the button does not go through, or only with force, and the buttonhole tears.

Wrong:
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: front.neckline, long: 1/2 in}]}

Right:
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: front.neckline, long: 5/8 in}]}

Source: published: NMSU Guide C-231, Machine Buttonholes Made Easy: half the girth of the button and 1/8 in.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.buttons import holes_of
from booklet.check.found import Found
from booklet.check.numbers import in_system_of, limit, same
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    house = bench.pattern.house
    for act, long, notion, size in holes_of(bench):
        thick = in_system_of(notion.thick.length, size, house) if notion.thick else None
        least = size + thick if thick else size
        just = same(long, least, house)
        if (just and thick is not None) or (long > least and not just):
            continue
        needs = least if thick else least + limit("buttonhole ease", least.metric)
        has = f"{size} wide and {thick} thick" if thick else f"{size} wide, and has a thickness too"
        yield Found(
            act.entry.place_of("long"),
            act.step,
            f"A buttonhole {long} long is too short for “{notion.item}”, which is {has}.",
            f"Write {needs}.",
            (Related("The button is listed here", notion.place),),
        )

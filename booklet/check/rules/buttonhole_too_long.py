"""A buttonhole is much too long for its button.

What it finds: `buttonhole` with a `long:` that is more than the button's `size:`, its thickness (or, where the list
does not say, the usual 1/8 in) and a good ease together. A ball or shank button that has no `thick:` is left out.

Why it matters at the machine: the button slips out of its hole again in wear.

Wrong:
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: front.neckline, long: 1 1/8 in}]}

Right:
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: front.neckline, long: 5/8 in}]}

Source: published: NMSU Guide C-231, Machine Buttonholes Made Easy: half the girth of the button and 1/8 in; the slack
beyond it is our choice.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.buttons import holes_of, is_thick
from booklet.check.found import Found
from booklet.check.numbers import in_system_of, limit
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    for act, long, notion, size in holes_of(bench):
        ease = limit("buttonhole ease", size.metric)
        if notion.thick is None and is_thick(notion):
            continue
        thick = in_system_of(notion.thick.length, size, bench.pattern.house) if notion.thick else ease
        right = size + thick
        if long > right + limit("buttonhole slack", size.metric):
            yield Found(
                act.entry.place_of("long"),
                act.step,
                f"A buttonhole {long} long is too long for “{notion.item}”, which is {size} wide"
                f"{f' and {thick} thick' if notion.thick else ''}: it slips out again.",
                f"Write {right}.",
                (Related("The button is listed here", notion.place),),
            )

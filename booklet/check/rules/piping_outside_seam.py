"""The row that holds a piping lies outside the seam that should cover it.

What it finds: `at:` beside `pipe` that is wider than the allowance at which the edge is sewn in the end. A piping
basted on the seam line itself is in order.

Why it matters at the machine: the row shows on the right side, and the cord lies loose beside the seam instead of
close against it.

Wrong:
    steps:
      - {id: pipe, title: Pipe the neck, work: [{pipe: front.neckline, with: neck facing, at: 3/4 in}]}

Right:
    steps:
      - {id: pipe, title: Pipe the neck, work: [{pipe: front.neckline, with: neck facing, at: 1/2 in}]}

Source: common practice, no source: a piping is basted on the seam line or inside it, and sewn in close to the cord.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import as_drawn, beyond, reaches, same, sewn_at
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    house = bench.pattern.house
    for act in bench.of("pipe"):
        at = act.entry.measure("at")
        if at is None or act.broken or beyond("most staystitch", at):
            continue
        widths = {edge: sewn_at(edge) for edge in as_drawn(act)}
        shown = [edge for edge, width in widths.items() if reaches(at, width, house) and not same(at, width, house)]
        if shown:
            narrowest = min(widths[edge] for edge in shown)
            seam = next((edge.closed for edge in shown if edge.closed is not None and edge.closed.seam), None)
            yield Found(
                act.entry.place_of("at"),
                act.step,
                f"The piping is basted {at} from the edge, outside the seam at {narrowest} that is to cover the row, "
                f"on {listed(edge.called for edge in shown)}.",
                f"Baste it at {narrowest} or less.",
                (Related(f"The seam is sewn in {seam.step.called}", seam.place),) if seam else (),
            )

"""Buttons are sewn on, and nothing is there to button them through.

What it finds: `button` at a place for which the view has no `buttonhole` and no `loop`: none on its piece, and none
left over on another piece on which no buttons are sewn. A piece called a loop that is sewn on counts as well. Where
the step, or a step without `work`, speaks of loops, frogs or an ornament, nothing is found.

Why it matters at the machine: the opening can't be closed, and the buttonholes have to be made in a finished garment.

Wrong:
    steps:
      - {id: buttons, title: Sew on the buttons, work: [{button: back.centre back, count: 3}]}

Right:
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: back.centre back, count: 3}]}
      - {id: buttons, title: Sew on the buttons, work: [{button: back.centre back, count: 3}]}

Source: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from booklet.check.found import Found
from booklet.check.meant import closing_words, is_loop
from booklet.model.pattern import Step
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, CutPiece

LEVEL = "warning"
_WORD = re.compile(r"[\w-]+")


def find(bench: Bench) -> Iterator[Found]:
    buttons = bench.of("button")
    if bench.left_out or not buttons or any(act.broken for act in (*buttons, *bench.of("buttonhole", "loop"))):
        return
    closers = [_cuts(act) for act in bench.of("buttonhole", "loop")]
    closers += [_sewn_to(cut) for cut in bench.cuts.values() if is_loop(cut.called) and cut.touched is not None]
    alone = [act for act in buttons if not any(_cuts(act) & cuts for cuts in closers)]
    served = set().union(*(_cuts(act) for act in buttons))
    spare = sum(not cuts & served for cuts in closers)
    if spare or not alone or _in_words(step for step in bench.steps if not step.work):
        return
    for act in alone:
        if not _in_words([act.step], loops_only=True):
            yield Found(
                act.place,
                act.step,
                f"No buttonhole or loop is made for the buttons on {act.entry.things[0].written}.",
                "Add “buttonhole:” before this entry, or say in the text of the step how they close.",
            )


def _cuts(act: Act) -> set[CutPiece]:
    return {*act.cuts, *(edge.cut for edge in act.edges)}


def _sewn_to(loop: CutPiece) -> set[CutPiece]:
    seams = (seam for edge in loop.edges.values() for seam in (*edge.seams, *edge.basted))
    return {edge.cut for seam in seams for edge in seam.edges if edge.cut is not loop}


def _in_words(steps: Iterable[Step], loops_only: bool = False) -> bool:
    """Whether their words tell of a way to close the buttons, or that they need none."""
    known = closing_words() if loops_only else closing_words() | {"buttonhole", "buttonholes"}
    return any(
        not known.isdisjoint(_WORD.findall(same_name(f"{step.title} {step.text.value if step.text else ''}")))
        for step in steps
    )

"""A seam is pressed toward a part that is not sewn into it.

What it finds: `press: toward PART`, where PART is a piece or part of the pattern and none of the seam's edges belongs
to it. Plain directions, as toward the hem or the front, are never found.

Why it matters at the machine: the sewer looks for a facing at this seam, and there is none; most often another seam
is meant.

Wrong:
    steps:
      - {id: shoulders, title: Join the shoulders,
         work: [{sew: [front.shoulder, back.shoulder]}, {press: toward neck facing}]}

Right:
    steps:
      - {id: shoulders, title: Join the shoulders,
         work: [{sew: [front.shoulder, back.shoulder]}, {press: toward back}]}

Source: common practice, no source: allowances are pressed toward one of the layers that the seam joins.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.meant import is_direction
from booklet.check.numbers import seam_said
from booklet.check.words import listed
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, Seam

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("press"):
        if act.seam is None or not act.parts or act.entry.word is None:
            continue
        words = same_name(act.entry.word.value)
        stranger = not any(act.parts[0].holds(edge.cut) for edge in act.seam.edges)
        if words.startswith("toward ") and stranger and not is_direction(words.removeprefix("toward ")):
            yield _found(act, act.seam)


def _found(act: Act, seam: Seam) -> Found:
    assert act.entry.word is not None
    name = act.parts[0].called
    pieces = list(dict.fromkeys(edge.cut.called for edge in seam.edges))
    ways = listed((f"“toward {piece}”" for piece in pieces), "or")
    return Found(
        act.entry.word.place,
        act.step,
        f"The press goes toward {name}, but {name} is not in {seam_said(seam)}.",
        f"Write {ways}; or, if another seam is meant, name it with “of:”.",
        (Related("The seam that is pressed is sewn here", seam.act.place),),
    )

"""A seam is pressed toward a part that is not sewn into it.

What it finds: `press: toward PART`, where PART is a piece or part of the pattern and none of the seam's edges belongs
to it, or where only a later step makes it. Plain directions, as toward the hem or the front, are never found.

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

from booklet.check.acts import put_after, told
from booklet.check.found import Found
from booklet.check.meant import is_direction
from booklet.check.numbers import seam_said
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, Seam

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    pressed: dict[Act, list[Seam]] = {}
    for seam in bench.seams:
        for act in seam.later:
            if act.name == "press":
                pressed.setdefault(act, []).append(seam)
    for act, seams in pressed.items():
        words = same_name(act.entry.word.value) if act.entry.word else ""
        if act.seam is None or not words.startswith("toward ") or is_direction(words.removeprefix("toward ")):
            continue
        if told(bench, act.step):
            continue
        toward = words.removeprefix("toward ").removeprefix("the ")
        if not act.parts:
            maker = _made_later(bench, toward, act)
            if maker is not None and not told(bench, maker):
                yield _too_early(act, maker)
        elif not any(act.parts[0].holds(edge.cut) for seam in seams for edge in seam.edges):
            yield _found(act, act.seam)


def _made_later(bench: Bench, name: str, act: Act) -> Step | None:
    """The step that makes a part of that name, where all that make it come after this one."""
    makers = bench.makers.get(name, [])
    later = all(bench.started[maker.id] > act.time for maker in makers if maker is not act.step)
    return makers[0] if makers and later and act.step not in makers else None


def _too_early(act: Act, maker: Step) -> Found:
    assert act.entry.word is not None
    name = maker.makes.value.strip() if maker.makes else ""
    return Found(
        act.entry.word.place,
        act.step,
        f"The press goes toward {name}, but that is made only later, in {maker.called}.",
        put_after("the press", maker, act.step),
        (Related("It is made here", maker.place),),
        move=act.step,
    )


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

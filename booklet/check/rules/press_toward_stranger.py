"""A seam is pressed toward a part that is not sewn into it.

What it finds: `press: toward PART`, where PART is a piece or part of the pattern and none of the seam's edges belongs
to it, or where only a later step makes it; and, after a dart, a zipper or a hem, a part that has no share in it. Plain
directions, as toward the hem or the front, are never found.

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

from collections.abc import Iterable, Iterator

from booklet.check.acts import put_after, told
from booklet.check.found import Found
from booklet.check.meant import is_direction
from booklet.check.numbers import seam_said
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, CutPiece, Edge, Seam

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
            yield _found(act, seam_said(act.seam), _pieces(act.seam.edges), act.seam.act)
    for act in bench.of("press"):
        if act.target is not None and act.parts and not told(bench, act.step) and _is_strange(act, act.target):
            yield _found(act, _said(act.target), _pieces(act.target.edges, act.target.cuts), act.target)


def _pieces(edges: Iterable[Edge], cuts: Iterable[CutPiece] = ()) -> list[str]:
    return list(dict.fromkeys(cut.called for cut in (*(edge.cut for edge in edges), *cuts)))


def _is_strange(act: Act, target: Act) -> bool:
    """Whether the part holds none of the pieces on which the dart, the zipper or the hem was worked, and is none."""
    direction = same_name(act.entry.word.value).removeprefix("toward ") if act.entry.word else ""
    cuts = {*(edge.cut for edge in target.edges), *target.cuts, *target.taken}
    toward = act.parts[0]
    return bool(cuts) and not is_direction(direction) and not any(toward.holds(cut) for cut in cuts)


def _said(target: Act) -> str:
    return f"the {target.name} of {listed(name.written for name in target.entry.things)}"


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


def _found(act: Act, said: str, pieces: list[str], worked: Act) -> Found:
    assert act.entry.word is not None
    name = act.parts[0].called
    ways = listed((f"“toward {piece}”" for piece in pieces), "or")
    return Found(
        act.entry.word.place,
        act.step,
        f"The press goes toward {name}, but {name} is not in {said}.",
        f"Write {ways}; or, if another seam is meant, name it with “of:”.",
        (Related("The seam that is pressed is sewn here" if worked.seam else "It is sewn here", worked.place),),
    )

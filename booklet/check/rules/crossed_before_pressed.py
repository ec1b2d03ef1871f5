"""A seam or dart is not pressed before another seam crosses it.

What it finds: a seam that a later seam crosses at a corner, or a dart that runs into the edge of a later seam, with
no press, topstitching or understitching in between. Felled and lapped seams are stitched flat as they are made, and
what is turned at once, as the sides of a collar, is left out.

Why it matters at the machine: once crossed, the end of the seam is caught and can't be laid flat or pressed open any
more; a lump stays there.

Wrong:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}
      - {id: facing, title: Face the neck, work: [{sew: [[front.neckline, back.neckline], neck facing.neckline]}]}

Right:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]}
      - {id: facing, title: Face the neck, work: [{sew: [[front.neckline, back.neckline], neck facing.neckline]}]}

Source: published: Oregon State Univ. Ext. 4-H 320-14 (2014), Pressing Skills; Goodheart-Willcox (2012), p. 468: press
before crossing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from booklet.check.acts import between, handlings, told
from booklet.check.found import Found
from booklet.check.numbers import seam_said
from booklet.check.turned import too_early, whole
from booklet.craft.load import constructions
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, CutPiece, Edge, Seam

LEVEL = "warning"
LAYS_FLAT = ("press", "topstitch", "edgestitch", "understitch")


def find(bench: Bench) -> Iterator[Found]:
    pressed = handlings(bench, "press part")
    turned = handlings(bench, "turn")
    # What is turned before it is sewn is told so, and its press comes too early with it.
    early = {cut for act in too_early(bench) for cut in act.cuts}
    not_done = [act for act in bench.of("press", "press part", "turn") if act.broken]
    for seam in bench.seams:
        if constructions()[seam.construction].get("flat"):
            continue
        crossing = _first(seam.act, (other for edge in seam.edges for near in edge.neighbours for other in near.seams))
        if crossing is None or told(bench, seam.act.step, crossing.act.step):
            continue
        if between(not_done, seam.act.time, crossing.act.time) or any(edge.cut in early for edge in seam.edges):
            continue
        if not _flat(seam, crossing, pressed) and not _turned_together(seam, crossing, turned):
            yield _found(seam.act, seam_said(seam), _pressed_after(seam.later, crossing), crossing)
    for act in bench.of("dart"):
        for cut, name in act.darts:
            dart = cut.piece.darts[name]
            edges = [cut.edges[key] for crossed in dart.crosses if (key := same_name(crossed.value)) in cut.edges]
            crossing = _first(act, (seam for edge in edges for seam in edge.seams))
            held = crossing and (_between(act.later, act, crossing) or _between(pressed.get(cut, []), act, crossing))
            if crossing and not held and not told(bench, act.step, crossing.act.step):
                yield _found(act, f"the {dart.name} of {cut.called}", _pressed_after(act.later, crossing), crossing)


def _first(act: Act, seams: Iterable[Seam]) -> Seam | None:
    later = [seam for seam in seams if seam.act.time > act.time]
    return min(later, key=lambda seam: seam.act.time, default=None)


def _between(acts: list[Act], act: Act, crossing: Seam) -> Act | None:
    return between([each for each in acts if each.name in (*LAYS_FLAT, "press part")], act.time, crossing.act.time)


def _flat(seam: Seam, crossing: Seam, pressed: dict[CutPiece, list[Act]]) -> bool:
    if _between(seam.later, seam.act, crossing):
        return True
    return any(_edge_flat(seam, edge, crossing, pressed) for edge in seam.edges)


def _edge_flat(seam: Seam, edge: Edge, crossing: Seam, pressed: dict[CutPiece, list[Act]]) -> bool:
    acts = [*edge.acts, *pressed.get(edge.cut, ())]
    return _between(acts, seam.act, crossing) is not None


def _turned_together(seam: Seam, crossing: Seam, turned: dict[CutPiece, list[Act]]) -> bool:
    """Turned in between; or both seams run round a part that is turned right after them."""
    for act in turned.get(seam.edges[0].cut, ()):
        if seam.act.time < act.time and whole(act, seam):
            return act.time < crossing.act.time or whole(act, crossing)
    return False


def _pressed_after(later: list[Act], crossing: Seam) -> Step | None:
    return next((act.step for act in later if act.name == "press" and act.time > crossing.act.time), None)


def _found(act: Act, said: str, pressed: Step | None, crossing: Seam) -> Found:
    there = "later in this step" if crossing.act.step is act.step else f"in {crossing.act.step.called}"
    late = f"; it is pressed only after that, in {pressed.called}" if pressed and pressed is not act.step else ""
    return Found(
        act.place,
        act.step,
        f"{said[0].upper()}{said[1:]} is not pressed before another seam crosses it, {there}{late}.",
        f"Add “press:” right after this entry, in {act.step.called}.",
        (Related("It is crossed here", crossing.act.place),),
    )

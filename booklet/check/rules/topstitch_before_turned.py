"""An edge is topstitched before it is turned, or before its allowances are ready.

What it finds: `topstitch` or `edgestitch` of a seam that is understitched, clipped or notched only afterwards; or of
the seam that closes a collar, cuff, strap or bag, before that is turned right side out.

Why it matters at the machine: the row holds the layers as they lie then, wrong side out. They can't be turned or cut
into any more.

Wrong:
    pieces:
      flap: {number: 1, cut: {self: 2}, edges: {top: {}, outer: {}}}
    steps:
      - {id: flap, title: Sew the flap, work: [{sew: [flap.outer, flap.outer]}, {trim: 1/4 in}]}
      - {id: row, title: Topstitch the flap, work: [{topstitch: flap.outer, at: 1/4 in}]}
      - {id: turn, title: Turn the flap, work: [{turn: flap}]}

Right:
    pieces:
      flap: {number: 1, cut: {self: 2}, edges: {top: {}, outer: {}}}
    steps:
      - {id: flap, title: Sew the flap, work: [{sew: [flap.outer, flap.outer]}, {trim: 1/4 in}]}
      - {id: turn, title: Turn the flap, work: [{turn: flap}]}
      - {id: row, title: Topstitch the flap, work: [{topstitch: flap.outer, at: 1/4 in}]}

Source: published: Goodheart-Willcox (2012), p. 453: stitch, trim, clip, press, understitch, turn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import handlings, movable, put_after, told
from booklet.check.found import Found
from booklet.check.numbers import seam_said
from booklet.check.turned import last_seam
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, CutPiece, Seam

LEVEL = "error"
FIRST = {"understitch": "understitched", "clip": "clipped", "notch": "notched"}


def find(bench: Bench) -> Iterator[Found]:
    turned: dict[CutPiece, list[Act]] | None = None
    for act in bench.of("topstitch", "edgestitch"):
        seam = _seam_of(act)
        if seam is None or act.broken:
            continue
        turned = handlings(bench, "turn") if turned is None else turned
        late = next((each for each in seam.later if each.name in FIRST and each.time > act.time), None)
        late = late or _turned_later(act, seam, turned)
        if late is not None and not told(bench, act.step, late.step):
            done = FIRST.get(late.name, "turned")
            there = "later in this step" if late.step is act.step else f"only later, in {late.step.called}"
            said = seam_said(seam)
            yield Found(
                act.place,
                act.step,
                f"{said[0].upper()}{said[1:]} is topstitched too early: it is {done} {there}.",
                put_after("the topstitching", late.step, act.step),
                (Related(f"It is {done} here", late.place),),
                move=movable(act.step, late.step),
            )


def _seam_of(act: Act) -> Seam | None:
    """The seam along which the row runs: the last one sewn before it."""
    if act.seam is not None:
        return act.seam
    seams = [seam for edge in act.edges[:1] for seam in edge.seams if seam.act.time < act.time]
    return max(seams, key=lambda seam: seam.act.time, default=None)


def _turned_later(act: Act, seam: Seam, turned: dict[CutPiece, list[Act]]) -> Act | None:
    """The turning for which the seam was sewn, where it comes after the row: its last seam is this one."""
    for turn in turned.get(seam.edges[0].cut, ()):
        cuts = set(turn.cuts)
        if turn.time < act.time or turn.broken or any(edge.cut not in cuts for edge in seam.edges):
            continue
        if last_seam(turn.cuts, turn.time) is seam or (seam.act.step.makes is not None and _made_by(seam, turn)):
            return turn
    return None


def _made_by(seam: Seam, turn: Act) -> bool:
    """Whether the step that sewed the seam made the part that is turned."""
    return any(part.made is seam.act.step for part in turn.parts)

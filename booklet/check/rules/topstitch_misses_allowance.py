"""Topstitching misses the allowance that it should hold.

What it finds: `topstitch` or `edgestitch` at a distance from a seam that is wider than anything left of its
allowances under it. Where a facing, a lining or the other half of a band lies there, or a nearer row holds the
allowance already, nothing is found.

Why it matters at the machine: the row holds nothing. The allowance rolls loose beside it, and from outside the ridge
of its edge shows.

Wrong:
    steps:
      - id: side
        title: Join the sides
        work: [{sew: [front.side, back.side]}, {trim: 1/4 in}, {press: toward back}, {topstitch: seam, at: 3/8 in}]

Right:
    steps:
      - id: side
        title: Join the sides
        work: [{sew: [front.side, back.side]}, {trim: 3/8 in}, {press: toward back}, {topstitch: seam, at: 1/4 in}]

Source: common practice, no source: a topstitched seam is stitched through its allowances.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import handlings, told
from booklet.check.found import Found
from booklet.check.meant import is_doubled, is_inner
from booklet.check.numbers import limit, same, seam_said
from booklet.finding import Related
from booklet.length import Length
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, Seam

LEVEL = "warning"
ROWS = ("topstitch", "edgestitch")
SINGLE = ("plain", "overlocked")


def find(bench: Bench) -> Iterator[Found]:
    rows = bench.of(*ROWS)
    turned = handlings(bench, "turn") if rows else {}
    for act in rows:
        at = act.entry.measure("at")
        seam = act.seam or _seam_of(act)
        if at is None or seam is None or act.broken or told(bench, act.step, seam.act.step):
            continue
        if seam.construction not in SINGLE or any(edge.cut in turned or edge.excused for edge in seam.edges):
            continue
        if any(is_inner(edge.cut.called) or is_doubled(edge.cut.called) for edge in seam.edges):
            continue
        left = max(layer.width_at(act.time) for layer in seam.layers)
        if at > left and not same(at, left, bench.pattern.house) and _laid(seam, act.time) and not _held(seam, left):
            yield _found(act, seam, at, left)


def _seam_of(act: Act) -> Seam | None:
    """The one seam in which all the edges of the entry lie."""
    seams = [seam for edge in act.edges for seam in edge.seams if seam.act.time < act.time]
    last = max(seams, key=lambda seam: seam.act.time, default=None)
    return last if last is not None and all(edge in last.edges for edge in act.edges) else None


def _laid(seam: Seam, time: int) -> bool:
    """Whether it was pressed open or to one side; how it lies is not known otherwise."""
    presses = [act for act in seam.acts("press") if act.time < time]
    word = same_name(presses[-1].entry.word.value) if presses and presses[-1].entry.word else ""
    return word == "open" or word.startswith("toward ")


def _held(seam: Seam, left: Length) -> bool:
    """Whether a nearer row holds the allowance."""
    distances = [act.entry.measure("at") for act in seam.acts(*ROWS, "stitch in the ditch")]
    return any(at is None or at <= left for at in distances)


def _found(act: Act, seam: Seam, at: Length, left: Length) -> Found:
    cut = [each for each in seam.acts("trim", "grade") if each.time < act.time]
    since = cut[-1] if cut else seam.act
    inside = limit("staystitch inside seam", left.metric)
    within = f"{left - inside} or less" if left > inside else f"less than {left}"
    return Found(
        act.entry.place_of("at"),
        act.step,
        f"Topstitching {at} from the seam misses the allowances of {seam_said(seam)}: only {left} is left of them.",
        f"Write {within}, or leave more of the allowances.",
        (Related(f"{left} is left from here on", since.place),),
    )

"""A seam is trimmed, clipped, pressed, finished or topstitched before it is sewn.

What it finds: `trim`, `grade`, `clip`, `notch`, `press`, `finish: seam`, `topstitch: seam` and the like where nothing
has been sewn yet, or where `of:` or the entry's own word names a seam, a dart or an edge that has no stitching yet. And
a trimming or clipping with no `of:` in a step that sews only after it: it would fall on the seam of an earlier step.
Pressing or finishing likewise, where that seam has been pressed or finished before, or lies in none of the pieces of
this step.

Why it matters at the machine: the sewer can't find the seam that is meant, and may cut into the wrong one.

Wrong:
    steps:
      - {id: press, title: Press the shoulders, work: [{press: open, of: shoulder seam}]}
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder], as: shoulder seam}]}

Right:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder], as: shoulder seam}]}
      - {id: press, title: Press the shoulders, work: [{press: open, of: shoulder seam}]}

Source: published: Oregon State Univ. Ext. 4-H 320-14, Pressing Skills, and Goodheart-Willcox (2012), pp. 451-453:
sew, then trim, clip, press.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import once, told
from booklet.check.found import Found
from booklet.check.loose import loose
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.read.faults import nearest
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, Missing, Seam

LEVEL = "error"
# A step may well begin by pressing what the step before it sewed; but not a second time.
AGAIN = ("press", "finish")


def find(bench: Bench) -> Iterator[Found]:
    apart = loose(bench) if bench.missing else None
    for missing in once(bench, "no seam"):
        if apart is not None and _sewn_in(bench, missing.written.strip()) is None:
            continue  # most likely the seam that would join what hangs loose, of which another rule speaks
        if missing.entry is not None and not told(bench, missing.step):
            yield _found(bench, missing, missing.entry.name)
    for act in bench.of("trim", "grade", "clip", "notch", "press", "finish"):
        seam = act.seam
        if seam is None or act.entry.options.get("of") is not None or seam.act.step is act.step:
            continue
        sewn = next((other for other in bench.of("sew") if other.step is act.step and other.time > act.time), None)
        again = any(other.time < act.time for other in seam.acts(act.name))
        if sewn is not None and act.name in AGAIN and not again and not _elsewhere(seam, sewn):
            continue
        if sewn is not None and not told(bench, act.step):
            there = seam.act.step.called
            yield Found(
                act.place,
                act.step,
                f"There is nothing to {act.name} yet in this step: what it sews comes after.",
                f"Put “{act.name}” after the entry that sews, or add “of:” if the seam of {there}, is meant.",
                (Related("It is sewn here", sewn.place),),
            )


def _elsewhere(seam: Seam, sewn: Act) -> bool:
    """Whether a seam and one of this step have no piece in common."""
    return {edge.cut for edge in seam.edges}.isdisjoint(edge.cut for edge in sewn.edges)


def _found(bench: Bench, missing: Missing, operation: str) -> Found:
    name = missing.written.strip()
    if missing.entry is not None and missing.place == missing.entry.place:
        says = f"There is nothing to {operation} yet: no seam has been sewn before this entry."
        return Found(missing.place, missing.step, says, f"Move {missing.step.called}, to after the seam that is meant.")
    later = _sewn_in(bench, name)
    if later is not None:
        says = f"“{name}” is not sewn yet: that comes later, in {later.called}."
        if later is missing.step:
            says = f"“{name}” is not sewn yet: that comes later in this step."
        mend = f"Move {missing.step.called}, to after {later.called}."
        if later is missing.step:
            mend = f"Put “{operation}” after the entry that sews it."
        return Found(
            missing.place, missing.step, says, mend, (Related("It is sewn here", later.place),), move=missing.step
        )
    return Found(missing.place, missing.step, f"No seam called “{name}” is sewn in this view.", _mend(missing, name))


def _sewn_in(bench: Bench, name: str) -> Step | None:
    """The step that will sew the seam, dart or edge of that name."""
    named = bench.seam_makers.get(same_name(name))
    if named is not None:
        return named[1]
    part, _, thing = (same_name(word) for word in name.partition("."))
    whole = bench.parts.get(part)
    for cut in whole.cuts if whole and thing else ():
        dart = cut.darts.get(thing)
        edge = cut.edges.get(thing)
        act = dart or (edge.seams[0].act if edge and edge.seams else None)
        if act is not None:
            return act.step
    return None


def _mend(missing: Missing, name: str) -> str:
    near = nearest(name, missing.known)
    if near:
        return f"Did you mean “{near}”?"
    if "." in name:
        return "Sew it first, or name an edge that lies in a seam."
    if missing.known:
        return f"Name one of the seams that this view sews: {listed(missing.known, 'or')}."
    return f"Give the seam its name where it is sewn: “as: {name}”."

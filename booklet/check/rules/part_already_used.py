"""A step uses up a part that has already gone into another.

What it finds: a part under `uses`, or made again by `makes`, that an earlier step has made part of something else;
and interfacing that is fused a second time.

Why it matters at the machine: the sewer looks for a loose collar, and it is on the body already.

Wrong:
    steps:
      - {id: collar, title: Make the collar, work: [{sew: [collar.outer, collar.outer]}], makes: finished collar}
      - {id: attach, title: Attach it, work: [{sew: [front.neckline, finished collar.neck]}], makes: body}
      - {id: check, title: Compare the collar with the neckline, uses: [finished collar]}

Right:
    steps:
      - {id: collar, title: Make the collar, work: [{sew: [collar.outer, collar.outer]}], makes: finished collar}
      - {id: check, title: Compare the collar with the neckline, uses: [finished collar]}
      - {id: attach, title: Attach it, work: [{sew: [front.neckline, finished collar.neck]}], makes: body}

Source: common practice, no source: cloth that is sewn in can't be sewn in again.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import told, where
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Bench, CutPiece, Missing, Part

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    lent: set[CutPiece] = set()
    for missing in bench.missing:
        part = missing.part
        if missing.kind == "made later" and part is not None:
            lent.update(part.cuts)
        if missing.kind != "already gone" or part is None or part.gone is None:
            continue
        # Pieces lent to a step that stands too early hang together too early: part-made-later has told why.
        borrowed = bool(lent) and not lent.isdisjoint(part.cuts)
        if not borrowed and not told(bench, missing.step, part.gone):
            yield _found(missing, part)


def _found(missing: Missing, part: Part) -> Found:
    step, name = missing.step, missing.written.strip()
    assert part.gone is not None
    gone = where(part.gone, step)
    related = (Related(f"It went into {part.gone_into} here", part.gone.place),)
    if missing.entry is not None:
        says = f"{name} is fused here, but it was fused already, {gone}."
        return Found(missing.place, step, says, "Take one of the two out.", related)
    if step.makes is not None and missing.place == step.makes.place:
        says = f"“{name}” can't be made once more: it went into {part.gone_into}, {gone}."
        return Found(
            missing.place,
            step,
            says,
            f"Write “makes: {part.gone_into}”, or give the new part a name of its own.",
            related,
        )
    says = f"“{name}” can't be used here: it has already gone into {part.gone_into}, {gone}."
    mend = f"Move {step.called}, to before {part.gone.called}; or use {part.gone_into} here."
    return Found(missing.place, step, says, mend, related, move=step)

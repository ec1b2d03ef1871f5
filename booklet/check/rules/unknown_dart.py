"""A step sews a dart that the piece doesn't have.

What it finds: `dart: PART.DART`, where no piece in the part lists a dart of that name.

Why it matters at the machine: the sewer looks for dart lines that are not marked on the piece.

Wrong:
    steps:
      - {id: darts, title: Sew the darts, work: [{dart: front.waist dart}]}

Right:
    steps:
      - {id: darts, title: Sew the darts, work: [{dart: front.bust dart}]}

Source: common practice, no source: a dart has one name throughout a booklet.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import once
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.read.faults import nearest
from booklet.sew.bench import Bench, Missing

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for missing in once(bench, "unknown dart"):
        yield _found(missing)


def _found(missing: Missing) -> Found:
    part, _, dart = (word.strip() for word in missing.written.partition("."))
    near = nearest(dart, missing.known)
    if near:
        mend = f"Did you mean “{part}.{near}”?"
    elif missing.known:
        mend = f"It has {listed(missing.known)}."
    else:
        mend = (
            f"List the dart under the “darts:” of the piece, with the edge that it crosses: {dart}: {{crosses: side}}."
        )
    return Found(missing.place, missing.step, f"{part} has no dart “{dart}”.", mend)

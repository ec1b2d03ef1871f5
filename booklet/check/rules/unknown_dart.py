"""A step sews a dart, pleat or tuck that the piece doesn't have.

What it finds: `dart: PART.DART`, where no piece in the part lists a dart of that name; `pleat` and `tuck` likewise.

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
from booklet.read.tree import same_name
from booklet.sew.bench import Bench, Missing

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for missing in once(bench, "unknown dart"):
        yield _found(missing)


def _found(missing: Missing) -> Found:
    part, _, dart = (word.strip() for word in missing.written.partition("."))
    near = nearest(dart, missing.known)
    kind = missing.entry.name if missing.entry else "dart"
    other = _of_other_kind(missing, dart)
    if other is not None:
        mend = f"It is listed there as a {other}: write “{other}: {missing.written}”."
    elif near:
        mend = f"Did you mean “{part}.{near}”?"
    elif missing.known:
        mend = f"It has {listed(missing.known)}."
    else:
        mend = (
            f"List the {kind} under the “{kind}s:” of the piece, with the edge that it crosses: "
            f"{dart}: {{crosses: side}}."
        )
    return Found(missing.place, missing.step, f"{part} has no {kind} “{dart}”.", mend)


def _of_other_kind(missing: Missing, name: str) -> str | None:
    """A pleat that is called a dart, and the like."""
    darts = (cut.piece.darts.get(same_name(name)) for cut in missing.part.cuts) if missing.part else ()
    return next((dart.kind for dart in darts if dart is not None), None)

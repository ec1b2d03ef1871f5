"""A step works along a line that the piece doesn't have.

What it finds: `pocket` with `on: PART.LINE`, where no piece in the part lists a line of that name; and `cut` with
`to: LINE`, where a piece that is cut lists other lines and not this one.

Why it matters at the machine: the sewer looks for a line that is not marked on the piece, and cuts it open by guess.

Wrong:
    steps:
      - {id: pocket, title: Let in the pocket, work: [{pocket: pocket, kind: slash, on: front.pocket line}]}

Right:
    steps:
      - {id: pocket, title: Let in the pocket, work: [{pocket: pocket, kind: slash, on: front.cropped line}]}

Source: common practice, no source: a line has one name throughout a booklet.
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
    for missing in once(bench, "unknown line"):
        yield _found(missing)


def _found(missing: Missing) -> Found:
    part, _, line = (word.strip() for word in missing.written.partition("."))
    near = nearest(line, missing.known)
    if near:
        whole = missing.entry is None or missing.entry.name != "cut"
        mend = f"Did you mean “{f'{part}.' * whole}{near}”?"
    elif missing.known:
        mend = f"It has {listed(missing.known)}."
    else:
        mend = f"List it under the “lines:” of the piece: “lines: [{line}]”."
    return Found(missing.place, missing.step, f"{part} has no line “{line}”.", mend)

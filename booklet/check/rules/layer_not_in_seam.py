"""An entry works on a layer that the seam doesn't have.

What it finds: `layer:` beside `trim`, `clip`, `notch` or `finish` that names no piece, part or edge in the seam of
which it speaks.

Why it matters at the machine: the sewer does not know which of the allowances to cut, and may cut the wrong one.

Wrong:
    steps:
      - {id: join, title: Join, work: [{sew: [front.shoulder, back.shoulder]}, {trim: 1/4 in, layer: collar}]}

Right:
    steps:
      - {id: join, title: Join, work: [{sew: [front.shoulder, back.shoulder]}, {trim: 1/4 in, layer: front}]}

Source: common practice, no source: a layer of a seam is named by the piece that it belongs to.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for missing in bench.missing:
        if missing.kind == "unknown layer":
            layers = listed(missing.known)
            yield Found(
                missing.place,
                missing.step,
                f"“{missing.written.strip()}” is no layer of this seam, which joins {layers}.",
                f"Name one of {layers}, or say which seam is meant with “of:”."
                if len(missing.known) > 1
                else f"Name {layers}, or say which seam is meant with “of:”.",
            )

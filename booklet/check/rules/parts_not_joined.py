"""A step makes one part of things that it does not join.

What it finds: `makes` on a step whose work touches pieces that still hang loose from one another when it is done.

Why it matters at the machine: what the booklet calls one part falls into several in the sewer's hands; a seam may be
missing.

Wrong:
    steps:
      - {id: prepare, title: Prepare the pieces,
         work: [{staystitch: [front.neckline, back.neckline], at: 1/2 in}], makes: body}

Right:
    steps:
      - {id: prepare, title: Prepare the pieces, work: [{staystitch: [front.neckline, back.neckline], at: 1/2 in}]}
      - {id: join, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}], makes: body}

Source: our choice: a name for several loose things is allowed, but most often a seam was forgotten.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.sew.bench import Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    for missing in bench.missing:
        if missing.kind == "unjoined":
            yield Found(
                missing.place,
                missing.step,
                f"This step makes “{missing.written.strip()}”, but it leaves {listed(missing.known)} loose.",
                "Sew them together in this step, or take “makes:” to the step that does.",
            )

"""A stitch or seam code is none that the standards have.

What it finds: `stitch` with a number that no type of ISO 4915 has, or `class` with a code that is not made as those of
ASTM D6193 (SSa-1) or ISO 4916 (1.01.01) are. The standards name more seams than the tool has in its table; one
that is rightly made is taken as it stands.

Why it matters at the machine: who reads codes sets a machine by them, and a wrong one means another stitch.

Wrong:
    steps:
      - {id: join, title: Join the sides, work: [{sew: [front.side, back.side], stitch: 540}]}

Right:
    steps:
      - {id: join, title: Join the sides, work: [{sew: [front.side, back.side], stitch: 504, class: SSa-1}]}

Source: standard: ISO 4915:1991, stitch types; FED-STD-751a / ASTM D6193, seam types; ISO 4916:1991, designations. The
highest number of each stitch class is from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.codes import is_seam, is_stitch, near_seam, near_stitch
from booklet.check.found import Found
from booklet.model.pattern import Pattern

LEVEL = "warning"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    for step in pattern.steps:
        for entry in step.work:
            for key, known, near, standard in _KEYS:
                code = entry.options.get(key)
                if code is None or known(code.value.strip()):
                    continue
                meant = near(code.value.strip())
                yield Found(
                    code.place,
                    step,
                    f"“{key}: {code.value.strip()[:40]}” is no {standard}.",
                    f"Write {meant} if that is meant, or leave “{key}” out: no code is needed."
                    if meant
                    else f"Leave “{key}” out: no code is needed.",
                )


_KEYS = (
    ("stitch", is_stitch, near_stitch, "stitch of ISO 4915"),
    ("class", is_seam, near_seam, "seam of ASTM D6193 or ISO 4916"),
)

"""A seam is made in a way that needs a number, and the number is not given.

What it finds: a French seam without `passes`, a felled seam without `trim` or `width`, a bound one without `width`, and
the like.

Why it matters at the machine: the sewer has no distance to sew at, and the tool can't check the sum or draw the seam.

Wrong:
    steps:
      - {id: join, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder], seam: french}]}

Right:
    steps:
      - id: join
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: french, passes: [3/8 in, 1/4 in]}]

Source: published: Oklahoma Coop. Ext. 4-H No. 810 and Central Washington Univ. costume text, ch. 21, which give each
number.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.craft.load import constructions, table
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    rows, options = constructions(), table("construction_options")
    for act in bench.of("sew"):
        word = act.entry.options.get("seam")
        if word is None:
            continue
        lacking = [option for option in rows[word.value].get("needs", ()) if not act.entry.options.get(option)]
        if lacking:
            said = {option: rows[word.value].get("numbers", {}).get(option) or options[option] for option in lacking}
            numbers = listed(f"“{option}:”" for option in lacking)
            yield Found(
                word.place,
                act.step,
                f"“seam: {word.value}” needs {numbers}, which {'is' if len(lacking) == 1 else 'are'} not given here.",
                " ".join(f"Add {said[option]['says']}, as in “{said[option]['example']}”." for option in lacking),
            )

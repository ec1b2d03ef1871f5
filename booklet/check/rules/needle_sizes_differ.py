"""The two numbers of a needle's size don't belong together.

What it finds: a machine needle among the notions or tools whose metric number (NM, a hundred times its thickness in
millimetres) and older number are not a pair, such as 80/14.

Why it matters at the machine: no packet has both numbers on it, and the sewer must guess which is meant.

Wrong:
    tools: [sewing machine, universal needle 80/14]

Right:
    tools: [sewing machine, universal needle 80/12]

Source: common practice, no source: every maker prints the same pairs, 60/8 to 120/19.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.needles import needles
from booklet.check.words import listed
from booklet.craft.load import table
from booklet.model.pattern import Pattern

LEVEL = "warning"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    named = [needle for needle in needles(pattern) if any(us for _, us in needle.sizes)]
    pairs = {nm: row["us"] for nm, row in table("needle_sizes").items()} if named else {}
    for needle in named:
        for nm, us in needle.sizes:
            meant = [f"{one}/{other}" for one, other in pairs.items() if one == nm or (us and other == us)]
            if us and pairs.get(nm) != us and meant:
                yield Found(
                    needle.place,
                    None,
                    f"No machine needle is {nm}/{us}: “{needle.written}” mixes two sizes.",
                    f"Write {listed(meant, 'or')}.",
                )

"""How findings speak of two sides that are sewn together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.paper.said import apart, is_or_are, rounded, where_wrong
from booklet.finding import Related
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from booklet.check.paper.lengths import Lengths
    from booklet.check.paper.said import Where
    from booklet.check.paper.sides import Pair
    from booklet.length import Length
    from booklet.model.pattern import Pattern
    from booklet.shape.measure import Measures


class Told(NamedTuple):
    """lengths: `back.side is 12 in long and front.side is 11 in`; longer, shorter: as the entry names them."""

    worst: Lengths
    where: Where
    lengths: str
    longer: str
    shorter: str
    more: Length
    related: tuple[Related, ...]


def told(pair: Pair, wrong: list[Lengths], pattern: Pattern, measures: Measures) -> Told:
    """The worst of the sizes that are wrong."""
    worst = max(wrong, key=lambda row: row.off)
    turned = worst.one < worst.two
    sides = (pair.shorter, pair.longer) if turned else (pair.longer, pair.shorter)
    longer, shorter = pair.called[::-1] if turned else pair.called
    long, short = max(worst.one, worst.two), min(worst.one, worst.two)
    return Told(
        worst,
        where_wrong(worst, wrong, measures.sizes),
        f"{longer} {is_or_are(sides[0])} {rounded(long, pattern)} long and {shorter} {is_or_are(sides[1])} "
        f"{rounded(short, pattern)}",
        longer,
        shorter,
        apart(long, short, pattern),
        (Related("It is sewn to this", pair.places[0]),),
    )

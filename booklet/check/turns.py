"""What is turned up, against the allowance that was drawn for it: hems and casings alike."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.found import Found
from booklet.check.numbers import as_drawn, beyond, in_system_of, same, sum_of, total
from booklet.check.words import listed
from booklet.finding import Related

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.length import Length
    from booklet.sew.bench import Act, Bench, Edge


def turned(bench: Bench, operation: str) -> Iterator[Found]:
    """Every hem (or casing) whose turns do not add up to the allowance of an edge."""
    house = bench.pattern.house
    for act in bench.of(operation):
        turns = act.entry.lengths("turns")
        if not turns or any(beyond("most hem", turn) for turn in turns):
            continue
        drawn: dict[Length, list[Edge]] = {}
        for edge in as_drawn(act):
            if edge.closed in (act, None) and not same(total(turns, edge.allowance(), house), edge.allowance(), house):
                drawn.setdefault(edge.allowance(), []).append(edge)
        if drawn:
            yield _found(bench, act, turns, drawn)


def _found(bench: Bench, act: Act, turns: tuple[Length, ...], drawn: dict[Length, list[Edge]]) -> Found:
    width, edges = next(iter(drawn.items()))
    whole = total(turns, width, bench.pattern.house)
    sum_ = f"{sum_of(turns)} = {whole}" if len(turns) > 1 else str(whole)
    has = [f"{each} on {listed(edge.called for edge in some)}" for each, some in drawn.items()]
    mend = f"Draw the edge with {whole}."
    others = [edge for edge in as_drawn(act) if not any(edge in some for some in drawn.values())]
    if len(drawn) == 1 and others:
        mend = (
            f"Give {listed(edge.called for edge in edges)} an entry of its own, with "
            f"“turns: [{', '.join(_mended(turns, width, bench))}]”, or draw the edge with {whole}."
        )
    elif len(drawn) == 1:
        mend = f"Write “turns: [{', '.join(_mended(turns, width, bench))}]”, or draw the edge with {whole}."
    own = edges[0].spec.own_allowance
    return Found(
        act.entry.place_of("turns"),
        act.step,
        f"The {act.name} takes {sum_}, but its allowance is {listed(has)}.",
        mend,
        (Related("It is drawn here", own.place if own else bench.pattern.allowance_place),),
    )


def _mended(turns: tuple[Length, ...], width: Length, bench: Bench) -> list[str]:
    """The same first turns, and a last one that takes the rest; where there is no rest, the whole in one turn."""
    first = [in_system_of(turn, width, bench.pattern.house) for turn in turns[:-1]]
    rest = width - total(first, width, bench.pattern.house) if first else width
    if rest.millimetres <= 0:
        return [str(width)]
    return [*(str(turn) for turn in first), str(rest)]

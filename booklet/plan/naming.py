"""Parts, edges and darts as prose names them: `the front and back necklines`, `the bust darts of the front`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from booklet.plan.write import one_line

if TYPE_CHECKING:
    from booklet.model.pattern import EdgeName, Pattern

# An edge called for where it lies needs a noun of its own: `the outer edge`, and for several `the underarm back edges`.
_NO_NOUN = re.compile(r"(?:upper|lower|inner|outer|under|first|second|left|right)\Z")
_NO_PLURAL = re.compile(r"(?:front|back|top|centre)\Z")


def listed(words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    *most, last = list(words) or [""]
    return f"{', '.join(most)} and {last}" if most else last


def singular(edge: str) -> str:
    return f"{edge} edge" if _NO_NOUN.search(edge) else edge


def plural(name: str) -> str:
    if _NO_NOUN.search(name) or _NO_PLURAL.search(name):
        return f"{name} edges"
    if name.endswith("s"):
        return name
    return f"{name}es" if name.endswith(("x", "ch", "sh")) else f"{name}s"


def parts(names: Sequence[EdgeName]) -> str:
    """`the slit facing and the outer collar`; an edge among them is named as an edge."""
    return listed(edges([name]) if name.edge else f"the {one_line(name.part)}" for name in dict.fromkeys(names))


def edges(names: Sequence[EdgeName]) -> str:
    """Edges of one part, or the same edge of several, are drawn together."""
    by_part: dict[str, list[str]] = {}
    for name in names:
        by_part.setdefault(one_line(name.part), []).append(one_line(name.edge))
    by_part = {part: list(dict.fromkeys(mine)) for part, mine in by_part.items()}
    kinds = list(by_part.values())
    if len(kinds) > 1 and all(mine == kinds[0] for mine in kinds):
        said = listed(plural(edge) for edge in kinds[0])
        if any(" " in part or part.endswith("s") for part in by_part):
            return f"the {said} of {listed(f'the {part}' for part in by_part)}"
        return f"the {listed(by_part)} {said}"
    return listed(f"the {listed(map(singular, mine))} of the {part}" for part, mine in by_part.items())


def sides(written: Sequence[Sequence[EdgeName]]) -> str:
    """The sides of a seam: `the front and back shoulders`, `the neckline of the body to the neck of the collar`."""
    named = [[(one_line(name.part), one_line(name.edge)) for name in side] for side in written]
    if len(named) == 2 and named[0] == named[1]:
        if len(named[0]) == 1:
            part, edge = named[0][0]
            return f"the two {plural(edge)} of the {part}"
        return f"{edges(written[0])} on one side to those on the other"
    alike = len({tuple(edge for _, edge in side) for side in named}) == 1
    if alike and all(len({part for part, _ in side}) == 1 for side in named):
        return edges([name for side in written for name in side])
    if len({part for side in named for part, _ in side}) == 1 and len(named) == 2 and len(named[1]) == 1:
        return f"{edges(written[0])} to its {singular(named[1][0][1])}"
    if len(named) == 2:
        return f"{edges(written[0])} to {edges(written[1])}"
    return listed(edges(side) for side in written)


def darts(names: Sequence[EdgeName], pattern: Pattern) -> str:
    """A piece cut twice or on the fold has each of its darts twice."""
    said = []
    for name in names:
        piece = pattern.pieces.get(name.part)
        twice = piece is not None and any(on_fold or count > 1 for _, count, on_fold, _ in piece.cuts[:1])
        dart = one_line(name.edge)
        said.append(f"the {plural(dart) if twice else dart} of the {one_line(name.part)}")
    return listed(said)

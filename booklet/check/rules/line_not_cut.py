"""A step's words cut along a line of the piece, and no step's work does.

What it finds: a step whose title or text cuts, slashes or trims and speaks of one of the `lines` of a piece, where no
entry of work in the whole pattern names that line. A line of which the words only say where it lies is left alone.

Why it matters at the machine: the shorter length, or the deeper armhole, is then only in the words. The step list, the
figures and every check go on with the edge as it was, and its allowance with it.

Wrong:
    steps:
      - id: crop
        title: Cut the cropped length
        text: Cut the front along the cropped line.

Right:
    steps:
      - id: crop
        title: Cut the cropped length
        work: [{cut: front.hem, to: cropped line}]
        text: Cut the front along the cropped line.

Source: our choice: the work says what is done, and the words tell it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.sentences import sentences
from booklet.finding import Related
from booklet.model.pattern import Pattern, Piece
from booklet.read.tree import Text, same_name

LEVEL = "warning"
_CUTS = r"\b(?:cut|slash|trim)\b"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    lines = _without_work(pattern)
    for step in pattern.steps if lines else ():
        if step.text is None:
            continue
        whole = same_name(step.text.value)
        for name, (piece, line) in lines.items():
            if name in whole and _cuts_along(name, step.title, step.text.value):
                yield Found(
                    step.text.place,
                    step,
                    f"The text cuts along the {line.value.strip()}, and no work does.",
                    f"Add the entry to the work, as in “cut: {_an_edge(piece)}” with “to: {line.value.strip()}”.",
                    (Related(f"the line is of {piece.name}", line.place),),
                )


def _without_work(pattern: Pattern) -> dict[str, tuple[Piece, Text]]:
    """The lines that no entry of work names, each with the first piece that has it."""
    lines: dict[str, tuple[Piece, Text]] = {}
    for piece in pattern.pieces.values():
        for line in piece.lines:
            lines.setdefault(same_name(line.value), (piece, line))
    if lines:
        for step in pattern.steps:
            for entry in step.work:
                named = [name.edge for name in entry.things]
                named += [same_name(value.value) for value in entry.options.values() if isinstance(value, Text)]
                for name in named:
                    lines.pop(name, None)
    return lines


def _cuts_along(line: str, title: str, text: str) -> bool:
    if re.search(_CUTS, title.lower()):
        return True
    return any(line in same_name(one) and re.search(_CUTS, one.lower()) for one in sentences(text))


def _an_edge(piece: Piece) -> str:
    """The edge that is most likely cut: a hem, or the first that is no fold."""
    names = [edge.name for edge in piece.edges.values() if not edge.fold]
    return f"{piece.name}.{next((name for name in names if 'hem' in name or 'leg' in name), next(iter(names), 'edge'))}"

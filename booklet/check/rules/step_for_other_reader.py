"""A step speaks of a piece or a step that some of its own readers do not have.

What it finds: `{piece: …}` or `{step: …}` in a step's text, tip, caution or the words of its work, where the piece is
not cut, or the step not sewn, in one of the views that sew this step; and the plain name, of two words or more, of
such a piece. A sentence that names a view, or a word under a view's `with:`, says itself whom it is for.

Why it matters at the machine: the sewer of that view looks for a piece that is not on the paper, and fears to have
lost it.

Wrong:
    steps:
      - id: side
        title: Join the sides
        work: [{sew: [front.side, back.side]}]
        text: "Sew the sides. Keep the {piece: sleeve} out of the way."

Right:
    steps:
      - id: side
        title: Join the sides
        work: [{sew: [front.side, back.side]}]
        text: "Sew the sides. In view B, keep the {piece: sleeve} out of the way."

Source: our choice: each view is a booklet of its own to its reader.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from booklet.check.found import Found
from booklet.check.ids import by_id
from booklet.check.locate import place_of
from booklet.check.sentences import sentences
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Pattern, Piece, Step
from booklet.read.tree import Text, same_name

LEVEL = "warning"


@cache
def _named() -> re.Pattern[str]:
    return re.compile(r"\{\s*(piece|step)\s*:([^{}]*)\}", re.IGNORECASE)


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    if len(pattern.views) < 2:
        return
    steps = by_id(pattern.steps)
    rare = [
        name for name, piece in pattern.pieces.items() if " " in name and len(piece.scope.views) < len(pattern.views)
    ]
    readers: re.Pattern[str] | None = None
    for step in pattern.steps:
        for text in (step.text, step.tip, step.caution, *(entry.says for entry in step.work)):
            lacked = list(_lacked(pattern, steps, rare, step, text.value)) if text is not None else []
            if text is not None and lacked:
                readers = readers or _readers(pattern)
                for written, thing in lacked:
                    if not _is_said_for_some(readers, text.value, written):
                        yield _found(pattern, step, text, written, thing)


def _lacked(
    pattern: Pattern, steps: dict[str, Step], rare: list[str], step: Step, text: str
) -> Iterator[tuple[str, Piece | Step]]:
    """What the text speaks of and some view of the step does not have, once each, as written."""
    told: set[str] = set()
    for match in _named().finditer(text) if "{" in text else ():
        name = same_name(match[2])
        thing = pattern.pieces.get(name) if match[1].lower() == "piece" else steps.get(name)
        if thing is not None and name not in told and _lacking(step, thing):
            told.add(name)
            yield match.group(), thing
    low = text.lower()
    for name in rare:
        piece = pattern.pieces[name]
        if name in low and name not in told and _lacking(step, piece):
            plain = re.search(rf"(?<![\w:-])(?<!: ){re.escape(name)}(?![\w-])", low)
            if plain is not None and not _cut_under_another_name(pattern, step, piece):
                yield text[plain.start() : plain.end()], piece


def _lacking(step: Step, thing: Piece | Step) -> list[str]:
    return [view for view in step.scope.views if view not in thing.scope.views] if thing.scope.views else []


def _readers(pattern: Pattern) -> re.Pattern[str]:
    """What says whom a sentence is for: `view B`, a view's own name, or a word under its `with:`."""
    words = {same_name(word.value) for view in pattern.views.values() for word in view.words}
    words |= {same_name(view.name) for view in pattern.views.values()}
    either = "|".join(re.escape(word) for word in sorted(words, key=lambda word: (-len(word), word)))
    return re.compile(rf"\bviews?\b{'|' if either else ''}{either}", re.IGNORECASE)


def _is_said_for_some(readers: re.Pattern[str], text: str, written: str) -> bool:
    """Whether every sentence that speaks of it says for whom it is."""
    return all(readers.search(sentence) for sentence in sentences(text) if written in sentence)


def _cut_under_another_name(pattern: Pattern, step: Step, piece: Piece) -> bool:
    """Whether a view that lacks it has a piece of a longer name, which the words may mean."""
    words = set(same_name(piece.name).split())
    lacking = [view for view in step.scope.views if view not in piece.scope.views]
    return any(
        words <= set(name.split()) and set(lacking) & set(other.scope.views)
        for name, other in pattern.pieces.items()
        if other is not piece
    )


def _found(pattern: Pattern, step: Step, text: Text, written: str, thing: Piece | Step) -> Found:
    lacking = _lacking(step, thing)
    views = f"view{'s' if len(lacking) > 1 else ''} {listed(lacking)}"
    has = [view for view in step.scope.views if view in thing.scope.views]
    sew = "sew" if len(lacking) > 1 else "sews"
    if isinstance(thing, Step):
        says = f"The text sends the reader to {thing.called}, which {views} never {sew}."
    else:
        cut = "don't cut" if len(lacking) > 1 else "doesn't cut"
        says = f"The text speaks of the {thing.name.lower()}, which {views} {cut}."
    mend = (
        f"Say for whom it is, as in “In view{'s' if len(has) > 1 else ''} {listed(has)}, …”, or write a step for each."
        if has
        else "Take it out, or name what these views have."
    )
    related = (Related(f"It is for {listed(thing.scope.views)}", thing.place),)
    return Found(place_of(pattern, text, written), step, says, mend, related)

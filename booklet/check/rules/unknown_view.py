"""Something is for a view that the pattern doesn't have.

What it finds: a word under `for` or `not for` of a step, a piece, a notion or a chart that is neither the letter of a
view nor a word under a view's `with`; and the `view` of film.yaml.

Why it matters at the machine: a step for “sleves” is printed for nobody.

Wrong:
    steps:
      - {id: underarm, title: Sew the underarms, for: sleves, work: [{sew: [sleeve.underarm, sleeve.underarm]}]}

Right:
    steps:
      - {id: underarm, title: Sew the underarms, for: sleeves, work: [{sew: [sleeve.underarm, sleeve.underarm]}]}

Source: our choice: a word that no view has is a slip.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.model.pattern import Pattern, Scope, Step
from booklet.read.faults import nearest
from booklet.read.tree import Text, same_name

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    letters = list(pattern.views)
    words = [*letters, *dict.fromkeys(word.value.strip() for view in pattern.views.values() for word in view.words)]
    known = {same_name(word) for word in words}
    for scope, step in _scopes(pattern):
        for word in (*scope.wanted, *scope.unwanted):
            if same_name(word.value) not in known:
                yield _found(word, step, words, "view")
    filmed = pattern.film.view if pattern.film else None
    if filmed is not None and filmed.value.strip() not in pattern.views:
        yield _found(filmed, None, letters, "letter of a view")


def _scopes(pattern: Pattern) -> Iterator[tuple[Scope, Step | None]]:
    yield from ((piece.scope, None) for piece in pattern.pieces.values())
    yield from ((notion.scope, None) for notion in pattern.notions)
    yield from ((chart.scope, None) for chart in pattern.charts)
    for step in pattern.steps:
        yield step.scope, step


def _found(word: Text, step: Step | None, words: list[str], kind: str) -> Found:
    near = nearest(word.value, words)
    says = f"“{word.value.strip()[:60]}” is no {kind}" + (
        ", and no word under a view's “with”." if kind == "view" else "."
    )
    mend = f"Did you mean “{near}”?" if near else f"It can be {listed(words, 'or')}."
    return Found(word.place, step, says, mend)

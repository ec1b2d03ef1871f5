"""The words that a booklet explains: the pattern's own, and those of the trade's that it uses."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from booklet.craft.load import table
from booklet.plan.plan import Term
from booklet.plan.write import capital
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterable

    from booklet.model.pattern import Pattern
    from booklet.plan.write import Writer


def terms_of(pattern: Pattern, views: tuple[str, ...], words: str, other_words: str, writer: Writer) -> list[Term]:
    """By the alphabet. words: the plan's prose; other_words: that of the views which the plan leaves out.

    A term of the pattern's own is left out only where it is a word of the other views alone; it wins over the trade's.
    """
    own = {same_name(word.value): (word.value, meaning) for word, meaning in pattern.terms}
    trade = {word: row for word, row in table("glossary").items() if same_name(word) not in own}
    forms = {form: word for word in own for form in (word, f"{word}s")}
    forms |= {form.lower(): word for word, row in trade.items() for form in row["words"]}
    used, elsewhere, done = _used(words, forms), _used(other_words, forms), _wordless_work(pattern, views)
    found = [
        Term(capital(written), writer.prose(meaning))
        for word, (written, meaning) in own.items()
        if word in used or word not in elsewhere
    ]
    found += [
        Term(capital(word), writer.line(row["says"]))
        for word, row in trade.items()
        if word in used or done & set(row.get("work", ()))
    ]
    return sorted(found, key=lambda term: term.word.lower())


def _used(text: str, forms: dict[str, str]) -> set[str]:
    """The terms whose words stand in the text. The longer wins: in `press cloth` no other term is used."""
    longest_first: Iterable[str] = sorted(forms, key=lambda form: (-len(form), form))
    either = "|".join(re.escape(form) for form in longest_first)
    return {forms[match[0]] for match in re.finditer(rf"(?<![\w-])(?:{either})(?![\w-])", text)}


def _wordless_work(pattern: Pattern, views: tuple[str, ...]) -> set[str]:
    """The operations and constructions of these views' steps that have no text of their own."""
    done: set[str] = set()
    for step in pattern.steps:
        if step.text is None and set(step.scope.views) & set(views):
            for entry in step.work:
                seam = entry.options.get("seam")
                done |= {entry.name, seam.value} if seam is not None else {entry.name}
    return done

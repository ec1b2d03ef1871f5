"""The words that a booklet explains: the pattern's own, and those of the trade's that it uses."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from booklet.craft.load import table
from booklet.plan.plan import Term
from booklet.plan.write import capital
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern
    from booklet.plan.write import Writer


def terms_of(pattern: Pattern, views: tuple[str, ...], words: str, other_words: str, writer: Writer) -> list[Term]:
    """By the alphabet. words: the plan's prose; other_words: that of the views which the plan leaves out.

    A term of the pattern's own is left out only where it is a word of the other views alone; it wins over the trade's.
    """
    own = {same_name(word.value): (word.value, meaning) for word, meaning in pattern.terms}
    found = [Term(capital(word), writer.prose(meaning)) for word, meaning in own.values()
             if _uses(words, [same_name(word)]) or not _uses(other_words, [same_name(word)])]  # fmt: skip
    done = _done(pattern, views)
    for word, row in table("glossary").items():
        if word not in own and (_uses(words, row["words"]) or done & set(row.get("work", ()))):
            found.append(Term(capital(word), writer.line(row["says"])))
    return sorted(found, key=lambda term: term.word.lower())


def _done(pattern: Pattern, views: tuple[str, ...]) -> set[str]:
    """The operations and constructions of these views, by name."""
    done: set[str] = set()
    for step in pattern.steps:
        if set(step.scope.views) & set(views):
            for entry in step.work:
                seam = entry.options.get("seam")
                done |= {entry.name, seam.value} if seam is not None else {entry.name}
    return done


def _uses(text: str, words: list[str]) -> bool:
    """As whole words; the ending of a plural does not hide one."""
    said = "|".join(re.escape(word) for word in words)
    return re.search(rf"(?<![\w-])(?:{said})s?(?![\w-])", text) is not None

"""Which notion of the list an entry of `work` uses, and which notions one view buys."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from booklet.craft.load import operations, table
from booklet.read.tree import Text, same_name

if TYPE_CHECKING:
    from booklet.model.pattern import Notion
    from booklet.sew.bench import Act, Bench

# The operations that use a notion, and the one meant when the entry doesn't name it (None: it names it or uses none).
DEFAULT = {
    "buttonhole": "button",
    "button": "button",
    "snap": "snap",
    "hook": "hook",
    "zipper": "zipper",
    "insert": None,
    **dict.fromkeys((name for name, row in operations().items() if row.options.get("with") == "part or notion"), None),
}


@cache
def _kinds() -> dict[str, str]:
    """Every word for a notion, as listed or in the plural, and its row of craft/notions.yaml."""
    words = {}
    for name, row in table("notions").items():
        for word in (name, *row.get("also", ())):
            words[word] = words[f"{word}s"] = name
    return words


def kind_of(word: str) -> str:
    """The kind that a word means (`zip` is a zipper), by the whole of it or its last word; else "" ."""
    name = same_name(word)
    return _kinds().get(name) or _kinds().get(name.rsplit(" ", 1)[-1], "")


def row_of(word: str) -> dict[str, Any]:
    """The row of craft/notions.yaml, empty where the word is of no kind that the tool knows."""
    row: dict[str, Any] = table("notions").get(kind_of(word), {})
    return row


def word_of(act: Act) -> tuple[str, Text | None]:
    """The notion that an entry uses, and where it names it."""
    option = "with" if act.entry.operation.options.get("with") == "part or notion" else "notion"
    named: Text | None = act.entry.word if act.name == "insert" else act.entry.options.get(option)
    return (named.value if named else DEFAULT[act.name] or "", named)


def using(bench: Bench, broken: bool = False) -> list[Act]:
    """The entries of a view that use a notion. What `with` names may be a part, and is none then.

    broken: those too of which something else that they name was not to be had.
    """
    return [act for act in bench.of(*DEFAULT) if word_of(act)[0] and not act.taken and (broken or not act.broken)]


def listed_for(notion: Notion, view: str) -> bool:
    """Whether the view buys it: it is in its scope, and where it counts by view, counts for this one."""
    if view not in notion.scope.views:
        return False
    counted = notion.count or notion.length
    return not counted or "" in counted or view in counted


def meant(bench: Bench, act: Act) -> list[Notion]:
    """The notions of this view that an entry can mean: those it names; failing these, those of the same kind."""
    here = [notion for notion in bench.pattern.notions if listed_for(notion, bench.view.letter)]
    word, named = word_of(act)
    name = same_name(word)
    exact = [notion for notion in here if _singular(notion.key) == _singular(name)]
    if exact:
        return exact
    kind = kind_of(name)
    alike = [notion for notion in here if kind and kind_of(notion.key) == kind and not _unlike(name, notion.key)]
    if named is None or len({_singular(notion.key) for notion in alike}) == 1:
        return alike
    return []


def _unlike(word: str, item: str) -> bool:
    """Whether a word says of a notion what its item in the list does not: `invisible zipper` of a separating one."""
    more = {_singular(each) for each in word.split() if each not in _kinds()}
    return bool(more) and not more <= {_singular(each) for each in item.split()}


def _singular(word: str) -> str:
    return word.removesuffix("s")


def count_of(act: Act, view: str) -> int | None:
    """How many an entry makes in this view, or None where it does not say."""
    given = act.entry.options.get("count")
    if given is None or given[1] is None:
        return None
    by_view, value = given
    if not by_view:
        return int(value)
    for key, number in value:
        if view in [letter.strip() for letter in key.value.split(",")]:
            return int(number)
    return None

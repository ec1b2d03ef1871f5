"""A word, as a person writes it -> the pages of everything that it can mean."""

from __future__ import annotations

import inspect
from functools import cache
from typing import Any

from booklet.craft.load import table
from booklet.explain.kinds import KINDS
from booklet.explain.pages import class_page, page, whole_table
from booklet.read.faults import nearest

# Between the pages of a word with several meanings.
BETWEEN = "\n\n" + "-" * 8 + "\n\n"


def all_rules() -> str:
    """Every rule with its first line, errors first."""
    from booklet.check.engine import rules

    lines = []
    for level, head in (("error", "Must be mended"), ("warning", "Look again")):
        lines += [head, ""]
        named = {name: module for name, module in rules().items() if level == module.LEVEL}
        width = max(map(len, named), default=0)
        lines += [f"  {name:{width}}  {_manual(module).splitlines()[0]}" for name, module in named.items()]
        lines.append("")
    return "\n".join(lines).rstrip()


def explain(word: str) -> tuple[str, bool]:
    """The pages for a word, and whether there is one; otherwise the nearest is offered."""
    written = _plain(word)
    pages = _pages(written)
    if not pages:  # `301 SSa-1`, as the standards write it
        each = [_pages(_plain(part)) for part in word.split()]
        pages = [one for some in each for one in some] if all(each) else []
    if pages:
        return BETWEEN.join(dict.fromkeys(pages)), True
    near = nearest(written, words())
    hint = f" Did you mean “{near}”?" if near else " “notchbook explain” alone lists the rules."
    return f"There is no page for “{word[:60]}”.{hint}", False


@cache
def words() -> dict[str, tuple[tuple[str, str], ...]]:
    """Every word that has a page, and what it means: (kind, name), in the order of the pages."""
    from booklet.check.engine import rule_names

    found: dict[str, list[tuple[str, str]]] = {}
    for name in rule_names():
        found.setdefault(_plain(name), []).append(("rules", name))
    for kind in KINDS:
        for name, row in table(kind).items():
            for each in KINDS[kind].words(name, row):
                meanings = found.setdefault(_plain(each), [])
                if (kind, name) not in meanings:
                    meanings.append((kind, name))
    for kind in KINDS:
        for each in KINDS[kind].whole:
            found.setdefault(each, []).append((kind, ""))
    return {word: tuple(meanings) for word, meanings in found.items()}


def _plain(word: str) -> str:
    """`Part-Made  later` -> `part made later`."""
    return " ".join(word.lower().replace("-", " ").replace("’", "'").split())


def _pages(word: str) -> list[str]:
    meanings = words().get(word, ())
    pages = []
    for kind, name in meanings:
        if kind == "rules":
            pages.append(_rule(name))
        else:
            pages.append(page(kind, name) if name else whole_table(kind))
    return pages or [one for one in [class_page(word)] if one]


def _rule(name: str) -> str:
    from booklet.check.engine import rules

    module = rules()[name]
    level = "must be mended" if module.LEVEL == "error" else "look again"
    return f"{name} ({level})\n\n{_manual(module)}"


def _manual(module: Any) -> str:
    return inspect.cleandoc(module.__doc__ or "")

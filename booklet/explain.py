"""The manual pages: a rule's own docstring, an operation's and a construction's row."""

from __future__ import annotations

import inspect
from typing import Any

from booklet.craft.load import constructions, operations
from booklet.read.faults import nearest


def all_rules() -> str:
    """Every rule with its first line, errors first."""
    from booklet.check.engine import rules

    lines = []
    for level, head in (("error", "Must be mended"), ("warning", "Look again")):
        lines += [head, ""]
        named = {name: module for name, module in rules().items() if level == module.LEVEL}
        width = max(map(len, named), default=0)
        lines += [f"  {name:{width}}  {_page(module).splitlines()[0]}" for name, module in named.items()]
        lines.append("")
    return "\n".join(lines).rstrip()


def explain(word: str) -> tuple[str, bool]:
    """The page for a word, and whether there is one; otherwise the nearest is offered."""
    from booklet.check.engine import rules

    name = "-".join(word.lower().replace("-", " ").split())
    if name in rules():
        module = rules()[name]
        level = "must be mended" if module.LEVEL == "error" else "look again"
        return f"{name} ({level})\n\n{_page(module)}", True
    spoken = name.replace("-", " ")
    if spoken in operations():
        operation = operations()[spoken]
        keys = ", ".join(operation.options) or "none"
        return (
            f"{spoken}: an operation of `work`\n\nTakes: {operation.takes}.\nKeys beside it: {keys}.\n"
            f"A step with no text prints: {operation.says if spoken != 'sew' else 'the words of its construction.'}\n\n"
            f"Source: {operation.source}",
            True,
        )
    if spoken in constructions():
        return _construction(spoken, constructions()[spoken]), True
    near = nearest(spoken, [*(rule.replace("-", " ") for rule in rules()), *operations(), *constructions()])
    hint = f" Did you mean “{near}”?" if near else " “notchbook explain” alone lists the rules."
    return f"There is no rule, operation or construction called “{word[:60]}”.{hint}", False


def _construction(name: str, row: dict[str, Any]) -> str:
    codes = ", ".join(f"{system.upper()} {code}" for system, code in row.get("codes", {}).items())
    needs = ", ".join(row.get("needs", [])) or "no number of its own"
    return (
        f"{name}: a seam construction\n\nNeeds: {needs}.\n"
        f"A step with no text prints: {row['says']}\n\nCodes: {codes}.\nSource: {row['source']}"
    )


def _page(module: Any) -> str:
    return inspect.cleandoc(module.__doc__ or "")

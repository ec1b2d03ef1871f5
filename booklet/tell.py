"""Findings for a person at a terminal: what is wrong, where, and the mend, in that order of need."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:
    from collections.abc import Callable

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern
    from booklet.pipeline import Checked

# Words for the levels, as a sewing person would say them.
LEVELS = {"error": "Must be mended", "warning": "Look again"}
INDENT = "    "


def tell(checked: Checked, stream: TextIO) -> None:
    """Every open finding, a blank line apart, and a closing count. Nothing when nothing is wrong."""
    found = checked.open_findings
    if not found:
        return
    bold = _bold(stream)
    title = checked.pattern.name if checked.pattern else checked.name
    lines = [bold(clean(title)), ""]
    for finding in found:
        lines += [*one_finding(finding, checked.pattern, bold), ""]
    lines.append(_count(checked))
    print("\n".join(lines), file=stream)


# Signs that a terminal obeys instead of showing them: C0 and C1 (ECMA-48), and what turns the direction of reading
# (Unicode, UAX #9). A source may hold them in quotes.
_OBEYED = dict.fromkeys(
    {*range(0x20), *range(0x7F, 0xA0), *range(0x2028, 0x202F), *range(0x2066, 0x206A)} - {ord("\n"), ord("\t")},
    "\N{REPLACEMENT CHARACTER}",
)


def printable(text: str) -> str:
    """Lines with nothing in them that a terminal would obey."""
    return text.translate(_OBEYED)


def printable_json(text: str) -> str:
    """The same object: within its strings such a sign may also be written as an escape."""
    return "".join(f"\\u{ord(sign):04x}" if ord(sign) in _OBEYED else sign for sign in text)


def _bold(stream: TextIO):  # type: ignore[no-untyped-def]
    if stream.isatty() and "NO_COLOR" not in os.environ:
        return lambda text: f"\x1b[1m{text}\x1b[0m"
    return lambda text: text


def one_finding(finding: Finding, pattern: Pattern | None, bold: Callable[[str], str] = str) -> list[str]:
    """Its lines: level, step and views; the sentence; the mend; the place and the rule."""
    head = [LEVELS[finding.level]]
    step = pattern.step(finding.step) if pattern is not None and finding.step else None
    if step is not None:
        head.append(f"step {step.number}, {step.title}")
    if finding.views and pattern is not None and len(finding.views) < len(pattern.views):
        head.append(_views(finding.views))
    lines = [bold("  " + clean(" · ".join(head)))]
    lines += wrapped(clean(finding.says))
    lines += wrapped("To mend: " + clean(finding.mend))
    lines.append(INDENT + "    ".join(word for word in (clean(_where(finding)), finding.rule) if word))
    lines += [
        f"{INDENT}{clean(f'{other.says}: {other.place.file}, line {other.place.line}')}" for other in finding.related
    ]
    return lines


def clean(text: str) -> str:
    """One line, with nothing in it that a terminal would obey."""
    return printable(" ".join(text.split()))


def _views(views: tuple[str, ...]) -> str:
    if len(views) == 1:
        return f"view {views[0]}"
    return f"views {', '.join(views[:-1])} and {views[-1]}"


def _where(finding: Finding) -> str:
    """Nothing where it is the folder itself, which the sentence names."""
    if finding.place.file == ".":
        return ""
    return f"{finding.place.file}, line {finding.place.line}"


def wrapped(text: str) -> list[str]:
    """Indented lines of a width that reads well."""
    import textwrap

    return textwrap.wrap(text, 92, initial_indent=INDENT, subsequent_indent=INDENT, break_long_words=False)


def _count(checked: Checked) -> str:
    errors = len(checked.errors)
    others = len(checked.open_findings) - errors
    parts = []
    if errors:
        parts.append(f"{errors} to mend")
    if others:
        parts.append(f"{others} to look at again")
    return ", ".join(parts) + "."


def say(text: str, stream: TextIO | None = None) -> None:
    print(clean(text), file=stream or sys.stdout)

"""The writer's text -> prose: paragraphs, lists, emphasis, measures, and the numbers of steps and pieces.

The marks of Markdown that a writer needs are read and no others: no HTML, link, address or picture. Whatever is not
understood stays as it was written, `<script>` and `{{ braces }}` included.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Literal

from markdown_it import MarkdownIt

from booklet.plan.measures import measured_spans
from booklet.plan.prose import Block, Prose, Span
from booklet.read.tree import Text, same_name

if TYPE_CHECKING:
    from markdown_it.token import Token

    from booklet.model.pattern import Pattern

_Style = Literal["text", "emphasis", "strong"]

_REFERENCE = re.compile(r"\{\s*(?P<kind>step|piece)\s*:(?P<name>[^{}]*)\}", re.IGNORECASE)
_BLANKS = re.compile(r"[ \t\r\n\f\v]+")
# Control characters and lone surrogates: no output can hold them.
_UNPRINTABLE = re.compile("[\x00-\x08\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
# Lists in lists in lists … are no prose; beyond this depth the marks are left as they are. Our choice.
_TOO_DEEP = re.compile(r"^[ \t]*(?:(?:[-+*]|[0-9]{1,9}[.)])[ \t]+){6,}", re.MULTILINE)


def one_line(text: str) -> str:
    """A title or name on one line, without what no output can hold."""
    return _BLANKS.sub(" ", _UNPRINTABLE.sub("", text)).strip()


def capital(name: str) -> str:
    """`slit facing` -> `Slit facing`."""
    line = one_line(name)
    return line[:1].upper() + line[1:]


class Writer:
    """Writes prose for one pattern: its house's measures, its steps' numbers and its pieces' names."""

    def __init__(self, pattern: Pattern) -> None:
        self.house = pattern.house
        self.pieces = pattern.pieces
        self.steps = {same_name(step.id): step for step in reversed(pattern.steps)}

    def prose(self, text: Text | str | None) -> Prose:
        """Blocks of spans; empty where there is no text."""
        written = text.value if isinstance(text, Text) else text or ""
        written = _UNPRINTABLE.sub("", written)
        if _TOO_DEEP.search(written):
            paragraphs = re.split(r"\n\s*\n", written)
            return tuple(block for words in paragraphs for block in self.line(words))
        return tuple(_blocks(_markdown().parse(written), self))

    def line(self, words: str) -> Prose:
        """One paragraph in which no marks are read, but measures and names are."""
        spans = self.spans([("text", one_line(words))])
        return (Block("paragraph", spans),) if spans else ()

    def spans(self, runs: list[tuple[_Style, str]]) -> tuple[Span, ...]:
        found: list[Span] = []
        for style, text in _joined(runs):
            done = 0
            for match in _REFERENCE.finditer(text):
                referred = self._referred(match["kind"].lower(), match["name"])
                if referred is None:
                    continue
                found += measured_spans(text[done : match.start()], self.house, style)
                found.append(referred)
                done = match.end()
            found += measured_spans(text[done:], self.house, style)
        return tuple(found)

    def _referred(self, kind: str, name: str) -> Span | None:
        if kind == "step":
            step = self.steps.get(same_name(name))
            return Span("step", str(step.number), target=step.id) if step else None
        piece = self.pieces.get(same_name(name))
        return Span("piece", f"{capital(piece.name)} ({one_line(piece.number)})", target=piece.name) if piece else None


@cache
def _markdown() -> MarkdownIt:
    return MarkdownIt("zero", {"html": False, "linkify": False, "maxNesting": 60}).enable(
        ["list", "newline", "escape", "emphasis"]
    )


def _blocks(tokens: list[Token], writer: Writer) -> list[Block]:
    """Lists in lists are set as one list: a booklet's page is too narrow for more."""
    blocks: list[Block] = []
    lists: list[int | None] = []
    ahead: tuple[Literal["bullet", "number"], int] | None = None
    for token in tokens:
        match token.type:
            case "bullet_list_open":
                lists.append(None)
            case "ordered_list_open":
                lists.append(int(token.attrGet("start") or (0 if token.attrGet("start") == 0 else 1)))
            case "bullet_list_close" | "ordered_list_close":
                lists.pop()
            case "list_item_open":
                ordinal = lists[-1]
                ahead = ("bullet", 0) if ordinal is None else ("number", ordinal)
                lists[-1] = None if ordinal is None else ordinal + 1
            case "inline":
                spans = writer.spans(_runs(token.children or []))
                if spans:
                    blocks.append(Block(*((ahead[0], spans, ahead[1]) if ahead else ("paragraph", spans))))
                    ahead = None
    return blocks


def _runs(tokens: list[Token]) -> list[tuple[_Style, str]]:
    runs: list[tuple[_Style, str]] = []
    depth = {"em": 0, "strong": 0}
    for token in tokens:
        if token.type in ("softbreak", "hardbreak"):
            runs.append((_style(depth), " "))
        elif token.type.endswith(("_open", "_close")):
            depth[token.tag] += token.nesting
        else:
            runs.append((_style(depth), token.content))
    return runs


def _style(depth: dict[str, int]) -> _Style:
    return "strong" if depth["strong"] else "emphasis" if depth["em"] else "text"


def _joined(runs: list[tuple[_Style, str]]) -> list[tuple[_Style, str]]:
    """Neighbours of one style as one, blanks single; none at the ends."""
    joined: list[tuple[_Style, str]] = []
    for style, text in runs:
        if joined and joined[-1][0] == style:
            joined[-1] = (style, joined[-1][1] + text)
        else:
            joined.append((style, text))
    tidy = [(style, _BLANKS.sub(" ", text)) for style, text in joined]
    if tidy:
        tidy[0] = (tidy[0][0], tidy[0][1].lstrip(" "))
        tidy[-1] = (tidy[-1][0], tidy[-1][1].rstrip(" "))
    return [(style, text) for style, text in tidy if text]

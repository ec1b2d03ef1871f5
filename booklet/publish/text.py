"""Prose -> plain text and Markdown: what a writer wrote is text in both, whatever signs it is made of."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Sequence
from itertools import groupby

from booklet.length import find
from booklet.plan.prose import Block, Prose, Span

# How wide is a line of a text file? Our choice: it stands in a mail and on a small screen.
WIDTH = 76

# CommonMark 0.31: what opens emphasis, code, links, pictures, HTML and entities inside a line, and what opens a block
# at its start. Braces are no sign of Markdown.
_INLINE = re.compile(r"[\\`*_\[\]<>]|&(?=#?\w+;)|~(?=~)")
_AT_START = re.compile(r"\A(?:(?=[-+#=|])|([0-9]{1,9})(?=[.)]))")

_TIE = "\N{NO-BREAK SPACE}"


def markdown(prose: Prose) -> str:
    """Paragraphs and lists, a blank line apart; a paragraph is one line."""
    groups = [(kind, list(blocks)) for kind, blocks in groupby(prose, key=lambda block: block.kind)]
    return "\n\n".join(
        ("\n" if kind != "paragraph" else "\n\n").join(_marked_block(block) for block in blocks)
        for kind, blocks in groups
    )


def markdown_line(prose: Prose) -> str:
    """The same words in one run."""
    return " ".join(_marked(block.spans) for block in prose)


def escaped(text: str) -> str:
    """Text that Markdown shows as it stands."""
    return _AT_START.sub(lambda match: f"{match[1] or ''}\\", _INLINE.sub(r"\\\g<0>", text))


def _marked_block(block: Block) -> str:
    sign = {"paragraph": "", "bullet": "- ", "number": f"{block.ordinal}. "}[block.kind]
    return f"{sign}{_marked(block.spans)}"


def _marked(spans: Sequence[Span]) -> str:
    line = "".join(_marked_span(span, first=at == 0) for at, span in enumerate(spans))
    return line.strip()


def _marked_span(span: Span, *, first: bool) -> str:
    text = escaped(span.text) if first else _INLINE.sub(r"\\\g<0>", span.text)
    sign = {"emphasis": "*", "strong": "**"}.get(span.kind, "")
    bare = text.strip()
    if not sign or not bare:
        return text
    before, after = text[: len(text) - len(text.lstrip())], text[len(text.rstrip()) :]
    return f"{before}{sign}{bare}{sign}{after}"


def lines(prose: Prose, indent: str = "") -> list[str]:
    """Wrapped; paragraphs a blank line apart, the items of a list under each other."""
    wrapped: list[str] = []
    for at, block in enumerate(prose):
        if at and not (block.kind == prose[at - 1].kind != "paragraph"):
            wrapped.append("")
        sign = {"paragraph": "", "bullet": "- ", "number": f"{block.ordinal}. "}[block.kind]
        wrapped += wrap(tied(block.spans), f"{indent}{sign}", indent + " " * len(sign))
    return wrapped


def tied(spans: Iterable[Span]) -> str:
    """The words, in which a measure does not break over a line, nor a piece's number leave its name."""
    return "".join(_tied(span) for span in spans)


def tied_words(words: str) -> str:
    """Words that are no prose, in which no measure breaks over a line."""
    for start, end, _ in reversed(find(words)):
        words = words[:start] + words[start:end].replace(" ", _TIE) + words[end:]
    return words


def _tied(span: Span) -> str:
    if span.kind == "measure":
        return span.text.replace(" ", _TIE)
    if span.kind == "piece":
        name, _, number = span.text.rpartition(" ")
        return f"{name}{_TIE}{number}" if name else span.text
    return span.text


def wrap(text: str, first: str = "", rest: str = "") -> list[str]:
    """Lines of at most WIDTH signs; longer only where one word is. Ties are blanks again in the end."""
    wrapper = textwrap.TextWrapper(
        WIDTH, initial_indent=first, subsequent_indent=rest, break_long_words=False, break_on_hyphens=False
    )
    # To the wrapper only ASCII blanks are blanks, so that a tie holds.
    return [line.replace(_TIE, " ") for line in wrapper.wrap(text)]


def file_word(letter: str) -> str:
    """A view's letter as a part of a file's name: never a way into another folder."""
    return "".join(sign if sign.isalnum() or sign in "-_ " else "_" for sign in letter) or "_"

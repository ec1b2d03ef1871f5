"""Prose ready to set: blocks of spans. Renderers choose form; they add no words."""

from __future__ import annotations

from typing import Literal, NamedTuple

from booklet.length import Spelled


class Measure(NamedTuple):
    """A measure and, in brackets after it, the same in the other system (None where the writer gave no use for it)."""

    first: Spelled
    other: Spelled | None


class Span(NamedTuple):
    """A run of text of one kind. `text` is always what a plain-text reader sees; escape it in every output.

    measure: set `measure`; step: a step's number, `target` its id; piece: "Front (1)", `target` the piece's name.
    """

    kind: Literal["text", "emphasis", "strong", "measure", "step", "piece"]
    text: str
    measure: Measure | None = None
    target: str = ""


class Block(NamedTuple):
    """A paragraph, or one item of a list (`bullet`, or `number` with its `ordinal`)."""

    kind: Literal["paragraph", "bullet", "number"]
    spans: tuple[Span, ...]
    ordinal: int = 0


Prose = tuple[Block, ...]


def plain(prose: Prose) -> str:
    """The words alone, paragraphs apart by a blank line."""
    return "\n\n".join("".join(span.text for span in block.spans) for block in prose)

"""What is bought besides cloth, and how much of it a view takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.measures import measure_span, pair
from booklet.plan.plan import Notion
from booklet.plan.prose import Block, Prose, Span
from booklet.plan.write import capital

if TYPE_CHECKING:
    from booklet.length import House
    from booklet.model import pattern as model
    from booklet.model.pattern import Pattern
    from booklet.plan.write import Writer

NONE = "—"
# Where the writer counts nothing, as of thread: that the view needs it at all.
NEEDED = "✓"


def notions_of(pattern: Pattern, views: tuple[str, ...], writer: Writer) -> list[Notion]:
    """Those that one of these views needs, in the order of the source."""
    notions = []
    for written in pattern.notions:
        by_view = {view: _amount(written, view, pattern.house) for view in views}
        if any(amount != _said(NONE) for amount in by_view.values()):
            notions.append(Notion(_item(written, pattern.house), by_view, writer.prose(written.note)))
    return notions


def _item(written: model.Notion, house: House) -> Prose:
    name = Span("text", capital(written.item))
    if written.size is None:
        return (Block("paragraph", (name,)),)
    size = measure_span(pair(written.size.length, house))
    return (Block("paragraph", (Span("text", f"{name.text}, "), size)),)


def _amount(written: model.Notion, view: str, house: House) -> Prose:
    if view not in written.scope.views:
        return _said(NONE)
    count = written.count_for(view)
    length = written.length.get(view, written.length.get(""))
    if count is None and length is None:
        return _said(NONE if written.count or written.length else NEEDED)
    if count == 0:
        return _said(NONE)
    if length is None:
        return _said(str(count))
    span = measure_span(pair(length.length, house))
    many = (Span("text", f"{count} of "),) if count is not None and count != 1 else ()
    return (Block("paragraph", (*many, span)),)


def _said(words: str) -> Prose:
    return (Block("paragraph", (Span("text", words),)),)

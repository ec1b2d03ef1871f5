"""Prose and measures -> HTML that is safe to place in a page: everything a writer wrote is escaped."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import groupby

from markupsafe import Markup, escape

from booklet.length import GLYPHS, INCH_UNITS, Spelled
from booklet.plan.prose import Block, Measure, Prose, Span

_LIST_TAGS = {"bullet": "ul", "number": "ol"}


def prose_html(prose: Prose, anchors: Mapping[str, str]) -> Markup:
    """Paragraphs and lists. `anchors`: a step's id -> the id of its element; a step that has none gets no link."""
    return Markup("\n").join(
        _list(kind, list(blocks), anchors) if kind in _LIST_TAGS else _paragraphs(blocks, anchors)
        for kind, blocks in groupby(prose, key=lambda block: block.kind)
    )


def _paragraphs(blocks: Iterable[Block], anchors: Mapping[str, str]) -> Markup:
    return Markup("\n").join(Markup("<p>{}</p>").format(spans_html(block.spans, anchors)) for block in blocks)


def _list(kind: str, blocks: list[Block], anchors: Mapping[str, str]) -> Markup:
    item = {"bullet": Markup("<li>{}</li>"), "number": Markup('<li value="{}">{}</li>')}[kind]
    items = Markup("\n").join(
        item.format(*([block.ordinal] if kind == "number" else []), spans_html(block.spans, anchors))
        for block in blocks
    )
    return Markup("<{0}>\n{1}\n</{0}>").format(_LIST_TAGS[kind], items)


def inline_html(prose: Prose, anchors: Mapping[str, str]) -> Markup:
    """The same words in one run, for a cell or after a lead word; paragraphs are parted by a blank."""
    return Markup(" ").join(spans_html(block.spans, anchors) for block in prose)


def spans_html(spans: Sequence[Span], anchors: Mapping[str, str]) -> Markup:
    return Markup("").join(_span(span, anchors) for span in spans)


def _span(span: Span, anchors: Mapping[str, str]) -> Markup:
    match span.kind:
        case "emphasis":
            return Markup("<em>{}</em>").format(span.text)
        case "strong":
            return Markup("<strong>{}</strong>").format(span.text)
        case "measure" if span.measure is not None:
            return measure_html(span.measure)
        case "step" if span.target in anchors:
            return Markup('<a class="step-number" href="#{}">{}</a>').format(anchors[span.target], span.text)
        case "step":
            return Markup('<span class="step-number">{}</span>').format(span.text)
        case "piece":
            # A piece's number stays on the line of the word before it.
            start = span.text.rfind(" ", 0, span.text.rfind(" ")) + 1
            return Markup('{}<span class="piece">{}</span>').format(span.text[:start], span.text[start:])
        case _:
            return escape(span.text)


def measure_html(measure: Measure) -> Markup:
    """`⅝ in` semi-bold, then `(1.5 cm)`; the style sheet keeps each whole on one line."""
    first = spelled_html(measure.first)
    if measure.other is None:
        return Markup('<span class="measure"><b>{}</b></span>').format(first)
    return Markup('<span class="measure pair"><b class="{}">{}</b>{}</span>').format(
        system(measure.first), first, other_html(measure.other, spelled_html(measure.other))
    )


def other_html(other: Spelled, words: Markup, before: str | Markup = " (", after: str = ")") -> Markup:
    """What follows the first measure of a pair. A page that shows one system alone hides the other, and every `<i>`."""
    return Markup('<span class="{}"><i>{}</i>{}<i>{}</i></span>').format(system(other), before, words, after)


def system(spelled: Spelled) -> str:
    """As a class: a pair holds one element of each system."""
    return "inch" if spelled.unit in INCH_UNITS else "metric"


def spelled_html(spelled: Spelled) -> Markup:
    """With the type's own fraction glyph, or its `frac` feature where it has no glyph."""
    return Markup("{}\N{NO-BREAK SPACE}{}").format(amount_html(spelled), spelled.unit)


def amount_html(spelled: Spelled) -> Markup:
    """The number of a measure without its unit."""
    if not spelled.top:
        return escape(spelled.whole)
    glyph = GLYPHS.get(Fraction(int(spelled.top), int(spelled.bottom)))
    if glyph:
        return escape(spelled.whole + glyph)
    # The narrow blank keeps 1 3⁄16 from being read, or copied, as 13⁄16.
    whole = f"{spelled.whole}\N{NARROW NO-BREAK SPACE}" if spelled.whole else ""
    return Markup('{}<span class="frac">{}⁄{}</span>').format(whole, spelled.top, spelled.bottom)


def view_words(letters: Sequence[str]) -> str:
    """`View A`, `Views A and C`, `Views A, B and D`."""
    if len(letters) == 1:
        return f"View {letters[0]}"
    return f"Views {', '.join(letters[:-1])} and {letters[-1]}" if letters else ""

"""Charts, fabric, notions and pieces -> tables ready to print: what stands in which cell, and how it is aligned."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple

from markupsafe import Markup, escape

from booklet.length import Spelled
from booklet.plan.plan import Chart, Fabric, FabricRow, Notion, PieceRow
from booklet.plan.prose import Measure
from booklet.publish.html import amount_html, inline_html, measure_html, other_html, spelled_html, system, view_words
from booklet.read.tree import same_name

# How many columns does a page carry before a table is turned? Our choice, by trial on A4 at 9.4 pt.
MOST_COLUMNS = 12
# How many amounts, each in both systems, fill a line of a turned fabric table? By the same trial.
MOST_AMOUNTS = 4

_NUMBER = re.compile(r"([0-9]+)?([½¼¾⅛⅜⅝⅞⅓⅔]|\.[0-9]+)?")


class Cell(NamedTuple):
    """kind: `column` and `row` for heads, `figure` for numbers, `words` for the rest."""

    kind: str
    html: Markup
    span: int = 1


class Table(NamedTuple):
    """kind: a class of the style sheet; labels: how many of the columns are no sizes. No head where none is needed."""

    kind: str
    head: tuple[Cell, ...]
    rows: tuple[tuple[Cell, ...], ...]
    labels: int = 1

    @property
    def columns(self) -> int:
        return max(sum(cell.span for cell in row) for row in (self.head, *self.rows))


def chart_tables(chart: Chart) -> list[Table]:
    """Sizes across; down where they are too many for that; in several tables where the measures are too many too.

    A pattern of one size has no head of sizes.
    """
    slot = _slot(text for _, texts in chart.rows for text in texts)
    sizes = [Cell("column", _number(size, "", slot)) for size in chart.sizes]
    cells = [[Cell("figure", _figure(text, slot)) for text in texts] for _, texts in chart.rows]
    labels = [escape(label) for label, _ in chart.rows]
    if not any(chart.sizes):
        return [Table("alone", (), tuple((Cell("row", label), *row) for label, row in zip(labels, cells, strict=True)))]
    if len(sizes) < MOST_COLUMNS:
        rows = tuple((Cell("row", label), *row) for label, row in zip(labels, cells, strict=True))
        return [Table("sized", (_head("Size"), *sizes), rows)]
    return [
        Table(
            "turned figures",
            (_head("Size"), *(Cell("column", label) for label in labels[run])),
            tuple((Cell("row", escape(size)), *(row[at] for row in cells[run])) for at, size in enumerate(chart.sizes)),
        )
        for run in _runs(len(labels), MOST_COLUMNS - 1)
    ]


def fabric_tables(fabric: Fabric, several_views: bool) -> list[Table]:
    """A row for each width and group of views; the amounts stand in the columns of the charts' sizes."""
    by_size = any(len(row.amounts) > 1 for row in fabric.rows)
    if by_size and len(fabric.sizes) >= MOST_COLUMNS:
        runs = _runs(len(fabric.rows), MOST_AMOUNTS)
        return [_turned_fabric(fabric, fabric.rows[run], several_views) for run in runs]
    sizes = fabric.sizes if by_size else ()
    slot = _slot(part for row in fabric.rows for amount in row.amounts for part in _both(amount))
    head = (_head("Size"), _head(""), *(Cell("column", _number(size, "", slot)) for size in sizes)) if sizes else ()
    rows = tuple(_fabric_row(row, len(sizes), slot, several_views) for row in fabric.rows)
    return [Table("sized fabric" if sizes else "list", head, rows, labels=2 if sizes else 1)]


def _fabric_row(row: FabricRow, sizes: int, slot: str, several_views: bool) -> tuple[Cell, ...]:
    label = Cell("row", _width_label(row, several_views))
    if len(row.amounts) == 1:
        return (label, Cell("words", measure_html(row.amounts[0]), sizes + 1))
    firsts = [amount.first for amount in row.amounts]
    others = [amount.other for amount in row.amounts if amount.other is not None]
    if len({first.unit for first in firsts}) > 1 or len({other.unit for other in others}) > 1:
        stacks = [_pair(amount, spelled_html) for amount in row.amounts]
        return (label, Cell("words", Markup("")), *(Cell("figure", stack) for stack in stacks))
    units = _pair(Measure(firsts[0], others[0] if others else None), lambda spelled: escape(spelled.unit))
    stacks = [_pair(amount, lambda spelled: _spelled_figure(spelled, slot)) for amount in row.amounts]
    return (label, Cell("words", units), *(Cell("figure", stack) for stack in stacks))


def _turned_fabric(fabric: Fabric, rows: Sequence[FabricRow], several_views: bool) -> Table:
    head = (_head("Size"), *(Cell("column", _width_label(row, several_views)) for row in rows))
    return Table(
        "turned",
        head,
        tuple(
            (
                Cell("row", escape(size)),
                *(Cell("words", measure_html(row.amounts[at if len(row.amounts) > 1 else 0])) for row in rows),
            )
            for at, size in enumerate(fabric.sizes)
        ),
    )


def _width_label(row: FabricRow, several_views: bool) -> Markup:
    """`45 in wide (115 cm)`, under its views where there are several."""
    first, other = row.width
    tag, before = ("span", Markup(" (")) if several_views else ("b", Markup("<br>("))
    width = Markup('<{0} class="{1}">{2}</{0}><{0}> wide</{0}>').format(tag, system(first), spelled_html(first))
    if other is not None:
        width += other_html(other, spelled_html(other), before)
    label = Markup('<span class="{}">{}</span>').format("width pair" if other else "width", width)
    return Markup("<b>{}</b><br>{}").format(view_words(row.views), label) if several_views else label


def notion_table(notions: Sequence[Notion], letters: Sequence[str], anchors: Mapping[str, str]) -> Table:
    """How many of each by view; the views in one cell where they are too many for columns."""
    across = len(letters) < MOST_COLUMNS
    heads = [_head(letter) for letter in letters] if across and len(letters) > 1 else [_head("How many")]
    rows = []
    for notion in notions:
        item = inline_html(notion.item, anchors)
        if notion.note:
            item += Markup('<span class="note">{}</span>').format(inline_html(notion.note, anchors))
        counts = [inline_html(notion.by_view.get(letter, ()), anchors) or Markup("—") for letter in letters]
        if not across:
            pairs = zip(letters, counts, strict=True)
            counts = [Markup(", ").join(Markup("{}\N{NO-BREAK SPACE}{}").format(*pair) for pair in pairs)]
        rows.append((Cell("row", item), *(Cell("figure", count) for count in counts)))
    return Table("counts", (_head("Item"), *heads), tuple(rows))


def piece_table(
    pieces: Sequence[PieceRow], letters: Sequence[str], pictures: Mapping[str, Markup] | None = None
) -> Table:
    """Number, picture where there are any, name, how many to cut of each material, and the views, where there are
    several. pictures: by `same_name` of the piece."""
    materials = list(dict.fromkeys(material for piece in pieces for material, _ in piece.cuts))
    several = len(letters) > 1
    across = 2 + len(materials) + several <= MOST_COLUMNS // 2  # words are twice as wide as figures
    heads = [_head(material) for material in materials] if across else [_head("Cut")]
    rows = []
    for piece in pieces:
        cuts = dict(piece.cuts)
        if across:
            cells = [Cell("words", escape(cuts.get(material, "—"))) for material in materials]
        else:
            cells = [Cell("words", escape("; ".join(f"{material}, {count}" for material, count in piece.cuts)))]
        views = [Cell("words", marks_html(piece.views, letters))] if several else []
        seen = [Cell("words", pictures.get(same_name(piece.name), Markup("")))] if pictures else []
        rows.append((Cell("words", escape(piece.number)), *seen, Cell("row", escape(piece.name)), *cells, *views))
    labels = [_head(""), *([_head("")] if pictures else []), _head("Piece")]
    head = (*labels, *heads, *([_head("Views")] if several else []))
    return Table("pieces pictured" if pictures else "pieces", head, tuple(rows), len(labels))


def marks_html(views: Sequence[str], letters: Sequence[str]) -> Markup:
    """A square a view, always in the same order: filled with its letter when the view is meant, open when not."""
    filled, empty = Markup('<span class="mark in">{}</span>'), Markup('<span class="mark"></span>')
    squares = Markup(" ").join(filled.format(letter) if letter in views else empty for letter in letters)
    return Markup('<span class="marks">{}</span>').format(squares)


def _head(words: str) -> Cell:
    return Cell("column", escape(words))


def _pair(measure: Measure, spell: Callable[[Spelled], Markup]) -> Markup:
    """The first measure semi-bold, and the other under it."""
    first, other = measure
    cell = Markup('<b class="{}">{}</b>').format(system(first), spell(first))
    if other is not None:
        cell += other_html(other, spell(other), Markup("<br>"), "")
    return Markup('<span class="{}">{}</span>').format("stack pair" if other else "stack", cell)


def _both(measure: Measure) -> tuple[Spelled, ...]:
    return (measure.first,) if measure.other is None else (measure.first, measure.other)


def _figure(text: str, slot: str) -> Markup:
    match = _NUMBER.fullmatch(text)
    return _number(match[1] or "", match[2] or "", slot) if match and text else escape(text)


def _spelled_figure(spelled: Spelled, slot: str) -> Markup:
    if spelled.top:
        return _number(spelled.whole, amount_html(spelled._replace(whole="")), slot)
    return _figure(spelled.whole, slot)


def _number(whole: str, part: str | Markup, slot: str) -> Markup:
    """The whole number, then its fraction in a slot of one width, so that wholes stand under wholes."""
    if not slot:
        return Markup("{}{}").format(whole, part)
    return Markup('{}<span class="part {}">{}</span>').format(whole, slot, part)


def _slot(figures: Iterable[str | Spelled]) -> str:
    """The width that the widest fraction or decimal of a table needs: none, `narrow` or `broad`."""
    widest = 0
    for figure in figures:
        if isinstance(figure, Spelled) and figure.top:
            glyph = not amount_html(figure._replace(whole="")).startswith("<")
            widest = max(widest, 1 if glyph else 3)
            continue
        match = _NUMBER.fullmatch(figure.whole if isinstance(figure, Spelled) else figure)
        widest = max(widest, len(match[2] or "") if match else 0)
    return "" if not widest else "narrow" if widest <= 2 else "broad"


def _runs(count: int, most: int) -> list[slice]:
    return [slice(start, start + most) for start in range(0, count, most)]

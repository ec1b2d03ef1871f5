"""How much of which material a view takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.measures import measure_span, pair
from booklet.plan.plan import Fabric, FabricRow
from booklet.plan.prose import Span
from booklet.plan.write import one_line
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.length import House, Length
    from booklet.model.pattern import Material, Pattern
    from booklet.plan.write import Writer


def fabrics_of(pattern: Pattern, views: tuple[str, ...], writer: Writer) -> list[Fabric]:
    """Every material that these views take, in the order of the source."""
    fabrics = []
    for name, material in pattern.materials.items():
        rows = _rows(material, views, pattern.house, len(pattern.sizes))
        if rows or (not material.amounts and _is_cut(pattern, name, views)):
            fabrics.append(Fabric(one_line(material.name), writer.prose(material.suits), pattern.sizes, tuple(rows)))
    return fabrics


def _is_cut(pattern: Pattern, name: str, views: tuple[str, ...]) -> bool:
    return any(
        same_name(cut.material.value) == name
        for piece in pattern.pieces.values()
        if set(piece.scope.views) & set(views)
        for cut in piece.cuts
    )


def _rows(material: Material, views: tuple[str, ...], house: House, sizes: int) -> list[FabricRow]:
    """Views that take the same of one width share a row. By view where every width has the same sharers."""
    by_width: list[list[FabricRow]] = []
    for width, by_view in material.amounts:
        shared: dict[tuple[Length, ...], list[str]] = {}
        for letters, amounts in by_view:
            lengths = _by_size(tuple(amount.length for amount in amounts), sizes)
            shared.setdefault(lengths, []).extend(view for view in views if view in letters)
        rows = [
            FabricRow(
                tuple(view for view in views if view in mine),
                pair(width.length, house),
                tuple(pair(length, house) for length in lengths),
            )
            for lengths, mine in shared.items()
            if mine and lengths
        ]
        by_width.append(sorted(rows, key=lambda row: [views.index(view) for view in row.views]))
    if len({tuple(row.views for row in rows) for rows in by_width if rows}) == 1:
        return [row for same_views in zip(*filter(None, by_width), strict=True) for row in same_views]
    return [row for rows in by_width for row in rows]


def _by_size(lengths: tuple[Length, ...], sizes: int) -> tuple[Length, ...]:
    """One for all sizes where they are all the same; else one a size, the last standing for those not given."""
    if len(set(lengths)) < 2:
        return lengths[:1]
    return (*lengths, *[lengths[-1]] * (sizes - len(lengths)))[: max(sizes, 1)]


def amounts_of(fabric: Fabric) -> Iterator[tuple[Span, ...]]:
    """`1 5/8 yd (1.5 m) to 2 1/4 yd (2.1 m), by size, 60 in (150 cm) wide`, for each width."""
    for row in fabric.rows:
        first, last = row.amounts[0], row.amounts[-1]
        span = measure_span(first)
        many = (span,) if first == last else (span, Span("text", " to "), measure_span(last), Span("text", ", by size"))
        yield (*many, Span("text", ", "), measure_span(row.width), Span("text", " wide"))


def amounts_in_words(fabric: Fabric) -> Iterator[str]:
    """The same as words alone."""
    yield from ("".join(span.text for span in spans) for spans in amounts_of(fabric))

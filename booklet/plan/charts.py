"""Tables by size: as the writer gave them, and once more in the other system."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from booklet.length import MILLIMETRES, BadLength, Length, parse, spell
from booklet.plan.plan import Chart
from booklet.plan.write import capital, one_line

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.length import House
    from booklet.model import pattern as model
    from booklet.model.pattern import Pattern
    from booklet.plan.write import Writer

_OTHER = {"in": "cm", "cm": "in"}
_NUMBER = re.compile(r"[0-9¼½¾⅛⅜⅝⅞⅓⅔][0-9 ./⁄¼½¾⅛⅜⅝⅞⅓⅔-]*\Z")


def charts_of(pattern: Pattern, views: tuple[str, ...], writer: Writer) -> list[Chart]:
    """Each chart in its own unit, then in the other; its note stands under the second."""
    return [chart for written in pattern.charts if set(written.scope.views) & set(views)
            for chart in _both(written, pattern, views, writer)]  # fmt: skip


def _both(written: model.Chart, pattern: Pattern, views: tuple[str, ...], writer: Writer) -> Iterator[Chart]:
    columns = max([len(pattern.sizes), *(len(figures) for _, figures in written.rows)], default=0)
    sizes = (*pattern.sizes, *[""] * (columns - len(pattern.sizes)))
    mine = tuple(view for view in views if view in written.scope.views)
    unit = one_line(written.unit)
    title, note = capital(written.title), writer.prose(written.note)
    written_rows = [(one_line(label), [one_line(text.value) for text in figures]) for label, figures in written.rows]
    lengths = [(label, [_length(text, unit) for text in texts], texts) for label, texts in written_rows]
    converts = unit in _OTHER and any(length for _, row, _ in lengths for length in row)
    rows = tuple((label, _row(row, texts, columns)) for label, row, texts in lengths)
    yield Chart(title, unit, sizes, rows, () if converts else note, () if mine == views else mine)
    if converts:
        others = [(label, [_in_other(length, pattern.house) for length in row], texts) for label, row, texts in lengths]
        rows = tuple((label, _row(row, texts, columns)) for label, row, texts in others)
        yield Chart(title, _OTHER[unit], sizes, rows, note, () if mine == views else mine)


def _row(row: list[Length | None], texts: list[str], columns: int) -> tuple[str, ...]:
    """One text a size; what is no number stays as written, and what is not there is a dash."""
    figures = [_figure(length) if length else text for length, text in zip(row, texts, strict=True)]
    return (*figures, *["—"] * (columns - len(figures)))


def _length(text: str, unit: str) -> Length | None:
    if unit not in _OTHER or not _NUMBER.match(text):
        return None
    try:
        return parse(f"{text} {unit}")
    except BadLength:
        return None


def _in_other(length: Length | None, house: House) -> Length | None:
    """Rounded by the house, in inches or centimetres whatever unit the house writes."""
    if length is None:
        return None
    unit = _OTHER[length.unit]
    return Length(house.other(length).millimetres / MILLIMETRES[unit], unit)


def _figure(length: Length) -> str:
    return spell(length).typeset.partition("\N{NO-BREAK SPACE}")[0]

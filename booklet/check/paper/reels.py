"""How long what is cut from a reel is, as a chart or the list of notions says, and the casing into which it goes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.meant import is_on_both_sides
from booklet.check.notions import kind_of, meant
from booklet.check.paper.lengths import copies, fittings_of, run_of
from booklet.length import BadLength, parse
from booklet.read.tree import same_name
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.finding import Place
    from booklet.model.pattern import Chart, Notion
    from booklet.sew.bench import Act, Bench
    from booklet.shape.measure import Measures


class Threaded(NamedTuple):
    """An elastic or a cord and its casing in one size, in mm. exact: it is what is cut, not only what is bought."""

    size: str
    fitting: str
    cut: float
    casing: float
    exact: bool
    place: Place


def threaded(act: Act, kind: str, bench: Bench, measures: Measures) -> list[Threaded]:
    """In every size; empty where it is not of that kind (`elastic`, `cord`), or a length is not known.

    Without a row of cut lengths in a chart, what is bought is taken, for the largest size alone.
    """
    if act.entry.word is None or kind_of(act.entry.word.value) != kind or act.target is None or act.broken:
        return []
    edges = act.target.edges
    if not edges:
        return []
    each = min(map(copies, edges)) if all(is_on_both_sides(edge.called) for edge in edges) else 1
    row = _row(act, kind, bench)
    bought = meant(bench, act)
    found = []
    for fitting in fittings_of(edges, measures):
        run = run_of(edges, bench, measures, fitting)
        if run is None or None in run:
            return []
        casings = [(length or 0.0) / each for length in run]
        if row is not None:
            found += [
                Threaded(size, fitting, cut, casing, True, row[0])
                for size, cut, casing in zip(measures.sizes, row[1], casings, strict=True)
            ]
        elif len(bought) == 1 and (length := _bought(bought[0], bench.view.letter)) is not None:
            largest = max(casings)
            size = measures.sizes[casings.index(largest)]
            found.append(Threaded(size, fitting, length / each, largest, False, bought[0].place))
    return found


def _bought(notion: Notion, view: str) -> float | None:
    length = notion.length.get(view, notion.length.get(""))
    return float(length.length.millimetres) if length else None


def _row(act: Act, kind: str, bench: Bench) -> tuple[Place, list[float]] | None:
    """The one row of the charts that tells its cut length in every size."""
    rows = [found for chart in bench.pattern.charts for found in _rows_of(chart, kind, bench)]
    if len(rows) > 1 and act.target is not None:
        names = {word for edge in act.target.edges for word in same_name(edge.spec.name).split()}
        rows = [row for row in rows if names & set(same_name(row[2]).replace(",", " ").split())]
    return (rows[0][0], rows[0][1]) if len(rows) == 1 else None


def _rows_of(chart: Chart, kind: str, bench: Bench) -> Iterator[tuple[Place, list[float], str]]:
    if bench.view.letter not in chart.scope.views:
        return
    for name, values in chart.rows:
        words = set(same_name(name).replace(",", " ").split())
        if "cut" in words and any(kind_of(word) == kind for word in words):
            try:
                lengths = [float(parse(f"{value.value} {chart.unit}").millimetres) for value in values]
            except BadLength:
                continue
            if values and len(lengths) == len(bench.pattern.sizes):
                yield values[0].place, lengths, name

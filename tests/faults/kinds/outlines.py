"""Outlines that don't fit each other, in one size: put into what was measured on the demos' own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeVar

from booklet.shape.measure import EdgeSizes, Measures, NotchAt
from tests.faults.draft import Draft, measures_of
from tests.faults.fault import SAME, UNSURE, WRONG, Fault, kind
from tests.faults.kinds.sheet import edges
from tests.faults.sample import HEAD, Sample, leaves

Change = Callable[[EdgeSizes, int], EdgeSizes]
# What makes one side longer on purpose, or is turned or closed before it is sewn on: the tests can't tell there.
_FULLNESS = ("ease", "gather", "turn", "close", "hem")


_Value = TypeVar("_Value")


def _set(row: tuple[_Value, ...], at: int, value: _Value) -> tuple[_Value, ...]:
    return (*row[:at], value, *row[at + 1 :])


def _changed(measures: Measures, piece: str, edge: str, change: Change) -> Callable[[Draft], object]:
    """The edge in the middle one of the sizes, in every fitting and however the piece is cut."""

    def edit(draft: Draft) -> None:
        changed = Measures.__new__(Measures)
        changed.__dict__.update(measures.__dict__, known={})
        at = len(measures.sizes) // 2
        changed.rows = {
            key: {name: change(sizes, at) if (key[0], name) == (piece, edge) else sizes for name, sizes in row.items()}
            for key, row in measures.rows.items()
        }
        draft.measures = changed

    return edit


def _faults(sample: Sample, what: str, change: Change, verdict: Callable[[str, str], str]) -> Iterator[Fault]:
    measures = measures_of(sample.source.folder)
    for piece, edge, path in edges(sample) if measures else ():
        drawn = measures.edge(piece, edge, "", measures.fittings[0]) if measures else None
        if measures is None or drawn is None or change(drawn, len(measures.sizes) // 2) == drawn:
            continue
        told = verdict(piece, edge)
        if told:
            steps = frozenset(step for step, sides in _seams(sample) for side in sides if (piece, edge) in side)
            yield Fault(
                f"{piece}.{edge}: {what}",
                told,
                _changed(measures, piece, edge, change),
                steps,
                (sample.place(path), sample.place((HEAD, "pieces", piece))),
            )


Side = list[tuple[str, str]]


def _seams(sample: Sample) -> Iterator[tuple[str, list[Side]]]:
    """Every `sew`: its step, and its sides as pairs of piece and edge, those of made parts by the part's name."""
    for entry in sample.of("sew"):
        sides = [side if isinstance(side, list) else [side] for side in entry.value]
        yield (
            entry.step.id,
            [[(part, edge) for part, _, edge in (name.rpartition(".") for name in side)] for side in sides],
        )


def _plainly_joined(sample: Sample, piece: str, edge: str) -> bool:
    """Whether two woven pieces are sewn together there, each named as a piece, and neither is drawn up or finished."""
    pieces = sample.head["pieces"]
    kinds = {key: data["kind"] for key, data in sample.head["materials"].items()}
    busy = {text for entry in sample.of(*_FULLNESS) for _, text in leaves(entry.value)}
    for _, sides in _seams(sample):
        named = [name for side in sides for name in side]
        if (
            (piece, edge) in named
            and len(sides) == 2
            and set(sides[0]) != set(sides[1])
            and all(part in pieces for part, _ in named)
            and all(kinds[next(iter(pieces[part]["cut"]))] == "woven" for part, _ in named)
            and not any(part in busy or f"{part}.{edge}" in busy for part, edge in named)
        ):
            return True
    return False


def _is_sewn(sample: Sample, edge: str) -> bool:
    return any(name == edge for _, sides in _seams(sample) for side in sides for _, name in side)


@kind("an edge longer in one size")
def longer(sample: Sample) -> Iterator[Fault]:
    """By 2 cm. Wrong where it is sewn to another that is not."""

    def change(row: EdgeSizes, at: int) -> EdgeSizes:
        length = row.sewn[at]
        return row if length is None else row._replace(sewn=_set(row.sewn, at, length + 20.0))

    def verdict(piece: str, edge: str) -> str:
        if _plainly_joined(sample, piece, edge):
            return WRONG
        return UNSURE if _is_sewn(sample, edge) else ""

    yield from _faults(sample, "2 cm longer", change, verdict)


@kind("an edge half a millimetre longer in one size")
def hair(sample: Sample) -> Iterator[Fault]:
    def change(row: EdgeSizes, at: int) -> EdgeSizes:
        length = row.sewn[at]
        return row if length is None else row._replace(sewn=_set(row.sewn, at, length + 0.5))

    yield from _faults(sample, "0.5 mm longer", change, lambda *_: SAME)


@kind("a notch moved in one size")
def notch(sample: Sample) -> Iterator[Fault]:
    """By 12 mm, all of a double one. Wrong where it is sewn to another with notches; unsure at ends and elsewhere."""

    def change(row: EdgeSizes, at: int) -> EdgeSizes:
        length = row.sewn[at]
        if length is None or not row.notches[at]:
            return row
        moved = tuple(NotchAt(mark.place + 12.0, mark.kind) for mark in row.notches[at])
        return row._replace(notches=_set(row.notches, at, moved))

    measures = measures_of(sample.source.folder)

    def notches(piece: str, edge: str) -> int:
        row = measures.edge(piece, edge, "", measures.fittings[0]) if measures else None
        at = len(measures.sizes) // 2 if measures else 0
        if row is None or (length := row.sewn[at]) is None:
            return 0
        return sum(17 < mark.place < length - 17 for mark in row.notches[at])

    def verdict(piece: str, edge: str) -> str:
        for _, sides in _seams(sample):
            if [(piece, edge)] in sides and len(sides) == 2 and all(len(side) == 1 for side in sides):
                (other,) = next((side for side in sides if side != [(piece, edge)]), [(piece, edge)])
                if other[0] != piece and notches(piece, edge) and notches(*other) == notches(piece, edge):
                    return WRONG
        return UNSURE

    yield from _faults(sample, "its notches moved by 12 mm", change, verdict)


@kind("an allowance drawn otherwise in one size")
def allowance(sample: Sample) -> Iterator[Fault]:
    """Of 60 mm, all along the edge: wrong on every edge but a fold."""

    def change(row: EdgeSizes, at: int) -> EdgeSizes:
        return row._replace(drawn=_set(row.drawn, at, (60.0, 60.5)))

    def verdict(piece: str, edge: str) -> str:
        data = sample.head["pieces"][piece]["edges"][edge]
        is_fold = edge == "fold" or (isinstance(data, dict) and data.get("on") == "fold")
        return SAME if is_fold else WRONG

    yield from _faults(sample, "60 mm drawn", change, verdict)

"""Figures of what is let into a cloth or laid round its edge: bindings, plackets, welt pockets."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.laying import Laying, on_cloths
from booklet.plan.naming import listed
from booklet.plan.picture import Mark, StepFigure
from booklet.plan.picture_words import fits, sentence, things_of
from booklet.plan.write import one_line
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.sew.bench import Act, Bench, CutPiece


def bound(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """A bound edge, right side up; wrong side up where it is sewn down by hand."""
    laying = Laying(bench, act.time, drawn)
    if not act.edges or not laying.can_show(act.edges):
        return None
    by = act.entry.options.get("by")
    hand = by is not None and same_name(by.value) == "hand"
    face = "wrong" if hand else "right"
    laying.place_one_each(act.edges, face)
    width = act.entry.measure("width")
    marks = on_cloths(laying, "bind", act.edges, Mark("", 0, at=width, word="hand" if hand else ""))
    what = things_of([act]) if act.entry.things else listed(dict.fromkeys(edge.said for edge in act.edges))
    strip = act.entry.options.get("with")
    of = f" with the {one_line(strip.value)}" if strip is not None else ""
    return StepFigure(
        tuple(laying.cloths),
        (*marks, *laying.flaps()),
        sentence(
            f"{face} side up: {what} bound{of}{f', {width} wide' if width else ''}",
            "its inner fold sewn down by hand" if hand else "stitched close to the inner fold",
        ),
        fits(f"Bound, {'sewn down by hand' if hand else 'right side up'}"),
    )


def placket(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """A slit and its placket: a tower from the right side, any other from the wrong side."""
    kind = _kind(act, "slit")
    face = "right" if kind == "tower" else "wrong"
    laying = Laying(bench, act.time, drawn)
    cuts = _with_line(act, drawn)
    marks = [
        Mark("placket", laying.add(cut, face), (line,), word=kind)
        for cut, line in cuts
    ]  # fmt: skip
    if not marks:
        return None
    strip = act.entry.options.get("with")
    of = f" with the {one_line(strip.value)}" if strip is not None else ""
    done = "covered" if kind == "tower" else "bound" if of else "finished"
    return StepFigure(
        tuple(laying.cloths),
        tuple(marks),
        sentence(f"{face} side up: {things_of([act])} cut open and {done}{of}"),
        "Placket on the slit, right side up" if kind == "tower" else "Slit finished, wrong side up",
    )


def let_in(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """A welt, or two lips, on the marked line of a piece, right side up."""
    kind, on = _kind(act, "patch"), act.entry.options.get("on")
    part_name, _, line = one_line(on.value).partition(".") if on is not None else ("", "", "")
    part = bench.parts.get(same_name(part_name))
    if kind not in ("welt", "slash") or part is None or not line:
        return None
    laying = Laying(bench, act.time, drawn)
    marks = [
        Mark("welt", laying.add(cut, "right"), (same_name(line),), word=kind)
        for cut in part.cuts[:1]
        if same_name(cut.piece.name) in drawn
    ]
    if not marks:
        return None
    names = things_of([act])
    return StepFigure(
        tuple(laying.cloths),
        tuple(marks),
        sentence(f"right side up: {names} let in along the {line} of the {part_name}"),
        "Welt pocket, right side up" if kind == "welt" else "Slashed pocket, right side up",
    )


def _kind(act: Act, usual: str) -> str:
    kind = act.entry.options.get("kind")
    return same_name(kind.value) if kind is not None else usual


def _with_line(act: Act, drawn: frozenset[str]) -> Sequence[tuple[CutPiece, str]]:
    """The pieces that are slit, each once, with the edge or the marked line."""
    found = {edge.cut: edge.spec.name for edge in act.edges if same_name(edge.cut.piece.name) in drawn}
    for name in act.entry.things:
        for cut in act.cuts:
            lines = {same_name(line.value) for line in cut.piece.lines}
            if same_name(name.edge) in lines and same_name(cut.piece.name) in drawn:
                found.setdefault(cut, same_name(name.edge))
    return list(found.items())[:1]

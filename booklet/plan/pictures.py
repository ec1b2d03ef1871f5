"""What each step's figures show: acts that hands do in one go, on the cloths as they lie then."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.flat_pictures import flat
from booklet.plan.laying import turns_in
from booklet.plan.made_pictures import made
from booklet.plan.naming import listed
from booklet.plan.seam_pictures import CUTTING, sewn, sewn_before, stitched_on

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Mapping, Sequence

    from booklet.plan.picture import StepFigure
    from booklet.sew.bench import Act, Bench

# How many figures of the pieces stand beside one step? Our choice: what more a step needs is two steps.
MOST = 3
# Which can be spared first where there are more: what the section through the cloth, or the words, tell as well.
_SPARED = ("fuse", "finish", "mark", "turn in", "press")


def pictures_of(bench: Bench, acts: Sequence[Act], drawn: frozenset[str]) -> list[StepFigure]:
    """The figures of one step in one view, in the order of its work."""
    found: list[StepFigure] = []
    for group in _groups(acts):
        for figure in _figures(bench, group, drawn):
            both = _together(found[-1], figure) if found else None
            if both is not None:
                found[-1] = both
            elif not any(looks(figure) == looks(shown) for shown in found):
                found.append(figure)
    return _few(found)


def pictures_by_view(benches: Mapping[str, tuple[Bench, Sequence[Act]]], drawn: frozenset[str]) -> list[StepFigure]:
    """The figures of one step in all views that sew it; where they differ to the eye, with the views' letters."""
    shown: dict[Hashable, StepFigure] = {}
    views: dict[Hashable, list[str]] = {}
    for letter, (bench, acts) in benches.items():
        for figure in pictures_of(bench, acts, drawn):
            shown.setdefault(looks(figure), figure)
            views.setdefault(looks(figure), []).append(letter)
    found = []
    for look, figure in shown.items():
        if len(views[look]) < len(benches):
            many = "Views" if len(views[look]) > 1 else "View"
            lead = f"{many} {listed(views[look])}: "
            figure = figure._replace(caption=f"{lead}{figure.caption[0].lower()}{figure.caption[1:]}",
                                     shows=f"{lead}{figure.shows[0].lower()}{figure.shows[1:]}")  # fmt: skip
        found.append(figure)
    return found[: MOST + 1]


def looks(figure: StepFigure) -> Hashable:
    """What the eye sees of a figure, whichever the pieces are: two that look alike are one."""
    cloths = tuple(
        (cloth.how, cloth.face, cloth.cloth, cloth.fused, bool(cloth.halved), len(cloth.meets))
        for cloth in figure.cloths
        if not cloth.quiet
    )
    marks = tuple(
        (mark.kind, mark.cloth, len(mark.edges), mark.at, mark.more, mark.word, mark.many)
        for mark in figure.marks
        if mark.kind not in ("notches", "flap")
    )
    return cloths, marks


def _figures(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> list[StepFigure]:
    act = group[0]
    if act.name == "sew" or (act.name == "baste" and len(act.sides) > 1):
        return sewn(bench, group, drawn) if len(act.sides) > 1 and all(act.sides) else []
    if act.name in ("turn", "close", "slipstitch", "tack"):
        return made(bench, group, drawn)
    if act.seam is not None and (act.name in CUTTING or act.name in ("press", "understitch", "finish")):
        return sewn_before(bench, group, drawn)
    if act.seam is not None and act.name in ("topstitch", "edgestitch", "stitch in the ditch"):
        figure = stitched_on(bench, act, drawn)
        return [figure] if figure is not None else flat(bench, group, drawn)
    return flat(bench, group, drawn)


def _groups(acts: Sequence[Act]) -> Iterator[list[Act]]:
    """Acts that one figure can show: a seam with what is cut and pressed of it; or like things done to flat pieces."""
    group: list[Act] = []
    for act in acts:
        if act.broken:
            continue
        if group and _goes_with(group, act):
            group.append(act)
            continue
        if group:
            yield group
        group = [act]
    if group:
        yield group


def _goes_with(group: Sequence[Act], act: Act) -> bool:
    first = group[0]
    if act.name in CUTTING or act.name in ("press", "understitch", "finish"):
        if act.seam is not None:
            return act.seam is first.seam
        if turns_in(act):
            return turns_in(first)
    return (
        act.name == first.name
        and act.name in ("staystitch", "mark", "cut", "fuse", "finish")
        and first.entry.measure("at") == act.entry.measure("at")
    )


def _together(one: StepFigure, two: StepFigure) -> StepFigure | None:
    """Two seams that fold one piece in the same way, a band's two ends, as one figure."""
    if len(one.cloths) != 1 or len(two.cloths) != 1 or not one.cloths[0].halved or not two.cloths[0].halved:
        return None
    first, second = (figure.cloths[0]._replace(halved=(), sewn=()) for figure in (one, two))
    if first != second:
        return None
    kinds = [mark.kind for mark in one.marks if mark.kind != "notches"]
    if kinds != [mark.kind for mark in two.marks if mark.kind != "notches"]:
        return None
    return one._replace(marks=(*one.marks, *two.marks))


def _few(found: list[StepFigure]) -> list[StepFigure]:
    for kind in _SPARED:
        for figure in list(found):
            if len(found) > MOST and all(mark.kind in (kind, "flap") for mark in figure.marks):
                found.remove(figure)
    return found[:MOST]

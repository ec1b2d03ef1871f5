"""A step, a piece or a notion for the wrong views."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tests.faults.draft import Draft
from tests.faults.edits import dropped, put
from tests.faults.fault import UNSURE, WRONG, Fault, kind
from tests.faults.garment import CLOSING
from tests.faults.kinds.names import misspelt
from tests.faults.sample import HEAD, Sample, StepAt


def _does(sample: Sample, step: StepAt) -> set[str]:
    return {entry.operation for entry in sample.entries if entry.step is step}


def _touched(sample: Sample, step: StepAt) -> set[str]:
    return set().union(*({piece for piece, _ in sewn.edges.get(step.number, ())} for sewn in sample.sewn.values()))


def _rescoped(sample: Sample, step: StepAt, data: dict[str, Any], verdict: str, where: str) -> Fault:
    """The step with other `for` and `not for`; those that do the same work in other views are its counterparts."""

    def edit(draft: Draft) -> None:
        for key in ("for", "not for"):
            if key in data:
                draft.put((*step.path, key), data[key])
            elif key in step.data:
                draft.drop((*step.path, key))

    mine = _touched(sample, step)
    others = {other.id for other in sample.steps if mine & _touched(sample, other)}
    spots = (sample.place(step.path), *sample.piece_places(mine))
    return Fault(where, verdict, edit, frozenset({step.id, *others}), spots)


def _letters(views: set[str]) -> str:
    return ", ".join(sorted(views))


@kind("`for` of a step left out")
def for_dropped(sample: Sample) -> Iterator[Fault]:
    """Wrong where its edges are closed by another step in the other views, or its pieces are not cut there."""
    every = set(sample.head["views"])
    for step in sample.steps:
        if "for" not in step.data and "not for" not in step.data:
            continue
        new = every - sample.views(step.data)
        pieces = _touched(sample, step)
        not_cut = any(not new <= sample.views(sample.head["pieces"][piece]) for piece in pieces)
        mine = [sewn for sewn in sample.sewn.values() if step.number in sewn.whole]
        edges = {edge for sewn in mine for edge, at in sewn.closed.items() if at == step.number}
        twice = any(edge in sample.sewn[view].closed for view in new for edge in edges)
        verdict = WRONG if not_cut or twice else UNSURE
        yield _rescoped(sample, step, {}, verdict, f"“{step.id}”")


@kind("a step for the other view")
def for_another(sample: Sample) -> Iterator[Fault]:
    every = set(sample.head["views"])
    for step in sample.steps:
        views = sample.views(step.data)
        if views < every:
            verdict = WRONG if _does(sample, step) & set(CLOSING) else UNSURE
            yield _rescoped(sample, step, {"for": _letters(every - views)}, verdict, f"“{step.id}”")


@kind("a step of all views for one")
def narrowed(sample: Sample) -> Iterator[Fault]:
    every = sorted(sample.head["views"])
    for step in sample.steps:
        if len(every) > 1 and sample.views(step.data) == set(every):
            needed = _does(sample, step) & {*CLOSING, "fuse", "dart"} and step.data.get("optional") != "true"
            yield _rescoped(sample, step, {"for": every[0]}, WRONG if needed else UNSURE, f"“{step.id}”")


@kind("`for` of a step misspelt")
def misspelt_for(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        for key in ("for", "not for"):
            if key in step.data and len(step.data[key]) > 1:
                yield _rescoped(sample, step, {key: misspelt(step.data[key])}, WRONG, f"“{step.id}”")


@kind("`optional` on a step that the garment needs")
def made_optional(sample: Sample) -> Iterator[Fault]:
    """Not told where it only sews a dart or a pocket: a garment can be sewn without, and leaving it be is a choice."""
    for step in sample.steps:
        if "optional" not in step.data and _does(sample, step) & {*CLOSING, "dart"}:
            choice = not _does(sample, step) & {*CLOSING} - {"pocket"}
            mine = _touched(sample, step)
            others = {other.id for other in sample.steps if mine & _touched(sample, other)}
            yield Fault(
                f"“{step.id}”",
                UNSURE if choice else WRONG,
                put((*step.path, "optional"), "true"),
                frozenset({step.id, *others}),
                sample.piece_places(mine),
            )


def _users(sample: Sample, piece: str) -> frozenset[str]:
    return frozenset(
        step.id for step in sample.steps if piece in _touched(sample, step) or piece in str(step.data.get("work"))
    )


@kind("`for` of a piece left out")
def piece_for_dropped(sample: Sample) -> Iterator[Fault]:
    for piece, data in sample.head["pieces"].items():
        if "for" in data:
            path = (HEAD, "pieces", piece)
            yield Fault(
                piece,
                WRONG,
                dropped((*path, "for")),
                _users(sample, piece),
                (sample.place(path),),
            )


@kind("a piece for the other view")
def piece_for_another(sample: Sample) -> Iterator[Fault]:
    every = set(sample.head["views"])
    for piece, data in sample.head["pieces"].items():
        views = sample.views(data)
        others = every - views or {sorted(every)[0]}
        if others != every:
            path = (HEAD, "pieces", piece)
            yield Fault(
                piece,
                WRONG,
                put((*path, "for"), _letters(others)),
                _users(sample, piece),
                (sample.place(path),),
            )


@kind("a word of a view left out")
def view_word(sample: Sample) -> Iterator[Fault]:
    used = str([step.data.get("for", "") + " " + step.data.get("not for", "") for step in sample.steps])
    used += str([data.get("for", "") for data in sample.head["pieces"].values()])
    for letter, view in sample.head["views"].items():
        for index, word in enumerate(view.get("with", ())):
            if word not in used:
                continue
            steps = {s.id for s in sample.steps if word in s.data.get("for", "") + s.data.get("not for", "")}
            pieces = {p for p, data in sample.head["pieces"].items() if word in data.get("for", "")}
            named = {step.id for step in sample.steps if any(piece in str(step.data) for piece in pieces)}
            yield Fault(
                f"{letter}: {word}",
                WRONG,
                dropped((HEAD, "views", letter, "with", index)),
                frozenset(steps | named),
                (sample.place((HEAD, "views", letter)), *sample.piece_places(pieces)),
            )


@kind("count of a notion for one view left out")
def notion_view(sample: Sample) -> Iterator[Fault]:
    for index, notion in enumerate(sample.head.get("notions", ())):
        for view in notion["count"] if isinstance(notion.get("count"), dict) else ():
            path = (HEAD, "notions", index)
            users = {
                entry.step.id for entry in sample.entries if entry.data.get("notion", entry.value) == notion["item"]
            }
            yield Fault(
                f"{notion['item']}: {view}",
                WRONG,
                dropped((*path, "count", view)),
                frozenset(users),
                (sample.place(path),),
            )

"""A step, an entry or a key is left out, or stands there twice."""

from __future__ import annotations

from collections.abc import Iterator

from tests.faults.draft import Draft
from tests.faults.edits import doubled, dropped
from tests.faults.fault import SAME, UNSURE, WRONG, Fault, kind
from tests.faults.garment import CLOSING, neighbours, same
from tests.faults.sample import EntryAt, Sample, StepAt, leaves

# Without these the garment lacks something, whatever else is done.
NEEDED = (*CLOSING, "fuse", "dart", "insert", "buttonhole", "button", "snap", "hook", "turn")


def _around(sample: Sample, step: StepAt) -> frozenset[str]:
    """The step, and those that work on the same pieces: what is gone can only be missed where it would have served."""
    found = {step.id}
    for sewn in sample.sewn.values():
        pieces = {piece for piece, _ in sewn.edges.get(step.number, ())} or sewn.whole.get(step.number, set())
        made = same(str(step.data.get("makes", "")))
        for number in sewn.steps:
            if pieces & {piece for piece, _ in sewn.edges[number]} or (made and made in sewn.named[number]):
                found.add(sample.steps[number].id)
    return frozenset(found)


def _pieces(sample: Sample, step: StepAt) -> set[str]:
    found: set[str] = set()
    for sewn in sample.sewn.values():
        found |= {piece for piece, _ in sewn.edges.get(step.number, ())} or sewn.whole.get(step.number, set())
    return found


def _notions(sample: Sample) -> tuple[tuple[str | int, ...], ...]:
    return (("pattern.yaml", "notions"),) if "notions" in sample.head else ()


def _gone(sample: Sample, step: StepAt, verdict: str, edit: object, where: str) -> Fault:
    spots = sample.piece_places(_pieces(sample, step)) + tuple(sample.place(path) for path in _notions(sample))
    return Fault(where, verdict, edit, _around(sample, step), spots)  # type: ignore[arg-type]


@kind("step left out")
def step(sample: Sample) -> Iterator[Fault]:
    for one in sample.steps:
        if one.data.get("optional") == "true":
            continue
        does = {entry.operation for entry in sample.entries if entry.step is one}
        verdict = WRONG if does & set(NEEDED) else UNSURE
        yield _gone(sample, one, verdict, dropped(one.path), f"“{one.id}”")


@kind("optional step left out (the same garment)")
def optional(sample: Sample) -> Iterator[Fault]:
    for one in sample.steps:
        if one.data.get("optional") == "true":
            others = list(sample.plain.values())
            spoken = f"step: {one.id}}}" in str(others) or any(
                same(word) in (same(one.id), f"after {same(one.id)}", f"before {same(one.id)}")
                for data in others
                for path, word in leaves(data)
                if {"after", "when"} & set(path)
            )
            yield Fault(f"“{one.id}”", UNSURE if spoken else SAME, dropped(one.path))


@kind("step there twice, with one id")
def twice(sample: Sample) -> Iterator[Fault]:
    for one in sample.steps:
        yield Fault(
            f"“{one.id}”",
            WRONG,
            doubled(one.path),
            frozenset({one.id}),
            (sample.place(one.path),),
        )


@kind("step there twice, under two ids")
def twice_anew(sample: Sample) -> Iterator[Fault]:
    for one in sample.steps:
        does = {entry.operation for entry in sample.entries if entry.step is one}
        again = {**one.data, "id": f"{one.id} again"}

        def edit(draft: Draft, one: StepAt = one, again: dict[str, object] = again) -> None:
            file, key, index = one.path
            draft.insert((file, key, int(index) + 1), again)

        verdict = WRONG if does & set(CLOSING) else UNSURE
        yield Fault(f"“{one.id}”", verdict, edit, frozenset({one.id, f"{one.id} again"}))


def _entry_dropped(sample: Sample, entry: EntryAt, verdict: str) -> Fault:
    def edit(draft: Draft) -> None:
        if len(entry.step.data["work"]) == 1:
            draft.drop((*entry.step.path, "work"))
        else:
            draft.drop(entry.path)

    return _gone(sample, entry.step, verdict, edit, f"“{entry.step.id}”: {entry.operation} {_short(entry.value)}")


def _short(value: object) -> str:
    text = str(value).replace("'", "")
    return text if len(text) < 60 else text[:57] + "…"


def _enter(name: str, *operations: str, verdict: str = WRONG) -> None:
    @kind(name)
    def faults(sample: Sample) -> Iterator[Fault]:
        for entry in sample.of(*operations):
            optional = entry.step.data.get("optional") == "true"
            yield _entry_dropped(sample, entry, UNSURE if optional else verdict)


_enter("seam left out", "sew")
_enter("hem left out", "hem")
_enter("casing left out", "casing")
_enter("closing of an edge left out", "close")
_enter("zipper left out", "zipper")
_enter("binding left out", "bind")
_enter("pocket left out", "pocket")
_enter("fusing left out", "fuse")
_enter("dart left out", "dart")
_enter("turning left out", "turn")
_enter("elastic or cord left out", "insert")
_enter("buttonholes left out", "buttonhole")
_enter("buttons, snaps or hooks left out", "button", "snap", "hook")
_enter("gathering or easing left out", "gather", "ease")
_enter("cutting along a line left out", "cut")
_enter("staystitching left out", "staystitch", verdict=UNSURE)
_enter("finishing left out", "finish", verdict=UNSURE)
_enter("topstitching left out", "topstitch", "edgestitch", verdict=UNSURE)
_enter("understitching left out", "understitch", verdict=UNSURE)
_enter("tacking, marking or trying on left out", "tack", "mark", "try on", "press part", verdict=UNSURE)


@kind("basting left out")
def basting(sample: Sample) -> Iterator[Fault]:
    """Wrong where an edge is held by nothing else: it then hangs loose."""
    for entry in sample.of("baste"):
        loose = False
        for sewn in sample.sewn.values():
            edges = sewn.edges.get(entry.step.number, set())
            loose = loose or any(edge not in sewn.closed for edge in edges)
        yield _entry_dropped(sample, entry, WRONG if loose else UNSURE)


@kind("trimming or grading left out before turning")
def trimming(sample: Sample) -> Iterator[Fault]:
    """Trim enclosed seams before the part is turned: Goodheart-Willcox (2012), p. 451."""
    for entry in sample.of("trim", "grade"):
        numbers = [other.step.number for other in sample.of("turn")]
        mine = _pieces(sample, entry.step)
        turned = any(at >= entry.step.number and mine & _pieces(sample, sample.steps[at]) for at in numbers)
        yield _entry_dropped(sample, entry, WRONG if turned and entry.step.number in numbers else UNSURE)


@kind("clipping or notching of an enclosed curve left out")
def clipping(sample: Sample) -> Iterator[Fault]:
    """Clip inward curves and notch outward ones of enclosed seams: Goodheart-Willcox (2012), p. 452."""
    for entry in sample.of("clip", "notch"):
        curved = any(
            isinstance(data := sample.head["pieces"][piece]["edges"][edge], dict) and "curve" in data
            for sewn in sample.sewn.values()
            for piece, edge in sewn.edges.get(entry.step.number, ())
        )
        later = {
            o.step.number
            for o in sample.of("turn", "understitch")
            if _pieces(sample, o.step) & _pieces(sample, entry.step)
        }
        enclosed = curved and any(number >= entry.step.number for number in later)
        yield _entry_dropped(sample, entry, WRONG if enclosed and entry.value.startswith("every") else UNSURE)


_LAYS_FLAT = ("press", "topstitch", "edgestitch", "understitch")


@kind("pressing of a crossed seam left out")
def pressing(sample: Sample) -> Iterator[Fault]:
    """A seam is pressed before another crosses it: Oregon State Univ. Ext. 4-H 320-14 (2014).

    It can't be told where the step goes on to press again, or to stitch the allowances down: that lays it flat too.
    """
    before: EntryAt | None = None
    for entry in sample.entries:
        if entry.operation == "sew":
            before = entry
        elif entry.operation == "press" and "of" not in entry.data and before and before.step is entry.step:
            crossed = any(
                sewn.seamed.get(beside, -1) > entry.step.number
                for sewn in sample.sewn.values()
                for edge in sewn.edges.get(entry.step.number, ())
                if sewn.seamed.get(edge) == entry.step.number
                for beside in neighbours(sample, edge)
            )
            after = sample.entries[sample.entries.index(entry) + 1 :]
            again = any(one.step is entry.step and one.operation in _LAYS_FLAT for one in after)
            yield _entry_dropped(sample, entry, WRONG if crossed and not again else UNSURE)


@kind("seam, hem or closing there twice")
def entry_twice(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("sew", "hem", "casing", "close", "zipper", "bind"):
        yield Fault(
            f"“{entry.step.id}”: {entry.operation} {_short(entry.value)}",
            WRONG,
            doubled(entry.path),
            frozenset({entry.step.id}),
        )


@kind("`makes` left out")
def makes(sample: Sample) -> Iterator[Fault]:
    """Wrong where the part is then made by no step; where it is made again later, or never named, it may do no harm."""
    for one in sample.steps:
        if "makes" not in one.data:
            continue
        part = same(one.data["makes"])
        alone = any(
            sewn.makers.get(part) == [one.number] and any(part in sewn.named[n] for n in sewn.steps if n > one.number)
            for sewn in sample.sewn.values()
        )
        yield _gone(
            sample,
            one,
            WRONG if alone else UNSURE,
            dropped((*one.path, "makes")),
            f"“{one.id}”: {part}",
        )


@kind("`uses` left out")
def uses(sample: Sample) -> Iterator[Fault]:
    for one in sample.steps:
        if "uses" in one.data:
            yield _gone(sample, one, UNSURE, dropped((*one.path, "uses")), f"“{one.id}”")


@kind("a needed key of a step left out")
def needed_key(sample: Sample) -> Iterator[Fault]:
    for one in sample.steps:
        for key in ("id", "title"):
            yield Fault(
                f"“{one.id}”: {key}",
                WRONG,
                dropped((*one.path, key)),
                frozenset({one.id}),
                (sample.place(one.path),),
            )


@kind("one edge left out of several")
def edge_of_several(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("hem", "close", "zipper", "fuse"):
        for index in range(len(entry.value)) if isinstance(entry.value, list) and len(entry.value) > 1 else ():
            yield _gone(
                sample,
                entry.step,
                WRONG,
                dropped((*entry.path, entry.operation, index)),
                f"“{entry.step.id}”: {entry.value[index]}",
            )
    for entry in sample.of("sew"):
        for side, edges in enumerate(entry.value):
            for index in range(len(edges)) if isinstance(edges, list) and len(edges) > 1 else ():
                yield _gone(
                    sample,
                    entry.step,
                    WRONG,
                    dropped((*entry.path, "sew", side, index)),
                    f"“{entry.step.id}”: {edges[index]}",
                )

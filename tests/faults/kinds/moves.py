"""A step earlier or later than it can be."""

from __future__ import annotations

from collections.abc import Iterator

from tests.faults.draft import Draft
from tests.faults.edits import put
from tests.faults.fault import UNSURE, WRONG, Fault, kind
from tests.faults.garment import neighbours, same
from tests.faults.sample import Sample


def moved(sample: Sample, number: int, past: int) -> Fault:
    """The step `number` stands just before the step `past`, or just after it where that is later."""
    step, other = sample.steps[number], sample.steps[past]
    later = past > number

    def edit(draft: Draft) -> None:
        node = draft.get(step.path)
        file, key, index = other.path
        draft.insert((file, key, int(index) + later), node)
        own = int(step.path[2]) + (not later and step.path[0] == file)
        draft.drop((*step.path[:2], own))

    where = f"“{step.id}” to {'after' if later else 'before'} “{other.id}”"
    return Fault(where, WRONG, edit, frozenset({step.id, other.id}))


def _pairs(sample: Sample) -> Iterator[tuple[int, int]]:
    """(maker, user): the first step that makes a part, and each that names it before it is made anew."""
    for sewn in sample.sewn.values():
        for part, makers in sewn.makers.items():
            if part in {same(piece) for piece in sample.head["pieces"]}:
                continue
            end = makers[1] if len(makers) > 1 else 10**6
            for number in sewn.steps:
                if makers[0] < number <= end and part in sewn.named[number]:
                    yield makers[0], number


@kind("step moved before the maker of a part it names")
def user_too_early(sample: Sample) -> Iterator[Fault]:
    for maker, user in sorted(set(_pairs(sample))):
        yield moved(sample, user, maker)


@kind("maker of a part moved after a step that names it")
def maker_too_late(sample: Sample) -> Iterator[Fault]:
    for maker, user in sorted(set(_pairs(sample))):
        yield moved(sample, maker, user)


def _rows(sample: Sample, operation: str) -> Iterator[Fault]:
    found = set()
    for entry in sample.of(operation):
        number = entry.step.number
        alone = all(other.operation in (operation, "press") for other in sample.entries if other.step.number == number)
        for sewn in sample.sewn.values() if alone else ():
            for edge in sewn.edges.get(number, ()):
                after = sewn.seamed.get(edge, -1)
                if after > number:
                    found.add((number, after))
    for number, after in sorted(found):
        yield moved(sample, number, after)


@kind("staystitching moved after the seam on its edge")
def staystitch(sample: Sample) -> Iterator[Fault]:
    """Staystitch at once after cutting: Guideline 11.135."""
    yield from _rows(sample, "staystitch")


@kind("gathering moved after the seam on its edge")
def gather(sample: Sample) -> Iterator[Fault]:
    yield from _rows(sample, "gather")


@kind("cutting along a line moved after the seam on its edge")
def cut(sample: Sample) -> Iterator[Fault]:
    found = set()
    for entry in sample.of("cut"):
        number = entry.step.number
        for sewn in sample.sewn.values():
            found |= {
                (number, sewn.closed[edge]) for edge in sewn.edges.get(number, ()) if sewn.closed.get(edge, -1) > number
            }
    for number, after in sorted(found):
        yield moved(sample, number, after)


@kind("basting moved after the seam on its edge")
def baste(sample: Sample) -> Iterator[Fault]:
    yield from _rows(sample, "baste")


@kind("fusing moved after a seam on its piece")
def fuse(sample: Sample) -> Iterator[Fault]:
    """Interface a part before it is assembled: the unit method."""
    found = set()
    for entry in sample.of("fuse"):
        number = entry.step.number
        alone = all(other.operation == "fuse" for other in sample.entries if other.step.number == number)
        names = entry.value if isinstance(entry.value, list) else [entry.value]
        pieces = {same(name) for name in names}
        for sewn in sample.sewn.values() if alone else ():
            later = [at for (piece, _), at in sewn.seamed.items() if same(piece) in pieces and at > number]
            if later and number in sewn.whole:
                found.add((number, min(later)))
    for number, after in sorted(found):
        yield moved(sample, number, after)


@kind("dart moved after the seam that crosses it")
def dart(sample: Sample) -> Iterator[Fault]:
    """Goodheart-Willcox (2012), p. 468."""
    found = set()
    for entry in sample.of("dart"):
        piece, _, name = entry.value.partition(".") if isinstance(entry.value, str) else ("", "", "")
        darts = sample.head["pieces"].get(piece, {}).get("darts", {})
        crosses = darts[name]["crosses"] if name in darts else []
        for edge in crosses if isinstance(crosses, list) else [crosses]:
            for sewn in sample.sewn.values():
                after = sewn.closed.get((piece, edge), -1)
                if after > entry.step.number:
                    found.add((entry.step.number, after))
    for number, after in sorted(found):
        yield moved(sample, number, after)


@kind("pocket moved after the last seam of its panel")
def pocket(sample: Sample) -> Iterator[Fault]:
    """Pockets on flat panels before side seams: an extension order.

    A panel on the fold or with an inseam is then a tube; whether another still lies flat the tests can't tell.
    """
    found = set()
    for entry in sample.of("pocket"):
        base = entry.data["on"]
        tube = bool({"fold", "inseam"} & set(sample.head["pieces"].get(base, {}).get("edges", ())))
        for sewn in sample.sewn.values():
            last = max((at for (piece, _), at in sewn.seamed.items() if piece == base), default=-1)
            if last > entry.step.number and entry.step.number in sewn.whole:
                found.add((entry.step.number, last, tube))
    for number, last, tube in sorted(found):
        yield moved(sample, number, last)._replace(verdict=WRONG if tube else UNSURE)


@kind("hem moved before the seam that crosses it")
def hem(sample: Sample) -> Iterator[Fault]:
    """Side seam before lower hem, underarm before sleeve hem: ORDER_A 5 and 7; NMSU C-314; L. Baldt (1916)."""
    found = set()
    for entry in sample.of("hem", "casing"):
        number = entry.step.number
        for sewn in sample.sewn.values():
            for edge in (edge for edge in sewn.edges.get(number, ()) if sewn.closed.get(edge) == number):
                for beside in neighbours(sample, edge):
                    before = sewn.seamed.get(beside, 10**6)
                    if before < number and sample.head["pieces"][beside[0]]["edges"][beside[1]] != "fold":
                        found.add((number, before))
    for number, before in sorted(found):
        yield moved(sample, number, before)


@kind("step moved before the seam that it speaks of by name")
def of_seam(sample: Sample) -> Iterator[Fault]:
    found = set()
    for entry in sample.entries:
        name = same(str(entry.data.get("of", "")))
        for sewn in sample.sewn.values():
            made = sewn.seams.get(name)
            if made is not None and made < entry.step.number and entry.step.number in sewn.whole:
                found.add((entry.step.number, made))
    for number, before in sorted(found):
        yield moved(sample, number, before)


@kind("step moved before the one that its `after` names")
def after(sample: Sample) -> Iterator[Fault]:
    ids = {same(step.id): step.number for step in sample.steps}
    for step in sample.steps:
        named = step.data.get("after", [])
        for name in named if isinstance(named, list) else [named]:
            if ids[same(name)] < step.number:
                yield moved(sample, step.number, ids[same(name)])


@kind("`after` names a later step")
def after_later(sample: Sample) -> Iterator[Fault]:
    for step, later in zip(sample.steps, sample.steps[1:], strict=False):
        if sample.views(step.data) & sample.views(later.data) and "after" not in step.data:
            yield Fault(
                f"“{step.id}” after “{later.id}”",
                WRONG,
                put((*step.path, "after"), later.id),
                frozenset({step.id}),
            )

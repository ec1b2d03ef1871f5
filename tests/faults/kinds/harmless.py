"""Changes that leave the garment as it is: whatever is found in one of these is a false alarm."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from tests.faults.draft import Draft
from tests.faults.edits import dropped, put, reordered, turned_round
from tests.faults.fault import SAME, Fault, kind
from tests.faults.garment import same
from tests.faults.kinds.moves import moved
from tests.faults.kinds.numbers import value
from tests.faults.sample import HEAD, MEASURE, Sample, leaves


def _apart(sample: Sample, one: int, two: int) -> bool:
    """Nothing in any view binds the two: no piece in common, no name that one gives the other, no `after`."""
    first, second = sample.steps[one], sample.steps[two]
    after = str(second.data.get("after", "")) + str(first.data.get("after", ""))
    tied = first.id in after or second.id in after
    spoken = str(second.data.get("work", "")) + str(second.data.get("uses", ""))
    gives = [str(first.data.get("makes", ""))] + [
        str(e.data["as"]) for e in sample.entries if e.step is first and "as" in e.data
    ]
    names = any(name and re.search(rf"\b{re.escape(name)}\b", spoken) for name in gives)
    followed = any(
        sewn.steps.index(two) + 1 < len(sewn.steps) and sewn.steps[sewn.steps.index(two) + 1] in sewn.tied
        for sewn in sample.sewn.values()
        if two in sewn.whole
    )
    return not tied and not names and not followed and all(sewn.apart(one, two) for sewn in sample.sewn.values())


def _hangs(sample: Sample, number: int) -> bool:
    """Whether a step speaks of the seam sewn last, or the next one of its own."""
    for sewn in sample.sewn.values():
        if number in sewn.whole:
            at = sewn.steps.index(number)
            if number in sewn.tied or (at + 1 < len(sewn.steps) and sewn.steps[at + 1] in sewn.tied):
                return True
    return False


@kind("two independent steps change places")
def neighbours(sample: Sample) -> Iterator[Fault]:
    for one, two in zip(sample.steps, sample.steps[1:], strict=False):
        if not _hangs(sample, one.number) and not _hangs(sample, two.number) and _apart(sample, one.number, two.number):
            yield moved(sample, one.number, two.number)._replace(verdict=SAME)


@kind("step as early as nothing binds it")
def early(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        to = step.number
        while to and _apart(sample, to - 1, step.number) and not _hangs(sample, to - 1):
            to -= 1
        if step.number - to > 1 and not _hangs(sample, step.number):
            yield moved(sample, step.number, to)._replace(verdict=SAME)


@kind("step as late as nothing binds it")
def late(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        to = step.number
        while to + 1 < len(sample.steps) and _apart(sample, step.number, to + 1) and not _hangs(sample, to + 1):
            to += 1
        if to - step.number > 1 and not _hangs(sample, step.number):
            yield moved(sample, step.number, to)._replace(verdict=SAME)


@kind("minutes, film or tip left out")
def trimmings(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        for key in ("minutes", "film", "tip"):
            if key in step.data:
                yield Fault(
                    f"“{step.id}”: {key}",
                    SAME,
                    dropped((*step.path, key)),
                )


@kind("text left out, so that the work's own words are printed")
def text(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        if "text" in step.data and "work" in step.data:
            yield Fault(f"“{step.id}”", SAME, dropped((*step.path, "text")))


@kind("another title")
def title(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        yield Fault(f"“{step.id}”", SAME, put((*step.path, "title"), "Sew the next part"))


@kind("id renamed wherever it stands")
def id_everywhere(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        new = f"{step.id} anew"

        def edit(draft: Draft, old: str = step.id, new: str = new) -> None:
            for file, tree in sample.plain.items():
                for path, word in leaves(tree):
                    changed = word.replace("{step: " + old + "}", "{step: " + new + "}")
                    key = path[-1] if isinstance(path[-1], str) else path[-2]
                    if key in ("id", "after", "needs") and same(word) == same(old):
                        changed = new
                    if file == "film.yaml" and key == "when":
                        changed = re.sub(rf"^(before|after) {re.escape(old)}$", rf"\1 {new}", word)
                    if changed != word:
                        draft.put((file, *path), changed)

        yield Fault(f"“{step.id}”", SAME, edit)


@kind("part renamed wherever it stands")
def part_everywhere(sample: Sample) -> Iterator[Fault]:
    seams = {name for sewn in sample.sewn.values() for name in sewn.seams}
    pieces = {same(name) for name in sample.head["pieces"]}
    for part in sorted({name for sewn in sample.sewn.values() for name in sewn.makers}):
        if part in pieces or part in seams:
            continue
        new = f"{part} anew"

        def edit(draft: Draft, part: str = part, new: str = new) -> None:
            for step in sample.steps:
                for key in ("work", "uses", "makes"):
                    for path, word in leaves(step.data.get(key, []), (key,)):
                        changed = re.sub(rf"^(toward (?:the )?)?{re.escape(part)}(?=\.|$)", rf"\g<1>{new}", word)
                        if changed != word and "as" not in path:
                            draft.put((*step.path, *path), changed)

        yield Fault(part, SAME, edit)


@kind("a measure written otherwise")
def spelling(sample: Sample) -> Iterator[Fault]:
    """5/8 in is 10/16 in, and 1.5 cm is 15 mm."""
    for entry in sample.entries:
        for path, written in leaves(entry.data):
            match = MEASURE.search(written)
            if match is None or path[0] == "says":
                continue
            number, unit = value(match[0]), match[0].split()[-1]
            if unit == "in":
                whole, rest = divmod(number, 1)
                part = f"{rest.numerator * 2}/{rest.denominator * 2}" if rest else ""
                new = " ".join(one for one in (str(whole) if whole else "", part, "in") if one)
            elif unit in ("cm", "mm"):
                new = f"{float(number * 10):g} mm" if unit == "cm" else f"{float(number / 10):g} cm"
            else:
                continue
            yield Fault(
                f"“{entry.step.id}”: {match[0]} as {new}",
                SAME,
                put((*entry.path, *path), written.replace(match[0], new)),
            )


@kind("things of an entry in another order")
def things(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("staystitch", "hem", "fuse", "finish", "mark", "cut", "close"):
        if isinstance(entry.value, list) and len(entry.value) > 1:
            yield Fault(
                f"“{entry.step.id}”: {entry.operation}",
                SAME,
                put((*entry.path, entry.operation), entry.value[::-1]),
            )


@kind("sides of a plain seam the other way round")
def sides(sample: Sample) -> Iterator[Fault]:
    """The same seam, where no grading takes its widths in the order of the sides."""
    graded = {entry.step.number for entry in sample.of("grade")}
    for entry in sample.of("sew"):
        if entry.data.get("seam", "plain") in ("plain", "french", "overlocked") and entry.step.number not in graded:
            yield Fault(
                f"“{entry.step.id}”",
                SAME,
                put((*entry.path, "sew"), entry.value[::-1]),
            )


@kind("pieces, views, notions or materials in another order")
def lists(sample: Sample) -> Iterator[Fault]:
    for key in ("pieces", "materials", "views", "charts", "metric"):
        if key in sample.head:
            yield Fault(
                key,
                SAME,
                reordered((HEAD, key), list(sample.head[key])[::-1]),
            )
    if "notions" in sample.head:
        yield Fault("notions", SAME, turned_round((HEAD, "notions")))


@kind("edges of a piece named round from another one")
def ring(sample: Sample) -> Iterator[Fault]:
    """The same ring: it only begins elsewhere."""
    for piece, data in sample.head["pieces"].items():
        order = list(data["edges"])
        yield Fault(
            piece,
            SAME,
            reordered((HEAD, "pieces", piece, "edges"), [*order[1:], order[0]]),
        )
        yield Fault(
            f"{piece}, the other way round",
            SAME,
            reordered((HEAD, "pieces", piece, "edges"), order[::-1]),
        )


@kind("names in capitals")
def capitals(sample: Sample) -> Iterator[Fault]:
    """Names are compared without regard to case."""
    for entry in sample.of("sew", "hem", "close", "fuse", "zipper", "casing"):

        def upper(one: Any) -> Any:
            return one.upper() if isinstance(one, str) else [upper(each) for each in one]

        yield Fault(
            f"“{entry.step.id}”: {entry.operation}",
            SAME,
            put((*entry.path, entry.operation), upper(entry.value)),
        )


@kind("the pattern's allowance said at an edge")
def said_allowance(sample: Sample) -> Iterator[Fault]:
    for piece, data in sample.head["pieces"].items():
        for edge, drawn in data["edges"].items():
            if edge == "fold" or (isinstance(drawn, dict) and ({"allowance", "on"} & set(drawn))):
                continue
            path = (HEAD, "pieces", piece, "edges", edge)
            own = {**(drawn if isinstance(drawn, dict) else {}), "allowance": sample.head["seam allowance"]}
            yield Fault(f"{piece}.{edge}", SAME, put(path, own))

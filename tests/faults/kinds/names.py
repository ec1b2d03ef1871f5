"""A name that is misspelt, or that stands for another thing."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator

from tests.faults.draft import Path_
from tests.faults.edits import put, renamed
from tests.faults.fault import UNSURE, WRONG, Fault, kind
from tests.faults.garment import same
from tests.faults.sample import EntryAt, Sample, leaves


def misspelt(word: str) -> str:
    """Two letters change places; where they are alike, one more is written."""
    at = len(word) // 2
    swapped = word[: at - 1] + word[at] + word[at - 1] + word[at + 1 :] if at else word
    return swapped if swapped != word else word + "x"


def slip(entry: EntryAt, path: Path_, old: str, new: str, sample: Sample, verdict: str = WRONG) -> Fault:
    return Fault(
        f"“{entry.step.id}”: {entry.operation} {old} -> {new}",
        verdict,
        put((*entry.path, *path), new),
        frozenset({entry.step.id}),
        (sample.place((*entry.path, *path)),),
    )


def named(sample: Sample) -> Iterator[tuple[EntryAt, Path_, str]]:
    """Every `part.edge` that an entry's work names."""
    for entry in sample.entries:
        if entry.operation not in ("press", "insert", "trim", "grade", "clip", "notch"):
            for path, name in leaves(entry.value, (entry.operation,)):
                yield entry, path, name


@kind("part misspelt")
def part(sample: Sample) -> Iterator[Fault]:
    for entry, path, name in named(sample):
        first, point, edge = name.partition(".")
        if point or entry.operation in (
            "fuse",
            "turn",
            "understitch",
            "pocket",
            "tack",
            "press part",
            "try on",
            "mark",
        ):
            yield slip(entry, path, name, misspelt(first) + point + edge, sample)


@kind("edge or dart misspelt")
def edge(sample: Sample) -> Iterator[Fault]:
    for entry, path, name in named(sample):
        first, point, last = name.partition(".")
        if point:
            yield slip(entry, path, name, f"{first}.{misspelt(last)}", sample)


@kind("another edge of the same piece")
def another_edge(sample: Sample) -> Iterator[Fault]:
    for entry, path, name in named(sample):
        first, _, last = name.partition(".")
        edges = sample.head["pieces"].get(first, {}).get("edges", {})
        if last in edges and len(edges) > 1 and entry.operation in ("sew", "hem", "casing", "close", "zipper", "bind"):
            ring = list(edges)
            other = ring[(ring.index(last) + 1) % len(ring)]
            yield slip(entry, path, name, f"{first}.{other}", sample)


@kind("another piece that has such an edge")
def another_piece(sample: Sample) -> Iterator[Fault]:
    pieces = sample.head["pieces"]
    for entry, path, name in named(sample):
        first, _, last = name.partition(".")
        if first not in pieces or entry.operation not in ("sew", "hem", "casing", "close", "zipper", "bind"):
            continue
        for other, data in pieces.items():
            if other != first and last in data["edges"] and data["edges"][last] != "fold":
                yield slip(entry, path, name, f"{other}.{last}", sample)
                break


@kind("one side sewn to itself")
def itself(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("sew"):
        if len(entry.value) == 2 and entry.value[0] != entry.value[1]:
            yield Fault(
                f"“{entry.step.id}”: {entry.value[0]} twice",
                WRONG,
                put((*entry.path, "sew", 1), entry.value[0]),
                frozenset({entry.step.id}),
                sample.piece_places(
                    {p for sewn in sample.sewn.values() for p, _ in sewn.edges.get(entry.step.number, ())}
                ),
            )


@kind("a side that is a part, with no edge")
def no_edge(sample: Sample) -> Iterator[Fault]:
    for entry, path, name in named(sample):
        if entry.operation in ("sew", "hem", "staystitch") and "." in name:
            yield slip(entry, path, name, name.partition(".")[0], sample)


@kind("`makes` misspelt")
def makes(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        if "makes" not in step.data:
            continue
        name = same(step.data["makes"])
        alone = any(
            sewn.makers.get(name) == [step.number] and any(name in sewn.named[n] for n in sewn.steps if n > step.number)
            for sewn in sample.sewn.values()
        )
        users = {sample.steps[n].id for s in sample.sewn.values() for n in s.steps if name in s.named[n]}
        yield Fault(
            f"“{step.id}”: {name}",
            WRONG if alone else UNSURE,
            put((*step.path, "makes"), misspelt(name)),
            frozenset({step.id, *users}),
        )


@kind("two parts made under one name")
def one_name(sample: Sample) -> Iterator[Fault]:
    makers = [step for step in sample.steps if "makes" in step.data]
    for first, second in itertools.pairwise(makers):
        apart = all(sewn.apart(first.number, second.number) for sewn in sample.sewn.values())
        together = sample.views(first.data) & sample.views(second.data)
        if apart and together and same(first.data["makes"]) != same(second.data["makes"]):
            users = {
                sample.steps[n].id
                for s in sample.sewn.values()
                for n in s.steps
                if {same(second.data["makes"]), same(first.data["makes"])} & s.named[n]
            }
            yield Fault(
                f"“{second.id}” makes {first.data['makes']} too",
                WRONG if users else UNSURE,
                put((*second.path, "makes"), first.data["makes"]),
                frozenset({first.id, second.id, *users}),
            )


def _list_of(sample: Sample, key: str) -> Iterator[Fault]:
    for step in sample.steps:
        for path, name in leaves(step.data.get(key, []), (key,)):
            yield Fault(
                f"“{step.id}”: {name}",
                WRONG,
                put((*step.path, *path), misspelt(name)),
                frozenset({step.id}),
                (sample.place((*step.path, *path)),),
            )


@kind("`uses` misspelt")
def uses(sample: Sample) -> Iterator[Fault]:
    yield from _list_of(sample, "uses")


@kind("`after` misspelt")
def after(sample: Sample) -> Iterator[Fault]:
    yield from _list_of(sample, "after")


@kind("`after` names no step")
def after_nothing(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        if "after" not in step.data:
            yield Fault(
                f"“{step.id}”",
                WRONG,
                put((*step.path, "after"), "the other day"),
                frozenset({step.id}),
            )


def _option(sample: Sample, keys: tuple[str, ...], operations: tuple[str, ...] = ()) -> Iterator[Fault]:
    for entry in sample.entries:
        if operations and entry.operation not in operations:
            continue
        for key in keys:
            if key in entry.data:
                for path, word in leaves(entry.data[key], (key,)):
                    yield slip(entry, path, word, misspelt(word), sample)


@kind("`of` misspelt")
def of_(sample: Sample) -> Iterator[Fault]:
    yield from _option(sample, ("of",))


@kind("`on`, `to`, `through`, `into` or `with` misspelt")
def where(sample: Sample) -> Iterator[Fault]:
    yield from _option(sample, ("on", "through", "into", "with", "to"))


@kind("name of a seam misspelt where it is given")
def as_(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("sew"):
        if "as" in entry.data:
            name, views = same(entry.data["as"]), sample.views(entry.step.data)
            spoken = [e for e in sample.entries if name in (same(str(e.data.get("of", ""))), same(str(e.value)))]
            users = {e.step.id for e in spoken if sample.views(e.step.data) & views}
            if not users:
                continue
            fault = slip(entry, ("as",), entry.data["as"], misspelt(entry.data["as"]), sample)
            yield fault._replace(steps=fault.steps | users)


@kind("notion misspelt")
def notion(sample: Sample) -> Iterator[Fault]:
    yield from _option(sample, ("notion",))
    for entry in sample.of("insert"):
        yield slip(entry, ("insert",), entry.value, misspelt(entry.value), sample)


@kind("seam construction misspelt")
def construction(sample: Sample) -> Iterator[Fault]:
    yield from _option(sample, ("seam",))


@kind("way of finishing misspelt")
def how(sample: Sample) -> Iterator[Fault]:
    yield from _option(sample, ("how",))


@kind("direction of pressing misspelt")
def direction(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("press"):
        head, _, last = entry.value.rpartition(" ")
        yield slip(entry, ("press",), entry.value, f"{head} {misspelt(last)}".strip(), sample)


@kind("pressed toward a piece that is not in the seam")
def stranger(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("press"):
        views = sample.views(entry.step.data)
        inside = set().union(*(sewn.whole.get(entry.step.number, set()) for sewn in sample.sewn.values()))
        for piece, data in sample.head["pieces"].items():
            direction = piece in ("front", "back", "side")  # a way to press as well as a piece
            cut = sample.views(data) >= views
            if entry.value.startswith("toward ") and piece not in inside and cut and not direction:
                yield slip(entry, ("press",), entry.value, f"toward {piece}", sample)
                break


@kind("operation misspelt")
def operation(sample: Sample) -> Iterator[Fault]:
    for entry in sample.entries:
        yield _renamed(sample, entry, entry.operation)


@kind("key of an entry misspelt")
def option_key(sample: Sample) -> Iterator[Fault]:
    for entry in sample.entries:
        for key in entry.data:
            if key != entry.operation:
                yield _renamed(sample, entry, key)


def _renamed(sample: Sample, entry: EntryAt, key: str) -> Fault:
    return Fault(
        f"“{entry.step.id}”: {key} -> {misspelt(key)}",
        WRONG,
        renamed((*entry.path, key), misspelt(key)),
        frozenset({entry.step.id}),
        (sample.place(entry.path), sample.place(entry.step.path)),
    )


@kind("key of a step misspelt")
def step_key(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        for key in step.data:
            yield Fault(
                f"“{step.id}”: {key} -> {misspelt(key)}",
                WRONG,
                renamed((*step.path, key), misspelt(key)),
                frozenset({step.id}),
                (sample.place(step.path),),
            )


@kind("{step} or {piece} in the text misspelt")
def references(sample: Sample) -> Iterator[Fault]:
    for step in sample.steps:
        for key in ("text", "tip", "caution"):
            for match in re.finditer(r"\{(step|piece): ([^}]+)\}", step.data.get(key, "")):
                text = step.data[key]
                wrong = text[: match.start(2)] + misspelt(match[2]) + text[match.end(2) :]
                yield Fault(
                    f"“{step.id}”: {match[0]}",
                    WRONG,
                    put((*step.path, key), wrong),
                    frozenset({step.id}),
                    (sample.place((*step.path, key)),),
                )


@kind("one id for two steps")
def one_id(sample: Sample) -> Iterator[Fault]:
    for first, second in zip(sample.steps, sample.steps[1:], strict=False):
        yield Fault(
            f"“{second.id}” is “{first.id}” too",
            WRONG,
            put((*second.path, "id"), first.id),
            frozenset({first.id, second.id}),
            (sample.place(second.path),),
        )

"""A measure or a number that is another."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from tests.faults.draft import Path_
from tests.faults.edits import dropped, put
from tests.faults.fault import UNSURE, WRONG, Fault, kind
from tests.faults.sample import HEAD, MEASURE, EntryAt, Sample, leaves


def value(measure: str) -> Fraction:
    """The number of a measure, without its unit."""
    *numbers, _ = measure.split()
    return sum((Fraction(number) for number in numbers), Fraction(0))


def spelled(number: Fraction, unit: str) -> str:
    if unit in ("cm", "mm", "m") or number.denominator == 1:
        return f"{float(number):g} {unit}"
    whole, rest = divmod(number, 1)
    return f"{int(whole)} {rest} {unit}" if whole else f"{rest} {unit}"


def scaled(measure: str, by: Fraction | int) -> str:
    return spelled(value(measure) * by, measure.split()[-1])


def _changed(entry: EntryAt, path: Path_, new: str, verdict: str, sample: Sample) -> Fault:
    return Fault(
        f"“{entry.step.id}”: {entry.operation} {'.'.join(map(str, path))} -> {new}",
        verdict,
        put((*entry.path, *path), new),
        frozenset({entry.step.id}),
        (sample.place(entry.path), sample.place((*entry.path, *path))),
    )


def _in_text(entry: EntryAt, measure: str) -> bool:
    """Whether the step's text says the measure, once, so that the change contradicts it."""
    return MEASURE.findall(entry.step.text).count(measure) == 1


def _measures(
    sample: Sample, operations: tuple[str, ...], keys: tuple[str, ...]
) -> Iterator[tuple[EntryAt, Path_, str]]:
    """`=` among the keys stands for what follows the operation itself."""
    for entry in sample.of(*operations):
        for key in keys:
            own = entry.operation if key == "=" else key
            for path, text in leaves(entry.data[own], (own,)) if own in entry.data else ():
                match = MEASURE.search(text)
                if match:
                    yield entry, path, match[0]


def _enter(
    name: str, operations: tuple[str, ...], keys: tuple[str, ...], by: Fraction | int, verdict: str = ""
) -> None:
    """A kind that scales measures: wrong always, or (verdict "") where the text of the step says the old one."""

    @kind(name)
    def faults(sample: Sample) -> Iterator[Fault]:
        for entry, path, measure in _measures(sample, operations, keys):
            written: Any = entry.data
            for key in path:
                written = written[key]
            new = str(written).replace(measure, scaled(measure, by))
            told = verdict or (WRONG if _in_text(entry, measure) else UNSURE)
            yield _changed(entry, path, new, told, sample)


_enter("allowance of a seam doubled", ("sew",), ("allowance",), 2, WRONG)
_enter("passes of a French seam wider", ("sew",), ("passes",), Fraction(3, 2), WRONG)
_enter("passes of a French seam narrower", ("sew",), ("passes",), Fraction(1, 2), WRONG)
_enter("trim inside a seam eight times as wide", ("sew",), ("trim",), 8, WRONG)
_enter("trim inside a seam half as wide", ("sew",), ("trim",), Fraction(1, 2))
_enter("width of a felled seam doubled", ("sew",), ("width",), 2, WRONG)
_enter("trimmed wider than the allowance", ("trim",), ("=",), 8, WRONG)
_enter("trimmed to half of what the text says", ("trim",), ("=",), Fraction(1, 2))
_enter("graded wider than the allowance", ("grade",), ("=",), 8, WRONG)
_enter("graded to half of what the text says", ("grade",), ("=",), Fraction(1, 2))
_enter("clipped at other distances than the text says", ("clip", "notch"), ("=",), Fraction(1, 2))
_enter("clipped a hundred times as far apart", ("clip", "notch"), ("=",), 100, WRONG)
_enter("staystitched outside the allowance", ("staystitch",), ("at",), 4, WRONG)
_enter("staystitched elsewhere than the text says", ("staystitch",), ("at",), Fraction(1, 2))
_enter("gathered or eased far outside the allowance", ("gather", "ease"), ("at",), 6, WRONG)
_enter("gathered or eased elsewhere than the text says", ("gather", "ease"), ("at",), Fraction(1, 2))
_enter("basted outside the allowance", ("baste",), ("at",), 12, WRONG)
_enter("basted elsewhere than the text says", ("baste",), ("at",), Fraction(1, 2))
_enter("a turn of a hem wider", ("hem",), ("turns",), Fraction(3, 2), WRONG)
_enter("a turn of a hem narrower", ("hem",), ("turns",), Fraction(1, 2), WRONG)
_enter("a turn of a casing wider", ("casing",), ("turns",), Fraction(3, 2), WRONG)
_enter("topstitched elsewhere than the text says", ("topstitch", "edgestitch", "understitch"), ("at",), Fraction(3, 2))
_enter("zipper elsewhere than the text says", ("zipper",), ("at",), 2)
_enter("binding of another width than the text says", ("bind",), ("width",), 2)
_enter("buttonholes at other distances than the text says", ("buttonhole", "button", "snap"), ("every",), 2)


@kind("an inch measure in centimetres, or a centimetre one in inches")
def unit(sample: Sample) -> Iterator[Fault]:
    """Two and a half times too much or too little. Wrong where the text says the old one."""
    for entry in sample.entries:
        for path, text in leaves(entry.data):
            match = MEASURE.search(text)
            if match and match[0].endswith((" in", " cm")) and path[0] != "says":
                other = match[0].replace(" in", " cm") if match[0].endswith(" in") else match[0].replace(" cm", " in")
                new = text.replace(match[0], other)
                yield _changed(entry, path, new, WRONG if _in_text(entry, match[0]) else UNSURE, sample)


@kind("a measure without its unit")
def no_unit(sample: Sample) -> Iterator[Fault]:
    for entry in sample.entries:
        for path, text in leaves(entry.data):
            match = MEASURE.search(text)
            if match and path[0] != "says":
                yield _changed(entry, path, text.replace(match[0], match[0].rsplit(" ", 1)[0]), WRONG, sample)


@kind("one turn of a hem or casing left out")
def one_turn(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("hem", "casing"):
        turns = entry.data.get("turns")
        if isinstance(turns, list) and len(turns) > 1:
            yield _changed(entry, ("turns",), turns[0], WRONG, sample)


@kind("one layer left out of a grading")
def one_layer(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("grade"):
        yield Fault(
            f"“{entry.step.id}”",
            WRONG,
            put((*entry.path, "grade"), entry.value[:-1]),
            frozenset({entry.step.id}),
        )


@kind("both layers graded alike")
def graded_alike(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("grade"):
        if len(set(entry.value)) > 1:
            alike = [entry.value[0]] * len(entry.value)
            yield Fault(
                f"“{entry.step.id}”",
                WRONG,
                put((*entry.path, "grade"), alike),
                frozenset({entry.step.id}),
            )


def _construction(sample: Sample, old: str, new: str) -> Iterator[Fault]:
    for entry in sample.of("sew"):
        if entry.data.get("seam", "plain") == old:
            yield Fault(
                f"“{entry.step.id}”",
                WRONG,
                put((*entry.path, "seam"), new),
                frozenset({entry.step.id}),
            )


def _enter_construction(old: str, new: str) -> None:
    @kind(f"{old} seam said to be {new}")
    def faults(sample: Sample) -> Iterator[Fault]:
        yield from _construction(sample, old, new)


_enter_construction("plain", "french")
_enter_construction("plain", "flat felled")
_enter_construction("french", "plain")
_enter_construction("french", "flat felled")
_enter_construction("flat felled", "plain")
_enter_construction("flat felled", "french")
_enter_construction("mock felled", "french")


@kind("a number of the construction left out")
def construction_number(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("sew"):
        for key in ("passes", "trim", "width"):
            if key in entry.data:
                yield Fault(
                    f"“{entry.step.id}”: {key}",
                    WRONG,
                    dropped((*entry.path, key)),
                    frozenset({entry.step.id}),
                )


@kind("a seam that holds its allowances pressed open")
def pressed_open(sample: Sample) -> Iterator[Fault]:
    held = False
    for entry in sample.entries:
        if entry.operation == "sew":
            held = entry.data.get("seam", "plain") in ("french", "flat felled", "overlocked")
        elif entry.operation == "press" and held and "of" not in entry.data and entry.value.startswith("toward"):
            yield _changed(entry, ("press",), "open", WRONG, sample)


@kind("count of buttonholes, buttons or hooks one more")
def count(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("buttonhole", "button", "snap", "hook"):
        for path, number in leaves(entry.data.get("count", {}), ("count",)):
            fault = _changed(entry, path, str(int(number) + 1), WRONG, sample)
            same = {
                e.step.id for e in sample.of("buttonhole", "button") if e.data.get("notion") == entry.data.get("notion")
            }
            yield fault._replace(steps=fault.steps | same, spots=(*fault.spots, sample.place((HEAD, "notions"))))


@kind("a measure of the text is another")
def text(sample: Sample) -> Iterator[Fault]:
    """Wrong where the step's own work states it, or it is an allowance of the pattern or of one of its edges."""
    allowances = set(MEASURE.findall(str(sample.head["pieces"]))) | {sample.head["seam allowance"]}
    for step in sample.steps:
        work = set(MEASURE.findall(str(step.data.get("work", ""))))
        sews = any(entry.operation == "sew" for entry in sample.entries if entry.step is step)
        written = step.data.get("text", "")
        for match in MEASURE.finditer(written):
            wrong = written[: match.start()] + scaled(match[0], Fraction(3, 2)) + written[match.end() :]
            stated = match[0] in work or (sews and match[0] in allowances)
            yield Fault(
                f"“{step.id}”: {match[0]} -> {scaled(match[0], Fraction(3, 2))}",
                WRONG if stated else UNSURE,
                put((*step.path, "text"), wrong),
                frozenset({step.id}),
                (sample.place((*step.path, "text")),),
            )

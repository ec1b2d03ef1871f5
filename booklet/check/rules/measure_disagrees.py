"""The text of a step gives another measure than its work.

What it finds: a measure in a step's text or tip that is said of an operation of its work, as in “stitch 3/8 in from
the edge”, and is none of the measures of that work, nor the pattern's allowance, nor a measure's partner in the other
system. Only such phrases are read; what a text says in another way is left alone.

Why it matters at the machine: the sewer does what the text says, and the piece was drawn for something else.

Wrong:
    steps:
      - id: hold
        title: Staystitch the neckline
        work: [{staystitch: front.neckline, at: 1/2 in}]
        text: Staystitch the neckline 3/8 in from the edge.

Right:
    steps:
      - id: hold
        title: Staystitch the neckline
        work: [{staystitch: front.neckline, at: 1/2 in}]
        text: Staystitch the neckline 1/2 in from the edge.

Source: our choice: the text and the work are one source and say one thing.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import by_step
from booklet.check.found import Found
from booklet.check.locate import place_of
from booklet.check.measures import Own, all_of, among, own_of
from booklet.check.numbers import as_drawn, beyond, same, total
from booklet.check.saying import Said, said_in
from booklet.check.words import listed
from booklet.craft.load import table
from booklet.finding import Related
from booklet.length import Length
from booklet.model.pattern import Step
from booklet.read.tree import Text
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    acts = by_step(bench)
    for step in bench.steps:
        if step.id in acts:
            for text in (step.text, step.tip):
                said = said_in(text.value) if text is not None else ()
                if text is not None and said:
                    yield from _in_text(bench, step, text, said, acts[step.id])


def _in_text(bench: Bench, step: Step, text: Text, said: tuple[Said, ...], acts: list[Act]) -> Iterator[Found]:
    if any(act.broken for act in acts):
        return
    known: set[Length] | None = None
    right = [act for act in acts if _adds_up(bench, act)]
    for each in said:
        own = own_of(each.verb, right, bench.pattern)
        if not own or any(one.length == each.length for one in own):
            continue
        if beyond(table("sayings")["verbs"][each.verb].get("most", ""), each.length):
            continue
        if "exact" in table("sayings")["verbs"][each.verb]:
            if not among(each.length, {one.length for one in own}, bench.pattern.house):
                yield _found(bench, step, text, each, own)
            continue
        if known is None:
            known = all_of(acts, bench)
        if " from " in each.phrase and _is_whole_of_passes(each.length, acts):
            yield _found(bench, step, text, each, own)
            continue
        if not among(each.length, known | _pattern_s(bench, acts), bench.pattern.house):
            yield _found(bench, step, text, each, own)


def _adds_up(bench: Bench, act: Act) -> bool:
    """Where passes or turns do not make the allowance, other rules say so: the numbers are not yet those to be read."""
    house = bench.pattern.house
    options = act.entry.options
    if act.seam is not None and "passes" in options and (passes := act.entry.lengths("passes")):
        return same(total(passes, act.seam.allowance, house), act.seam.allowance, house)
    turns = act.entry.lengths("turns") if "turns" in options else ()
    drawn = {edge.allowance() for edge in as_drawn(act)} if turns else set()
    return all(same(total(turns, width, house), width, house) for width in drawn)


def _is_whole_of_passes(length: Length, acts: list[Act]) -> bool:
    """No row of a French seam runs at its whole allowance; and no other row of the step does."""
    french = [act for act in acts if act.name == "sew" and act.entry.lengths("passes")]
    others = [act for act in acts if act not in french and act.entry.operation.tool == "sewing machine"]
    return bool(french) and not others and all(act.seam and act.seam.allowance == length for act in french)


def _pattern_s(bench: Bench, acts: list[Act]) -> set[Length]:
    """A step may speak of the pattern's allowance in passing; not one that is a single seam at another."""
    stitched = [act for act in acts if act.entry.operation.tool == "sewing machine"]
    return set() if len(stitched) == 1 and stitched[0].name == "sew" else {bench.pattern.allowance}


def _found(bench: Bench, step: Step, text: Text, said: Said, own: list[Own]) -> Found:
    right = dict.fromkeys(each.length for each in own)
    nth = text.value.count(said.measure, 0, said.start)
    by_operation: dict[str, list[str]] = {}
    for one in own:
        by_operation.setdefault(one.operation, []).append(str(one.length))
    names = listed(f"{listed(lengths)} ({operation})" for operation, lengths in by_operation.items())
    return Found(
        place_of(bench.pattern, text, said.measure, nth),
        step,
        f"The text says “{said.phrase}”, and the work of this step has {names}.",
        f"Write {listed(map(str, right), 'or')}{_bracket(bench, text, said, list(right))} here, or correct the work.",
        tuple(dict.fromkeys(Related(f"The work has {each.length} here", each.place) for each in own)),
    )


def _bracket(bench: Bench, text: Text, said: Said, right: list[Length]) -> str:
    """The right measure in the other system, where the text gives both."""
    after = text.value[said.start + len(said.measure) :].lstrip()
    return f" ({bench.pattern.house.other(right[0])})" if after[:1] == "(" and len(right) == 1 else ""

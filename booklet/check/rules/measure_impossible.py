"""A measure is so wide that it can't be meant.

What it finds: an allowance, a row of stitches, a trimming, a clip or a hem in `work`, an allowance of a piece, or a
measure said of them in a text, that is wider than anyone sews. Where a number without a stray figure is used in the
pattern, it is proposed.

Why it matters at the machine: a figure too many in the middle of a page, and a stranger's cloth is cut by it.

Wrong:
    steps:
      - {id: join, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder], allowance: 5 1/8 in}]}

Right:
    steps:
      - {id: join, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder], allowance: 5/8 in}]}

Source: our choice: the limits of craft/limits.yaml, with room to spare over the widest in use.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import by_step
from booklet.check.found import Found
from booklet.check.locate import place_of
from booklet.check.measures import all_of, among, option_of, own_of, slips
from booklet.check.numbers import beyond
from booklet.check.saying import said_in
from booklet.craft.load import table
from booklet.finding import Place
from booklet.length import House, Length
from booklet.model.pattern import Pattern, Step
from booklet.sew.bench import Bench

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    drawn = _drawn(pattern)
    if beyond("most seam allowance", pattern.allowance):
        yield _found(
            pattern.allowance_place, None, pattern.allowance, "as the seam allowance of a pattern", set(), pattern.house
        )
    for piece in pattern.pieces.values():
        for spec in piece.edges.values():
            own = spec.own_allowance
            if own and (beyond("most hem", own.length) or (beyond("most seam allowance", own.length)
                        and _meant(own.length, {pattern.allowance}, pattern.house))):  # fmt: skip
                others = {pattern.allowance, *(other.allowance for other in piece.edges.values() if other is not spec)}
                yield _found(
                    own.place, None, own.length, f"as the allowance of {piece.name}.{spec.name}", others, pattern.house
                )
    widest = table("widest")
    for step in pattern.steps:
        for entry in step.work:
            for option, name in widest.get(entry.name, {}).items():
                for measured in option_of(entry, option):
                    if beyond(name, measured.length):
                        said = f"for “{entry.name if option == 'main' else option}”"
                        found = _found(measured.place, step, measured.length, said, drawn, pattern.house)
                        yield _in_text_too(found) if _says(step, measured.length) else found


def find(bench: Bench) -> Iterator[Found]:
    """What the texts say of the work, and of the pattern's allowance where a step has no work yet."""
    acts = by_step(bench)
    for step in bench.steps:
        for text in (step.text, step.tip):
            for said in said_in(text.value) if text is not None else ():
                name = table("sayings")["verbs"][said.verb].get("most", "")
                if text is None or not beyond(name, said.length):
                    continue
                mine = acts.get(step.id, [])
                used = all_of(mine, bench) | {bench.pattern.allowance}
                if among(said.length, used, bench.pattern.house):
                    continue
                if own_of(said.verb, mine, bench.pattern) or _meant(said.length, used, bench.pattern.house):
                    nth = text.value.count(said.measure, 0, said.start)
                    place = place_of(bench.pattern, text, said.measure, nth)
                    yield _found(place, step, said.length, f"in “{said.phrase}”", used, bench.pattern.house)


def _says(step: Step, length: Length) -> bool:
    texts = (text.value for text in (step.text, step.tip) if text is not None)
    return any(said.length == length for text in texts for said in said_in(text))


def _in_text_too(found: Found) -> Found:
    return found._replace(mend=found.mend.replace(", if that", " here and in the text, if that"))


def _drawn(pattern: Pattern) -> set[Length]:
    own = {spec.allowance for piece in pattern.pieces.values() for spec in piece.edges.values()}
    return {length for length in (pattern.allowance, *own) if not beyond("most seam allowance", length)}


def _meant(length: Length, used: set[Length], house: House) -> Length | None:
    return next((slip for slip in slips(length) if among(slip, used, house)), None)


def _found(place: Place, step: Step | None, length: Length, said: str, used: set[Length], house: House) -> Found:
    meant = _meant(length, used, house)
    mend = f"Write {meant}, if that is what is meant." if meant else "Write the measure that is meant."
    return Found(place, step, f"{length} {said} is wider than anyone sews it.", mend)

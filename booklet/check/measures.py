"""Which measures the work of one step has on the bench, for the rules that compare the text with it."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from booklet.check.notions import DEFAULT, meant
from booklet.check.numbers import same
from booklet.craft.load import table
from booklet.length import Length
from booklet.model.pattern import Measured
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.finding import Place
    from booklet.length import House
    from booklet.model.pattern import Entry, Pattern
    from booklet.sew.bench import Act, Bench


# Rows of stitching that run as far from the edge as their `at` says, whatever the edge's allowance.
ROWS = frozenset({"topstitch", "edgestitch", "staystitch", "baste", "ease", "zipper"})

# Measures that lie one beyond the other, so that a text may speak of their sum.
TURNS = frozenset({"turns", "passes"})


class Own(NamedTuple):
    """A measure of the work: of which operation, and where it is written."""

    operation: str
    length: Length
    place: Place


def own_of(verb: str, acts: list[Act], pattern: Pattern) -> list[Own]:
    """The measures of a step's acts of which the verb can speak."""
    means = table("sayings")["verbs"][verb]["means"]
    found = []
    for act in acts:
        for option in means.get(act.name, ()):
            found += [Own(act.name, each.length, each.place) for each in option_of(act.entry, option)]
        if (
            act.name == "sew"
            and "allowance" in means.get("sew", ())
            and act.seam
            and not act.entry.measure("allowance")
            and not act.entry.lengths("passes")
        ):
            spec = act.edges[0].spec
            place = spec.own_allowance.place if spec.own_allowance else pattern.allowance_place
            found.append(Own(act.name, act.seam.allowance, place))
    return found


def option_of(entry: Entry, option: str) -> tuple[Measured, ...]:
    """The measures of one option; `main` is what stands after the operation's name."""
    if option == "main":
        spacing = entry.spacing[1]
        return (*entry.measures, spacing) if spacing else entry.measures
    value = entry.options.get(option)
    if isinstance(value, Measured):
        return (value,)
    return tuple(each for each in value if isinstance(each, Measured)) if isinstance(value, tuple) else ()


def all_of(acts: list[Act], bench: Bench) -> set[Length]:
    """Every measure that the work of a step has: options and their sums, allowances, widths left, notions.

    A row that says how far in it runs does not run at the allowance.
    """
    found: set[Length] = set()
    for act in acts:
        entry = act.entry
        for option in ("main", *entry.options):
            whole: Length | None = None
            for each in option_of(entry, option):
                whole = each.length if whole is None else whole + each.length
                found |= {each.length, whole} if option in TURNS else {each.length}
        if act.seam is not None or act.name not in ROWS or entry.measure("at") is None:
            found |= {edge.allowance() for edge in act.edges}
        if act.seam is not None:
            found.add(act.seam.allowance)
            found |= {width for layer in act.seam.layers for _, width in layer.widths}
        if act.name in DEFAULT:
            found |= {notion.size.length for notion in meant(bench, act) if notion.size}
    return found


def among(length: Length, measures: set[Length], house: House) -> bool:
    return length in measures or any(same(length, each, house) for each in measures)


def slips(length: Length) -> Iterator[Length]:
    """What a hand may have meant: 5/8 in by `5 1/8 in`, `1 5/8 in` or `58 in`; 1.5 cm or 15 mm by `15 cm`."""
    whole, rest = divmod(length.amount, 1)
    if rest and whole:
        yield Length(rest, length.unit)
        if whole < rest.denominator:
            yield Length(Fraction(whole, rest.denominator), length.unit)
    if length.metric:
        yield Length(length.amount / 10, length.unit)
        if length.unit == "cm":
            yield Length(length.amount, "mm")
    elif not rest and 10 < whole < 100 and whole % 10 in (2, 4, 8) and whole // 10 < whole % 10:
        yield Length(Fraction(whole // 10, whole % 10), length.unit)

"""What a computed figure says of itself: its caption, of six words at most, and its alternative text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.naming import edges as named_edges
from booklet.plan.naming import listed, plural, singular
from booklet.plan.write import capital, one_line

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from booklet.model.pattern import EdgeName
    from booklet.sew.bench import Act

# How many words has a caption at most? Our choice: what needs more is said in the step.
MOST_WORDS = 6

# What was done, as it is said of an edge.
DONE = {
    "staystitch": "staystitched",
    "finish": "finished",
    "mark": "marked",
    "cut": "cut",
    "hem": "hemmed",
    "casing": "turned in for a casing",
    "topstitch": "topstitched",
    "edgestitch": "edgestitched",
    "understitch": "understitched",
    "gather": "with its gathering rows",
    "ease": "with its easing row",
    "baste": "basted",
    "fuse": "fused",
    "dart": "folded and stitched",
    "pleat": "folded",
    "tuck": "folded and stitched",
    "trim": "trimmed",
    "grade": "graded",
    "clip": "clipped",
    "notch": "notched",
}


def fits(*captions: str) -> str:
    """The first that is short enough; the last is."""
    return next((words for words in captions if len(words.split()) <= MOST_WORDS), captions[-1])


def part_of(names: Sequence[EdgeName]) -> str:
    """`the front and the back`, `the body`: the parts of some edges, once each."""
    return listed(f"the {one_line(part)}" for part in dict.fromkeys(name.part for name in names))


def many(names: Sequence[EdgeName]) -> bool:
    """Whether a verb after `part_of` stands in the plural."""
    parts = list(dict.fromkeys(name.part for name in names))
    return len(parts) > 1 or one_line(parts[0]).endswith("s")


def matched(sides: Sequence[Sequence[EdgeName]]) -> str:
    """`shoulders matched`, `neck on neckline`: the lowest side first."""
    below, *others = sides
    names = [list(dict.fromkeys(one_line(name.edge) for name in side)) for side in (below, *others)]
    if all(mine == names[0] for mine in names):
        return f"{listed(plural(edge) for edge in names[0])} matched"
    return f"{listed(singular(edge) for edge in names[-1])} on {listed(singular(edge) for edge in names[0])}"


def also(act: Act) -> str:
    """What is done to a seam after the stitching, as the end of a sentence."""
    if act.name in ("trim", "grade") and act.entry.measures:
        widths = listed(str(one.length) for one in act.entry.measures)
        return f"the allowances {DONE[act.name]} to {widths}"
    if act.name in ("clip", "notch"):
        kind, every = act.entry.spacing
        return f"{DONE[act.name]} every {every.length}" if every else f"{DONE[act.name]} {_where(kind)}"
    if act.name == "finish":
        how = act.entry.options.get("how")
        return f"the edges finished ({one_line(how.value)})" if how else "the edges finished"
    return ""


def _where(kind: str) -> str:
    return "across the corners" if kind == "corners" else kind


def short_done(acts: Iterable[Act]) -> str:
    """`trimmed and clipped`"""
    return listed(dict.fromkeys(DONE[act.name] for act in acts if act.name in DONE))


def sentence(*parts: str) -> str:
    """Parts of a sentence, with semicolons, the empty ones left out."""
    return f"{capital('; '.join(part for part in parts if part))}."


def things_of(group: Sequence[Act]) -> str:
    """`the front and back necklines`; parts by their names."""
    names = [name for act in group for name in act.entry.things]
    if names and all(name.edge for name in names):
        return named_edges(names)
    return listed(dict.fromkeys(f"the {one_line(name.part)}" for name in names))

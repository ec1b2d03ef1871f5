"""Orders for a person at a terminal, and as one object for a program: how steps stand, another order, the nearest."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.tell import clean, one_finding, wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.check.order.another import Another
    from booklet.check.order.nearest import Nearest
    from booklet.check.order.reach import Way
    from booklet.check.order.reasons import Wait
    from booklet.check.order.waits import Standing
    from booklet.model.pattern import Pattern, Step, View

# Why a step waits, in the words of a person; the rule of the last three is what check would say.
WHY = {
    "part": "makes “{}”",
    "seam": "sews the {}",
    "press": "press before crossing",
    "after": "named under “after”",
    "edge": "{}",
    "piece": "{}",
    "rule": "",
}
HEAD = (
    "A step can move as far as the view, sewn in that order, has nothing new for check to find.",
    "Whether it is as handy there, you judge.",
)
MARGIN = "        "


def standings_text(pattern: Pattern, view: View, found: Sequence[Standing], own: int) -> list[str]:
    """Each step with what it waits for, what waits for it, and how far it can move."""
    lines = [clean(f"{pattern.name}, view {view.letter}: {_steps(len(found))}"), *HEAD, ""]
    if own:
        lines += [f"The written order has {own} to mend or look at again, which is not counted here. See check.", ""]
    for standing in found:
        lines += _standing(standing)
    if not all(standing.tried for standing in found):
        lines += ["", *_not_tried(found)]
    return lines


def _not_tried(found: Sequence[Standing]) -> list[str]:
    tried = sum(standing.tried for standing in found)
    return [
        f"This view is long: {_steps(tried)} could be tried at other places, and “at least” stands where trying ended.",
        "For the others only what the source itself says is told.",
    ]


def _standing(standing: Standing) -> list[str]:
    step = standing.step
    optional = ", optional" if step.optional else ""
    lines = [f"{step.number:>4}  {clean(step.title)}  [{clean(step.id)}]{optional}"]
    waits = [f"{wait.first.number}{_why(wait)}" for wait in standing.waits]
    lines += _labelled("waits for", waits or ["nothing"])
    if standing.awaited:
        lines += _labelled("before", [_numbers(standing.awaited)])
    return [*lines, *_labelled("can move", [_reach(standing)])]


def _labelled(label: str, texts: Sequence[str]) -> list[str]:
    heads = [f"{label:10}", *[" " * 10] * (len(texts) - 1)]
    return [f"{MARGIN}{head}{clean(text)}" for head, text in zip(heads, texts, strict=True)]


def _why(wait: Wait) -> str:
    named = wait.what or "seam"
    seam = named if "seam" in named.lower().split() else f"seam “{named}”"
    words = WHY[wait.why].format(seam if wait.why == "seam" else wait.what)
    if wait.why in ("edge", "piece", "rule") and wait.rule:
        words = f"{words}; else {wait.rule}" if words else f"else {wait.rule}"
    elif wait.rule == "" and wait.why != "seam":
        words = f"{words}; else an entry would speak of another seam" if words else "the seam just sewn"
    return f": {words}" if words else ""


def _reach(standing: Standing) -> str:
    earlier, later = standing.earlier, standing.later
    if not earlier.tried and not later.tried and not earlier.places and not later.places:
        return "not tried"
    if not earlier.places and not later.places and earlier.tried and later.tried:
        return f"nowhere: {_between(earlier, later)}"
    ways = [_way(earlier, "earlier"), _way(later, "later")]
    return f"{', '.join(way for way in ways if way)}: {_between(earlier, later)}"


def _way(way: Way, word: str) -> str:
    least = "" if way.tried else "at least "
    return f"{least}{way.places} {word}" if way.places or not way.tried else ""


def _between(earlier: Way, later: Way) -> str:
    after = f"after {earlier.stop.number}" if earlier.stop else ""
    before = f"before {later.stop.number}" if later.stop else ""
    if after and before:
        return f"{after} and {before}"
    return after or before or "anywhere"


def _numbers(steps: Sequence[Step]) -> str:
    return ", ".join(str(step.number) for step in steps)


def _steps(count: int) -> str:
    return "1 step" if count == 1 else f"{count} steps"


def standings_json(found: Sequence[Standing]) -> list[dict[str, Any]]:
    return [
        {
            "id": standing.step.id,
            "number": standing.step.number,
            "title": standing.step.title,
            "optional": standing.step.optional,
            "waits_for": [
                {"step": wait.first.id, "why": wait.why, "what": wait.what, "rule": wait.rule or None}
                for wait in standing.waits
            ],
            "waited_for_by": [step.id for step in standing.awaited],
            "earlier": _way_json(standing.earlier),
            "later": _way_json(standing.later),
            "tried": standing.tried,
        }
        for standing in found
    ]


def _way_json(way: Way) -> dict[str, Any]:
    """places: how many steps it can pass; stop: the one it can't, with the rule and what it would say."""
    stop = None
    if way.stop is not None and way.harm is not None:
        stop = {"step": way.stop.id, "rule": way.harm.rule or None, "says": way.harm.says}
    return {"places": way.places, "at_least": not way.tried, "stop": stop}


def slips_text(another: Another) -> list[str]:
    """What is wrong with the list of ids, and where."""
    lines = []
    for slip in another.slips:
        lines += [*wrapped(clean(slip.says)), *wrapped("To mend: " + clean(slip.mend))]
        lines += [f"    {clean(f'{slip.place.file}, line {slip.place.line}')}", ""]
    return lines


def another_text(pattern: Pattern, view: View, another: Another, name: str) -> list[str]:
    """Whether the garment comes out, which steps moved, and what breaks where."""
    lines = [clean(f"{pattern.name}, view {view.letter}, in the order of {name}"), "", _verdict(another), ""]
    if another.left_out:
        lines += [f"Left out, as they may be: {_numbers(another.left_out)}.", ""]
    if another.moved:
        lines.append(f"{_steps(len(another.moved))} moved:")
        lines += [f"    {clean(_moved(step, after))}" for step, after in another.moved]
        lines.append("")
    else:
        lines += ["No step moved: it is the written order.", ""]
    for finding in another.new:
        lines += [*one_finding(finding, pattern), ""]
    if another.old:
        lines.append(f"{len(another.old)} more stand in the written order too. See check.")
    return lines[:-1] if lines[-1] == "" else lines


def _verdict(another: Another) -> str:
    if another.errors:
        return f"The garment does not come out: {len(another.errors)} to mend."
    if another.new:
        return f"The garment comes out, with {len(another.new)} to look at again."
    return "The garment comes out."


def _moved(step: Step, after: Step | None) -> str:
    where = f"to after {after.called}" if after is not None else "to the beginning"
    return f"{step.called[0].upper()}{step.called[1:]}, {where}"


def moved_json(moved: Sequence[tuple[Step, Step | None]]) -> list[dict[str, Any]]:
    return [{"step": step.id, "after": after.id if after is not None else None} for step, after in moved]


def another_json(another: Another) -> dict[str, Any]:
    return {
        "comes_out": not another.slips and not another.errors,
        "slips": [
            {"file": s.place.file, "line": s.place.line, "column": s.place.column, "says": s.says, "mend": s.mend}
            for s in another.slips
        ],
        "left_out": [step.id for step in another.left_out],
        "moved": moved_json(another.moved),
        "findings": [finding.as_json() for finding in another.new],
        "also_as_written": [finding.as_json() for finding in another.old],
    }


def nearest_text(
    pattern: Pattern, view: View, nearest: Nearest, moved: Sequence[tuple[Step, Step | None]]
) -> list[str]:
    """A list of ids as `--as` reads it, with what was moved as remarks."""
    lines = [clean(f"# {pattern.name}, view {view.letter}")]
    if nearest.order is None:
        tried = "Every order was tried, and none sews" if nearest.proven else "No order was found that sews"
        return [*lines, f"# {tried}: what is wrong may not be a matter of order. See check."]
    if not moved:
        lines.append("# The written order sews; nothing has to move.")
    elif nearest.proven:
        lines.append(f"# The nearest order that sews: {_steps(len(moved))} moved, and no order with fewer sews.")
    else:
        lines.append(
            f"# The nearest order found that sews: {_steps(len(moved))} moved. Not every nearer one was tried."
        )
    lines += [clean(f"#   {_moved(step, after)}") for step, after in moved]
    return [*lines, *(clean(step.id) for step in nearest.order)]

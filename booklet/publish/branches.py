"""The views side by side for a person at a terminal, and as an object for a program."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.plan.naming import listed
from booklet.plan.plan import PlanStep
from booklet.plan.steps import dashed, number_runs, view_words
from booklet.publish.text import wrap

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.plan.flow import Joint
    from booklet.plan.plan import Branches, Parting, Plan, Run, Share

_INDENT = "  "
_TIE = "\N{NO-BREAK SPACE}"


def branches_text(plan: Plan) -> str:
    """Every run of steps with a column for each view; where branches leave and meet; what each view adds and drops; and
    how the pieces come together.

    plan: of all views.
    """
    return "\n".join([*_lines(plan), *_joined(plan)]) + "\n"


def branches_json(plan: Plan) -> dict[str, Any]:
    """`steps` in their order; `shared`, `views`, `branches` and `joints` name them by their numbers."""
    branches = plan.branches
    letters = [view.letter for view in plan.views]
    numbers = [step.number for step in plan.steps]
    return {
        "pattern": plan.name,
        "title": plan.title,
        "shared": list(branches.shared) if branches else numbers,
        "views": [
            {
                "letter": share.letter,
                "name": share.name,
                "steps": list(share.sews),
                "adds": [{"with": list(others), "steps": list(added)} for others, added in share.adds],
                "drops": list(share.drops),
            }
            for share in branches.shares
        ]
        if branches
        else [{"letter": letters[0], "name": plan.views[0].name, "steps": numbers, "adds": [], "drops": []}],
        "branches": [
            {
                "after": parting.after,
                "until": parting.until,
                "views": [{"letter": letter, "steps": list(each)} for letter, each in parting.each.items()],
            }
            for parting in (branches.partings if branches else ())
        ],
        "joints": [_joint(name, joint) for name, joint in _joints(plan)],
        "steps": [
            {
                "number": step.number,
                "id": step.id,
                "title": step.title,
                "section": section.title,
                "views": list(step.views),
                "optional": step.optional,
            }
            for section in plan.sections
            for step in section.items
            if isinstance(step, PlanStep)
        ],
    }


def _lines(plan: Plan) -> Iterator[str]:
    branches, count = plan.branches, len(plan.steps)
    if branches is None:
        (view,) = plan.views
        yield from wrap(f"{plan.title}: {_counted(count)} in one view, {view.letter}, {view.name}. All are for it.")
        return
    yield from wrap(f"{plan.title}: {_counted(count)} in {len(branches.views)} views")
    yield from _map(branches)
    yield ""
    if not branches.partings:
        yield from wrap("Every view sews every step: no branch leaves.")
        return
    yield "Where branches leave and meet"
    for parting in branches.partings:
        yield from wrap(_parting(parting, branches), _INDENT, _INDENT * 2)
    yield ""
    yield "What each view adds and drops"
    shared = branches.shared
    yield from wrap(
        f"Shared by all, {_counted(len(shared))}: {listed(number_runs(shared))}" if shared else "Shared by all: none",
        _INDENT,
        _INDENT * 2,
    )
    for share in branches.shares:
        yield from _share(share)


def _joined(plan: Plan) -> Iterator[str]:
    if plan.map is not None:
        yield from ("", "How the pieces come together")
        for sentence in plan.map.says:
            yield from wrap(sentence, _INDENT, _INDENT * 2)


def _joints(plan: Plan) -> list[tuple[str, Joint]]:
    """Every joint with the name of what goes on in it, in the order of sewing."""
    found: list[tuple[str, Joint]] = []
    for lane in plan.map.every if plan.map is not None else ():
        name = lane.called
        for joint in lane.joints:
            found.append((name, joint))
            name = joint.makes or name
    return sorted(found, key=lambda row: row[1].steps[0][0])


def _joint(name: str, joint: Joint) -> dict[str, Any]:
    """One step joins `enters` to `to`; or one of several steps, each in its own views."""
    return {
        "steps": [{"number": number, "views": list(letters)} for number, letters in joint.steps],
        "to": name,
        "enters": [{"name": lane.part, "views": list(lane.views)} for lane in joint.enters],
        "makes": joint.makes,
    }


def _counted(count: int) -> str:
    return f"{count} step" if count == 1 else f"{count} steps"


def _map(branches: Branches) -> Iterator[str]:
    """A line for each run: its numbers, a letter under each view that sews it, and what it is."""
    labels = [dashed(list(run.numbers)) for run in branches.runs]
    wide = max(map(len, labels))
    for run, label in zip(branches.runs, labels, strict=True):
        if run.begins:
            yield ""
            yield from wrap(run.section)
        marks = " ".join(letter if letter in run.views else "·".ljust(len(letter)) for letter in branches.views)
        head = f"{_INDENT}{label:>{wide}}  {marks}  "
        yield from wrap(_what(run), head, " " * len(head)) or [head.rstrip()]


def _what(run: Run) -> str:
    titles = [title for _, title in run.steps]
    if len(titles) < 3:
        return "; ".join(titles)
    return f"{titles[0]} … {titles[-1]}"


def _parting(parting: Parting, branches: Branches) -> str:
    after = f"After step {parting.after}" if parting.after is not None else "From the first step"
    until = f"until step {parting.until}" if parting.until is not None else "to the last step"
    sewn = [f"{letter} sews {listed(number_runs(numbers))}" for letter, numbers in parting.each.items()]
    rest = [letter for letter in branches.views if letter not in parting.each]
    if rest:
        one = len(rest) == 1
        if parting.until is not None:
            sewn.append(f"{listed(rest)} {'goes' if one else 'go'} straight on to{_TIE}{parting.until}")
        else:
            sewn.append(f"{listed(rest)} {'has' if one else 'have'} no more to sew")
    return f"{after}, {until}: {'; '.join(sewn)}."


def _share(share: Share) -> Iterator[str]:
    yield ""
    yield from wrap(f"{share.letter}, {share.name}: {_counted(len(share.sews))}", _INDENT, _INDENT * 2)
    yield from _led("Adds ", [_added(others, numbers) for others, numbers in share.adds])
    yield from _led("Drops", [listed(number_runs(share.drops))] if share.drops else [])


def _added(others: Sequence[str], numbers: Sequence[int]) -> str:
    said = listed(number_runs(numbers))
    return f"{said}, with {view_words(others)}" if others else f"{said}, alone"


def _led(lead: str, said: Sequence[str]) -> Iterator[str]:
    head = f"{_INDENT * 2}{lead}  "
    yield from wrap("; ".join(said) or "nothing", head, " " * len(head))

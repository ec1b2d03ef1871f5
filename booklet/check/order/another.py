"""Another order of a view's steps, read from a list of ids, and what comes of sewing it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.check.engine import found_on
from booklet.check.ids import by_id
from booklet.check.order.compare import moved_between
from booklet.check.words import listed
from booklet.finding import Place
from booklet.read.faults import nearest
from booklet.read.tree import same_name
from booklet.sew.view import runs_of, sew_view

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern, Step, View


class Slip(NamedTuple):
    """Something wrong with the list itself, which is no part of the pattern."""

    place: Place
    says: str
    mend: str


class Another(NamedTuple):
    """order: the steps as listed; left_out: optional steps that the list does not hold; slips: where it can't be read.

    moved: each with the step that it now follows, None at the beginning. new: what is found in this order and not in
    the written one; old: what is found in both.
    """

    order: tuple[Step, ...]
    left_out: tuple[Step, ...]
    slips: tuple[Slip, ...]
    moved: tuple[tuple[Step, Step | None], ...] = ()
    new: tuple[Finding, ...] = ()
    old: tuple[Finding, ...] = ()

    @property
    def errors(self) -> list[Finding]:
        return [finding for finding in (*self.new, *self.old) if finding.level == "error"]


def read_order(pattern: Pattern, view: View, name: str, text: str) -> Another:
    """One id a line, compared like all names; blank lines and what follows a # are left out. name: of the file."""
    steps = pattern.steps_of(view.letter)
    known = by_id(steps)
    if len(known) < len(steps):
        place = next(step for step in steps if known[same_name(step.id)] is not step).place
        says = f"Two steps of view {view.letter} have the same id, so a list of ids does not say which is meant."
        return Another((), (), (Slip(place, says, "Give each step an id of its own."),))
    listed_at: dict[Step, int] = {}
    slips: list[Slip] = []
    lines = text.removeprefix("\N{BYTE ORDER MARK}").splitlines()
    for number, line in enumerate(lines, 1):
        words = line.partition("#")[0].strip()
        if not words:
            continue
        place = Place(name, number, len(line) - len(line.lstrip()) + 1, number, len(line) + 1)
        step = known.get(same_name(words))
        if step is None:
            slips.append(_unknown(pattern, view, words, place, list(known)))
        elif step in listed_at:
            says = f"“{step.id}” stands here for the second time; line {listed_at[step]} has it already."
            slips.append(Slip(place, says, "Take one of the two out: a step is sewn once."))
        else:
            listed_at[step] = number
    absent = [step for step in steps if step not in listed_at]
    needed = [step for step in absent if not step.optional]
    if needed:
        end = Place(name, max(len(lines), 1), 1, max(len(lines), 1), 1)
        says = f"The list ends without {listed(step.called for step in needed)}."
        ids = listed(f"“{step.id}”" for step in needed)
        slips.append(Slip(end, says, f"Add {ids}, where {'it is' if len(needed) == 1 else 'they are'} sewn."))
    return Another(tuple(listed_at), tuple(step for step in absent if step.optional), tuple(slips))


def _unknown(pattern: Pattern, view: View, words: str, place: Place, known: list[str]) -> Slip:
    shown = words if len(words) <= 60 else f"{words[:60]}…"
    elsewhere = by_id(pattern.steps).get(same_name(words))
    if elsewhere is not None:
        views = listed(elsewhere.scope.views)
        says = f"“{shown}” is {elsewhere.called}, which view {view.letter} does not sew."
        mend = f"Take it out, or ask for the view that sews it: {views}." if views else "Take it out."
        return Slip(place, says, mend)
    near = nearest(words, known)
    mend = f"Did you mean “{near}”?" if near else "Write the id of a step, as its section file has it after “id:”."
    return Slip(place, f"No step has the id “{shown}”.", mend)


def sew_order(pattern: Pattern, view: View, another: Another) -> Another:
    """The same, sewn: in full, and without its optional steps. Slips are to be mended first."""
    gone = {step.id for step in another.left_out}
    written = [step for step in pattern.steps_of(view.letter) if step.id not in gone]
    found = _findings(pattern, view, another.order, gone)
    before = {(one.rule, one.place, one.step) for one in _findings(pattern, view, written, gone)}
    fresh = [(one.rule, one.place, one.step) not in before for one in found]
    return another._replace(
        moved=with_places(another.order, moved_between(written, another.order)),
        new=tuple(one for one, is_new in zip(found, fresh, strict=True) if is_new),
        old=tuple(one for one, is_new in zip(found, fresh, strict=True) if not is_new),
    )


def with_places(order: Sequence[Step], moved: Sequence[Step]) -> tuple[tuple[Step, Step | None], ...]:
    """Each moved step with the one that it follows in the order."""
    place = {step: at for at, step in enumerate(order)}
    return tuple((step, order[place[step] - 1] if place[step] else None) for step in moved)


def _findings(pattern: Pattern, view: View, order: Sequence[Step], gone: set[str]) -> list[Finding]:
    """The open findings of all runs, by the place of their steps in the order. gone: what it does not hold, by id."""
    runs = dict.fromkeys(frozenset(run - gone) for run in runs_of(pattern, view))
    found = found_on(pattern, [sew_view(pattern, view, run, order) for run in runs])
    place = {step.id: at for at, step in enumerate(order)}
    open_ones = [finding for finding in found if finding.allowed is None]
    return sorted(open_ones, key=lambda one: (place.get(one.step or "", len(place)), one.place.line, one.rule))

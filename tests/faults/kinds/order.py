"""Two entries of one step the wrong way round."""

from __future__ import annotations

from collections.abc import Iterator

from tests.faults.draft import Draft
from tests.faults.fault import SAME, WRONG, Fault, kind
from tests.faults.sample import EntryAt, Sample


def swapped(first: EntryAt, second: EntryAt, verdict: str = WRONG) -> Fault:
    def edit(draft: Draft) -> None:
        one, two = draft.get(first.path), draft.get(second.path)
        draft.put(first.path, two)
        draft.put(second.path, one)

    where = f"“{first.step.id}”: {second.operation} before {first.operation}"
    return Fault(where, verdict, edit, frozenset({first.step.id}))


def pairs(sample: Sample, first: tuple[str, ...], second: tuple[str, ...]) -> Iterator[tuple[EntryAt, EntryAt]]:
    """Entries that follow one another in a step, the second speaking of no seam by name."""
    for one, two in zip(sample.entries, sample.entries[1:], strict=False):
        if one.step is two.step and one.operation in first and two.operation in second and "of" not in two.data:
            yield one, two


def _enter(name: str, first: tuple[str, ...], second: tuple[str, ...], verdict: str = WRONG) -> None:
    @kind(name)
    def faults(sample: Sample) -> Iterator[Fault]:
        for one, two in pairs(sample, first, second):
            yield swapped(one, two, verdict)


_enter("trimmed or graded before it is sewn", ("sew",), ("trim", "grade"))
_enter("clipped or notched before it is sewn", ("sew",), ("clip", "notch"))
_enter("pressed before it is sewn", ("sew", "dart"), ("press",))
_enter("seam finished before it is sewn", ("sew",), ("finish",))
_enter("understitched before it is pressed", ("press",), ("understitch",))
_enter("turned before it is trimmed or clipped", ("trim", "grade", "clip", "notch"), ("turn",))
_enter("sewn before its edge is eased or gathered", ("ease", "gather"), ("sew",))
_enter("cord or elastic before its casing", ("casing",), ("insert",))
_enter("button before its buttonhole", ("buttonhole",), ("button",))
_enter("closed before it is turned", ("turn",), ("close",))
_enter("clipped before it is trimmed (either way is right)", ("trim", "grade"), ("clip", "notch"), SAME)
_enter("finished before it is pressed (either way is right)", ("finish",), ("press",), SAME)

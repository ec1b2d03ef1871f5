"""Which steps have to do with one another on a bench: only past those does a move need a trial."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.read.tree import Text, same_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.model.pattern import Step
    from booklet.sew.bench import Act, Bench

# Options that name a thing of the pattern, rather than a manner of doing.
_NAMING = ("as", "of", "on", "to", "with", "into", "through", "notion")
# What `bench` words leave the seam or the work that "just sewn" means as it was.
_LEAVES_LAST = frozenset({"mark", "touch", "seam", "press", "understitch", "topstitch", "finish", "fasten", "fuse"})


class Related:
    """Read off one sewn bench. Two steps that are not related can change places, and the record stays what it was."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._known: dict[Step, frozenset[str]] = {}
        self._sets: set[Step] = set()
        self._reads: set[Step] = set()
        self._read: set[Step] = set()
        self._acts: dict[Step, list[Act]] = {step: [] for step in bench.steps}
        for act in bench.acts:
            self._acts[act.step].append(act)
            if act.entry.operation.bench not in _LEAVES_LAST:
                self._sets.add(act.step)
            if (setter := _unnamed(act)) is not None:
                self._reads.add(act.step)
                self._read.add(setter)

    def are(self, one: Step, other: Step) -> bool:
        """Whether anything ties them: a thing that both handle, `after`, or the seam that was sewn last."""
        if one not in self._acts or other not in self._acts:
            return True
        if one in self._sets and other in self._sets and (one in self._read or other in self._read):
            return True
        if (one in self._sets and other in self._reads) or (other in self._sets and one in self._reads):
            return True
        return not self._things(one).isdisjoint(self._things(other))

    def _things(self, step: Step) -> frozenset[str]:
        if step not in self._known:
            self._known[step] = frozenset(_things(self._bench, step, self._acts[step]))
        return self._known[step]

    def follows(self, step: Step) -> bool:
        """Whether it speaks of the seam just sewn, and an earlier step sewed that."""
        return step in self._reads


def _unnamed(act: Act) -> Step | None:
    """The earlier step whose seam or work the act speaks of without naming it."""
    spoken = act.seam.act if act.seam is not None else act.target
    if spoken is None or spoken.step is act.step or act.entry.things:
        return None
    return None if {"of", "into"} & act.entry.options.keys() else spoken.step


def _things(bench: Bench, step: Step, acts: list[Act]) -> Iterator[str]:
    """Cut pieces, parts, notions and named seams that a step handles, and the ids that tie it to others."""
    notions = {same_name(notion.item) for notion in bench.pattern.notions}
    yield f"id {same_name(step.id)}"
    yield from (f"id {same_name(text.value)}" for text in step.after)
    named = [same_name(text.value) for text in (*step.uses, *((step.makes,) if step.makes else ()))]
    for act in acts:
        named += [thing.part for thing in act.entry.things]
        named += [thing.part for side in act.entry.sides for thing in side]
        named += _named_by(act)
        spoken = [*act.edges, *(act.seam.edges if act.seam else ()), *(act.target.edges if act.target else ())]
        cuts = [*act.cuts, *(edge.cut for edge in spoken), *(cut for cut, _ in act.darts)]
        cuts += [cut for part in act.parts for cut in part.cuts]
        yield from (cut.called for cut in cuts)
    for name in named:
        if name in bench.seam_makers or name in bench.pattern.materials or name in notions:
            yield f"the {name}"
        part = bench.parts.get(name)
        if part is not None or name in bench.makers:
            yield name
        if part is not None and part.made is None:
            yield from (cut.called for cut in part.cuts)


def _named_by(act: Act) -> list[str]:
    texts = [act.entry.options.get(key) for key in _NAMING]
    if act.entry.word is not None:
        texts.append(act.entry.word)
    found = []
    for value in texts:
        for text in value if isinstance(value, tuple) else (value,):
            if isinstance(text, Text):
                name = same_name(text.value).removeprefix("toward ").removeprefix("the ")
                found += [name, name.partition(".")[0]]
    return found

"""The text of a step works by a seam that is sewn only later.

What it finds: a sentence that names a seam by its own name or by the edges that it joins, such as “the side seam”, in a
step before the one that sews it. Sentences that look ahead (“where the side seam will be”, “the line of the side
seam”, “leave … open”) are passed over.

Why it matters at the machine: the sewer looks for a seam that is not there yet, and can't do as the step says.

Wrong:
    steps:
      - id: hem
        title: Mark the hem
        text: Measure the hem down from the waist, along the side seam.
        uses: [front, back]
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}, {press: open}]}

Right:
    steps:
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}, {press: open}]}
      - id: hem
        title: Mark the hem
        text: Measure the hem down from the waist, along the side seam.
        uses: [front, back]

Source: our choice: what the words name must be there when they are read.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from booklet.check.acts import by_step, movable, put_after, told
from booklet.check.found import Found
from booklet.check.locate import place_of
from booklet.check.sentences import sentences
from booklet.craft.load import table
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.read.tree import same_name
from booklet.sew.bench import Bench, CutPiece, Seam

LEVEL = "warning"
# What stands before or after a word and does not belong to it.
_SIGNS = ".,;:!?()“”\"'*"


def find(bench: Bench) -> Iterator[Found]:
    order = {step.id: at for at, step in enumerate(bench.steps)}
    acts = None
    names: dict[str, list[Seam]] | None = None
    for step in bench.steps:
        if step.text is None or " seam" not in step.text.value:
            continue
        names = _names(bench) if names is None else names
        acts = by_step(bench) if acts is None else acts
        cuts = {cut for act in acts.get(step.id, ()) for cut in (*act.cuts, *(edge.cut for edge in act.edges))}
        for said, seams in _spoken(step, names):
            late = _all_later(seams, cuts, order, step)
            if late is not None and not told(bench, step, late.act.step):
                there = late.act.step
                yield Found(
                    place_of(bench.pattern, step.text, said),
                    step,
                    f"The text speaks of the {said}, which {'are' if said.endswith('s') else 'is'} sewn only later, in "
                    f"{there.called}.",
                    put_after("it", there, step),
                    (Related("It is sewn here", late.act.place),),
                    move=movable(step, there),
                    late=there,
                )
                break


def _names(bench: Bench) -> dict[str, list[Seam]]:
    """The seams of a view by what a text may call them: their own name and its end, and the edges they join."""
    names: dict[str, list[Seam]] = {}
    for seam in bench.seams:
        called = {edge.spec.name.lower() for edge in seam.layers[0].edges}
        for layer in seam.layers[1:]:
            called &= {edge.spec.name.lower() for edge in layer.edges}
        own = same_name(seam.name).removesuffix(" seam")
        words = own.split()
        for name in dict.fromkeys((own, *(" ".join(words[at:]) for at in range(1, len(words))), *sorted(called))):
            if name:
                names.setdefault(name, []).append(seam)
    return names


def _spoken(step: Step, names: dict[str, list[Seam]]) -> Iterator[tuple[str, list[Seam]]]:
    assert step.text is not None
    for words, ending in _phrases(step.text.value):
        name = next((name for name in (words, words.rpartition(" ")[2]) if name in names), None)
        if name is not None:
            yield f"{name} {ending}", names[name]


@lru_cache(maxsize=4096)
def _phrases(text: str) -> tuple[tuple[str, str], ...]:
    """The one or two words before each “seam” or “seams” of a text, where its sentence does not look ahead."""
    ahead, after = (frozenset(table("sayings")[row]) for row in ("looking ahead", "of a seam to come"))
    found = []
    for sentence in sentences(text):
        if " seam" not in sentence:
            continue
        words = sentence.lower().split()
        plain = [word.strip(_SIGNS) for word in words]
        if ahead.isdisjoint(plain):
            for at, word in enumerate(plain):
                follows = plain[at + 1] if at + 1 < len(plain) else ""
                # What a stop or a comma parts from it does not belong to its name.
                if at and word in ("seam", "seams") and follows not in after and words[at - 1][-1].isalpha():
                    two = at > 1 and words[at - 2][-1].isalpha()
                    found.append((" ".join(plain[at - 2 if two else at - 1 : at]), word))
    return tuple(found)


def _all_later(seams: list[Seam], cuts: set[CutPiece], order: dict[str, int], step: Step) -> Seam | None:
    """The first seam that is meant, where each is sewn in a later step; of the pieces of this step, if any are."""
    own = [seam for seam in seams if any(edge.cut in cuts for edge in seam.edges)] or seams
    here = order[step.id]
    if any(order[seam.act.step.id] <= here for seam in own):
        return None
    return own[0]

"""A step uses a part that is made for other views only.

What it finds: a name in `work` or `uses` that no step of this view makes, though a step of another view does, or an
optional step that may be left out: a branch that leaves a view without a part.

Why it matters at the machine: the sewer of this view is told to attach something that the booklet never had them
make.

Wrong:
    steps:
      - {id: sleeves, title: Make the sleeves, for: B,
         work: [{sew: [sleeve.underarm, sleeve.underarm]}], makes: sleeves}
      - {id: set, title: Set in the sleeves, work: [{sew: [front.armhole, sleeves.cap]}]}

Right:
    steps:
      - {id: sleeves, title: Make the sleeves, for: B,
         work: [{sew: [sleeve.underarm, sleeve.underarm]}], makes: sleeves}
      - {id: set, title: Set in the sleeves, for: B, work: [{sew: [front.armhole, sleeves.cap]}]}

Source: published: the unit method of construction, as taught in Univ. of California Agric. Ext. Manual 11, Simplified
Sewing: each part of a garment is completed before the parts are put together.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import once
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.read.tree import same_name
from booklet.sew.bench import Bench, Missing

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for missing in once(bench, "not made", by_part=True):
        if missing.maker is not None:
            yield _found(bench, missing, missing.maker)


def _found(bench: Bench, missing: Missing, maker: Step) -> Found:
    name = missing.written.split(".")[0].strip()
    if maker.id in bench.left_out:
        return Found(
            missing.place,
            missing.step,
            f"“{name}” is used here, but only an optional step makes it.",
            f"Let {missing.step.called}, be optional too, or let {maker.called}, always be sewn.",
            (Related("It is made here", maker.place),),
        )
    makers = bench.made_anywhere[same_name(name)]
    has = {view for step in makers for view in step.scope.views}
    lacking = [view for view in missing.step.scope.views if view not in has]
    kept = [view for view in missing.step.scope.views if view in has]
    limit = f"limit {missing.step.called}, with “for: {_as_list(kept)}”" if kept else "name a part that this view has"
    mend = f"Make it here too: add {listed(lacking)} to the “for:” of {maker.called}; or {limit}."
    if not _could_make(bench, maker, lacking):
        mend = f"{limit[0].upper()}{limit[1:]}."
    return Found(
        missing.place,
        missing.step,
        f"“{name}” is used here, but no step of this view makes it.",
        mend,
        tuple(Related(f"It is made here, for {_views(step)} only", step.place) for step in makers),
    )


def _could_make(bench: Bench, maker: Step, views: list[str]) -> bool:
    """Whether these views cut every piece that the step which makes it names."""
    named = [name.part for entry in maker.work for name in entry.things] + [same_name(use.value) for use in maker.uses]
    pieces = [piece for name in named if (piece := bench.pattern.pieces.get(name.partition(" in ")[0]))]
    return all(view in piece.scope.views for piece in pieces for view in views)


def _as_list(views: list[str]) -> str:
    return views[0] if len(views) == 1 else f"[{', '.join(views)}]"


def _views(step: Step) -> str:
    return f"view {listed(step.scope.views)}" if step.scope.views else "no view"

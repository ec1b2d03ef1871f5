"""Which stages share a picture: things done to a seam one after another that one drawing shows as well as two."""

from __future__ import annotations

from typing import NamedTuple

from booklet.plan.plan import Stage

# How many pictures does a strip hold? Our choice: four still read across both columns.
MOST = 4

# What kind of doing is it? stitch makes a row through all layers; cut narrows them; lay and turn move them; fold bends
# one; after is done to what already lies there. A press that moves nothing (`as sewn`, `flat`) shows nothing.
_KIND = {
    "stitch": "stitch",
    "trim": "cut",
    "grade": "cut",
    "clip": "cut",
    "press": "lay",
    "turn": "turn",
    "fold": "fold",
    "understitch": "after",
    "topstitch": "after",
    "finish": "after",
    "bind": "after",
    "stitch fold": "after",
}
_JOINS = {
    "stitch": (),
    "cut": ("cut",),
    "lay": ("after", "turn", "fold"),
    "turn": (),
    "fold": ("after", "lay"),
    "after": ("lay", "turn", "fold", "after"),
}
_STILL = frozenset({"", "as sewn", "flat"})


class Beat(NamedTuple):
    """Stages of one picture, in the order of the hands."""

    kind: str
    stages: tuple[Stage, ...]

    def of(self, *ops: str) -> list[Stage]:
        return [stage for stage in self.stages if stage.op in ops]


def beats(stages: tuple[Stage, ...], joining: dict[str, tuple[str, ...]] | None = None) -> list[Beat]:
    """`joining`: for a construction, which kinds before it a kind joins, where that is not the usual."""
    found: list[Beat] = []
    for stage in stages:
        kind = _KIND.get(stage.op, "")
        before = found[-1].kind if found else ""
        joins = {**_JOINS, **(joining or {})}.get(kind, ())
        if found and (not kind or (stage.op == "press" and stage.manner in _STILL)):
            found[-1] = Beat(before, (*found[-1].stages, stage))
        elif before in joins and before:
            found[-1] = Beat(kind if kind != "after" else before, (*found[-1].stages, stage))
        else:
            found.append(Beat(kind, (stage,)))
    while len(found) > MOST:
        _join_one(found)
    return found


def _join_one(found: list[Beat]) -> None:
    """Fewer by one: a cut with what comes after it, else the last two."""
    place = next((i for i, beat in enumerate(found[:-1]) if beat.kind == "cut"), len(found) - 2)
    first, second = found[place : place + 2]
    found[place : place + 2] = [Beat(second.kind, first.stages + second.stages)]

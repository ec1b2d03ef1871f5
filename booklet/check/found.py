"""What a rule says of one fault; the engine adds the rule's name, its level and the views."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.record import NamedTuple

if TYPE_CHECKING:
    from booklet.finding import Place, Related
    from booklet.model.pattern import Step


class Found(NamedTuple):
    """place: what to look at first; step: where it holds (None for the pattern as a whole).

    move: a step that stands in the wrong place. The engine looks for the nearest place at which the fault is gone and
    no new one has come, and names it as the mend; where there is none, `mend` stands as it is.
    short: the same sentence without another step that it names, for views in which that is not the same one.
    cause: what is amiss in words, where the same cause shows at another step in another view: told once, with the mend
    for each.
    late: a step that comes too late. Where several rules speak of one such step, the first is told, with the places of
    the others: they have one cause.
    """

    place: Place
    step: Step | None
    says: str
    mend: str
    related: tuple[Related, ...] = ()
    move: Step | None = None
    short: str = ""
    late: Step | None = None
    cause: str = ""

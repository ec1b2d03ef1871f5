"""The command `order`: one view, how its steps stand, another order of them, or the nearest one that sews."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from booklet import tell_order as told
from booklet.check.order.trial import Trials
from booklet.finding import Place

if TYPE_CHECKING:
    from pathlib import Path

    from booklet.check.order.another import Another
    from booklet.model.pattern import Pattern, View
    from booklet.pipeline import Checked

FINE, WRONG, UNREAD = 0, 1, 2
# How long may a list of ids be? Far more than any view has steps.
MOST_BYTES = 1_000_000


class Answer(NamedTuple):
    """What is printed, as lines or as one object; code: 0 it sews, 1 it does not, 2 it can't be read."""

    lines: list[str]
    data: dict[str, Any]
    code: int


def orders(checked: Checked, letter: str, listed: Path | None, suggest: bool) -> Answer:
    """letter: a view of the pattern; listed: a file with another order."""
    pattern = checked.pattern
    assert pattern is not None
    view = pattern.views[letter]
    head = {"pattern": checked.name, "view": letter}
    if listed is not None:
        answer = _as_listed(pattern, view, listed)
    elif suggest:
        answer = _nearest(pattern, view)
    else:
        answer = _standings(checked, pattern, view)
    code = UNREAD if checked.unread else answer.code
    return Answer(answer.lines, {**head, **answer.data}, code)


def _standings(checked: Checked, pattern: Pattern, view: View) -> Answer:
    from booklet.check.order.waits import standings

    trials = Trials(pattern, view)
    found = standings(trials)
    lines = told.standings_text(pattern, view, found, len(trials.own))
    return Answer(lines, {"steps": told.standings_json(found)}, WRONG if checked.errors else FINE)


def _as_listed(pattern: Pattern, view: View, listed: Path) -> Answer:
    from booklet.check.order.another import sew_order

    another = _read(pattern, view, listed)
    if another.slips:
        return Answer(told.slips_text(another), told.another_json(another), UNREAD)
    another = sew_order(pattern, view, another)
    lines = told.another_text(pattern, view, another, listed.name)
    return Answer(lines, told.another_json(another), WRONG if another.errors else FINE)


def _read(pattern: Pattern, view: View, listed: Path) -> Another:
    from booklet.check.order.another import Another, Slip, read_order

    start = Place(listed.name, 1, 1, 1, 1)
    try:
        with listed.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
        if len(data) > MOST_BYTES:
            slip = Slip(start, "This is too long for a list of steps.", "Name a file with one id a line.")
            return Another((), (), (slip,))
        return read_order(pattern, view, listed.name, data.decode("utf-8"))
    except OSError as error:
        slip = Slip(start, f"{listed} can't be read: {error.strerror or error}.", "Name a file with one id a line.")
    except UnicodeDecodeError:
        slip = Slip(start, "This is no text in UTF-8.", "Save it as plain text, in UTF-8, with one id a line.")
    return Another((), (), (slip,))


def _nearest(pattern: Pattern, view: View) -> Answer:
    from booklet.check.order.another import with_places
    from booklet.check.order.nearest import nearest_order

    nearest = nearest_order(Trials(pattern, view))
    moved = with_places(nearest.order, nearest.moved) if nearest.order else ()
    data = {
        "found": nearest.order is not None,
        "proven": nearest.proven,
        "order": [step.id for step in nearest.order or ()],
        "moved": told.moved_json(moved),
    }
    return Answer(told.nearest_text(pattern, view, nearest, moved), data, FINE if nearest.order else WRONG)

"""The shot list as data for a program."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from booklet.publish.shots.rows import in_filming_order, in_sewing_order

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from booklet.plan.film.filming import Filming
    from booklet.plan.film.garment import Garment
    from booklet.plan.plan import FilmPlan, Plan
    from booklet.publish.shots.rows import Row


def shot_data(plan: Plan, film: FilmPlan, filming: Filming, figures: Mapping[int, Sequence[str]]) -> str:
    """JSON. takes: in the order of the film; filming.order: their numbers as they are filmed; minutes are numbers."""
    data = {
        "pattern": plan.title,
        "edition": plan.edition,
        "view": film.view.letter,
        "words_a_minute": film.pace,
        "minutes": round(sum(shot.minutes for shot in film.shots), 2),
        "setups": [{"name": name, "camera": camera} for name, camera in film.setups],
        "takes": [_take(row, plan, figures) for row in in_sewing_order(film, filming)],
        "filming": {
            "order": [row.shot.take for row in in_filming_order(film, filming)],
            "changes": filming.changes,
            "changes_at_least": filming.at_least,
            "changes_in_sewing_order": filming.sewing_changes,
            "samples": [
                {"number": sample.number, **_garment(sample.garment), "takes": list(sample.takes)}
                for sample in filming.samples
            ],
            "with_other_numbers_of_samples": [
                {"samples": choice.samples, "changes": choice.changes, "changes_at_least": choice.at_least}
                for choice in filming.choices
            ],
        },
    }
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


def _take(row: Row, plan: Plan, figures: Mapping[int, Sequence[str]]) -> dict[str, Any]:
    shot = row.shot
    ids = {step.number: step.id for step in plan.steps}
    return {
        "take": shot.take,
        "step": shot.step,
        "step_id": ids.get(shot.step) if shot.step is not None else None,
        "title": shot.step_title,
        "setup": shot.setup or None,
        "show": shot.show,
        "say": shot.say,
        "about_views": shot.others,
        "on_screen": [{"kind": note.kind, "text": note.text} for note in shot.notes],
        "words": shot.words,
        "minutes": shot.minutes,
        "estimated": shot.estimated,
        "filmed": row.place,
        "block": row.filmed.block,
        "sample": row.filmed.sample,
        "garment": _garment(row.filmed.garment),
        "figures": list(figures.get(shot.step, ())) if shot.step is not None else [],
    }


def _garment(garment: Garment) -> dict[str, Any]:
    return {
        "says": garment.says,
        "sewn": list(garment.sewn),
        "may_be_open": list(garment.open),
        "begun": garment.begun,
    }

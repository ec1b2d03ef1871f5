"""The narration script: what is said, one take a screen, to be read from a tablet beside the camera."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from booklet.publish import wording
from booklet.publish.booklet import _environment as environment
from booklet.publish.faces import script_hash, style_sheet
from booklet.publish.html import inline_html, prose_html
from booklet.publish.shots.rows import in_sewing_order, told_minutes
from booklet.styles_folder import styles_folder

if TYPE_CHECKING:
    from booklet.plan.film.filming import Filming
    from booklet.plan.plan import FilmPlan
    from booklet.publish.edition import Edition

NAME = "script"


def files(edition: Edition) -> dict[str, bytes]:
    film, filming = edition.plan.films, edition.filming
    if film is None or filming is None or not film.shots:
        return {}
    return {"film/script.html": script_html(edition, film, filming).encode()}


def script_html(edition: Edition, film: FilmPlan, filming: Filming) -> str:
    """In the order of the film, or by a button as it is filmed."""
    plan = edition.plan
    script = (styles_folder() / "script.js").read_text(encoding="utf-8")
    return (
        environment()
        .get_template("script.html")
        .render(
            plan=plan,
            film=film,
            filming=filming,
            rows=in_sewing_order(film, filming),
            steps={step.number: step for step in plan.steps},
            inline=lambda prose: inline_html(prose, {}),
            prose=lambda prose: prose_html(prose, {}),
            minutes=told_minutes,
            css=Markup(style_sheet("script.css")),
            script=Markup(script),
            script_hash=script_hash(script),
            wording=wording,
        )
    )

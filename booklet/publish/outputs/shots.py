"""The shot list: as tables and data in both orders, and as a page to tick off on the day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.publish.shots.data import shot_data
from booklet.publish.shots.day_page import day_html
from booklet.publish.shots.rows import in_filming_order, in_sewing_order
from booklet.publish.shots.sheet import shot_sheet

if TYPE_CHECKING:
    from booklet.publish.edition import Edition

NAME = "shots"


def files(edition: Edition) -> dict[str, bytes]:
    film, filming = edition.plan.films, edition.filming
    if film is None or filming is None:
        return {}
    written = edition.figure_files
    figures = {step.number: [written[one] for one in step.figures if one in written] for step in edition.plan.steps}
    # The mark at the start tells spreadsheets that this is UTF-8.
    return {
        "film/shots.csv": shot_sheet(in_sewing_order(film, filming), figures).encode("utf-8-sig"),
        "film/shots-as-filmed.csv": shot_sheet(in_filming_order(film, filming), figures).encode("utf-8-sig"),
        "film/shots.json": shot_data(edition.plan, film, filming, figures).encode(),
        "film/shots.html": day_html(edition, film, filming).encode(),
    }

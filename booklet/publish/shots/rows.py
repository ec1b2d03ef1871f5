"""A take with all that is known of it, for every form of the shot list."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.plan.film.filming import Filmed, Filming
    from booklet.plan.plan import FilmPlan, Note, Shot


class Row(NamedTuple):
    """place: in the order of filming, from 1; camera: what the writer says of the set-up."""

    shot: Shot
    filmed: Filmed
    place: int
    camera: str


class Block(NamedTuple):
    """Takes of one set-up, filmed one after the other."""

    number: int
    setup: str
    camera: str
    rows: tuple[Row, ...]

    @property
    def minutes(self) -> float:
        return sum(row.shot.minutes for row in self.rows)


def in_sewing_order(film: FilmPlan, filming: Filming) -> list[Row]:
    """As the film runs."""
    return sorted(in_filming_order(film, filming), key=lambda row: row.shot.take)


def in_filming_order(film: FilmPlan, filming: Filming) -> list[Row]:
    camera = dict(film.setups)
    shots = {shot.take: shot for shot in film.shots}
    return [
        Row(shots[filmed.take], filmed, place, camera.get(shots[filmed.take].setup, ""))
        for place, filmed in enumerate(filming.takes, 1)
    ]


def blocks(rows: Sequence[Row]) -> list[Block]:
    """rows: in the order of filming."""
    found: list[Block] = []
    for row in rows:
        if found and found[-1].number == row.filmed.block:
            found[-1] = found[-1]._replace(rows=(*found[-1].rows, row))
        else:
            found.append(Block(row.filmed.block, row.shot.setup, row.camera, (row,)))
    return found


def note_words(note: Note) -> str:
    """`Body measurements (chart)`; a writer's own words as they are."""
    return note.text if note.kind != "chart" else f"{note.text} ({note.kind})"


def told_minutes(minutes: float) -> str:
    """`2½ min`, `1 h 10 min`; a tenth of a minute where it is no half."""
    whole, rest = divmod(round(minutes * 10), 10)
    hours, whole = divmod(whole, 60)
    part = {0: "", 5: "½"}.get(rest, f".{rest}")
    if hours:
        return f"{hours} h {whole} min" if whole else f"{hours} h"
    return f"{'' if part == '½' and not whole else whole}{part} min"

"""More is said in a take than can be said in its time, or the film's pace is too fast to sew by.

What it finds: a take whose `say` and `about views` (or `words`, where they are more) would have to be spoken faster
than 160 words a minute to fit into its `minutes`; and a `pace` of film.yaml above that.

Why it matters at the machine: who watches has a needle running and looks up only now and then. What is spoken like
the news is not heard, and the take gets longer on the day than the plan has it.

Wrong:
    steps:
      - id: side
        title: Join the sides
        work: [{sew: [front.side, back.side]}]
        film:
          - say: >
              Sew the side from the armhole down to the hem, and keep the two edges level all the way, because a seam
              that drifts here makes the front hang to one side.
            minutes: 0.1

Right:
    steps:
      - id: side
        title: Join the sides
        work: [{sew: [front.side, back.side]}]
        film:
          - say: >
              Sew the side from the armhole down to the hem, and keep the two edges level all the way, because a seam
              that drifts here makes the front hang to one side.
            minutes: 1

Source: our choice: 130 to 150 words a minute for hands-busy watching, between the rates of lectures and of narration;
radio reads 150 to 170 and lecturers speak 125 to 160 (Tauroza & Allison 1990, Applied Linguistics 11(1), from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.spoken import words_of
from booklet.craft.load import table
from booklet.model.pattern import Pattern, Step, Take

LEVEL = "warning"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    film = pattern.film
    takes: list[tuple[Take, Step | None]] = [(take, step) for step in pattern.steps for take in step.film]
    takes += [(take, None) for take in (film.takes if film else ())]
    if film is None and not takes:
        return
    most = int(table("limits")["most spoken"]["words"])
    if film is not None and film.pace is not None and film.pace > most:
        says = f"The film's pace is {film.pace:g} words a minute: too fast to sew by."
        yield Found(film.place, None, says, f"Plan 130 to 150 words a minute, and never more than {most}.")
    for take, step in takes:
        if not take.minutes:
            continue
        words = words_of(take)
        if words > most * take.minutes:
            needed = words / most
            says = f"{words} words in {take.minutes:g} min are {words / take.minutes:.0f} a minute: too fast to sew by."
            mend = f"Give it {_rounded_up(needed)} min or more, or say less."
            yield Found((take.say or take.others or take).place, step, says, mend)


def _rounded_up(minutes: float) -> str:
    """To the next tenth of a minute."""
    return f"{-int(-minutes * 10 // 1) / 10:g}"

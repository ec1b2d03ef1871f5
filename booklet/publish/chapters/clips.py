"""The film in schema.org's terms: how the pattern is sewn, step by step, each with its clip of the video.

Source: schema.org 30.0: HowTo, HowToSection, HowToStep, HowToSupply, HowToTool, VideoObject, Clip.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.plan.plan import PlanStep
from booklet.plan.prose import plain

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from booklet.plan.film.times import Timed
    from booklet.plan.plan import Plan, PlanSection


def how_to(plan: Plan, times: Sequence[Timed], link: str) -> dict[str, Any]:
    """plan: of the view that is filmed. Clips and the video stand in it where there is a link."""
    by_number = {timed.number: timed for timed in times if timed.number is not None and timed.settled}
    sections = [_section(section, by_number if link else {}, link) for section in plan.sections]
    made: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": f"How to sew the {plan.title}",
        "supply": [{"@type": "HowToSupply", "name": fabric.name} for fabric in plan.fabrics]
        + [{"@type": "HowToSupply", "name": plain(notion.item)} for notion in plan.notions],
        "tool": [{"@type": "HowToTool", "name": tool} for tool in plan.tools],
        "step": sections,
    }
    if link:
        name = f"{plan.title}, sewn along"
        made["video"] = {
            "@type": "VideoObject",
            "name": name,
            "url": from_time(link, 0),
            "hasPart": _clips(times, link),
        }
    return made


def _section(section: PlanSection, times: Mapping[int, Timed], link: str) -> dict[str, Any]:
    steps = [item for item in section.items if isinstance(item, PlanStep)]
    return {
        "@type": "HowToSection",
        "name": section.title,
        "itemListElement": [_step(step, times.get(step.number), link) for step in steps],
    }


def _step(step: PlanStep, timed: Timed | None, link: str) -> dict[str, Any]:
    text = [{"@type": "HowToDirection", "text": plain(step.text)}] if step.text else []
    tips = [{"@type": "HowToTip", "text": plain(step.tip)}] if step.tip else []
    made = {"@type": "HowToStep", "name": f"{step.number}. {step.title}", "itemListElement": [*text, *tips]}
    return made if timed is None else made | {"url": from_time(link, timed.start)}


def _clips(times: Sequence[Timed], link: str) -> list[dict[str, Any]]:
    """Of each settled time; its end stands there where that is settled too."""
    following = [*(timed.settled for timed in times[1:]), True]
    return [
        {"@type": "Clip", "name": timed.title, "startOffset": int(timed.start), "url": from_time(link, timed.start)}
        | ({"endOffset": int(timed.end)} if timed.end is not None and ends else {})
        for timed, ends in zip(times, following, strict=True)
        if timed.settled
    ]


def from_time(link: str, seconds: float) -> str:
    """The video from a time on: where the writer has put {seconds}, else as W3C Media Fragments URI 1.0 says."""
    time = str(int(seconds))
    if "{seconds}" in link:
        return link.replace("{seconds}", time)
    return f"{link}#t={time}" if seconds else link

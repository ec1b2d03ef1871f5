"""What a typical case of a row looks like from the side, in words: sewn on the bench and drawn as for a booklet."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from booklet.craft.load import constructions, operations, table

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern
    from booklet.plan.plan import Section

_FOLDER = Path(__file__).parent / "typical"


def shown(kind: str, name: str) -> str:
    """The alternative text of its figure; "" for a row that is not drawn."""
    work = typical_work(kind, name)
    section = _section(work) if work else None
    if section is None:
        return ""
    from booklet.draw.section import draw_section

    return draw_section(section).shows


def typical_work(kind: str, name: str) -> list[str]:
    """Entries of `work`, one a line as they are written in a step; none where nothing is drawn."""
    own = table("typical").get(kind, {}).get(name)
    if own is not None:
        return list(own)
    if kind == "constructions":
        return _seam(name)
    if kind == "hems":
        return _hem(name)
    return []


def _seam(name: str) -> list[str]:
    """With the numbers of construction_options.yaml, and pressed open where it can be."""
    row = constructions()[name]
    keys = [f"seam: {name}", *(table("construction_options")[option]["example"] for option in row.get("needs", ()))]
    return [f"sew: [front.side, back.side], {', '.join(keys)}", *([] if "held" in row else ["press: open"])]


def _hem(name: str) -> list[str]:
    """With its usual turns."""
    turns = table("hems")[name].get("usual", {}).get("inch", ())
    kind = f", kind: {name}" if "kind" in operations()["hem"].options else ""
    return [f"hem: front.hem, turns: [{', '.join(turns)}]{kind}"] if turns else []


def _section(work: list[str]) -> Section | None:
    """The last thing that the work makes and that is drawn."""
    from booklet.plan.stages import Course, edge_section, seam_section
    from booklet.sew.view import sew_view

    pattern = _pattern(work)
    if pattern is None:
        return None
    course = Course(sew_view(pattern, next(iter(pattern.views.values()))))
    found = None
    for act in course.bench.acts:
        if act.broken or not act.edges:
            continue
        if act.seam is not None and act.name == "sew":
            found = seam_section(course, act.seam)
        elif act.name in ("hem", "casing", "bind"):
            found = edge_section(course.bench, act) or found
    return found


def _pattern(work: list[str]) -> Pattern | None:
    """The small pattern of typical/, with one step that does this work."""
    from booklet.model.build import build_pattern
    from booklet.read.document import read_document
    from booklet.read.faults import Faults
    from booklet.read.folder import read_folder
    from booklet.read.tree import Mapping

    faults = Faults()
    source = read_folder(_FOLDER, faults)
    entries = "".join(f"      - {{{entry}}}\n" for entry in work)
    text = f"section: Typical\nsteps:\n  - id: typical\n    title: Typical\n    work:\n{entries}"
    tree = read_document("10-typical.yaml", text, faults)
    if isinstance(tree, Mapping):
        source.texts["10-typical.yaml"] = text
        source.trees["10-typical.yaml"] = tree
    pattern = build_pattern(source, faults)
    return pattern if not faults.findings else None

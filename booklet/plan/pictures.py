"""What each step's figures show: acts that hands do in one go, on the cloths as they lie then."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.laying import Laying, cloth_of, pairs
from booklet.plan.naming import edges as named_edges
from booklet.plan.naming import listed
from booklet.plan.naming import sides as named_sides
from booklet.plan.picture import Mark, StepFigure
from booklet.plan.write import capital, one_line
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.length import Length
    from booklet.sew.bench import Act, Bench, Edge, Seam

# How many figures of the pieces stand beside one step? Our choice: what more a step needs is two steps.
MOST = 3
# On which side does the cloth lie while this is done? Common practice, no source.
_RIGHT_UP = frozenset({"topstitch", "edgestitch", "button", "buttonhole", "snap", "hook", "zipper", "pocket", "gather",
                       "ease", "baste"})  # fmt: skip
_WRONG_UP = frozenset({"staystitch", "finish", "mark", "cut", "hem", "casing", "dart", "pleat", "tuck", "close"})
_CUTTING = frozenset({"trim", "grade", "clip", "notch"})


def pictures_of(bench: Bench, acts: Sequence[Act], drawn: frozenset[str]) -> list[StepFigure]:
    """The figures of one step, in the order of its work."""
    found: list[StepFigure] = []
    for group in _groups(acts):
        figure = _sewn(bench, group, drawn) if group[0].name in ("sew", "baste") else _flat(bench, group, drawn)
        if figure is not None and figure not in found:
            found.append(figure)
        opened = _opened(bench, group, drawn)
        if opened is not None and opened not in found:
            found.append(opened)
    return found[:MOST]


def _groups(acts: Sequence[Act]) -> Iterator[list[Act]]:
    """Acts that one figure can show: a seam with what is cut and pressed of it; or like things done to flat pieces."""
    group: list[Act] = []
    for act in acts:
        if act.broken:
            continue
        if group and _goes_with(group, act):
            group.append(act)
            continue
        if group:
            yield group
        group = [act]
    if group:
        yield group


def _goes_with(group: Sequence[Act], act: Act) -> bool:
    first = group[0]
    if act.name in _CUTTING or act.name in ("press", "understitch", "finish"):
        return act.seam is not None and act.seam is first.seam
    return (
        act.name == first.name
        and act.name in ("staystitch", "mark", "cut", "fuse")
        and first.entry.measure("at") == act.entry.measure("at")
    )


def _sewn(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> StepFigure | None:
    """Two sides laid together and stitched, with what is cut of their allowances."""
    act = group[0]
    if len(act.sides) < 2 or not all(act.sides):
        return _flat(bench, group, drawn) if act.name == "baste" else None
    wrong = act.seam is not None and act.seam.construction == "french"
    lapped = act.seam is not None and act.seam.construction == "lapped"
    below, above = ("wrong", "right") if wrong else ("right", "right" if lapped else "wrong")
    laying = Laying(bench, act.time, drawn)
    base, *others = act.sides
    if not laying.can_show(act.edges) or not laying.place(base, below):
        return None
    for side in others:
        if act.name == "baste" and laying.hangs_behind(side[0].cut):
            laying.place(side, above)
        elif not _lay(laying, base, side, above):
            return None
    at = act.entry.measure("at") if act.name == "baste" else _row(act)
    shown = _uppermost(laying, base, others)
    marks = _on(laying, "stitch" if act.name == "sew" else "baste", shown, at)
    for later in group[1:]:
        if later.name in _CUTTING:
            marks += _cuttings(laying, later, shown)
        elif later.name == "finish":
            marks += _on(laying, "finish", shown, None)
    under = all(cloth.how != "laid" and cloth.how != "folded" for cloth in laying.cloths)
    up = lapped or (under and len({edge.cut for edge in act.edges}) > 1)
    together = "wrong sides together" if wrong else "right side up" if up else "right sides together"
    return StepFigure(
        tuple(laying.cloths),
        tuple(marks),
        f"{capital(_lies(act))}, {together}; {'stitched' if act.name == 'sew' else 'basted'}"
        f"{f' {at} from the edge' if at else ''}{''.join(_also(later) for later in group[1:])}.",
        capital(together),
    )


def _uppermost(laying: Laying, base: Sequence[Edge], others: Sequence[Sequence[Edge]]) -> list[Edge]:
    """The edges on which rows and cuts are drawn: those of the uppermost side that is laid out."""
    for side in reversed(others):
        seen = [edge for edge in side if edge.cut in laying.number]
        if seen and all(laying.cloths[laying.number[edge.cut]].how != "folded" for edge in seen):
            return seen
    return list(base)


def _row(act: Act) -> Length | None:
    passes = act.entry.lengths("passes")
    if passes:
        return passes[0]
    return act.seam.allowance if act.seam is not None else None


def _lay(laying: Laying, base: Sequence[Edge], side: Sequence[Edge], face: str, how: str = "laid") -> bool:
    """One side of a seam onto the other: its first piece by its edges, the others as they hang on it."""
    first = side[0].cut
    own = [edge.spec.name for edge in side if edge.cut is first]
    if first in laying.number:
        if len({edge.cut for edge in (*base, *side)}) > 1:
            return True
        number = laying.number[first]
        folded = tuple(meet for meet in pairs(own, [edge.spec.name for edge in base], number))
        copy = all(meet.edge == meet.other_edge for meet in folded)
        if not copy:
            laying.cloths[number] = laying.cloths[number]._replace(how="folded", meets=folded, face=face)
        return True
    if len(own) > 1 and len(base) == 1:
        return True  # both ends of a loop or tube: how it bends can't be told
    base = [edge for edge in base if laying.cloths[laying.number[edge.cut]].how not in ("under", "over")]
    partner = base[0].cut
    others = [edge.spec.name for edge in base if edge.cut is partner]
    if len(dict.fromkeys(edge.cut for edge in base)) == len(dict.fromkeys(edge.cut for edge in side)):
        meets = pairs(own, others, laying.number[partner])
    else:
        meets = tuple(m for edge in base for m in pairs(own[:1], [edge.spec.name], laying.number[edge.cut]))
    laying.add(first, face, how, meets)
    return laying.place(side, face)


def _lies(act: Act) -> str:
    return f"{named_sides(act.entry.sides)} matched"


def _on(laying: Laying, kind: str, edges: Sequence[Edge], at: Length | None, word: str = "") -> list[Mark]:
    """One mark a cloth."""
    by_cloth: dict[int, list[str]] = {}
    for edge in edges:
        if edge.cut in laying.number:
            by_cloth.setdefault(laying.number[edge.cut], []).append(edge.spec.name)
    return [Mark(kind, cloth, tuple(dict.fromkeys(names)), at, word=word) for cloth, names in by_cloth.items()]


def _cuttings(laying: Laying, act: Act, shown: Sequence[Edge]) -> list[Mark]:
    if act.name in ("clip", "notch"):
        kind, every = act.entry.spacing
        return _on(laying, act.name, shown, every.length if every else None, kind)
    width = act.entry.measures[-1].length if act.entry.measures else None
    return _on(laying, "trim", shown, width)


def _also(act: Act) -> str:
    if act.name in ("trim", "grade") and act.entry.measures:
        return f"; the allowances {act.name}{'d' if act.name == 'grade' else 'med'} to " + listed(
            str(one.length) for one in act.entry.measures
        )
    if act.name in ("clip", "notch"):
        kind, every = act.entry.spacing
        done = "clipped" if act.name == "clip" else "notched"
        return f"; {done} every {every.length}" if every else f"; {done} {kind}".rstrip()
    return ""


def _opened(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> StepFigure | None:
    """The seam laid open and pressed, and what is stitched on it then."""
    pressed = [act for act in group if act.name == "press"]
    seam = group[0].seam
    if not pressed or seam is None or seam.construction == "french":
        return None
    word = same_name(pressed[-1].entry.word.value) if pressed[-1].entry.word else ""
    if word != "open" and not word.startswith("toward"):
        return None
    return _pressed(bench, group, seam, pressed[-1], word, drawn)


def _pressed(
    bench: Bench, group: Sequence[Act], seam: Seam, press: Act, word: str, drawn: frozenset[str]
) -> StepFigure | None:
    under = next((act for act in group if act.name == "understitch"), None)
    laying = Laying(bench, press.time, drawn)
    if not laying.can_show(seam.edges) or len({edge.cut for edge in seam.edges}) < 2:
        return None
    face = "right" if under is not None else "wrong"
    base, *others = [layer.edges for layer in seam.layers]
    if not laying.place(base, face) or any(edge.cut in laying.number for side in others for edge in side):
        return None
    if not all(_lay(laying, base, side, face, "opened") for side in others):
        return None
    toward = word.removeprefix("towards").removeprefix("toward").strip()
    goal = next((laying.number[edge.cut] for edge in seam.edges if _is(bench, edge, toward)), -1)
    width = seam.layers[0].width_at(press.time)
    seen = [edge for edge in base if laying.cloths[laying.number[edge.cut]].how not in ("under", "over")]
    marks = [mark._replace(other=goal) for mark in _on(laying, "press", seen, width, word)]
    if under is not None:
        mine = [edge for edge in seam.edges if edge.cut in under.cuts]
        marks += _on(laying, "understitch", mine, under.entry.measure("at"))
    said = "open" if word == "open" else f"toward the {toward}"
    also = "; understitched close to the seam" if under is not None else ""
    return StepFigure(
        tuple(laying.cloths),
        tuple(marks),
        f"Opened out, {face} side up; the allowances pressed {said}{also}.",
        f"Pressed {said}",
    )


def _is(bench: Bench, edge: Edge, name: str) -> bool:
    part = bench.parts.get(name.removeprefix("the ").strip())
    return part is not None and (part.holds(edge.cut) or edge.cut.called == name)


def _flat(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> StepFigure | None:
    """Things done to pieces that lie flat."""
    first = group[0]
    if first.name not in _RIGHT_UP | _WRONG_UP and first.name != "fuse":
        return None
    face = "right" if first.name in _RIGHT_UP else "wrong"
    laying = Laying(bench, first.time, drawn)
    marks: list[Mark] = []
    for act in group:
        made = _marked(bench, laying, act, face)
        if made is None:
            return None
        marks += made
    if not marks:
        return None
    return StepFigure(tuple(laying.cloths), tuple(marks), _flat_shows(group, face), f"{capital(face)} side up")


def _marked(bench: Bench, laying: Laying, act: Act, face: str) -> list[Mark] | None:
    if act.name == "fuse":
        cuts = [
            cut
            for cut in act.cuts
            if same_name(cut.piece.name) in laying.drawn and cloth_of(bench, cut) != "interfacing"
        ]
        for cut in cuts:
            laying.add(cut, face)
        return [Mark("fuse", laying.number[cut]) for cut in cuts] or None
    if act.darts:
        marks = []
        for cut, dart in act.darts:
            if same_name(cut.piece.name) not in laying.drawn:
                return None
            if cut not in laying.number:
                laying.add(cut, face)
            marks.append(Mark(act.name, laying.number[cut], (cut.piece.darts[dart].name,)))
        return marks
    if not act.edges or not laying.can_show(act.edges) or act.name == "close":
        return None
    laying.place_one_each(act.edges, face)
    if act.name == "cut":
        line = act.entry.options.get("to")
        return _on(laying, "cut", act.edges, None, same_name(line.value) if line is not None else "")
    turns = act.entry.lengths("turns")
    how = act.entry.options.get("how")
    marks = _on(laying, act.name, act.edges, act.entry.measure("at"), same_name(how.value) if how else "")
    return [mark._replace(more=turns) for mark in marks]


_DONE = {
    "staystitch": "staystitched",
    "finish": "finished",
    "mark": "marked",
    "cut": "cut along the line",
    "hem": "hemmed",
    "casing": "turned in for a casing",
    "close": "closed by hand",
    "topstitch": "topstitched",
    "edgestitch": "edgestitched",
    "gather": "gathered",
    "ease": "eased",
    "baste": "basted",
    "fuse": "fused on its wrong side",
    "dart": "folded and stitched",
    "pleat": "folded",
    "tuck": "folded and stitched",
}


def _flat_shows(group: Sequence[Act], face: str) -> str:
    """`Wrong side up: the front and back necklines staystitched 1/2 in from the edge.`"""
    first = group[0]
    names = [name for act in group for name in act.entry.things]
    what = (
        named_edges(names)
        if names and all(name.edge for name in names)
        else listed(dict.fromkeys(f"the {one_line(name.part)}" for name in names))
    )
    at = first.entry.measure("at")
    done = _DONE.get(first.name, f"{first.name} sewn on")
    turns = first.entry.lengths("turns")
    folded = f", turned in {listed(str(turn) for turn in turns)}" if turns else ""
    return f"{capital(face)} side up: {what} {done}{folded}{f' {at} from the edge' if at else ''}."

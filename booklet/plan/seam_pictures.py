"""Figures of a seam: its sides laid together and stitched, what is cut of them, and how they lie when opened out."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from booklet.plan.flat_pictures import count_of
from booklet.plan.laying import Laying, on_cloths, own_edges, pairs, same_edges
from booklet.plan.naming import listed, plural
from booklet.plan.picture import Mark, Meeting, StepFigure
from booklet.plan.picture_words import also, fits, many, matched, part_of, sentence, short_done
from booklet.plan.write import capital, one_line
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.length import Length
    from booklet.model.pattern import EdgeName
    from booklet.plan.picture import Cloth
    from booklet.sew.bench import Act, Bench, CutPiece, Edge, Seam

CUTTING = frozenset({"trim", "grade", "clip", "notch"})
BEHIND = "behind"
_FELLED = frozenset({"flat felled", "mock felled", "welt"})


def sewn(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> list[StepFigure]:
    """A seam that is sewn here, and what is done to it at once."""
    act = group[0]
    if act.name == "baste":
        found = [_laid(bench, act, [], drawn)]
    else:
        found = [_laid(bench, act, group[1:], drawn)]
        construction = act.seam.construction if act.seam is not None else ""
        if construction == "french":
            found.append(_second_row(bench, act, drawn))
        elif construction in _FELLED:
            found.append(_felled(bench, act, drawn))
        else:
            found.append(_opened(bench, group, drawn))
    return [figure for figure in found if figure is not None]


def sewn_before(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> list[StepFigure]:
    """What is done to a seam of an earlier step: cut and finished as it was sewn, then pressed."""
    seam = group[0].seam
    if seam is None:
        return []
    found = []
    if any(act.name in CUTTING or act.name == "finish" for act in group):
        found.append(_laid(bench, seam.act, group, drawn, again=True))
    found.append(_opened(bench, group, drawn))
    return [figure for figure in found if figure is not None]


def _laid(
    bench: Bench, act: Act, later: Sequence[Act], drawn: frozenset[str], again: bool = False
) -> StepFigure | None:
    """Two sides laid together and stitched, with what is cut of their allowances. again: sewn in an earlier step."""
    below, above, together = _faces(act)
    full = any(one.name == "gather" for edge in act.sides[0] for one in edge.acts)
    if full:
        # With the gathers on top, as they are sewn.
        below, above = above, below
    if any(same_edges(side, act.sides[0]) for side in act.sides[1:]):
        # Two copies of the same: the upper one, face down, is what shows.
        below = above
    laying = Laying(bench, act.time, drawn, act.sides)
    base, *others = act.sides
    needed = [edge for side in act.sides if not _is_loop(side) for edge in side]
    if not laying.can_show(needed) or not laying.place(base, below):
        return None
    marks: list[Mark] = []
    for side in others:
        if _is_loop(side):
            marks += _loops(bench, laying, base, side, hidden=len(others) > 1)
        elif act.name == "baste" and laying.hangs_behind(side[0].cut):
            laying.place(side, above)
            together = BEHIND
        elif not _lay(laying, base, side, above, "under" if full else "laid"):
            return None
    for cut, number in laying.number.items():
        if laying.cloths[number].halved and laying.cloths[number].meets:
            laying.change(cut, face="right")  # folded with its right side outside
    shown = base if full else _uppermost(laying, base, others)
    at = act.entry.measure("at") if act.name == "baste" else _row(act)
    marks += on_cloths(laying, "stitch" if act.name == "sew" else "baste", shown, Mark("", 0, at=at))
    if again:
        marks = [mark._replace(at=None) for mark in marks]
    marks += _cuttings(laying, later, shown)
    marks += [mark for mark in _matching(laying, act, shown) if not again or mark.kind == "gathers"]
    tubes = all(map(_is_loop, others))
    if tubes:
        together = "right side up"
    row = "" if again else f"{'stitched' if act.name == 'sew' else 'basted'}{f' {at} from the edge' if at else ''}"
    done = [one for one in later if one.name in CUTTING or one.name == "finish"]
    return StepFigure(
        tuple(laying.cloths),
        (*marks, *laying.flaps()),
        sentence(_lie(act, together, full), row, *map(also, done)),
        _caption(act, together, done),
    )


def _faces(act: Act) -> tuple[str, str, str]:
    """The side that shows of the lower and of the upper cloth, and what that is called."""
    construction = act.seam.construction if act.seam is not None else ""
    if act.name == "baste" and len({edge.cut for edge in act.edges}) == 1:
        # A band folded along its middle keeps its right side outside. Common practice, no source.
        return "right", "right", "wrong sides together"
    if construction == "french":
        return "wrong", "right", "wrong sides together"
    return (
        ("right", "right", "right side up") if construction == "lapped" else ("right", "wrong", "right sides together")
    )


def _lie(act: Act, together: str, turned: bool = False) -> str:
    """`the collar lies face down on the body, neck on neckline`; turned: the other way up."""
    base, *others = act.entry.sides[::-1] if turned else act.entry.sides
    names = [name for side in others for name in side]
    parts = {name.part for side in act.entry.sides for name in side}
    if any(same_edges(side, act.sides[0]) for side in act.sides[1:]):
        lies = "lie" if many(base) else "lies"
        return f"{part_of(base)} {lies} on the other copy, {together}, {matched((base, base))}"
    if len(parts) == 1:
        return f"{part_of(base)} {'lie' if many(base) else 'lies'} folded, {together}, {matched((base, *others))}"
    verb = "lie" if many(names) else "lies"
    if together == BEHIND:
        return f"{part_of(names)} {verb} behind {part_of(base)}, right side up, {matched((base, *others))}"
    how = {"right sides together": f"{verb} face down on", "right side up": f"{verb} right side up on"}.get(together)
    where = f"{how} {part_of(base)}" if how else f"{verb} on {part_of(base)}, {together}"
    return f"{part_of(names)} {where}, {matched((base, *others))}"


def _caption(act: Act, together: str, done: Sequence[Act]) -> str:
    plain = capital(together)
    if any(one.seam is not None and is_slit(one.seam) for one in done):
        return "Cut open, down to the stitching"
    if done:
        return fits(f"{plain}; {short_done(done)}", capital(short_done(done)))
    base, *others = act.entry.sides
    if together == BEHIND:
        edges = listed(dict.fromkeys(plural(one_line(name.edge)) for name in base))
        return fits(f"{capital(edges)} basted together", "Basted together")
    upper, lower = (part_of(side).removeprefix("the ") for side in (others[-1], base))
    if any(same_edges(side, act.sides[0]) for side in act.sides[1:]):
        return f"{plain}, stitched"
    if {name.part for name in base} == {name.part for name in others[-1]}:
        return fits(f"{capital(lower)} folded, {together}", plain)
    return fits(f"{capital(upper)} on {lower}, {together}", f"{capital(upper)} on {lower}", plain)


def _is_loop(side: Sequence[Edge]) -> bool:
    """Whether it is both ends of one strip that was sewn to itself along its length: a loop, a strap."""
    return (
        len(side) > 1
        and len({edge.cut for edge in side}) == 1
        and all(
            any(
                pair and edge.spec.name not in pair
                for seam in _seams_before(edge)
                if (pair := own_edges(seam, edge.cut))
            )
            for edge in side
        )
    )


def _seams_before(edge: Edge) -> list[Seam]:
    first = edge.seams[0].act.time if edge.seams else 1 << 30
    near = dict.fromkeys(seam for one in edge.neighbours for seam in one.seams if seam.act.time < first)
    return list(near)


def _loops(bench: Bench, laying: Laying, base: Sequence[Edge], side: Sequence[Edge], hidden: bool) -> list[Mark]:
    """As many loops as buttons go through them; else the strip itself, in a bow."""
    buttons = [act for act in bench.of("button") if set(act.edges) & set(base)]
    if not buttons and not hidden and laying.can_show(side):
        meets = Meeting(side[0].spec.name, laying.number[base[0].cut], base[0].spec.name)
        laying.add(side[0].cut, "right", "strap", (meets,))
        return []
    many = count_of(bench, buttons[0]) if buttons else 1
    return on_cloths(laying, "loop", base, Mark("", 0, word="hidden" if hidden else "", many=many))


def _lay(laying: Laying, base: Sequence[Edge], side: Sequence[Edge], face: str, how: str = "laid") -> bool:
    """One side of a seam onto the other: each piece of it by its edges, where both are runs of as many pieces; else
    the first by its edges and the others as they hang on it."""
    first = side[0].cut
    own = [edge.spec.name for edge in side if edge.cut is first]
    if first in laying.number:
        return _fold(laying, base, side, own, face)
    if len(own) > 1 and len(base) == 1:
        return True  # both ends of a loop or tube: how it bends can't be told
    base = [edge for edge in base if laying.cloths[laying.number[edge.cut]].how not in ("under", "over")]
    below, above = list(dict.fromkeys(edge.cut for edge in base)), list(dict.fromkeys(edge.cut for edge in side))
    if len(below) != len(above):
        meets = tuple(m for edge in base for m in pairs(own[:1], [edge.spec.name], laying.number[edge.cut]))
        laying.add(first, face, how, meets)
        laying.keep(side)
        _only_a_strip(laying, base, side)
        return laying.place(side, face)
    if any(laying.hides(one, two) for run in (above, below) for one, two in pairwise(run)):
        # A facing and its garment in one run: the garment first, the facing as it hangs on it.
        under, over = max(zip(below, above, strict=True), key=lambda pair: len(pair[1].piece.edges))
        laying.add(over, face, how, _between(laying, base, side, under, over))
        return laying.place(side, face)
    for under, over in zip(below, above, strict=True):
        if over not in laying.number:
            laying.add(over, face, how, _between(laying, base, side, under, over))
    laying.keep(side)
    _only_a_strip(laying, base, side)
    return True


def _between(
    laying: Laying, base: Sequence[Edge], side: Sequence[Edge], under: CutPiece, over: CutPiece
) -> tuple[Meeting, ...]:
    mine = [edge.spec.name for edge in side if edge.cut is over]
    theirs = [edge.spec.name for edge in base if edge.cut is under]
    return pairs(mine, theirs, laying.number[under])


def _fold(laying: Laying, base: Sequence[Edge], side: Sequence[Edge], own: list[str], face: str) -> bool:
    """A piece of which one edge comes to another of its own."""
    if len({edge.cut for edge in (*base, *side)}) > 1:
        return True
    others = [edge.spec.name for edge in base]
    if own[0] != others[0]:
        laying.change(side[0].cut, halved=(own[0], others[0]), face=face)
        beside = next((near for near in base[0].neighbours if _joins_copies(near, laying.time)), None)
        if beside is not None:
            # A boxed corner: half of it on one copy, half on the other.
            laying.again(base[0].cut, beside.spec.name, beside.spec.name)
    return True


def _joins_copies(edge: Edge, time: int) -> bool:
    """Whether a seam joins it to the same edge of the other copy of its piece."""
    return any(
        seam.act.time < time and len(seam.layers) == 2 and same_edges(seam.layers[0].edges, seam.layers[1].edges)
        for seam in edge.seams
    )


def _only_a_strip(laying: Laying, base: Sequence[Edge], side: Sequence[Edge]) -> None:
    """An outward curve on an inward one, a sleeve in its armhole, can't lie flat: it is shown along the seam alone."""
    if all(edge.spec.curve == "inward" for edge in base) and all(edge.spec.curve == "outward" for edge in side):
        for cut in dict.fromkeys(edge.cut for edge in side):
            laying.change(cut, strip=tuple(edge.spec.name for edge in side if edge.cut is cut))


def _uppermost(laying: Laying, base: Sequence[Edge], others: Sequence[Sequence[Edge]]) -> list[Edge]:
    """The edges on which rows and cuts are drawn: those of the uppermost side that is laid out."""
    for side in reversed(others):
        seen = [edge for edge in side if edge.cut in laying.number]
        if seen and not any(laying.cloths[laying.number[edge.cut]].halved for edge in seen):
            return seen
    return list(base)


def _row(act: Act) -> Length | None:
    passes = act.entry.lengths("passes")
    if passes:
        return passes[0]
    return act.seam.allowance if act.seam is not None else None


def _cuttings(laying: Laying, acts: Sequence[Act], shown: Sequence[Edge]) -> list[Mark]:
    marks: list[Mark] = []
    for act in acts:
        if act.name in ("clip", "notch"):
            kind, every = act.entry.spacing
            if act.seam is not None and is_slit(act.seam):
                kind = "open"
            marks += on_cloths(laying, act.name, shown, Mark("", 0, at=every.length if every else None, word=kind))
        elif act.name in ("trim", "grade"):
            width = act.entry.measures[-1].length if act.entry.measures else None
            marks += on_cloths(laying, "trim", shown, Mark("", 0, at=width))
        elif act.name == "finish":
            marks += on_cloths(laying, "finish", shown)
    return marks


def _matching(laying: Laying, act: Act, shown: Sequence[Edge]) -> list[Mark]:
    """Notches on what shows; pins where a fullness is shared out."""
    seen = [edge for edge in shown if not laying.cloths[laying.number[edge.cut]].halved]
    marks = on_cloths(laying, "notches", seen)
    full = [edge for edge in seen if any(one.name == "ease" and one.time < act.time for one in edge.acts)]
    if act.name == "sew":
        marks += on_cloths(laying, "pins", full)
    gathered = [edge for edge in act.edges if edge.cut in laying.number]
    for edge in gathered:
        if edge.spec.name in laying.cloths[laying.number[edge.cut]].gathered:
            marks += on_cloths(laying, "gathers", [edge])
    return marks


def _second_row(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """The second row of a French seam: folded on the first, right sides together."""
    passes = act.entry.lengths("passes")
    if len(passes) < 2 or not laid_flat(bench, act, drawn):
        return None
    laying = Laying(bench, act.time, drawn, act.sides)
    base, *others = act.sides
    if not laying.place(base, "right") or not all(_lay(laying, base, side, "wrong") for side in others):
        return None
    for cut in dict.fromkeys(edge.cut for edge in act.edges):
        ends = tuple((edge.spec.name, passes[0]) for edge in act.edges if edge.cut is cut)
        laying.change(cut, ends_at=ends)
    row = Mark("", 0, at=passes[0] + passes[1], more=(passes[1],))
    marks = on_cloths(laying, "stitch", _uppermost(laying, base, others), row)
    trimmed = act.entry.measure("trim")
    return StepFigure(
        tuple(laying.cloths),
        tuple(marks),
        sentence(
            f"{part_of([name for side in act.entry.sides for name in side])} folded on the first row, "
            "right sides together",
            f"the allowances trimmed to {trimmed}" if trimmed else "",
            f"stitched again {passes[1]} from the fold",
        ),
        "Right sides together: the second row",
    )


def laid_flat(bench: Bench, act: Act, drawn: frozenset[str]) -> bool:
    return not act.broken and len(act.sides) > 1 and Laying(bench, act.time, drawn).can_show(act.edges)


def _felled(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """Opened out, one allowance folded round the other and stitched down."""
    width = act.entry.measure("width")
    if width is None or not laid_flat(bench, act, drawn):
        return None
    laying = Laying(bench, act.time, drawn, act.sides)
    base, *others = act.sides
    if not laying.place(base, "wrong") or any(edge.cut in laying.number for side in others for edge in side):
        return None
    if not all(_lay(laying, base, side, "wrong", "opened") for side in others):
        return None
    over = next((edge for edge in others[-1] if edge.cut in laying.number), None)
    if over is None:
        return None
    marks = on_cloths(laying, "fell", others[-1], Mark("", 0, at=width))
    return StepFigure(
        tuple(laying.cloths),
        tuple(marks),
        sentence(
            f"{part_of([*act.entry.sides[0], *act.entry.sides[-1]])} lie opened out, wrong side up",
            f"the allowances folded toward {part_of(act.entry.sides[-1])} and stitched down {width} from the seam",
        ),
        "Wrong side up: fold stitched down",
    )


def _opened(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> StepFigure | None:
    """The seam laid open and pressed, and what is stitched on it then."""
    presses = [act for act in group if act.name == "press"]
    seam = group[0].seam
    if not presses or seam is None or seam.construction in ("french", *_FELLED):
        return None
    word = same_name(presses[-1].entry.word.value) if presses[-1].entry.word else ""
    if word != "open" and not word.startswith("toward"):
        return None
    if is_slit(seam):
        return _slit_turned(bench, group, seam, drawn)
    return _pressed(bench, group, seam, presses[-1], word, drawn)


def is_slit(seam: Seam) -> bool:
    """Whether it is sewn round a line on the fold and then cut open, so that it can't lie opened out.

    Told by the work: pieces on the fold, an edge of each that ends at the fold, and a cut down to the stitching.
    """
    cut = any(act.entry.spacing[0] == "to the stitching" for act in seam.acts("clip"))
    edges = [edge for layer in seam.layers if not _is_loop(layer.edges) for edge in layer.edges]
    return cut and all(edge.cut.number == 1 and any(near.spec.fold for near in edge.neighbours) for edge in edges)


def _slit_turned(bench: Bench, group: Sequence[Act], seam: Seam, drawn: frozenset[str]) -> StepFigure | None:
    """The facing turned to the inside."""
    last = group[-1].time + 1
    laying = Laying(bench, last, drawn)
    base, *others = [layer.edges for layer in seam.layers if not _is_loop(layer.edges)]
    facing = [edge for side in others for edge in side]
    if not facing or not laying.can_show([*base, *facing]) or not laying.place(base, "wrong"):
        return None
    for edge in facing:
        meets = pairs([edge.spec.name], [base[0].spec.name], laying.number[base[0].cut])
        laying.add(edge.cut, "right", "over", meets)
    under = next((act for act in group if act.name == "understitch"), None)
    kind = "understitch" if under is not None else "turned"
    at = under.entry.measure("at") if under is not None else None
    names = listed(f"the {edge.cut.called}" for edge in facing)
    return StepFigure(
        tuple(laying.cloths),
        tuple(on_cloths(laying, kind, facing, Mark("", 0, at=at))),
        sentence(
            f"wrong side up: {names} turned to the inside through the slit",
            "understitched close to the seam" if under is not None else "",
        ),
        fits(f"{capital(names.removeprefix('the '))} turned to the inside", "Turned to the inside"),
    )


def _pressed(
    bench: Bench, group: Sequence[Act], seam: Seam, press: Act, word: str, drawn: frozenset[str]
) -> StepFigure | None:
    under = next((act for act in group if act.name == "understitch"), None)
    face = "right" if under is not None else "wrong"
    base = seam.layers[0].edges
    laying = Laying(bench, press.time, drawn, [layer.edges for layer in seam.layers])
    if not laying.can_show(seam.edges) or not _spread(laying, seam, face):
        return None
    toward = word.removeprefix("towards").removeprefix("toward").strip()
    to = [edge for edge in seam.edges if edge.cut in laying.number and (word == "open" or _is(bench, edge, toward))]
    width = seam.layers[0].width_at(press.time)
    seen = [edge for edge in to if laying.cloths[laying.number[edge.cut]].how not in ("under", "over")]
    marks = on_cloths(laying, "press", seen, Mark("", 0, at=width, word=word))
    pair = own_edges(seam, base[0].cut)
    if pair:
        flaps = [marks[0]._replace(cloth=number, edges=(name,)) for number, name in enumerate(pair)]
        marks = flaps
    if under is not None:
        mine = [edge for edge in seam.edges if edge.cut in under.cuts]
        marks += on_cloths(laying, "understitch", mine, Mark("", 0, at=under.entry.measure("at")))
    placed = [edge for edge in seam.edges if edge.cut in laying.number]
    gathered = [edge for edge in placed if edge.spec.name in _cloth(laying, edge).gathered]
    marks += on_cloths(laying, "gathers", gathered)
    said = "open" if word == "open" else f"toward the {toward}"
    names = [name for side in seam.act.entry.sides for name in side]
    held = f"the {toward} understitched close to the seam" if under is not None else ""
    up = f"{face} side up"
    return StepFigure(
        tuple(laying.cloths),
        (*marks, *laying.flaps()),
        sentence(f"{part_of(names)} {_lie_opened(names)}, {up}", f"the allowances pressed {said}", held),
        fits(f"{capital(toward)} understitched, {up}", "Understitched, right side up")
        if held
        else fits(f"Wrong side up, pressed {said}", f"Pressed {said}", "Opened out and pressed"),
    )


def stitched_on(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """A row on a seam that lies opened out, right side up: on the side to which it is pressed."""
    seam = act.seam
    if seam is None:
        return None
    laying = Laying(bench, act.time, drawn, [layer.edges for layer in seam.layers])
    base = seam.layers[0].edges
    hidden = any(laying.goes_behind(seam, edge.cut, base[0].cut) for edge in seam.edges if edge.cut is not base[0].cut)
    if hidden or not laying.can_show(seam.edges) or not _spread(laying, seam, "right"):
        return None
    pressed = [one for one in seam.acts("press") if one.time < act.time and one.entry.word is not None]
    word = same_name(pressed[-1].entry.word.value) if pressed and pressed[-1].entry.word else ""
    toward = word.removeprefix("towards").removeprefix("toward").strip()
    at = act.entry.measure("at")
    edges = [edge for edge in seam.edges if edge.cut in laying.number and _is(bench, edge, toward)]
    marks = on_cloths(laying, act.name, edges or seam.layers[0].edges, Mark("", 0, at=at))
    names = [name for side in seam.act.entry.sides for name in side]
    row = {"topstitch": "topstitched", "edgestitch": "edgestitched"}.get(act.name, "stitched in the ditch of the seam")
    return StepFigure(
        tuple(laying.cloths),
        tuple(marks),
        sentence(
            f"{part_of(names)} {_lie_opened(names)}, right side up", f"{row}{f' {at} from the seam' if at else ''}"
        ),
        fits(f"{capital(row)}, right side up", "Stitched in the ditch"),
    )


def _lie_opened(names: Sequence[EdgeName]) -> str:
    parts = {one_line(name.part) for name in names}
    return "lie opened out" if len(parts) > 1 or next(iter(parts)).endswith("s") else "lies opened out"


def _cloth(laying: Laying, edge: Edge) -> Cloth:
    return laying.cloths[laying.number[edge.cut]]


def _spread(laying: Laying, seam: Seam, face: str) -> bool:
    """The sides of a seam opened out beside each other; a piece sewn to itself is shown twice, on both sides of it."""
    base, *others = [layer.edges for layer in seam.layers]
    cuts = {edge.cut for edge in seam.edges}
    if any(same_edges(side, base) for side in others):
        return laying.opened_copies(base, face)
    if not laying.place(base, face) or laying.cloths[0].halved:
        return False
    if len(cuts) == 1:
        cut = base[0].cut
        pair = own_edges(seam, cut)
        if not pair:
            return False
        laying.again(cut, pair[0], pair[1])
        return True
    if any(edge.cut in laying.number for side in others for edge in side):
        return False
    return all(_lay(laying, base, side, face, "opened") for side in others)


def _is(bench: Bench, edge: Edge, name: str) -> bool:
    part = bench.parts.get(name.removeprefix("the ").strip())
    return part is not None and (part.holds(edge.cut) or edge.cut.called == name)

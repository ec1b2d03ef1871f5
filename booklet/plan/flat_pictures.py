"""Figures of what is done to pieces that lie flat: marked, staystitched, fused, hemmed, fastened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.laying import Laying, cloth_of, on_cloths, turns_in
from booklet.plan.naming import listed, singular
from booklet.plan.picture import Mark, Meeting, StepFigure
from booklet.plan.picture_words import DONE, fits, part_of, sentence, things_of
from booklet.plan.strip_pictures import bound, let_in, placket
from booklet.plan.write import capital, one_line
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.length import Length
    from booklet.sew.bench import Act, Bench, CutPiece

# On which side does the cloth lie while this is done? Common practice, no source.
RIGHT_UP = frozenset({"topstitch", "edgestitch", "button", "buttonhole", "snap", "hook", "zipper", "gather", "ease",
                      "baste"})  # fmt: skip
WRONG_UP = frozenset({"staystitch", "finish", "mark", "cut", "hem", "casing", "dart", "pleat", "tuck"})
FASTENINGS = frozenset({"button", "buttonhole", "snap", "hook"})


def flat(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> list[StepFigure]:
    first = group[0]
    if first.name == "pocket":
        figure = _pocket(bench, first, drawn) or let_in(bench, first, drawn)
    elif first.name in ("bind", "placket"):
        figure = (bound if first.name == "bind" else placket)(bench, first, drawn)
    elif turns_in(first):
        figure = _turned_in(bench, group, drawn)
    elif first.name == "press" and first.target is not None and first.target.darts:
        figure = _dart_pressed(bench, first, drawn)
    elif first.name == "insert":
        figure = _inserted(bench, first, drawn)
    elif first.name == "fuse" or first.name in RIGHT_UP | WRONG_UP:
        figure = _flat(bench, group, drawn)
    else:
        figure = None
    return [figure] if figure is not None else []


def _flat(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> StepFigure | None:
    first = group[0]
    face = "right" if first.name in RIGHT_UP else "wrong"
    laying = Laying(bench, first.time, drawn)
    marks: list[Mark] = []
    for act in group:
        made = _marked(bench, laying, act, face)
        if made is None:
            return None
        marks += made
    if not marks:
        return None
    shows, caption = _words(bench, group, face)
    return StepFigure(tuple(laying.cloths), (*marks, *laying.flaps()), shows, caption)


def _marked(bench: Bench, laying: Laying, act: Act, face: str) -> list[Mark] | None:
    if act.name == "fuse":
        return [Mark("fuse", laying.add(cut, face)) for cut in fused(bench, act, laying.drawn)] or None
    if act.name == "mark":
        return _chalked(bench, laying, act, face)
    if act.darts:
        return [
            Mark(
                act.name,
                _number(laying, cut, face),
                (cut.piece.darts[dart].name,),
                at=act.entry.measure("width"),
                word=_toward(act),
            )
            for cut, dart in act.darts
            if same_name(cut.piece.name) in laying.drawn
        ] or None
    if not act.edges or not laying.can_show(act.edges):
        return None
    laying.place_one_each(act.edges, face)
    if act.name == "cut":
        line = act.entry.options.get("to")
        word = same_name(line.value) if line is not None else ""
        return on_cloths(laying, "cut", act.edges, Mark("", 0, word=word))
    if act.name in FASTENINGS:
        return _fastened(bench, laying, act)
    how = act.entry.options.get("how")
    like = Mark("", 0, at=_at(act), more=act.entry.lengths("turns"), word=same_name(how.value) if how else "")
    marks = on_cloths(laying, act.name, act.edges, like)
    if act.name in ("gather", "ease"):
        marks += on_cloths(laying, "notches", act.edges)
    return marks


def _toward(act: Act) -> str:
    """The edge to which a pleat or tuck is folded."""
    option = act.entry.options.get("toward")
    return same_name(option.value) if option is not None else ""


def _at(act: Act) -> Length | None:
    at = act.entry.options.get("at")
    return at[0].length if isinstance(at, tuple) and at and not hasattr(at, "length") else act.entry.measure("at")


def fused(bench: Bench, act: Act, drawn: frozenset[str]) -> list[CutPiece]:
    return [cut for cut in act.cuts if same_name(cut.piece.name) in drawn and cloth_of(bench, cut) != "interfacing"]


def _number(laying: Laying, cut: CutPiece, face: str) -> int:
    return laying.number[cut] if cut in laying.number else laying.add(cut, face)


def _chalked(bench: Bench, laying: Laying, act: Act, face: str) -> list[Mark] | None:
    """Edges, darts and lines by their names; of a piece named whole, all that its paper marks, or its place."""
    marks: list[Mark] = []
    for name in act.entry.things:
        part = bench.parts.get(name.part)
        cuts = part.cuts if part is not None else []
        for cut in cuts[:1] if not name.edge else cuts:
            if same_name(cut.piece.name) not in laying.drawn:
                continue
            if name.edge in cut.piece.darts:
                marks.append(Mark("mark dart", _number(laying, cut, face), (cut.piece.darts[name.edge].name,)))
            elif name.edge in cut.edges:
                marks.append(Mark("mark", _number(laying, cut, face), (cut.edges[name.edge].spec.name,)))
            elif not name.edge:
                marks += _whole(bench, laying, cut, face)
    return marks or None


def _whole(bench: Bench, laying: Laying, cut: CutPiece, face: str) -> list[Mark]:
    """A piece that is sewn onto marks of another is marked there; else its own marks are."""
    for act in bench.of("pocket"):
        dots = dots_of(act)
        if dots and cut in act.cuts[:1] + [edge.cut for edge in act.edges] and act.parts:
            base = act.parts[-1].cuts[0]
            return [Mark("mark dots", _number(laying, base, face), word=" ".join(dots))]
    return [Mark("mark all", _number(laying, cut, face))]


def dots_of(act: Act) -> tuple[str, ...]:
    """The dots on which a pocket or a buttonhole is placed, as the outline numbers them."""
    return tuple(same_name(one.value) for one in act.entry.options.get("dots", ()))


def _pocket(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """Placed on the dots of its base, where they are named; else by itself."""
    if not act.edges or same_name(act.edges[0].cut.piece.name) not in drawn:
        return None
    laying = Laying(bench, act.time, drawn)
    pocket = act.edges[0].cut
    down = {edge.spec.name for edge in act.edges}
    base = next((cut for cut in act.parts[-1].cuts if cut is not pocket), None) if act.parts else None
    dots = dots_of(act)
    opening = next((name for name in pocket.piece.edges if name not in down), "")
    if base is not None and (len(dots) == 1 or (len(dots) > 1 and opening)) and same_name(base.piece.name) in drawn:
        number = laying.add(base, "right")
        laying.add(pocket, "right", "placed", (Meeting(opening, number, ""),))
        laying.change(pocket, dots=dots)
    else:
        laying.add(pocket, "right")
    # Its edges are under by now, pressed in or faced.
    laying.change(pocket, turned_in=tuple(dict.fromkeys((*laying.cloths[-1].turned_in, *down))))
    marks = on_cloths(laying, "topstitch", act.edges, Mark("", 0, at=act.entry.measure("at")))
    on = act.entry.options.get("on")
    where = f"the {one_line(on.value)}" if on else "its piece"
    shows = f"{things_of([act])} on the right side of {where}, stitched down along {_all(sorted(down))}"
    caption = fits(f"{capital(things_of([act]).removeprefix('the '))} on {where.removeprefix('the ')}", "Stitched down")
    return StepFigure(tuple(laying.cloths), tuple(marks), sentence(shows), caption)


def _all(names: Sequence[str]) -> str:
    return listed(f"the {singular(name)}" for name in names)


def _turned_in(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> StepFigure | None:
    """An allowance pressed to the wrong side."""
    laying = Laying(bench, group[0].time, drawn)
    edges = [edge for act in group for edge in act.edges]
    if not laying.can_show(edges):
        return None
    laying.place_one_each(edges, "wrong")
    allowance = edges[0].allowance()
    marks = on_cloths(laying, "turn in", edges, Mark("", 0, at=allowance))
    names = things_of(group) if all(act.entry.things for act in group) else _all([edge.spec.name for edge in edges])
    of = f" of the {edges[0].cut.called}" if " of " not in names else ""
    return StepFigure(
        tuple(laying.cloths),
        (*marks, *laying.flaps()),
        sentence(f"wrong side up: {names}{of} pressed to the wrong side by its {allowance} allowance"),
        "Allowance pressed to the wrong side",
    )


def _inserted(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """Elastic or cord drawn through a casing, wrong side up."""
    laying = Laying(bench, act.time, drawn)
    edges = [edge for edge in act.edges if edge.closed is not None and edge.closed.entry.lengths("turns")]
    if not edges or not laying.can_show(edges):
        return None
    laying.place_one_each(edges, "wrong")
    assert edges[0].closed is not None
    marks = on_cloths(laying, "insert", edges, Mark("", 0, more=edges[0].closed.entry.lengths("turns")))
    what = one_line(act.entry.word.value) if act.entry.word is not None else "elastic"
    into = act.entry.options.get("into")
    part, _, edge = one_line(into.value).partition(".") if into else ("", "", "")
    where = f" at the {edge} of the {part}" if edge else ""
    return StepFigure(
        tuple(laying.cloths),
        tuple(mark._replace(more=mark.more[-1:]) for mark in marks),
        sentence(f"wrong side up: the {what} drawn through the casing{where}"),
        fits(f"{capital(what)} drawn through the casing", "Drawn through the casing"),
    )


def _dart_pressed(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    assert act.target is not None
    laying = Laying(bench, act.time, drawn)
    word = same_name(act.entry.word.value) if act.entry.word else ""
    marks = [
        Mark("dart pressed", _number(laying, cut, "wrong"), (cut.piece.darts[dart].name,), word=word)
        for cut, dart in act.target.darts
        if same_name(cut.piece.name) in drawn
    ]
    if not marks:
        return None
    darts = act.target.darts
    names = f"the {darts[0][1]} of the {darts[0][0].called}"
    return StepFigure(
        tuple(laying.cloths),
        tuple(marks),
        sentence(f"wrong side up: {names}, stitched, is pressed {word}"),
        fits(f"Darts pressed {word}, wrong side up", f"Pressed {word}"),
    )


def _fastened(bench: Bench, laying: Laying, act: Act) -> list[Mark]:
    """As many as the entry says, shared out among the copies of its piece."""
    each = _each(bench, act)
    size = _size(bench, act)
    like = Mark("", 0, at=act.entry.measure("at"), more=size, many=each, word=_side(bench, act))
    if act.name == "buttonhole" and dots_of(act):
        return on_cloths(laying, "buttonhole on dots", act.edges, like._replace(word=" ".join(dots_of(act))))
    marks = on_cloths(laying, act.name, act.edges, like)
    loops = [edge for edge in act.edges if any(_takes_loops(seam) for seam in edge.basted)]
    if act.name == "button" and loops:
        marks += on_cloths(laying, "loop", loops, Mark("", 0, word="turned", many=each))
    return marks


def _each(bench: Bench, act: Act) -> int:
    """How many on one copy of the piece."""
    number = count_of(bench, act)
    copies = max((edge.cut.number for edge in act.edges if not edge.copy), default=1)
    return number // copies if copies > 1 and number % copies == 0 else number


def _takes_loops(seam: object) -> bool:
    layers = seam.layers  # type: ignore[attr-defined]
    return any(len({edge.cut for edge in layer.edges}) == 1 and len(layer.edges) > 1 for layer in layers)


def _side(bench: Bench, act: Act) -> str:
    """left | right of an edge on a fold, where the two are not told apart: buttonholes and loops on the wearer's right,
    buttons on the left. Common practice in women's clothes, no source."""
    copies = {edge.copy for edge in act.edges if edge.copy}
    if copies:
        return next(iter(sorted(copies)))
    return "right" if act.name == "buttonhole" else "left"


def _size(bench: Bench, act: Act) -> tuple[Length, ...]:
    """How long a buttonhole is, or how wide what is sewn on, where the source says it."""
    long = act.entry.measure("long")
    if long is not None:
        return (long,)
    notion = act.entry.options.get("notion")
    wanted = same_name(notion.value) if notion else act.name
    found = next((one for one in bench.pattern.notions if same_name(one.item) == wanted and one.size), None)
    return (found.size.length,) if found is not None and found.size is not None else ()


def count_of(bench: Bench, act: Act) -> int:
    """How many an entry asks for in this view: its own number, or what the notions say."""
    value = act.entry.options.get("count")
    letter = bench.view.letter
    if value is not None:
        by_view, number = value
        if not by_view:
            return int(number)
        for letters, many in number:
            if letter in [one.strip() for one in letters.value.split(",")]:
                return int(many)
    notion = act.entry.options.get("notion")
    wanted = same_name(notion.value) if notion else act.name
    for one in bench.pattern.notions:
        if same_name(one.item) == wanted and letter in one.scope.views:
            return one.count_for(letter) or 1
    return 1


def _words(bench: Bench, group: Sequence[Act], face: str) -> tuple[str, str]:
    """Alternative text and caption."""
    first = group[0]
    edges = dict.fromkeys(edge.said for act in group for edge in act.edges)
    up, what = f"{face} side up", things_of(group) or listed(edges)
    at = f" {_at(first)} from the edge" if _at(first) else ""
    name = first.name
    if name == "fuse":
        names = part_of([one for act in group for one in act.entry.things])
        return sentence(f"wrong side up: interfacing fused to {names}"), "Interfacing on the wrong side"
    if name == "cut":
        line = one_line(first.entry.options["to"].value) if "to" in first.entry.options else "line"
        return sentence(f"{up}: {what} cut along the {line}"), fits(f"Cut along the {line}", "Cut along the line")
    if name == "mark":
        # On which side they are made the words of the step say: often on both.
        return sentence(f"{what}, with the marks of the pattern"), "Marks of the pattern"
    if name in ("hem", "casing"):
        return _turned(first, what)
    if name in FASTENINGS:
        return _fastened_words(up, what, name, _each(bench, first))
    if name in ("gather", "ease"):
        row = "gathering rows" if name == "gather" else "an easing row"
        return sentence(f"{up}: {what}, with {row}{at}"), f"{capital(row.removeprefix('an '))}, {up}"
    done = DONE.get(name, f"with the {name} sewn on")
    if name in ("dart", "pleat", "tuck"):
        names = " and ".join(dict.fromkeys(f"the {dart} of the {cut.called}" for cut, dart in first.darts))
        return sentence(f"{up}: {names} {done}"), f"{name.capitalize()}s {done}"
    return sentence(f"{up}: {what} {done}{at}"), fits(f"{capital(done.removeprefix('with the '))}, {up}")


_NOUNS = {"buttonhole": "buttonhole", "button": "button", "snap": "snap", "hook": "hook and eye"}


def _fastened_words(up: str, what: str, name: str, number: int) -> tuple[str, str]:
    noun = _NOUNS[name]
    if number == 1:
        return sentence(f"{up}: {what}, with one {noun}"), fits(f"{capital(noun)} at its place")
    many = noun.replace("hook and", "hooks and") if " and " in noun else f"{noun}s"
    return sentence(f"{up}: {what}, with {number} {many} at equal distances"), fits(f"{capital(many)} at their places")


def _held(act: Act, turns: int) -> str:
    """The row that holds what is turned up."""
    at = act.entry.measure("at")
    if at is not None:
        return f"stitched {at} from the fold"
    return "stitched close to the inner fold" if turns > 1 else "stitched close to the edge"


def _turned(act: Act, what: str) -> tuple[str, str]:
    turns = [str(turn) for turn in act.entry.lengths("turns")]
    if not turns:
        return sentence(f"wrong side up: {what} {DONE[act.name]}"), f"{capital(DONE[act.name])}, wrong side up"
    folds = f"turned to the wrong side by {' and again by '.join(turns)}"
    how = {1: "Turned once", 2: "Turned twice"}.get(len(turns), "Turned")
    return (
        sentence(f"wrong side up: {what} {folds}", _held(act, len(turns))),
        f"{how} and stitched",
    )

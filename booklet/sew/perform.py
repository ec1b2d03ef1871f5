"""What each operation does on the bench: one function for each word in the `bench` column of craft/operations.yaml."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.model.pattern import EdgeSpec
from booklet.read.tree import Text, same_name
from booklet.sew.bench import Act, Bench, CutPiece, Edge, Layer, Missing, Seam, merge
from booklet.sew.names import dart_named, edges_named, excuse_meant, part_named

if TYPE_CHECKING:
    from collections.abc import Callable

    from booklet.finding import Place
    from booklet.model.pattern import EdgeName

CLOSING = frozenset({"join", "close", "zipper"})


def perform(bench: Bench, act: Act) -> None:
    """Does one act and records it."""
    bench.acts.append(act)
    bench.by_name.setdefault(act.name, []).append(act)
    _DO[act.entry.operation.bench](bench, act)
    for cut in act.cuts:
        _touch(cut, act)
    for edge in act.edges:
        edge.acts.append(act)
        _touch(edge.cut, act)


def _touch(cut: CutPiece, act: Act) -> None:
    if cut.touched is None:
        cut.touched = act


def _edges(bench: Bench, act: Act, names: tuple[EdgeName, ...]) -> list[Edge]:
    closing = act.entry.operation.bench in CLOSING
    found: dict[Edge, None] = {}
    for name in names:
        edges = edges_named(bench, name, act.step, act.entry, closing)
        if not edges:
            act.broken = True
            if closing:
                excuse_meant(bench, name)
        found.update(dict.fromkeys(edges))
    return list(found)


def _close(edge: Edge, act: Act) -> None:
    """Closes an edge, and with it what was basted to it."""
    if edge.closed is not None:
        return
    edge.closed = act
    for basting in edge.basted:
        for other in basting.edges:
            if other.closed is None:
                other.closed = act


def _join_groups(edges: list[Edge]) -> None:
    group = edges[0].cut.group
    for edge in edges[1:]:
        group = merge(group, edge.cut.group)


def _mark(bench: Bench, act: Act) -> None:
    act.edges = _edges(bench, act, act.entry.things)


def _cut(bench: Bench, act: Act) -> None:
    """Along a marked line: from here on the edge has that line's allowance, where it says one."""
    _mark(bench, act)
    to: Text | None = act.entry.options.get("to")
    for edge in act.edges if to is not None else ():
        allowance = edge.cut.piece.line_allowances.get(same_name(to.value)) if to is not None else None
        if allowance is not None:
            edge.spec = EdgeSpec(**{**vars(edge.spec), "allowance": allowance.length, "own_allowance": allowance})


def _join(bench: Bench, act: Act) -> None:
    _sides(bench, act)
    if act.broken:
        # What is left of a seam that lost a side is not said to be raw as well.
        for edge in act.edges:
            edge.excused = True
            edge.closed = edge.closed or act
        if act.edges:
            _join_groups(act.edges)
        _lose(bench, act)
        return
    stated = act.entry.measure("allowance")
    layers = [Layer(tuple(side), [(act.time, stated or side[0].spec.allowance)]) for side in act.sides]
    word: Text | None = act.entry.options.get("seam")
    seam = Seam(act, word.value if word else "plain", stated or act.edges[0].spec.allowance, layers)
    act.seam = seam
    bench.seams.append(seam)
    name: Text | None = act.entry.options.get("as")
    if name is not None:
        seam.name = name.value
        bench.named_seams[same_name(name.value)] = seam
    trim = act.entry.measure("trim")
    if trim is not None and seam.construction != "french":
        layers[-1].widths.append((act.time, trim))
    _join_groups(act.edges)
    for edge in act.edges:
        _close(edge, act)
        edge.seams.append(seam)
    bench.last_seam = seam
    bench.last_lost = False
    bench.last_work = act


def _lose(bench: Bench, act: Act) -> None:
    bench.last_lost = True
    name: Text | None = act.entry.options.get("as")
    if name is not None:
        bench.lost_seams.add(same_name(name.value))


def _sides(bench: Bench, act: Act) -> None:
    """Resolves all sides before any is closed, so that one edge may be sewn to its own other copy."""
    act.sides = [_edges(bench, act, names) for names in act.entry.sides]
    act.edges = list(dict.fromkeys(edge for side in act.sides for edge in side))


def _baste(bench: Bench, act: Act) -> None:
    if not act.entry.sides:
        _mark(bench, act)
        return
    _sides(bench, act)
    if act.broken or not act.edges:
        for edge in act.edges:
            edge.excused = True
        return
    layers = [Layer(tuple(side), [(act.time, side[0].spec.allowance)]) for side in act.sides]
    basting = Seam(act, "basted", act.entry.measure("at") or act.edges[0].spec.allowance, layers)
    act.seam = basting
    bench.bastings.append(basting)
    _join_groups(act.edges)
    for edge in act.edges:
        edge.basted.append(basting)


def _close_edges(bench: Bench, act: Act) -> None:
    act.edges = _edges(bench, act, act.entry.things)
    for edge in act.edges:
        _close(edge, act)
    if act.name == "bind":
        _bind_with(bench, act)
    bench.last_work = act
    bench.last_lost = False


def _bind_with(bench: Bench, act: Act) -> None:
    """A binding that is a piece of the pattern lies closed round the edges; any other is a notion."""
    name: Text | None = act.entry.options.get("with")
    part = bench.parts.get(same_name(name.value)) if name else None
    for cut in part.cuts if part else ():
        act.cuts.append(cut)
        for edge in cut.edges.values():
            if not edge.spec.fold:
                _close(edge, act)
        for bound in act.edges[:1]:
            merge(bound.cut.group, cut.group)


def _zipper(bench: Bench, act: Act) -> None:
    _close_edges(bench, act)
    if act.edges:
        _join_groups(act.edges)


def _parts(bench: Bench, act: Act, names: tuple[EdgeName, ...]) -> list[CutPiece]:
    """The cut pieces of parts; an edge name (`front.hem`) means its edges."""
    found: dict[CutPiece, None] = {}
    for name in names:
        if name.edge:
            act.edges += edges_named(bench, name, act.step, act.entry, closing=False)
            continue
        part = part_named(bench, name.part, name.written, name.place, act.step, act.entry)
        if part is None:
            act.broken = True
            continue
        act.parts.append(part)
        found.update(dict.fromkeys(part.cuts))
    return list(found)


def _part(bench: Bench, act: Act) -> None:
    act.cuts = _parts(bench, act, act.entry.things)
    if act.name == "turn":
        bench.last_work = act


def _tack(bench: Bench, act: Act) -> None:
    """Hand stitches hold too: what is tacked to a part hangs together with it."""
    _part(bench, act)
    for name in act.entry.options.get("to", ()):
        to = bench.parts.get(same_name(name.value.partition(".")[0]))
        if to is not None and to.cuts and act.cuts:
            merge(to.cuts[0].group, act.cuts[0].group)


def _touch_things(bench: Bench, act: Act) -> None:
    for name in act.entry.things:
        part = bench.parts.get(name.part) if name.edge else None
        marked = [cut for cut in part.cuts if name.edge in cut.darts or _is_line(cut, name.edge)] if part else []
        act.cuts += marked or _parts(bench, act, (name,))


def _is_line(cut: CutPiece, name: str) -> bool:
    return any(same_name(line.value) == name for line in cut.piece.lines)


def _fuse(bench: Bench, act: Act) -> None:
    act.cuts = _parts(bench, act, act.entry.things)
    wanted: Text | None = act.entry.options.get("with")
    for cut in list(act.cuts):
        fused = _interfacing(bench, cut, same_name(wanted.value) if wanted else "")
        for other in fused:
            if other.part.gone is not None:
                place = _place_in(act, cut)
                bench.missing.append(
                    Missing("already gone", act.step, other.called, place, act.entry, other.part, time=act.time)
                )
            merge(cut.group, other.group)
            other.part.gone = other.part.gone or act.step
            other.part.gone_into = cut.called
            act.cuts.append(other)
            for edge in other.edges.values():
                edge.closed = edge.closed or act
                edge.excused = True
        if fused:
            cut.fused = cut.fused or act


def _place_in(act: Act, cut: CutPiece) -> Place:
    """Where the entry names the cut piece, or a part that holds it."""
    named = [name.place for name, part in zip(act.entry.things, act.parts, strict=False) if part.holds(cut)]
    return named[0] if named and not act.broken else act.place


def _interfacing(bench: Bench, cut: CutPiece, wanted: str) -> list[CutPiece]:
    if cut.called != cut.piece.name:
        return []
    found = []
    for other in cut.piece.cuts:
        key = same_name(other.material.value)
        material = bench.pattern.materials.get(key)
        is_interfacing = material is not None and material.kind == "interfacing"
        name = same_name(f"{cut.piece.name} in {key}")
        if name in bench.cuts and (key == wanted if wanted else is_interfacing):
            found.append(bench.cuts[name])
    return found


def _dart(bench: Bench, act: Act) -> None:
    for name in act.entry.things:
        act.darts += dart_named(bench, name, act.step, act.entry)
    for cut, dart in act.darts:
        cut.darts[dart] = cut.darts[dart] or act
        act.cuts.append(cut)
    bench.last_work = act


def _speaks_of_seam(bench: Bench, act: Act) -> None:
    """Trim, grade, clip, notch: the seam just sewn, or the one that `of` names."""
    seam = _seam_of(bench, act)
    if seam is None:
        return
    act.seam = seam
    act.edges = seam.edges
    seam.later.append(act)
    measures = [measured.length for measured in act.entry.measures]
    layer_name: Text | None = act.entry.options.get("layer")
    if act.name == "trim" and measures:
        for layer in seam.layers:
            if layer_name is None or any(_in_layer(edge, layer_name) for edge in layer.edges):
                layer.widths.append((act.time, measures[0]))
    elif act.name == "grade":
        for layer, width in zip(seam.layers, measures, strict=False):
            layer.widths.append((act.time, width))


def _in_layer(edge: Edge, name: Text) -> bool:
    return same_name(name.value) in (same_name(edge.cut.called), same_name(edge.called))


def _seam_of(bench: Bench, act: Act) -> Seam | None:
    of: Text | None = act.entry.options.get("of")
    if of is None and bench.last_lost:
        act.broken = True
        return None
    if of is None:
        if bench.last_seam is None:
            bench.missing.append(Missing("no seam", act.step, act.name, act.place, act.entry, time=act.time))
        return bench.last_seam
    named = bench.named_seams.get(same_name(of.value))
    if named is not None:
        return named
    if "." in of.value:
        part, _, edge = of.value.partition(".")
        name = _edge_text(same_name(part), same_name(edge), of)
        edges = edges_named(bench, name, act.step, act.entry, closing=False)
        for found in edges:
            if found.seams:
                return found.seams[-1]
        if not edges:
            return None
    _no_seam(bench, act, of)
    return None


def _no_seam(bench: Bench, act: Act, named: Text) -> None:
    if same_name(named.value) in bench.lost_seams:
        act.broken = True
        return
    known = tuple(name for name, _ in bench.seam_makers.values())
    bench.missing.append(Missing("no seam", act.step, named.value, named.place, act.entry, known=known, time=act.time))


def _edge_text(part: str, edge: str, of: Text) -> EdgeName:
    from booklet.model.pattern import EdgeName

    return EdgeName(part, edge, of.value, of.place)


def _press(bench: Bench, act: Act) -> None:
    """What is pressed; and in `parts` the part toward which it is, as that part is now."""
    if act.entry.word is not None:
        direction = same_name(act.entry.word.value).removeprefix("toward ").removeprefix("the ")
        if direction in bench.parts:
            act.parts.append(bench.parts[direction])
    of: Text | None = act.entry.options.get("of")
    if of is not None and same_name(of.value) not in bench.named_seams:
        _press_named(bench, act, of)
    elif of is not None:
        act.seam = bench.named_seams[same_name(of.value)]
    elif bench.last_lost:
        act.broken = True
    elif bench.last_work is None:
        bench.missing.append(Missing("no seam", act.step, act.name, act.place, act.entry, time=act.time))
    elif bench.last_work.seam is not None:
        act.seam = bench.last_work.seam
    else:
        act.target = bench.last_work
    _press_same_step(bench, act, of)
    if act.seam is not None:
        act.seam.later.append(act)
        act.edges = act.seam.edges
    if act.target is not None:
        act.target.later.append(act)


def _press_same_step(bench: Bench, act: Act, of: Text | None) -> None:
    """With no `of`, one pressing serves every seam and dart of its step that is not pressed yet."""
    if of is not None:
        return
    for earlier in reversed(bench.acts[:-1]):
        if earlier.step is not act.step:
            break
        if earlier.name == "press":
            break
        if earlier.seam is not None and earlier.name == "sew" and earlier.seam is not act.seam:
            earlier.seam.later.append(act)
        elif earlier.darts and earlier is not act.target:
            earlier.later.append(act)


def _press_named(bench: Bench, act: Act, of: Text) -> None:
    part, _, thing = (same_name(word) for word in of.value.partition("."))
    cut = bench.cuts.get(part)
    if cut is not None and thing in cut.darts:
        act.target = cut.darts[thing]
        if act.target is None:
            _no_seam(bench, act, of)
        return
    if thing:
        edges = edges_named(bench, _edge_text(part, thing, of), act.step, act.entry, closing=False)
        seams = [seam for edge in edges for seam in edge.seams]
        if seams:
            act.seam = max(seams, key=lambda seam: seam.act.time)
        else:
            act.edges = edges
        return
    known = bench.parts.get(part)
    if known is not None:
        act.cuts = known.cuts
        return
    _no_seam(bench, act, of)


def _understitch(bench: Bench, act: Act) -> None:
    """The seam of a facing is the last one that joined any of its pieces to something else."""
    act.cuts = _parts(bench, act, act.entry.things)
    mine = set(act.cuts)
    joined = [
        seam
        for cut in act.cuts
        for edge in cut.edges.values()
        for seam in edge.seams
        if any(other.cut not in mine for other in seam.edges)
    ]
    own = joined or [seam for cut in act.cuts for edge in cut.edges.values() for seam in edge.seams]
    if own:
        act.seam = max(own, key=lambda seam: seam.act.time)
        act.seam.later.append(act)


def _seam_or_edges(bench: Bench, act: Act) -> None:
    if act.entry.word is None:
        act.edges = _edges(bench, act, act.entry.things)
        return
    word = same_name(act.entry.word.value)
    if word == "seam":
        act.seam = _seam_of(bench, act)
    elif word in bench.named_seams:
        act.seam = bench.named_seams[word]
    elif word in bench.parts:
        act.cuts = bench.parts[word].cuts
    else:
        _no_seam(bench, act, act.entry.word)
    if act.seam is not None:
        act.edges = act.seam.edges
        act.seam.later.append(act)


def _finish(bench: Bench, act: Act) -> None:
    _seam_or_edges(bench, act)
    for edge in act.edges:
        edge.finished = edge.finished or act


def _pocket(bench: Bench, act: Act) -> None:
    act.cuts = _parts(bench, act, act.entry.things)
    on: Text | None = act.entry.options.get("on")
    base = part_named(bench, same_name(on.value), on.value, on.place, act.step, act.entry) if on else None
    for cut in list(act.cuts):
        for edge in cut.edges.values():
            if edge.closed is None and not edge.spec.fold:
                act.edges.append(edge)
    for edge in act.edges:
        _close(edge, act)
    if base is not None and base.cuts:
        act.parts.append(base)
        for cut in list(act.cuts):
            merge(cut.group, base.cuts[0].group)


def _insert(bench: Bench, act: Act) -> None:
    """Into the last casing, or into the one that `into` names."""
    into: Text | None = act.entry.options.get("into")
    casings = bench.by_name.get("casing", [])
    if into is not None and "." in into.value:
        part, _, edge = into.value.partition(".")
        edges = edges_named(
            bench, _edge_text(same_name(part), same_name(edge), into), act.step, act.entry, closing=False
        )
        casings = [casing for casing in casings if set(casing.edges) & set(edges)]
        act.edges = edges
    act.target = casings[-1] if casings else None
    if act.target is not None:
        act.edges = list(act.target.edges)


_DO: dict[str, Callable[[Bench, Act], None]] = {
    "mark": _mark,
    "cut": _cut,
    "join": _join,
    "baste": _baste,
    "close": _close_edges,
    "zipper": _zipper,
    "fasten": _mark,
    "part": _part,
    "tack": _tack,
    "touch": _touch_things,
    "fuse": _fuse,
    "dart": _dart,
    "seam": _speaks_of_seam,
    "press": _press,
    "understitch": _understitch,
    "topstitch": _seam_or_edges,
    "finish": _finish,
    "pocket": _pocket,
    "insert": _insert,
}

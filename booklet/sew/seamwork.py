"""Operations that speak of a seam: trim, grade, clip, press, understitch, topstitch, finish."""

from __future__ import annotations

from booklet.read.tree import Text, same_name
from booklet.sew.bench import Act, Bench, Edge, Layer, Missing, Seam
from booklet.sew.hands import cuts_of, edge_text, edges_of
from booklet.sew.names import edges_named


def cut_seam(bench: Bench, act: Act) -> None:
    """Trim, grade, clip, notch: the seam just sewn, or the one that `of` names."""
    seam = _seam_of(bench, act)
    if seam is None:
        return
    act.seam = seam
    seam.later.append(act)
    layers = _layers(bench, act, seam)
    act.edges = list(dict.fromkeys(edge for layer in layers for edge in layer.edges))
    measures = [measured.length for measured in act.entry.measures]
    if act.name == "trim" and measures:
        for layer in layers:
            layer.widths.append((act.time, measures[0]))
    elif act.name == "grade":
        for layer, width in zip(seam.layers, measures, strict=False):
            layer.widths.append((act.time, width))


def _layers(bench: Bench, act: Act, seam: Seam) -> list[Layer]:
    """The one that `layer` names, by a part or an edge in it; else all."""
    name: Text | None = act.entry.options.get("layer")
    if name is None:
        return seam.layers
    found = [layer for layer in seam.layers if any(_in_layer(bench, edge, name) for edge in layer.edges)]
    if not found:
        known = tuple(dict.fromkeys(edge.cut.called for edge in seam.edges))
        bench.missing.append(
            Missing("unknown layer", act.step, name.value, name.place, act.entry, known=known, time=act.time)
        )
    return found


def _in_layer(bench: Bench, edge: Edge, name: Text) -> bool:
    wanted = same_name(name.value)
    copy = f"{edge.copy} {edge.cut.called}".strip()
    part = bench.parts.get(wanted)
    named = wanted in (same_name(edge.cut.called), same_name(copy), same_name(edge.called))
    return named or (part is not None and part.holds(edge.cut))


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
        name = edge_text(same_name(part), same_name(edge), of)
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


def press(bench: Bench, act: Act) -> None:
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
    for at in range(len(bench.acts) - 2, -1, -1):
        earlier = bench.acts[at]
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
        edges = edges_named(bench, edge_text(part, thing, of), act.step, act.entry, closing=False)
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


def understitch(bench: Bench, act: Act) -> None:
    """The seam of a facing is the last one that joined any of its pieces to something else."""
    act.cuts = cuts_of(bench, act, act.entry.things)
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


def topstitch(bench: Bench, act: Act) -> None:
    if act.entry.word is None:
        act.edges = edges_of(bench, act, act.entry.things)
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
        layers = _layers(bench, act, act.seam)
        act.edges = list(dict.fromkeys(edge for layer in layers for edge in layer.edges))
        act.seam.later.append(act)


def finish(bench: Bench, act: Act) -> None:
    topstitch(bench, act)
    for edge in act.edges:
        edge.finished = edge.finished or act

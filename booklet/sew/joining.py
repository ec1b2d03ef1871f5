"""Operations that close edges or join pieces: sew, baste, hem, casing, bind, zipper, cut."""

from __future__ import annotations

from booklet.model.pattern import EdgeSpec
from booklet.read.tree import Text, same_name
from booklet.sew.bench import Act, Bench, Layer, Missing, Seam
from booklet.sew.hands import close_edge, edges_of, join_groups, mark
from booklet.sew.taking import take_in


def cut_along(bench: Bench, act: Act) -> None:
    """Along a marked line: from here on the edge has that line's allowance, where it says one."""
    mark(bench, act)
    to: Text | None = act.entry.options.get("to")
    if to is None:
        return
    _tell_unknown_line(bench, act, to)
    for edge in act.edges:
        allowance = edge.cut.piece.line_allowances.get(same_name(to.value))
        if allowance is not None:
            edge.spec = EdgeSpec(**{**vars(edge.spec), "allowance": allowance.length, "own_allowance": allowance})


def _tell_unknown_line(bench: Bench, act: Act, to: Text) -> None:
    """Records the first piece that lists lines, and not this one. A piece may leave its lines unlisted."""
    for cut in dict.fromkeys(edge.cut for edge in act.edges):
        known = tuple(line.value for line in cut.piece.lines)
        if known and same_name(to.value) not in map(same_name, known):
            written = f"{cut.called}.{to.value}"
            bench.missing.append(
                Missing("unknown line", act.step, written, to.place, act.entry, cut.part, known=known, time=act.time)
            )
            return


def join(bench: Bench, act: Act) -> None:
    told = len(bench.missing)
    _sides(bench, act)
    if act.broken:
        # What is left of a seam that lost a side is not said to be raw as well.
        for edge in act.edges:
            edge.excused = True
            edge.closed = edge.closed or act
        # Pieces that are named by a wrong edge, or as a part that no step begins to make, hang together all the same.
        lost = bench.missing[told:]
        named = [edge for missing in lost for edge in (missing.edge, *missing.meant) if edge is not None]
        if act.edges:
            join_groups([*act.edges, *named])
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
    join_groups(act.edges)
    for edge in act.edges:
        close_edge(edge, act)
        edge.seams.append(seam)
    take_in(bench, act)
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
    act.sides = [edges_of(bench, act, names) for names in act.entry.sides]
    act.edges = list(dict.fromkeys(edge for side in act.sides for edge in side))


def baste(bench: Bench, act: Act) -> None:
    if not act.entry.sides:
        mark(bench, act)
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
    join_groups(act.edges)
    for edge in act.edges:
        edge.basted.append(basting)


def close(bench: Bench, act: Act) -> None:
    act.edges = edges_of(bench, act, act.entry.things)
    for edge in act.edges:
        close_edge(edge, act)
    take_in(bench, act)
    bench.last_work = act
    bench.last_lost = False


def zipper(bench: Bench, act: Act) -> None:
    close(bench, act)
    if act.edges:
        join_groups(act.edges)

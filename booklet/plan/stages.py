"""A seam or hem of the bench -> a request for its section: what was done to it, in the order of the hands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.naming import listed
from booklet.plan.plan import Section, Stage
from booklet.plan.write import capital
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from booklet.length import Length
    from booklet.model.pattern import EdgeName, Entry
    from booklet.sew.bench import Act, Bench, CutPiece, Seam

# How many steps after a seam still belong to its figure? Our choice: a turning or a pressing two steps on is of one
# piece with the sewing; what comes later has its own step.
SHORTLY = 2


class Course:
    """A bench, and the place of each of its steps in the order of sewing."""

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        self._at = {step.id: at for at, step in enumerate(bench.steps)}
        self.acts: dict[str, list[Act]] = {}
        for act in bench.acts:
            self.acts.setdefault(act.step.id, []).append(act)

    def shortly(self, first: Act, later: Act) -> bool:
        """Whether an act is of the same step or comes shortly after it, in a step that is always sewn."""
        if later.step is first.step:
            return True
        return not later.step.optional and self.between(first, later) <= SHORTLY

    def between(self, first: Act, later: Act) -> int:
        return self._at[later.step.id] - self._at[first.step.id]


def seam_section(course: Course, seam: Seam) -> Section:
    """Through a seam: its passes, then what is done to it in its step and shortly after."""
    bench = course.bench
    later = [act for act in seam.later if course.shortly(seam.act, act)]
    turned = _turned(course, seam)
    if turned is not None:
        later = sorted([*later, turned], key=lambda act: act.time)
    sides = _side_names(seam.act.entry)
    passes, rest = _passes(bench, seam, sides, later)
    stages = [*passes, *(stage for act in rest if (stage := _stage(bench, seam, act)) is not None)]
    construction = "enclosed" if turned is not None and seam.construction == "plain" else seam.construction
    return Section(construction, seam.allowance, sides, _cloths(bench, seam), tuple(stages), _backs(seam))


def edge_section(bench: Bench, act: Act) -> Section | None:
    """Through a hem or casing, as its kind is made, or a bound edge; None where nothing says how it lies."""
    if act.name == "bind":
        return _bound_section(bench, act)
    kind = act.entry.options.get("kind")
    name = same_name(kind.value) if kind else ""
    if act.entry.options.get("turns"):
        return _fold_section(bench, act, f"{name} hem" if name in ("blind", "rolled") else "double hem")
    stages = {
        "faced": (Stage("turn"), Stage("stitch fold")),
        "bound": (Stage("bind"),),
        "lettuce": (Stage("finish", (), "overlock"),),
    }.get(name)
    if stages is None:
        return None
    edge, sides, cloths = act.edges[0], [capital(act.entry.things[0].part)], [_cloth(bench, act.edges[0].cut)]
    if name == "faced":
        facing = act.entry.options["with"].value
        sides.append(capital(facing))
        cloths.append("self")
        stages = (Stage("stitch", (edge.allowance(),)), *stages)
    return Section(f"{name} hem", edge.allowance(), tuple(sides), tuple(cloths), stages)


def _bound_section(bench: Bench, act: Act) -> Section | None:
    """None where the binding is sewn down by hand: that row does not go through."""
    by = act.entry.options.get("by")
    if (by is not None and same_name(by.value) == "hand") or not act.entry.things:
        return None
    edge, width = act.edges[0], act.entry.measure("width")
    bind = Stage("bind", (width,) if width else ())
    return Section(
        "bound edge", edge.allowance(), (capital(act.entry.things[0].part),), (_cloth(bench, edge.cut),), (bind,)
    )


def _fold_section(bench: Bench, act: Act, construction: str) -> Section:
    """Its turns, and the row that holds them."""
    turns = act.entry.lengths("turns")
    total = turns[0]
    for turn in turns[1:]:
        total = total + turn
    finished = [edge.finished for edge in act.edges if edge.finished is not None and edge.finished.time < act.time]
    stages = [Stage("finish", (), _how(finished[0].entry))] if finished else []
    stages.append(Stage("fold", turns))
    at = act.entry.measure("at")
    stages.append(Stage("stitch fold", (at,) if at else ()))
    part = act.entry.things[0].part
    cloth = _cloth(bench, act.edges[0].cut)
    return Section(construction if act.name == "hem" else "casing", total, (capital(part),), (cloth,), tuple(stages))


def _turned(course: Course, seam: Seam) -> Act | None:
    """The turning that brings a seam to the edge: of all its pieces, with nothing sewn to what is turned in between."""
    cuts = {edge.cut for edge in seam.edges}
    sewn: set[CutPiece] = set()
    acts = course.bench.acts
    for at in range(seam.act.time + 1, len(acts)):
        act = acts[at]
        if course.between(seam.act, act) > SHORTLY:
            return None
        if act.name == "turn" and cuts <= set(act.cuts):
            return act if course.shortly(seam.act, act) and not sewn & set(act.cuts) else None
        if act.name == "sew" and act.step is not seam.act.step:
            sewn |= {edge.cut for edge in act.edges}
    return None


def _passes(bench: Bench, seam: Seam, sides: tuple[str, ...], later: list[Act]) -> tuple[list[Stage], list[Act]]:
    """The construction's own stages, and the acts that come after them."""
    entry = seam.act.entry
    trim, width = entry.measure("trim"), entry.measure("width")
    trimming = [Stage("trim", (trim,))] if trim else []
    if seam.construction == "french":
        passes = entry.lengths("passes")
        if len(passes) == 2:
            first, last = passes
            first_pass = Stage("stitch", (first,), "wrong sides together")
            return [first_pass, *trimming, Stage("fold"), Stage("stitch", (last,))], later
    if seam.construction in ("flat felled", "mock felled", "welt", "topstitched"):
        own = [act for act in later if act.name == "press" and _manner(bench, seam, act).startswith("toward")][:1]
        toward = _manner(bench, seam, own[0]) if own else f"toward {sides[-1].lower()}"
        measures = (width,) if width else ()
        folded = [Stage("fold", measures)] if seam.construction == "flat felled" else []
        rest = [act for act in later if act not in own and act.name not in ("clip", "notch")]
        return [Stage("stitch", (seam.allowance,)), Stage("press", (), toward), *trimming, *folded,
                Stage("topstitch", measures)], rest  # fmt: skip
    own_stages = _own_stages(seam.construction, (width,) if width else ())
    rest = [act for act in later if act.name != "press"] if seam.construction == "slot" else later
    return [Stage("stitch", (seam.allowance,)), *trimming, *own_stages], rest


def _own_stages(construction: str, width: tuple[Length, ...]) -> list[Stage]:
    """What a construction does after its first row, whoever sews it."""
    return {
        "mock french": [Stage("fold", width), Stage("stitch", (), "the folds")],
        "bound": [Stage("bind", width)],
        "hong kong": [Stage("bind", width)],
        "slot": [Stage("press", (), "open"), Stage("topstitch", width)],
    }.get(construction, [])


def _stage(bench: Bench, seam: Seam, act: Act) -> Stage | None:
    """What one act looks like from the side; None where it can't be seen there."""
    lengths = tuple(measured.length for measured in act.entry.measures)
    match act.name:
        case "trim" if "layer" in act.entry.options:
            return Stage("grade", tuple(layer.width_at(act.time + 1) for layer in seam.layers))
        case "trim" | "grade":
            return Stage(act.name, lengths)
        case "clip" | "notch":
            kind, every = act.entry.spacing
            manner = "notch" if act.name == "notch" else ""
            return Stage("clip", (every.length,), manner) if kind == "every" and every else None
        case "press":
            return Stage("press", (), _manner(bench, seam, act))
        case "turn":
            return Stage("turn")
        case "understitch":
            at = act.entry.measure("at")
            facing = _facing(seam, act)
            return Stage("understitch", (at,) if at else (), f"toward {facing}" if facing else "")
        case "topstitch" | "edgestitch":
            at = act.entry.measure("at")
            return Stage("topstitch", (at,) if at else ())
        case "finish":
            return Stage("finish", (), _how(act.entry))
    return None


def _manner(bench: Bench, seam: Seam, act: Act) -> str:
    """`open`, or `toward` and the side as the seam's own entry names it, where it is one of them."""
    word = same_name(act.entry.word.value) if act.entry.word else ""
    if not word.startswith("toward"):
        return word
    part = word.removeprefix("towards").removeprefix("toward").strip()
    return f"toward {_side_of(bench, seam, part) or part}"


def _side_of(bench: Bench, seam: Seam, name: str) -> str:
    """The side in which a part lies: the one of its name, else the only one that has the part's pieces."""
    sides = [side.lower() for side in _side_names(seam.act.entry)]
    if name in sides or name not in bench.parts:
        return name if name in sides else ""
    cuts = set(bench.parts[name].cuts)
    mine = [side for side, layer in zip(sides, seam.layers, strict=False) if cuts & {edge.cut for edge in layer.edges}]
    return mine[0] if len(mine) == 1 else ""


def _facing(seam: Seam, act: Act) -> str:
    mine = set(act.cuts)
    for side, layer in zip(_side_names(seam.act.entry), seam.layers, strict=False):
        if all(edge.cut in mine for edge in layer.edges):
            return side.lower()
    return ""


def _how(entry: Entry) -> str:
    how = entry.options.get("how")
    return same_name(how.value) if how else "zigzag"


def _side_names(entry: Entry) -> tuple[str, ...]:
    return tuple(_side_name(side) for side in entry.sides)


def _side_name(side: tuple[EdgeName, ...]) -> str:
    """The part that a side's longest run is on: its first, and a second where there is one."""
    return capital(listed(dict.fromkeys(name.part for name in side)))


def _backs(seam: Seam) -> tuple[int, ...]:
    """Sides that were joined before to the side above them, or are of one piece with it: two layers of one part."""
    found: list[int] = []
    for index in range(2, len(seam.layers)):
        above = {edge.cut for edge in seam.layers[index - 1].edges}
        own = {edge.cut for edge in seam.layers[index].edges}
        edges = [edge for cut in own for edge in cut.edges.values()]
        held = [each for edge in edges for each in (*edge.seams, *edge.basted) if each.act.time < seam.act.time]
        before = {edge.cut for each in held for edge in each.edges} - own
        if index - 1 not in found and (own & above or before & above):
            found.append(index)
    return tuple(found)


def _cloths(bench: Bench, seam: Seam) -> tuple[str, ...]:
    return tuple(_cloth(bench, layer.edges[0].cut) for layer in seam.layers)


def _cloth(bench: Bench, cut: CutPiece) -> str:
    material = bench.pattern.materials.get(cut.material)
    kind = material.kind if material else ""
    return kind if kind in ("lining", "interfacing") else "self"

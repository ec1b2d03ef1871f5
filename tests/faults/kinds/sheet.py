"""pattern.yaml: pieces, edges, allowances, notions, charts, amounts."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from fractions import Fraction

from tests.faults.draft import Draft, Path_
from tests.faults.edits import dropped, inserted, put, renamed
from tests.faults.fault import UNSURE, WRONG, Fault, kind
from tests.faults.kinds.names import misspelt
from tests.faults.kinds.numbers import scaled
from tests.faults.sample import HEAD, MEASURE, Sample


def edges(sample: Sample) -> Iterator[tuple[str, str, Path_]]:
    for piece, data in sample.head["pieces"].items():
        for edge in data["edges"]:
            yield piece, edge, (HEAD, "pieces", piece, "edges", edge)


def _is_fold(sample: Sample, path: Path_) -> bool:
    data = sample.head["pieces"][str(path[2])]["edges"][str(path[4])]
    return path[4] == "fold" or (isinstance(data, dict) and data.get("on") == "fold")


def users(sample: Sample, piece: str, edge: str = "") -> frozenset[str]:
    """The steps that name the piece, or one edge of it, whatever part it is in by then."""
    found = set()
    for sewn in sample.sewn.values():
        for number in sewn.steps:
            if any(own == piece and (not edge or other == edge) for own, other in sewn.edges[number]):
                found.add(sample.steps[number].id)
    found |= {step.id for step in sample.steps if not edge and piece in str(step.data.get("work", ""))}
    return frozenset(found)


@kind("seam allowance of the pattern another")
def allowance(sample: Sample) -> Iterator[Fault]:
    """Wrong: the texts say the old one."""
    old = sample.head["seam allowance"]
    for by in (Fraction(1, 2), Fraction(3, 2)):
        said = any(old in MEASURE.findall(step.text) for step in sample.steps)
        steps = frozenset(step.id for step in sample.steps if old in MEASURE.findall(step.text))
        yield Fault(
            f"{old} -> {scaled(old, by)}",
            WRONG if said else UNSURE,
            put((HEAD, "seam allowance"), scaled(old, by)),
            steps,
            (sample.place((HEAD, "seam allowance")),),
        )


@kind("allowance of one edge another")
def edge_allowance(sample: Sample) -> Iterator[Fault]:
    """Wrong where the edge is sewn to others that keep theirs, or hemmed or cased by its turns."""
    for piece, edge, path in edges(sample):
        if _is_fold(sample, path):
            continue
        data = sample.head["pieces"][piece]["edges"][edge]
        old = data.get("allowance", sample.head["seam allowance"]) if isinstance(data, dict) else ""
        if not old:
            old = sample.head["seam allowance"]
        sure = False
        for entry in sample.of("sew"):
            if "allowance" in entry.data:
                continue
            for sewn in sample.sewn.values():
                mine = sewn.seamed.get((piece, edge)) == entry.step.number
                sure = sure or (mine and len({e for e in sewn.edges[entry.step.number] if e[0] != piece}) > 0)
        for entry in sample.of("hem", "casing"):
            sure = sure or any(
                f".{edge}" in str(entry.value)
                and sewn.closed.get((piece, edge)) == entry.step.number
                and "turns" in entry.data
                for sewn in sample.sewn.values()
            )

        def edit(draft: Draft, path: Path_ = path, old: str = old, data: object = data) -> None:
            if isinstance(data, dict):
                draft.put((*path, "allowance"), scaled(old, Fraction(3, 2)))
            else:
                draft.put(path, {"allowance": scaled(old, Fraction(3, 2))})

        yield Fault(
            f"{piece}.{edge}: {old} -> {scaled(old, Fraction(3, 2))}",
            WRONG if sure else UNSURE,
            edit,
            users(sample, piece, edge),
            (sample.place(path),),
        )


@kind("edge left out of a piece")
def edge_dropped(sample: Sample) -> Iterator[Fault]:
    for piece, edge, path in edges(sample):
        if not _is_fold(sample, path):
            used = users(sample, piece, edge)
            alone = any(f"{piece}.{edge}" in str(entry.data) for entry in sample.entries)
            yield Fault(
                f"{piece}.{edge}",
                WRONG if alone else UNSURE,
                dropped(path),
                used,
                (sample.place((HEAD, "pieces", piece)),),
            )


@kind("edge renamed in the piece alone")
def edge_renamed(sample: Sample) -> Iterator[Fault]:
    for piece, edge, path in edges(sample):
        sewn_edge = any((piece, edge) in sewn.closed for sewn in sample.sewn.values())
        yield Fault(
            f"{piece}.{edge}",
            WRONG if sewn_edge or path[4] == "fold" else UNSURE,
            renamed(path, misspelt(edge)),
            users(sample, piece, edge),
            (sample.place((HEAD, "pieces", piece)),),
        )


@kind("an edge more than the steps sew")
def edge_added(sample: Sample) -> Iterator[Fault]:
    """A pocket or a binding is sewn down all round, whatever its edges are called."""
    whole = str([(entry.value, entry.data.get("with")) for entry in sample.of("pocket", "bind")])
    for piece in sample.head["pieces"]:
        yield Fault(
            piece,
            UNSURE if piece in whole else WRONG,
            put((HEAD, "pieces", piece, "edges", "forgotten edge"), {}),
            frozenset(),
            (sample.place((HEAD, "pieces", piece)),),
        )


@kind("an edge said to be the fold")
def edge_folded(sample: Sample) -> Iterator[Fault]:
    for piece, edge, path in edges(sample):
        if not _is_fold(sample, path):
            whole = str([(entry.value, entry.data.get("with")) for entry in sample.of("pocket", "bind")])
            closed = piece not in whole and any((piece, edge) in sewn.closed for sewn in sample.sewn.values())
            named = any((piece, edge) in s.edges[n] for s in sample.sewn.values() for n in s.steps)
            yield Fault(
                f"{piece}.{edge}",
                WRONG if closed and named else UNSURE,
                put(path, {"on": "fold"}),
                users(sample, piece, edge),
                (sample.place(path),),
            )


@kind("curve of a clipped or notched edge the other way")
def curve(sample: Sample) -> Iterator[Fault]:
    """Clip inward curves, notch outward ones: Goodheart-Willcox (2012), p. 452. Wrong where a step does one of them.

    Without outlines it can't be told where another curved edge of that step is sewn to it: an inward and an outward
    curve are joined too, as a sleeve cap and its armhole are, and the seam is clipped or notched as its maker likes.
    """
    turn = {"inward": "outward", "outward": "inward"}
    for piece, edge, path in edges(sample):
        data = sample.head["pieces"][piece]["edges"][edge]
        if not isinstance(data, dict) or "curve" not in data:
            continue
        cuts, beside = False, False
        for sewn in sample.sewn.values():
            at = sewn.seamed.get((piece, edge))
            cuts = cuts or any(
                entry.step.number == at and "of" not in entry.data and str(entry.value).startswith("every")
                for entry in sample.of("clip", "notch")
            )
            others = sewn.edges.get(at, set()) - {(piece, edge)} if at is not None else set()
            beside = beside or any(_curve(sample, *other) for other in others)
        yield Fault(
            f"{piece}.{edge}",
            WRONG if cuts and ("outlines" in sample.head or not beside) else UNSURE,
            put((*path, "curve"), turn[data["curve"]]),
            users(sample, piece, edge),
            (sample.place(path),),
        )


def _curve(sample: Sample, piece: str, edge: str) -> bool:
    data = sample.head["pieces"][piece]["edges"][edge]
    return isinstance(data, dict) and "curve" in data


@kind("piece left out")
def piece_dropped(sample: Sample) -> Iterator[Fault]:
    for piece in sample.head["pieces"]:
        yield Fault(
            piece,
            WRONG,
            dropped((HEAD, "pieces", piece)),
            users(sample, piece),
        )


@kind("piece renamed in the list alone")
def piece_renamed(sample: Sample) -> Iterator[Fault]:
    for piece in sample.head["pieces"]:
        path = (HEAD, "pieces", piece)
        yield Fault(
            piece,
            WRONG,
            renamed(path, misspelt(piece)),
            users(sample, piece),
            (sample.place(path),),
        )


@kind("piece that no step sews")
def piece_added(sample: Sample) -> Iterator[Fault]:
    new = {"number": "99", "cut": {"self": "1"}, "edges": {"top": {}, "bottom": {}}}
    yield Fault(
        "forgotten piece",
        WRONG,
        put((HEAD, "pieces", "forgotten piece"), new),
        frozenset(),
        (sample.place((HEAD, "pieces")),),
    )


@kind("one number for two pieces")
def one_number(sample: Sample) -> Iterator[Fault]:
    pieces = list(sample.head["pieces"])
    for first, second in itertools.pairwise(pieces):
        together = sample.views(sample.head["pieces"][first]) & sample.views(sample.head["pieces"][second])
        yield Fault(
            f"{first} and {second}",
            WRONG if together else UNSURE,
            put((HEAD, "pieces", second, "number"), sample.head["pieces"][first]["number"]),
            frozenset(),
            sample.piece_places({first, second}),
        )


@kind("material left out of a piece")
def cut_dropped(sample: Sample) -> Iterator[Fault]:
    """Wrong where it is fused to the piece, or its part is sewn under its own name."""
    fused = str([entry.value for entry in sample.of("fuse")])
    for piece, data in sample.head["pieces"].items():
        for material in data["cut"] if len(data["cut"]) > 1 else ():
            interfacing = sample.head["materials"][material].get("kind") == "interfacing"
            sure = (interfacing and piece in fused) or f"{piece} in {material}" in str(sample.plain)
            path = (HEAD, "pieces", piece, "cut", material)
            yield Fault(
                f"{piece} in {material}",
                WRONG if sure else UNSURE,
                dropped(path),
                users(sample, piece),
                (sample.place((HEAD, "pieces", piece)),),
            )


@kind("interfacing cut that no step fuses")
def cut_added(sample: Sample) -> Iterator[Fault]:
    for key, material in sample.head["materials"].items():
        for piece, data in sample.head["pieces"].items():
            if material.get("kind") == "interfacing" and key not in data["cut"]:
                yield Fault(
                    f"{piece} in {key}",
                    WRONG,
                    put((HEAD, "pieces", piece, "cut", key), "1"),
                    frozenset(),
                    (sample.place((HEAD, "pieces", piece)),),
                )


@kind("piece cut once where it is sewn to its own other copy")
def cut_once(sample: Sample) -> Iterator[Fault]:
    for entry in sample.of("sew"):
        if len(entry.value) == 2 and entry.value[0] == entry.value[1] and isinstance(entry.value[0], str):
            piece = entry.value[0].partition(".")[0]
            cut = sample.head["pieces"].get(piece, {}).get("cut", {})
            whole = "fold" not in sample.head["pieces"].get(piece, {}).get("edges", ())
            for material in list(cut)[: int(whole)]:
                path = (HEAD, "pieces", piece, "cut", material)
                yield Fault(
                    f"{piece}: “{entry.step.id}”",
                    WRONG,
                    put(path, "1"),
                    frozenset({entry.step.id}),
                    (sample.place((HEAD, "pieces", piece)),),
                )


@kind("material of a piece misspelt")
def material(sample: Sample) -> Iterator[Fault]:
    for piece, data in sample.head["pieces"].items():
        for key in data["cut"]:
            path = (HEAD, "pieces", piece, "cut", key)
            yield Fault(
                f"{piece} in {key}",
                WRONG,
                renamed(path, misspelt(key)),
                users(sample, piece),
                (sample.place((HEAD, "pieces", piece)),),
            )


@kind("material left out of the list")
def material_dropped(sample: Sample) -> Iterator[Fault]:
    for key in sample.head["materials"]:
        if key == "self":
            continue
        pieces = {piece for piece, data in sample.head["pieces"].items() if key in data["cut"]}
        yield Fault(
            key,
            WRONG if pieces else UNSURE,
            dropped((HEAD, "materials", key)),
            frozenset(),
            sample.piece_places(pieces),
        )


@kind("dart left out of a piece, or one too many")
def darts(sample: Sample) -> Iterator[Fault]:
    for piece, data in sample.head["pieces"].items():
        path = (HEAD, "pieces", piece)
        for dart in data.get("darts", {}):
            yield Fault(
                f"{piece}: no {dart}",
                WRONG,
                dropped((*path, "darts", dart)),
                users(sample, piece),
                (sample.place(path),),
            )
            yield Fault(
                f"{piece}: another dart",
                WRONG,
                put((*path, "darts", "other dart"), data["darts"][dart]),
                frozenset(),
                (sample.place(path),),
            )


def _notion(sample: Sample, index: int) -> tuple[frozenset[str], Path_]:
    item = sample.head["notions"][index]["item"]
    steps = {entry.step.id for entry in sample.entries if item in (entry.data.get("notion"), entry.value)}
    return frozenset(steps), (HEAD, "notions", index)


@kind("notion left out")
def notion_dropped(sample: Sample) -> Iterator[Fault]:
    for index, notion in enumerate(sample.head.get("notions", ())):
        steps, path = _notion(sample, index)
        yield Fault(
            notion["item"],
            WRONG if steps else UNSURE,
            dropped(path),
            steps,
        )


@kind("notion one more than is used")
def notion_count(sample: Sample) -> Iterator[Fault]:
    for index, notion in enumerate(sample.head.get("notions", ())):
        steps, path = _notion(sample, index)
        count = notion.get("count", {})
        for key in [*count] if isinstance(count, dict) else [""]:
            at = (*path, "count", key) if key else (*path, "count")
            old = count[key] if key else count
            yield Fault(
                f"{notion['item']} {key}",
                WRONG if steps else UNSURE,
                put(at, str(int(old) + 1)),
                steps,
                (sample.place(path),),
            )


@kind("notion that no step uses")
def notion_added(sample: Sample) -> Iterator[Fault]:
    if "notions" in sample.head:
        new = {"item": "snap", "size": "3/8 in", "count": "4"}
        where = (HEAD, "notions")
        yield Fault(
            "snap",
            WRONG,
            inserted((*where, 0), new),
            frozenset(),
            (sample.place(where),),
        )


@kind("a value left out of a row")
def chart_row(sample: Sample) -> Iterator[Fault]:
    for title, chart in sample.head.get("charts", {}).items():
        for row, values in chart["rows"].items():
            if isinstance(values, list) and len(values) > 1:
                path = (HEAD, "charts", title, "rows", row)
                yield Fault(
                    f"{title}: {row}",
                    WRONG,
                    dropped((*path, 0)),
                    frozenset(),
                    (sample.place((HEAD, "charts", title)), sample.place(path)),
                )


@kind("amount of cloth for one view or one size left out")
def amounts(sample: Sample) -> Iterator[Fault]:
    for key, data in sample.head["materials"].items():
        for width, amount in data.get("amounts", {}).items():
            path = (HEAD, "materials", key, "amounts", width)
            for view in amount if isinstance(amount, dict) else ():
                letters = {one.strip() for one in view.split(",")}
                sure = len(data["amounts"]) == 1 and any(
                    key in piece["cut"] and sample.views(piece) & letters for piece in sample.head["pieces"].values()
                )
                yield Fault(
                    f"{key} {width}: {view}",
                    WRONG if sure else UNSURE,
                    dropped((*path, view)),
                    frozenset(),
                    (sample.place((HEAD, "materials", key)), sample.place((HEAD, "views"))),
                )
                if isinstance(amount[view], list):
                    yield Fault(
                        f"{key} {width}: {view}, one size",
                        WRONG,
                        dropped((*path, view, 0)),
                        frozenset(),
                        (sample.place((HEAD, "materials", key)),),
                    )


@kind("house rounding far off")
def rounding(sample: Sample) -> Iterator[Fault]:
    for measure, other in sample.head.get("metric", {}).items():
        path = (HEAD, "metric", measure)
        yield Fault(
            f"{measure}: {scaled(other, 2)}",
            WRONG,
            put(path, scaled(other, 2)),
            frozenset(),
            (sample.place(path),),
        )


@kind("a needed key of the pattern left out")
def head_key(sample: Sample) -> Iterator[Fault]:
    for key in ("pattern", "studio", "edition", "seam allowance", "views", "materials", "pieces"):
        yield Fault(
            key,
            WRONG,
            dropped((HEAD, key)),
            frozenset(),
            (sample.place((HEAD,)),),
        )


@kind("key of the pattern misspelt")
def head_misspelt(sample: Sample) -> Iterator[Fault]:
    for key in sample.head:
        yield Fault(
            key,
            WRONG,
            renamed((HEAD, key), misspelt(key)),
            frozenset(),
            (sample.place((HEAD,)),),
        )


@kind("view left out, with its amounts")
def view_dropped(sample: Sample) -> Iterator[Fault]:
    for letter, view in sample.head["views"].items():
        others = {
            word for other, data in sample.head["views"].items() if other != letter for word in data.get("with", ())
        }
        lost = [word for word in (*view.get("with", ()), letter) if word not in others]
        text = str([step.data.get("for", "") + step.data.get("not for", "") for step in sample.steps])
        if len(sample.head["views"]) > 1 and any(word in text for word in lost[:-1]):
            steps = {
                s.id for s in sample.steps if any(w in s.data.get("for", "") + s.data.get("not for", "") for w in lost)
            }
            pieces = {p for p, data in sample.head["pieces"].items() if data.get("for") in lost}
            yield Fault(
                letter,
                WRONG,
                dropped((HEAD, "views", letter)),
                frozenset(steps),
                (sample.place((HEAD, "views")), sample.place((HEAD, "materials")), *sample.piece_places(pieces)),
            )

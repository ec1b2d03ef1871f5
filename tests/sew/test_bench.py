"""The bench, on random garments: what hangs together is counted here without it, from the seams alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

import networkx
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.check.engine import check
from booklet.sew.bench import Bench
from tests.sew.making import pattern_of, sewn

Draw = Callable[[st.SearchStrategy[Any]], Any]
FOLD = {"on": "fold"}
SETTINGS = settings(max_examples=100, deadline=None, derandomize=True)


class Seam(NamedTuple):
    """Joins two pieces at edges of their own: `a3` of one and `b3` of the other."""

    first: int
    second: int


class Cloth(NamedTuple):
    """So many pieces, and seams between them that leave none alone; some close a ring."""

    pieces: int
    seams: tuple[Seam, ...]

    def pattern(self) -> dict[str, Any]:
        """Between two edges that are sewn lies one that never is, so that no seam crosses another."""
        pieces: dict[str, Any] = {}
        for piece in range(self.pieces):
            edges: dict[str, Any] = {}
            for number, seam in enumerate(self.seams):
                for side, joined in (("a", seam.first), ("b", seam.second)):
                    if joined == piece:
                        edges |= {f"{side}{number}": {}, f"between {side}{number}": FOLD}
            pieces[f"p{piece}"] = {"number": str(piece + 1), "cut": {"self": "2"}, "edges": edges}
        return pieces


@st.composite
def cloths(draw: st.DrawFn) -> Cloth:
    count = draw(st.integers(2, 8))
    seams = [Seam(draw(st.integers(0, piece - 1)), piece) for piece in range(1, count)]
    ends = st.integers(0, count - 1)
    seams += draw(st.lists(st.builds(Seam, ends, ends), max_size=4))
    return Cloth(count, tuple(draw(st.permutations(seams))))


def together(cloth: Cloth, upto: int, piece: int) -> frozenset[str]:
    """The pieces that hang together with one after so many seams, by networkx."""
    graph = networkx.Graph()
    graph.add_nodes_from(range(cloth.pieces))
    graph.add_edges_from(cloth.seams[:upto])
    return frozenset(f"p{other}" for other in networkx.node_connected_component(graph, piece))


def steps_of(cloth: Cloth, draw: Draw) -> list[dict[str, Any]]:
    """One seam a step. A side is named by its piece or by any part so far that holds the piece."""
    steps = []
    for number, seam in enumerate(cloth.seams):
        sides = []
        for side, piece in (("a", seam.first), ("b", seam.second)):
            holding = [
                f"part {at}" for at in range(number) if f"p{piece}" in together(cloth, at + 1, cloth.seams[at][0])
            ]
            sides.append(f"{draw(st.sampled_from([f'p{piece}', *holding]))}.{side}{number}")
        steps.append(
            {
                "id": f"s{number}",
                "title": f"Sew {number}",
                "work": [{"sew": sides}, {"finish": "seam"}, {"press": "as sewn"}],
                "makes": f"part {number}",
            }
        )
    return steps


@SETTINGS
@given(st.data())
def test_every_edge_is_closed_once_by_its_own_seam(data: st.DataObject) -> None:
    """In any order of any seams, by whatever name; and nothing is missing."""
    cloth = data.draw(cloths())
    findings, bench = sewn(cloth.pattern(), steps_of(cloth, data.draw))
    assert bench.missing == []
    assert [finding.says for finding in findings if finding.level == "error"] == []
    for edge in bench.edges:
        if edge.spec.fold:
            assert (edge.closed, edge.seams) == (None, [])
        else:
            (seam,) = edge.seams
            assert edge.closed is seam.act
            assert seam.act.step.id == f"s{edge.spec.name[1:]}"
            assert {found.called.split(".")[1] for found in seam.edges} == {
                f"a{edge.spec.name[1:]}",
                f"b{edge.spec.name[1:]}",
            }


@SETTINGS
@given(st.data())
def test_a_part_holds_what_hung_together_when_it_was_made(data: st.DataObject) -> None:
    """However often pieces were merged since; and what is whole at the end is what the seams join."""
    cloth = data.draw(cloths())
    _, bench = sewn(cloth.pattern(), steps_of(cloth, data.draw))
    for number, seam in enumerate(cloth.seams):
        held = together(cloth, number + 1, seam.first)
        part = bench.parts[f"part {number}"]
        assert {cut.called for cut in part.cuts} == held
        assert len(part.cuts) == len(held)
        assert all(part.holds(cut) == (cut.called in held) for cut in bench.cuts.values())
    groups = {frozenset(cut.called for cut in group.cuts) for group in bench.groups}
    assert groups == {together(cloth, len(cloth.seams), piece) for piece in range(cloth.pieces)}


@SETTINGS
@given(st.data())
def test_a_part_is_gone_once_another_holds_its_pieces(data: st.DataObject) -> None:
    """Into the first part made after it that has them."""
    cloth = data.draw(cloths())
    _, bench = sewn(cloth.pattern(), steps_of(cloth, data.draw))
    for number, seam in enumerate(cloth.seams):
        taken = next(
            (
                at
                for at in range(number + 1, len(cloth.seams))
                if f"p{seam.first}" in together(cloth, at + 1, cloth.seams[at][0])
            ),
            None,
        )
        part = bench.parts[f"part {number}"]
        assert part.gone_into == ("" if taken is None else f"part {taken}")
        assert (part.gone.id if part.gone else None) == (None if taken is None else f"s{taken}")


class Tree(NamedTuple):
    """A garment put together two by two: `joins[k]` are what step k joins, pieces (below 0) or earlier steps."""

    joins: tuple[tuple[int, int], ...]

    def name(self, one: int) -> str:
        return f"part {one}" if one >= 0 else f"p{-one}"

    def first_piece(self, one: int) -> int:
        return one if one < 0 else self.first_piece(self.joins[one][0])

    def pattern(self) -> dict[str, Any]:
        pieces: dict[str, Any] = {
            f"p{number}": {"number": str(number), "cut": {"self": "1"}, "edges": {}}
            for number in range(1, len(self.joins) + 2)
        }
        for step, pair in enumerate(self.joins):
            for side, one in zip("ab", pair, strict=True):
                pieces[f"p{-self.first_piece(one)}"]["edges"] |= {f"{side}{step}": {}, f"by {side}{step}": FOLD}
        return pieces

    def step(self, number: int) -> dict[str, Any]:
        first, second = self.joins[number]
        return {
            "id": f"s{number}",
            "title": f"Join {number}",
            "work": [
                {"sew": [f"{self.name(first)}.a{number}", f"{self.name(second)}.b{number}"]},
                {"finish": "seam"},
                {"press": "as sewn"},
            ],
            "makes": f"part {number}",
        }

    @property
    def before(self) -> networkx.DiGraph:
        """Which step waits for which."""
        graph = networkx.DiGraph()
        graph.add_nodes_from(range(len(self.joins)))
        graph.add_edges_from((one, step) for step, pair in enumerate(self.joins) for one in pair if one >= 0)
        return graph


@st.composite
def trees(draw: st.DrawFn) -> Tree:
    loose = [-number for number in range(1, draw(st.integers(3, 8)) + 1)]
    joins: list[tuple[int, int]] = []
    while len(loose) > 1:
        pair = [loose.pop(draw(st.integers(0, len(loose) - 1))) for _ in range(2)]
        joins.append((pair[0], pair[1]))
        loose.append(len(joins) - 1)
    return Tree(tuple(joins))


def any_order(graph: networkx.DiGraph, draw: Draw) -> list[int]:
    """A topological order, by networkx."""
    rank = draw(st.permutations(list(graph)))
    return list(networkx.lexicographical_topological_sort(graph, key=rank.index))


def told(tree: Tree, order: list[int]) -> set[tuple[str, str | None]]:
    findings, _ = check(pattern_of(tree.pattern(), [tree.step(number) for number in order]))
    return {(finding.rule, finding.step) for finding in findings}


@SETTINGS
@given(st.data())
def test_independent_steps_may_stand_in_any_order(data: st.DataObject) -> None:
    """Every order that the joins themselves allow sews: no finding comes, none goes."""
    tree = data.draw(trees())
    assert told(tree, any_order(tree.before, data.draw)) == told(tree, list(range(len(tree.joins)))) == set()


@SETTINGS
@given(st.data())
def test_a_step_before_the_making_of_its_part_is_always_caught(data: st.DataObject) -> None:
    """Moved to any place before its maker, it is named, whatever else stands where it should."""
    tree = data.draw(trees())
    order = any_order(tree.before, data.draw)
    waiting = sorted(step for _, step in tree.before.edges)
    if not waiting:
        return
    step = data.draw(st.sampled_from(waiting))
    makers = [order.index(one) for one in tree.before.predecessors(step)]
    order.remove(step)
    order.insert(data.draw(st.integers(0, max(makers))), step)
    assert ("part-made-later", f"s{step}") in told(tree, order)


@SETTINGS
@given(st.data())
def test_sewing_twice_gives_the_same_bench(data: st.DataObject) -> None:
    """Nothing is left over from one sewing to the next."""
    cloth = data.draw(cloths())
    pattern = pattern_of(cloth.pattern(), steps_of(cloth, data.draw))

    def record(bench: Bench) -> list[Any]:
        return [(act.time, act.name, act.step.id, [edge.called for edge in act.edges]) for act in bench.acts]

    (first_findings, (first,)), (second_findings, (second,)) = check(pattern), check(pattern)
    assert first_findings == second_findings
    assert record(first) == record(second)

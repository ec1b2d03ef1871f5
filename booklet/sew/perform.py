"""What each operation does on the bench: one function for each word in the `bench` column of craft/operations.yaml."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.sew import joining, parting, seamwork, taking
from booklet.sew.bench import Act, Bench
from booklet.sew.hands import mark

if TYPE_CHECKING:
    from collections.abc import Callable


def perform(bench: Bench, act: Act) -> None:
    """Does one act and records it."""
    bench.acts.append(act)
    bench.by_name.setdefault(act.name, []).append(act)
    _DO[act.entry.operation.bench](bench, act)
    for cut in act.cuts:
        cut.touched = cut.touched or act.step
    for edge in act.edges:
        edge.acts.append(act)
        edge.cut.touched = edge.cut.touched or act.step


_DO: dict[str, Callable[[Bench, Act], None]] = {
    "mark": mark,
    "cut": joining.cut_along,
    "join": joining.join,
    "baste": joining.baste,
    "close": joining.close,
    "zipper": joining.zipper,
    "fasten": mark,
    "add": taking.add,
    "placket": taking.placket,
    "part": parting.part,
    "tack": parting.tack,
    "touch": parting.touch_things,
    "fuse": parting.fuse,
    "dart": parting.dart,
    "seam": seamwork.cut_seam,
    "press": seamwork.press,
    "understitch": seamwork.understitch,
    "topstitch": seamwork.topstitch,
    "finish": seamwork.finish,
    "pocket": parting.pocket,
    "insert": parting.insert,
}

"""The steps of a view use another number of buttons, snaps or hooks than the notions list has.

What it finds: counts under `button`, `snap` and `hook` that don't add up to the count of the notion; more buttonholes
than buttons; and fewer buttonholes than buttons where all the buttons are sewn on at one place. Buttons may close in
loops, so fewer buttonholes are in order elsewhere. An entry without `count` takes as many as the list has. And more
zippers than the steps sew in; one at a pocket, a sleeve or a side may be there on the left and on the right.

Why it matters at the machine: the sewer runs out of buttons, or has a button with no buttonhole.

Wrong:
    steps:
      - {id: buttons, title: Sew the buttons, work: [{button: front.neckline, count: 4}]}

Right:
    steps:
      - {id: buttons, title: Sew the buttons, work: [{button: front.neckline, count: 3}]}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.meant import is_on_both_sides
from booklet.check.notions import count_of, meant
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Notion
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    if bench.left_out:
        return
    for notions, acts in _by_notion(bench, "zipper"):
        yield from _zippers(bench, notions, acts)
    for operation in ("button", "snap", "hook"):
        for notions, acts in _by_notion(bench, operation):
            found = _against_list(bench, notions, acts)
            if found:
                yield found
            elif operation == "button":
                yield from _buttonholes(bench, notions, acts)


def _by_notion(bench: Bench, operation: str) -> list[tuple[tuple[Notion, ...], list[Act]]]:
    uses: dict[tuple[Notion, ...], list[Act]] = {}
    for act in bench.of(operation):
        notions = tuple(meant(bench, act))
        if notions:
            uses.setdefault(notions, []).append(act)
    return list(uses.items())


def _has(bench: Bench, notions: tuple[Notion, ...]) -> int | None:
    counts = [notion.count_for(bench.view.letter) for notion in notions]
    return None if None in counts else sum(count for count in counts if count)


def _against_list(bench: Bench, notions: tuple[Notion, ...], acts: list[Act]) -> Found | None:
    view = bench.view.letter
    has = _has(bench, notions)
    counts = [count_of(act, view) for act in acts]
    used = sum(count for count in counts if count)
    if has is None or used == has or (None in counts and used < has) or counts == [None]:
        return None
    last = next(act for act in reversed(acts) if count_of(act, view) is not None)
    each = [f"{count} in {act.step.called}" for act, count in zip(acts, counts, strict=True) if count is not None]
    item = notions[0].item
    where = f": {listed(each)}" if len(each) > 1 else ""
    write = f"“count: {used}”" if "" in notions[0].count else f"“{view}: {used}” under “count”"
    return Found(
        last.entry.place_of("count") if last.entry.options.get("count") else last.place,
        last.step,
        f"The steps sew on {used} of “{item}”, and the notions list has {has}{where}.",
        f"Write {write} in the notions list, or sew on {has}.",
        tuple(Related(f"The list has {notion.count_for(view)} here", notion.place) for notion in notions),
    )


def _zippers(bench: Bench, notions: tuple[Notion, ...], acts: list[Act]) -> Iterator[Found]:
    has = _has(bench, notions)
    most = sum(2 if any(is_on_both_sides(edge.called) for edge in act.edges) else 1 for act in acts)
    if has is not None and has > most:
        yield Found(
            acts[-1].place,
            acts[-1].step,
            f"The notions list has {has} of “{notions[0].item}”, and the steps sew in {most}.",
            f"Correct the count in the notions list, or sew in {has}.",
            tuple(
                Related(f"The list has {notion.count_for(bench.view.letter)} here", notion.place) for notion in notions
            ),
        )


def _buttonholes(bench: Bench, notions: tuple[Notion, ...], buttons: list[Act]) -> Iterator[Found]:
    view = bench.view.letter
    holes = [act for act in bench.of("buttonhole") if tuple(meant(bench, act)) == notions]
    counts = [count_of(act, view) for act in holes]
    has = _has(bench, notions)
    sewn = has if has is not None else sum(count_of(act, view) or 0 for act in buttons)
    if not holes or None in counts or (has is None and any(count_of(act, view) is None for act in buttons)):
        return
    made = sum(count for count in counts if count)
    if made > sewn or (made < sewn and len(buttons) == 1):
        last = holes[-1]
        yield Found(
            last.entry.place_of("count") if last.entry.options.get("count") else last.place,
            last.step,
            f"{made} {'buttonhole is' if made == 1 else 'buttonholes are'} made for {sewn} of “{notions[0].item}”.",
            f"Make {sewn}, or correct the number of buttons.",
            tuple(Related(f"Buttons are sewn on in {act.step.called}", act.place) for act in buttons),
        )

"""How far a garment is sewn, in words: `sewn to step 17`, `steps 29 to 31 sewn`, `finished`."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

# How many steps may be named as left open, before it is shorter to name those that are sewn? Our choice.
MOST_OPEN = 4


class Garment(NamedTuple):
    """sewn: the numbers of the steps that must be sewn; open: earlier ones that may be or not; begun: a step of which
    some takes are filmed; says: the same in words."""

    sewn: tuple[int, ...]
    open: tuple[int, ...]
    begun: int | None
    says: str


def garment(
    sewn: Collection[int],
    numbers: Sequence[int],
    begun: int | None = None,
    shown: bool = True,
    nothing: str = "cut, nothing sewn",
) -> Garment:
    """sewn: places among the view's steps; numbers: of all those steps; begun: a place; shown: False where none is;
    nothing: what is said where nothing must be sewn."""
    last = max(sewn, default=-1)
    missing = [at for at in range(last) if at not in sewn and at != begun]
    says = _says(sorted(sewn), missing, numbers, begun, nothing) if shown else "none needed"
    begun_number = numbers[begun] if begun is not None else None
    return Garment(tuple(numbers[at] for at in sorted(sewn)), tuple(numbers[at] for at in missing), begun_number, says)


def _says(sewn: Sequence[int], missing: Sequence[int], numbers: Sequence[int], begun: int | None, nothing: str) -> str:
    if len(sewn) == len(numbers):
        return "finished"
    if not sewn:
        words = nothing
    elif not missing:
        words = f"sewn to step {numbers[sewn[-1]]}"
    elif len(missing) <= MOST_OPEN and len(missing) < len(sewn):
        words = f"sewn to step {numbers[sewn[-1]]}, with or without {steps_named(missing, numbers)}"
    else:
        words = f"{steps_named(sewn, numbers)} sewn"
    return words if begun is None else f"{words}; step {numbers[begun]} begun"


def steps_named(places: Sequence[int], numbers: Sequence[int]) -> str:
    """`step 3`, `steps 3 and 5`, `steps 3 to 7 and 9`: a run leaves out none of the view's steps."""
    return f"{'step' if len(places) == 1 else 'steps'} {numbers_named(places, numbers)}"


def numbers_named(places: Sequence[int], numbers: Sequence[int]) -> str:
    """places: rising; numbers: what is written for each place."""
    runs: list[list[int]] = []
    for at in places:
        if runs and runs[-1][-1] == at - 1:
            runs[-1].append(at)
        else:
            runs.append([at])
    words: list[str] = []
    for run in runs:
        first, last = str(numbers[run[0]]), str(numbers[run[-1]])
        words += [first] if len(run) == 1 else [first, last] if len(run) == 2 else [f"{first} to {last}"]
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)

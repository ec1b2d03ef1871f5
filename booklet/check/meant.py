"""What the words on an edge or a piece say it is for: craft/edges.yaml, asked by the rules of order."""

from __future__ import annotations

from functools import cache

from booklet.craft.load import table
from booklet.read.tree import same_name


@cache
def _words(row: str) -> frozenset[str]:
    return frozenset(table("edges")[row]["words"])


def is_direction(words: str) -> bool:
    """Whether `press: toward` these words means a direction, not a part."""
    return same_name(words).removeprefix("the ") in _words("directions")


def is_opening(edge_name: str) -> bool:
    return not _words("openings").isdisjoint(same_name(edge_name).split())


def is_inner(piece_name: str) -> bool:
    return not _words("inner pieces").isdisjoint(same_name(piece_name).split())


def is_doubled(piece_name: str) -> bool:
    """Whether a second layer lies behind it when it is done, as behind a band or a collar."""
    return not _words("doubled pieces").isdisjoint(same_name(piece_name).split())


def is_turned(piece_name: str) -> bool:
    """Whether it is turned right side out once its ends or its outer edges are sewn, as a cuff is."""
    return not _words("turned pieces").isdisjoint(same_name(piece_name).split())


def is_tube(piece_name: str) -> bool:
    """Whether it is narrow, and so turned when it is sewn to itself along its length, as a strap is."""
    return not _words("tubes").isdisjoint(same_name(piece_name).split())


def is_end(edge_name: str) -> bool:
    return not _words("ends").isdisjoint(same_name(edge_name).split())


def is_gap(edge_name: str) -> bool:
    """Whether an edge is named as a gap that is left for turning."""
    return not _words("gaps").isdisjoint(same_name(edge_name).split())


def is_on_both_sides(edge_name: str) -> bool:
    """Whether an edge, named with its piece, is one that a garment has on its left and on its right."""
    return not _words("on both sides").isdisjoint(same_name(edge_name).replace(".", " ").split())


def is_loop(piece_name: str) -> bool:
    return not _words("loops").isdisjoint(same_name(piece_name).split())


def closing_words() -> frozenset[str]:
    """Words of a text which tell that buttons close without a buttonhole, or close nothing."""
    return _words("other closings")


def ways() -> frozenset[str]:
    """The words that tell two sides of a seam apart."""
    return _words("sides of a seam")


def is_front(edge_name: str) -> bool:
    """Whether an edge, named with its piece, is one down which a garment is buttoned."""
    return not _words("fronts").isdisjoint(same_name(edge_name).replace(".", " ").split())

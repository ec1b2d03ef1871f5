"""What the words on an edge or a piece say it is for: craft/edges.yaml, asked by the rules of order."""

from __future__ import annotations

from functools import cache, lru_cache

from booklet.craft.load import table
from booklet.read.tree import same_name


@cache
def _words(row: str) -> frozenset[str]:
    return frozenset(table("edges")[row]["words"])


@lru_cache(maxsize=4096)
def _has(row: str, name: str) -> bool:
    """Whether one of the row's words stands in a name; that of a part and its edge are parted by a full stop."""
    return not _words(row).isdisjoint(same_name(name).replace(".", " ").split())


def is_direction(words: str) -> bool:
    """Whether `press: toward` these words means a direction, not a part."""
    return same_name(words).removeprefix("the ") in _words("directions")


def is_opening(edge_name: str) -> bool:
    return _has("openings", edge_name)


def is_inner(piece_name: str) -> bool:
    return _has("inner pieces", piece_name)


def is_doubled(piece_name: str) -> bool:
    """Whether a second layer lies behind it when it is done, as behind a band or a collar."""
    return _has("doubled pieces", piece_name)


def is_turned(piece_name: str) -> bool:
    """Whether it is turned right side out once its ends or its outer edges are sewn, as a cuff is."""
    return _has("turned pieces", piece_name)


def is_tube(piece_name: str) -> bool:
    """Whether it is narrow, and so turned when it is sewn to itself along its length, as a strap is."""
    return _has("tubes", piece_name)


def is_end(edge_name: str) -> bool:
    return _has("ends", edge_name)


def is_gap(edge_name: str) -> bool:
    """Whether an edge is named as a gap that is left for turning."""
    return _has("gaps", edge_name)


def is_on_both_sides(edge_name: str) -> bool:
    """Whether an edge, named with its piece, is one that a garment has on its left and on its right."""
    return _has("on both sides", edge_name)


def is_loop(piece_name: str) -> bool:
    return _has("loops", piece_name)


def closing_words() -> frozenset[str]:
    """Words of a text which tell that buttons close without a buttonhole, or close nothing."""
    return _words("other closings")


def ways() -> frozenset[str]:
    """The words that tell two sides of a seam apart."""
    return _words("sides of a seam")


def is_front(edge_name: str) -> bool:
    """Whether an edge, named with its piece, is one down which a garment is buttoned."""
    return _has("fronts", edge_name)


def is_cap(edge_name: str) -> bool:
    """Whether an edge is the upper one of a sleeve."""
    return not _words("caps").isdisjoint(same_name(edge_name).split())


def is_folded_in(piece_name: str) -> bool:
    """Whether it lies folded to the inside when it is done, and is opened out while a seam runs through it."""
    return _has("folded in", piece_name)


def is_channel(piece_name: str) -> bool:
    """Whether a piece is sewn on for something to be threaded through it."""
    return _has("channels", piece_name)

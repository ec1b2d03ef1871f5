"""Pieces of straight edges at right angles."""

from __future__ import annotations

from steps.drafting.path import Path, Point, straight
from steps.drafting.piece import Edge


def edges(corners: list[Point], names: list[str], allowance: float, smooth: tuple[str, ...] = ()) -> tuple[Edge, ...]:
    """An edge from each corner to the next; one called fold has no allowance."""
    lines = [straight(corner, corners[(at + 1) % len(corners)]) for at, corner in enumerate(corners)]
    return tuple(edge(name, line, allowance, name in smooth) for name, line in zip(names, lines, strict=True))


def edge(name: str, line: Path, allowance: float, smooth: bool) -> Edge:
    if name == "fold":
        return Edge(name, line, 0.0, sewn=False)
    return Edge(name, line, allowance, smooth=smooth)


def box(wide: float, high: float) -> list[Point]:
    """Clockwise from the left upper corner."""
    return [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)]

"""Laying one piece on another, against scipy's orthogonal Procrustes."""

from __future__ import annotations

import math
import random

import numpy
import pytest
from scipy.linalg import orthogonal_procrustes

from booklet.shape.motion import Motion, onto, turned


def _cloud(seed: int, number: int) -> list[tuple[float, float]]:
    pick = random.Random(seed)
    return [(pick.uniform(-300, 300), pick.uniform(-300, 300)) for _ in range(number)]


@pytest.mark.parametrize("flipped", [False, True])
@pytest.mark.parametrize("seed", range(12))
def test_points_are_brought_onto_their_targets_as_scipy_brings_them(seed: int, flipped: bool) -> None:
    """Targets a little off. scipy finds whether to mirror; ours is told, as the bench knows it."""
    points = _cloud(seed, 7)
    true = Motion(math.cos(seed), math.sin(seed), 40.0 * seed, -7.0, flipped)
    noise = random.Random(seed + 100)
    targets = [(x + noise.gauss(0, 2), y + noise.gauss(0, 2)) for x, y in true.all(points)]

    one, two = numpy.array(points), numpy.array(targets)
    turn, _ = orthogonal_procrustes(one - one.mean(axis=0), two - two.mean(axis=0))
    theirs = (one - one.mean(axis=0)) @ turn + two.mean(axis=0)
    assert (numpy.linalg.det(turn) < 0) == flipped
    ours = numpy.array(onto(points, targets, flipped).all(points))
    assert numpy.abs(ours - theirs).max() < 1e-9


@pytest.mark.parametrize("seed", range(6))
def test_a_motion_after_another_is_both(seed: int) -> None:
    """And nothing is stretched."""
    first = Motion(math.cos(seed), math.sin(seed), 3, 4, seed % 2 == 0)
    second = turned(0.7 * seed)._replace(flipped=seed % 3 == 0, x=-5)
    points = _cloud(seed, 4)
    both = second.after(first).all(points)
    assert [value for point in both for value in point] == pytest.approx(
        [value for point in second.all(first.all(points)) for value in point]
    )
    assert math.dist(both[0], both[1]) == pytest.approx(math.dist(points[0], points[1]))


def test_two_points_that_are_one_are_laid_without_a_turn() -> None:
    assert onto([(1, 1), (1, 1)], [(5, 6), (5, 6)], False)((1, 1)) == (5, 6)

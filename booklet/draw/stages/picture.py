"""A picture of a strip: a scene and the stages that it shows."""

from __future__ import annotations

from typing import NamedTuple

from booklet.draw.scene import Scene
from booklet.plan.plan import Stage


class Picture(NamedTuple):
    scene: Scene
    stages: tuple[Stage, ...]

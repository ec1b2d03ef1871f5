"""Parts of a wardrobe that the demos lack: each sewn in a small sound pattern without a finding, and broken ones told.

A file of wardrobe/ is a pattern's pieces, notions and steps, and what may go wrong with them. A fault changes a step's
keys (`change`; an empty one goes), drops steps (`drop`), or moves one to behind another, or to the `end` (`move`).
`finds` is all that is told of it, by rule, with the step where it is told. Garments and faults are our own.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import yaml

from booklet.pipeline import check_folder

WARDROBE = Path(__file__).parent / "wardrobe"
HEAD = {
    "pattern": "Wardrobe",
    "studio": "Bench",
    "edition": "1.0",
    "seam allowance": "5/8 in",
    "metric": {"5/8 in": "1.5 cm"},
    "views": {"A": {"name": "Garment"}},
}
MATERIALS = {
    "self": {"name": "Main fabric", "kind": "woven", "amounts": {"45 in": "2 yd"}},
    "fusible": {"name": "Interfacing", "kind": "interfacing", "amounts": {"20 in": "1 yd"}},
}


def read(path: Path) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
    return loaded


GARMENTS = {path.stem: read(path) for path in sorted(WARDROBE.glob("*.yaml"))}
BROKEN = [(name, fault) for name, garment in GARMENTS.items() for fault in garment["broken"]]


def steps_of(garment: dict[str, Any], fault: dict[str, Any]) -> list[dict[str, Any]]:
    changes, dropped = fault.get("change", {}), fault.get("drop", [])
    ids = [step["id"] for step in garment["steps"]]
    named = [*changes, *dropped, *fault.get("move", {}), *fault.get("move", {}).values()]
    assert set(named) <= {*ids, "end"}
    steps = [{**step, **changes.get(step["id"], {})} for step in garment["steps"] if step["id"] not in dropped]
    steps = [{key: value for key, value in step.items() if value} for step in steps]
    for moved, behind in fault.get("move", {}).items():
        step = next(step for step in steps if step["id"] == moved)
        steps.remove(step)
        at = len(steps) if behind == "end" else [step["id"] for step in steps].index(behind) + 1
        steps.insert(at, step)
    return steps


def told(folder: Path, garment: dict[str, Any], fault: dict[str, Any]) -> list[tuple[str, str]]:
    """Every finding, warnings too: its rule, and the id of its step."""
    pieces = garment["pieces"]
    cut_of = {material for piece in pieces.values() for material in piece["cut"]}
    materials = {name: row for name, row in MATERIALS.items() if name in cut_of}
    pattern = {**HEAD, "materials": materials, "notions": garment.get("notions", []), "pieces": pieces}
    folder.mkdir()
    # JSON is YAML.
    (folder / "pattern.yaml").write_text(json.dumps(pattern, indent=1), encoding="utf-8")
    section = {"section": "Sewing", "steps": steps_of(garment, fault)}
    (folder / "10-sew.yaml").write_text(json.dumps(section, indent=1), encoding="utf-8")
    return [(finding.rule, finding.step or "") for finding in check_folder(folder).findings]


@pytest.mark.parametrize("name", GARMENTS)
def test_a_sound_garment_has_no_finding(name: str, tmp_path: Path) -> None:
    assert told(tmp_path / "sound", GARMENTS[name], {}) == []


@pytest.mark.parametrize(("name", "fault"), BROKEN, ids=[f"{name}: {fault['fault']}" for name, fault in BROKEN])
def test_a_broken_one_is_told_where_it_is_broken(name: str, fault: dict[str, Any], tmp_path: Path) -> None:
    """All of it, and nothing beside it: one cause, one finding."""
    assert told(tmp_path / "broken", GARMENTS[name], fault) == list(fault["finds"].items())

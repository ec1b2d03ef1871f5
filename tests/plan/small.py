"""Small patterns of our own invention, written to a folder, read and sewn."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from booklet.model.pattern import Pattern
from booklet.pipeline import Checked, check_folder
from booklet.plan.build import make_plan
from booklet.plan.plan import Plan, PlanStep
from booklet.publish.edition import Edition

STEPS = Path(__file__).resolve().parents[2] / "steps"
DEMOS = ("saltmarsh-tunic", "lantern-tote", "pebble-joggers")

HEAD = """\
pattern: Tarn Vest
studio: Example Studio
edition: "1.0"
units: inch
seam allowance: 5/8 in
metric: {5/8 in: 1.5 cm, 1/2 in: 1.3 cm, 3/8 in: 1 cm, 45 in: 115 cm, 1 1/4 yd: 1.2 m}
views:
  A: {name: Sleeveless vest, with: [sleeveless]}
  B: {name: Vest with sleeves, with: [sleeves]}
  C: {name: Vest with long sleeves, with: [sleeves, long]}
sizes: [8, 10]
materials:
  self: {name: Main fabric, kind: woven, amounts: {45 in: {A: 1 yd, B: 1 1/4 yd, C: 1 1/4 yd}}}
  fusible: {name: Interfacing, kind: interfacing}
  lining: {name: Lining, kind: lining}
notions:
  - {item: button, size: 1/2 in, count: {A: 3, B: 4}}
  - {item: thread}
pieces:
  front:
    number: 1
    cut: {self: 1 on fold}
    edges:
      {neckline: {curve: inward}, shoulder: {}, armhole: {curve: inward}, side: {}, hem: {allowance: 1 in}, fold: {}}
    darts: {bust dart: {crosses: side}}
  back:
    number: 2
    cut: {self: 2}
    edges: {neckline: {}, shoulder: {}, armhole: {}, side: {}, hem: {allowance: 1 in}, centre back: {}}
  neck facing:
    number: 3
    cut: {self: 1 on fold, fusible: 1 on fold}
    edges: {neckline: {}, outer: {}, fold: {}}
  sleeve:
    number: 4
    for: sleeves
    cut: {self: 2}
    edges: {cap: {}, underarm front: {}, lower edge: {allowance: 1 in}, underarm back: {}}
"""


def checked(folder: Path, steps: str, head: str = HEAD, film: str = "") -> Checked:
    """`steps`: the list of one section, or whole files one after another, each begun by a line `=== NAME`."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "pattern.yaml").write_text(head, encoding="utf-8")
    if film:
        (folder / "film.yaml").write_text(film, encoding="utf-8")
    if not steps.lstrip().startswith("==="):
        steps = f"=== 10-sew.yaml\nsection: Sewing\nsteps:\n{steps}"
    for part in steps.split("=== ")[1:]:
        name, _, body = part.partition("\n")
        (folder / name.strip()).write_text(body, encoding="utf-8")
    return check_folder(folder)


def pattern(folder: Path, steps: str, head: str = HEAD, film: str = "") -> Pattern:
    made = checked(folder, steps, head, film).pattern
    assert made is not None
    return made


def plan(folder: Path, steps: str, view: str | None = None, head: str = HEAD, film: str = "") -> Plan:
    read = checked(folder, steps, head, film)
    assert read.pattern is not None, [finding.says for finding in read.findings]
    return make_plan(read.pattern, read.benches, view)


def edition(folder: Path, steps: str, head: str = HEAD, film: str = "") -> Edition:
    read = checked(folder, steps, head, film)
    assert read.pattern is not None
    return Edition(read.name, read.pattern, read.benches, read.findings)


def step(made: Plan, name: str) -> PlanStep:
    return next(step for step in made.steps if step.id == name)


@cache
def demo(name: str) -> Edition:
    """A demo pattern, read and sewn once for all tests."""
    read = check_folder(STEPS / name)
    assert read.pattern is not None
    return Edition(read.name, read.pattern, read.benches, read.findings)

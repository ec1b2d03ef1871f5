"""One step of a demo, put where a person at the machine would be stuck with it: the order is refused, and for what."""

from __future__ import annotations

from functools import cache

import pytest

from booklet.check.engine import found_on
from booklet.check.order.trial import Trials
from booklet.model.build import build_pattern
from booklet.model.pattern import Pattern
from booklet.read.faults import Faults
from booklet.read.folder import read_folder
from booklet.sew.view import sew_view
from tests.command import ROOT

FOLDERS = {
    "tunic": "steps/saltmarsh-tunic",
    "tote": "steps/lantern-tote",
    "joggers": "steps/pebble-joggers",
    "pouch": "booklet/starter",
    "jacket": "tests/faults/patterns/copper-jacket",
    "shirt": "tests/faults/patterns/tarn-shirt",
    "trousers": "tests/faults/patterns/ridge-trousers",
}

# pattern, view: step, where to, and the rules of which one must speak, once. Each judged by hand.
STUCK = """
tunic C: “vents” before “sides C”: text-ahead-of-work
tunic C: “openings” after “attach cuffs”: hem-too-late
tunic C: “close collar” before “attach collar”: closed-too-early
tunic C: “close collar” before “turn collar”: closed-too-early
tunic C: “close cuffs” before “attach cuffs”: closed-too-early
tunic B: “inner collar” after “close collar”: press-too-late
tunic A: “tack facings” before “sides A”: tacked-too-early
tunic A: “topstitch slit” before “cut slit”: topstitch-before-turned
tunic A: “edgestitch collar” before “collar”: topstitch-too-early
tunic A: “edgestitch collar” before “turn collar”: topstitch-before-turned
tunic C: “buttonholes” before “turn cuffs”: fastened-too-early
tunic A: “buttons” before “cut slit”: fastened-too-early
tunic C: “pockets” after “sides C”: pocket-too-late
tunic C: “mark vents” after “sides C”: mark-too-late
tote A: “join the bases” after “outer sides”: run-not-joined
tote A: “outer sides” after “sew the rim”: ring-to-open-edge
tote A: “outer corners” before “outer sides”: text-ahead-of-work
tote A: “face the open lining” after “lining sides”: run-not-joined
tote A: “sew on the pocket” after “lining corners”: pocket-too-late
tote A: “make the key loop” after “place the key loop”: tube-sewn-too-late
tote A: “lining bottom” after “close the gap”: closed-too-early
tote A: “topstitch the rim” before “turn the bag”: topstitch-before-turned
tote A: “outer corners” after “close the gap”: sewn-after-gap-closed
joggers B: “cut to length” after “finish the shorts edge”: cut-too-late
joggers B: “mark” after “waist patches”: mark-too-late
joggers B: “fuse the waist patches” after “waist patches”: fuse-too-late
joggers B: “buttonholes” before “waist patches”: patch-over-fastening
joggers B: “buttonholes” after “casing”: buttonhole-through-casing
joggers B: “front pocket bags” after “side seams”: run-not-joined
joggers B: “secure the pockets” before “side seams”: tacked-too-early
joggers B: “side seams” after “casing”: hem-too-early
joggers B: “inseams” after “crotch”: run-not-joined
joggers B: “finish the waist” after “casing”: finish-too-late
joggers B: “close the casing” before “casing”: topstitch-too-early
joggers B: “close the casing” before “elastic”: casing-shut-too-early
joggers B: “finish the shorts edge” after “hem the shorts”: finish-too-late
pouch A: “channel-ends” after “channel”: hem-too-late
jacket A: “back” after “bag neck”: run-not-joined
shirt B: “stand” before “collar”: turn-without-opening
shirt A: “bands” after “stand on”: hem-too-late
shirt A: “placket” after “cuffs on”: hem-too-late
trousers A: “back crotch” after “band on”: run-not-joined
trousers A: “close band” before “band ends”: closed-too-early
"""


@cache
def trials_of(name: str, view: str) -> Trials:
    pattern = build_pattern(read_folder(ROOT / FOLDERS[name], Faults()), Faults())
    assert isinstance(pattern, Pattern)
    return Trials(pattern, pattern.views[view], 10**6)


@pytest.mark.parametrize("line", STUCK.strip().splitlines())
def test_a_step_where_the_sewer_would_be_stuck_is_found(line: str) -> None:
    pattern, moved, rules = line.split(": ")
    name, view = pattern.split()
    where = "before" if "” before “" in moved else "after"
    step, other = (part.strip("“”") for part in moved.split(f" {where} "))
    trials = trials_of(name, view)
    order = {each.id: each for each in trials.written}
    ids = [each for each in order if each != step]
    ids.insert(ids.index(other) + (where == "after"), step)
    bench = sew_view(trials.pattern, trials.view, frozenset(), [order[each] for each in ids])
    found = [finding for finding in found_on(trials.pattern, [bench]) if not finding.allowed]
    assert len(found) == 1, found
    assert found[0].rule in rules.split(", ")
    assert found[0].mend.startswith(("Move step", "Take the finish out", "Leave a gap"))

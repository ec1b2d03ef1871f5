"""Published orders of construction: which operation must come before which, and five garments that are sewn of them.

Source of HARD and FREE: the orders read in extension bulletins and sewing books. No published order read so far breaks
one of HARD; published orders disagree about each of FREE, and both ways work.

- The Unit Method of Construction, as summarised on a teaching page: a simple dress in five pieces (ORDER_A).
- L. Baldt, Clothing for Women (Lippincott, 1916): the sleeve is set in flat, then sleeve and underarm are sewn in one.
- Univ. of California Agric. Ext. Manual 11, Simplified Sewing: "Each part of a garment is completed before the parts
  are put together."
- NMSU Guide C-314: fitted and finished before the hemline is marked. A thread maker's leaflet, Hems (1959): hem last.
- Goodheart-Willcox, Apparel: Design, Textiles & Construction (2012), p. 453: stitch, trim, clip, press, understitch,
  turn.
- Guideline 11.135 Staystitching; ICAR e-course, stay stitching: at once after cutting.
- Oregon State Univ. Ext. 4-H 320-14 (2014), Pressing Skills: pressed before it is crossed.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, NamedTuple

import yaml

HARD = (
    ("staystitch", "darts_tucks_pleats"), ("staystitch", "style_seams"), ("staystitch", "shoulder_seam"),
    ("staystitch", "side_seam"), ("staystitch", "neck_facing_attached"), ("staystitch", "collar_attached"),
    ("interface", "collar_made"), ("interface", "neck_facing_attached"), ("interface", "waistband_or_waist_facing"),
    ("interface", "buttonholes"), ("darts_tucks_pleats", "shoulder_seam"), ("darts_tucks_pleats", "side_seam"),
    ("darts_tucks_pleats", "waistband_or_waist_facing"), ("darts_tucks_pleats", "bodice_to_skirt"),
    ("style_seams", "side_seam"), ("style_seams", "shoulder_seam"), ("pockets_on_flat", "side_seam"),
    ("zipper_in_flat_seam", "waistband_or_waist_facing"), ("zipper_in_flat_seam", "neck_facing_attached"),
    ("shoulder_seam", "neck_facing_attached"), ("shoulder_seam", "collar_attached"),
    ("shoulder_seam", "sleeve_set_round"), ("facing_pieces_joined", "neck_facing_attached"),
    ("facing_edge_finished", "neck_facing_attached"), ("collar_made", "collar_attached"),
    ("side_seam", "waistband_or_waist_facing"), ("side_seam", "sleeve_set_round"), ("side_seam", "bodice_to_skirt"),
    ("side_seam", "lower_hem"), ("sleeve_made_up", "sleeve_set_round"), ("bodice_to_skirt", "zipper_across_waist"),
    ("bodice_to_skirt", "lower_hem"), ("zipper_across_waist", "lower_hem"),
    ("waistband_or_waist_facing", "lower_hem"), ("sleeve_set_round", "lower_hem"),
    ("buttonholes", "buttons_hooks_snaps"),
)  # fmt: skip

# Baldt's flat sleeve takes the place of side seam and made-up sleeve before the round setting.
FLAT_SLEEVE = (
    ("shoulder_seam", "sleeve_set_flat"),
    ("sleeve_set_flat", "side_and_underarm_continuous"),
    ("side_and_underarm_continuous", "lower_hem"),
    ("side_and_underarm_continuous", "sleeve_hem"),
)

FREE = (
    ("neck_facing_attached", "side_seam"),
    ("collar_attached", "side_seam"),
    ("sleeve_hem", "sleeve_set_round"),
    ("zipper_in_flat_seam", "side_seam"),
)

# What the same sources say of the garments below, beyond the pairs: interfacing goes on before the part is assembled;
# seams that a hem crosses come before the hem; Baldt's continuous seam is the side seam too.
OF_THESE_GARMENTS = (
    ("interface", "facing_pieces_joined"), ("interface", "style_seams"), ("zipper_in_flat_seam", "lower_hem"),
    ("sleeve_made_up", "sleeve_hem"), ("darts_tucks_pleats", "skirt_side_seam"), ("staystitch", "skirt_side_seam"),
    ("skirt_side_seam", "bodice_to_skirt"), ("skirt_side_seam", "lower_hem"), ("side_seam", "edges_bound"),
    ("shoulder_seam", "edges_bound"), ("staystitch", "edges_bound"), ("style_seams", "front_edges_hemmed"),
    ("front_edges_hemmed", "collar_attached"), ("front_edges_hemmed", "buttonholes"),
    ("waistband_or_waist_facing", "buttonholes"), ("staystitch", "zipper_in_flat_seam"),
    ("pockets_on_flat", "side_and_underarm_continuous"), ("darts_tucks_pleats", "side_and_underarm_continuous"),
)  # fmt: skip


ORDERS = Path(__file__).parent / "orders"
MATERIALS = {
    "self": {"name": "Main fabric", "kind": "woven", "amounts": {"45 in": "3 yd"}},
    "fusible": {"name": "Interfacing", "kind": "interfacing", "amounts": {"20 in": "1 yd"}},
}


class Garment(NamedTuple):
    """pieces, notions: as in pattern.yaml. steps: by operation, in a published order. parts: of what each is made."""

    name: str
    notions: list[dict[str, Any]]
    pieces: dict[str, Any]
    parts: dict[str, list[str]]
    steps: dict[str, dict[str, Any]]

    def write(self, folder: Path, order: list[str]) -> Path:
        """The pattern with its steps in an order. A part whose step is left out lies there ready made."""
        head = {
            "pattern": self.name,
            "studio": "Published Orders",
            "edition": "1.0",
            "seam allowance": "5/8 in",
            "views": {"A": {"name": self.name}},
            "sizes": ["10"],
            "materials": MATERIALS,
            "notions": self.notions,
            "pieces": self.pieces,
        }
        steps = [*self._ready_made(order), *(self._step(operation, order) for operation in order)]
        folder.mkdir(parents=True)
        # JSON is YAML too.
        (folder / "pattern.yaml").write_text(json.dumps(head, indent=1), encoding="utf-8")
        section = json.dumps({"section": "Sewing", "steps": steps}, indent=1)
        (folder / "10-steps.yaml").write_text(section, encoding="utf-8")
        return folder

    def _ready_made(self, order: list[str]) -> list[dict[str, Any]]:
        made = {self.steps[operation].get("makes") for operation in order}
        steps = []
        holder: dict[str, str] = {}
        for part, pieces in self.parts.items():
            if part not in made:
                uses = list(dict.fromkeys(holder.get(piece, piece) for piece in pieces))
                steps.append({"id": f"ready {part}", "title": f"Ready made: {part}", "uses": uses, "makes": part})
                holder.update(dict.fromkeys(pieces, part))
        return steps

    def _step(self, operation: str, order: list[str]) -> dict[str, Any]:
        step = {"id": operation, "title": operation.replace("_", " ").capitalize(), **self.steps[operation]}
        if "after" in step:
            step["after"] = [other for other in step["after"] if other in order]
        return step


def garment(name: str) -> Garment:
    """One of the files under orders/, with every value as text."""
    read = yaml.load((ORDERS / f"{name}.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    return Garment(read["pattern"], read["notions"], read["pieces"], read["parts"], read["steps"])


SHIFT = garment("shift-dress")
FLAT_SHIFT = garment("shift-dress-with-sleeves-set-in-flat")
SHIRT = garment("shirt-dress")
WAISTED = garment("waisted-dress")
SKIRT = garment("skirt")
GARMENTS = (SHIFT, FLAT_SHIFT, SHIRT, WAISTED, SKIRT)

# The dress of the unit method, as summarised: back and zipper, front, shoulders, facing, sides, sleeves, hem.
ORDER_A = [
    "staystitch", "interface", "darts_tucks_pleats", "zipper_in_flat_seam", "pockets_on_flat", "shoulder_seam",
    "facing_pieces_joined", "facing_edge_finished", "neck_facing_attached", "side_seam", "sleeve_made_up", "sleeve_hem",
    "sleeve_set_round", "lower_hem",
]  # fmt: skip

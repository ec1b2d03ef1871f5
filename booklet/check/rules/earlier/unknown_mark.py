"""A number stands for no mark of the outline.

What it finds: under `corners` or `drawn`, a corner, notch (`n1`), dot (`d1`) or inner line (`l1`) that the outline has
not, and a dart whose lines are not two. `notchbook edges` draws every piece with its numbers.

Why it matters at the machine: an edge would begin, or a dart would lie, where nobody drew it.

Wrong:
    outlines: pieces.svg
    pieces:
      front:
        number: 1
        cut: {self: 1 on fold}
        edges: {neckline: {}, shoulder: {}, armhole: {}, side: {}, hem: {}, fold: {}}
        corners: [1, 2, 3, 4, 5, 9]

Right:
    outlines: pieces.svg
    pieces:
      front:
        number: 1
        cut: {self: 1 on fold}
        edges: {neckline: {}, shoulder: {}, armhole: {}, side: {}, hem: {}, fold: {}}
        corners: [1, 2, 3, 4, 5, 6]

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "shape"

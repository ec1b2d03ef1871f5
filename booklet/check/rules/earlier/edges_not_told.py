"""It can't be told which stretch of an outline is which edge.

What it finds: a piece whose outline has another number of corners than the piece has edges, where no `corners` say at
which corner each edge begins; or `corners` that are too few, too many, or not in their order round the piece.

Why it matters at the machine: the piece is neither measured nor drawn, or an edge would be sewn along another.

Wrong:
    outlines: pieces.svg
    pieces:
      front:
        number: 1
        cut: {self: 1 on fold}
        edges: {neckline: {}, shoulder: {}, armhole: {}, side: {}, fold: {}}

Right:
    outlines: pieces.svg
    pieces:
      front:
        number: 1
        cut: {self: 1 on fold}
        edges: {neckline: {}, shoulder: {}, armhole: {}, side: {}, fold: {}}
        corners: [1, 2, 3, 4, 6]

Source: our choice.
"""

LEVEL = "warning"
FOUND_BY = "shape"

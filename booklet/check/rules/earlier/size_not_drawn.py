"""A piece is not drawn in every size.

What it finds: a piece that is drawn in some sizes (or some fittings) of the pattern, and not in others. A piece that is
the same in every size is drawn once, without a size.

Why it matters at the machine: whether its seams fit can't be told in the sizes that are not drawn.

Wrong:
    outlines: pieces.svg
    sizes: [8, 10, 12, 14]

Right:
    outlines: pieces.svg
    sizes: [8, 10, 12]

Source: our choice.
"""

LEVEL = "warning"
FOUND_BY = "shape"

"""The size of the figures is none of the pattern's.

What it finds: `figure size` with another word than those under `sizes`.

Why it matters at the machine: nothing is sewn wrong, but the figures show another size than the one that was meant.

Wrong:
    sizes: [8, 10, 12]
    figure size: 11
    outlines: pieces.svg

Right:
    sizes: [8, 10, 12]
    figure size: 10
    outlines: pieces.svg

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "shape"

"""A file of outlines, or a piece in it, can't be read.

What it finds: a file under `outlines` that is neither DXF nor SVG, is too large or broken, holds no piece, or does not
say how large it is; and a piece in it whose cutting line is not closed, lies far from the rest, or is moved or scaled
in a way that is not followed. The finding says which, and why.

Why it matters at the machine: the pieces are neither measured nor drawn, so a seam whose edges don't fit goes unseen.

Wrong:
    outlines: pattern.yaml

Right:
    outlines: pieces.svg

Source: our choice. Layers of DXF: ASTM D6673-10, table of layers; what SVG is read: steps/README.md, Outlines.
"""

LEVEL = "error"
FOUND_BY = "shape"

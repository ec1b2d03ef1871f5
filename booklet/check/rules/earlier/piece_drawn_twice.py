"""A piece is drawn twice in one size, and not alike.

What it finds: two blocks or groups, in one file of outlines or in two, that mean the same piece in the same size and
fitting and differ in shape. A copy that is only moved, turned or mirrored is the same piece.

Why it matters at the machine: only one of them can be measured and drawn, and it may be the draft that was given up.

Source: our choice.
"""

LEVEL = "warning"
FOUND_BY = "shape"

"""The outlines are far too small or far too large to be worn.

What it finds: files of outlines whose largest piece is shorter than 6 cm or longer than 6 m; and one shorter than 20 cm
in a file that does not say its units. Most often the file was saved in inches or centimetres.

Why it matters at the machine: every length that is checked, and every figure, would be out of scale.

Source: our choice.
"""

LEVEL = "warning"
FOUND_BY = "shape"

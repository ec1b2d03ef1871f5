"""There is no pattern to read.

What it finds: a folder that is not there, has no pattern.yaml, or can't be opened.

Why it matters at the machine: nothing is sewn or checked.

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "read"

"""The film calls a thing otherwise than the booklet.

What it finds: a word of the trade, said of what a step is about, for a thing that the filmed view does not have: a
cuff, where a band is printed.

Why it matters at the machine: the sewer looks for a piece that is not there.

Source: our choice: the film and the booklet are one source and say one thing.
"""

LEVEL = "warning"
FOUND_BY = "recorded"

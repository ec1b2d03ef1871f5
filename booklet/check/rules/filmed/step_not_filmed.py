"""A step is not in the film.

What it finds: a step of the filmed view of which the recording says nothing. An optional step may be missing.

Why it matters at the machine: who sews along with the film leaves it out.

Source: our choice: the film and the booklet are one source and say one thing.
"""

LEVEL = "warning"
FOUND_BY = "recorded"

"""A caption looks misheard.

What it finds: a measure that is one slip of the ear from one of the step's (5 1/8 in for 5/8 in, 34 in for 3/4 in),
and a word that only sounds like the printed one, beside its neighbour (bust darks).

Why it matters at the machine: captions are read by those who can't hear the film, and they cut and sew by them.

Source: our choice: the film and the booklet are one source and say one thing.
"""

LEVEL = "warning"
FOUND_BY = "recorded"

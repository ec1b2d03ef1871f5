"""The film sews in another order than the booklet.

What it finds: the fewest steps that stand elsewhere in the film than in the booklet, and whether the garment comes
out in the film's order, sewn on the bench.

Why it matters at the machine: who follows both loses the place, and may sew a seam shut too soon.

Source: our choice: the film and the booklet are one source and say one thing.
"""

LEVEL = "warning"
FOUND_BY = "recorded"

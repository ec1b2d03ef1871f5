"""In the order of the film the garment does not come out.

What it finds: what the checker finds when the steps are sewn in the order of the film, and does not find in the
booklet's.

Why it matters at the machine: who sews along comes to a step that can't be sewn any more.

Source: our choice: the film and the booklet are one source and say one thing.
"""

LEVEL = "error"
FOUND_BY = "recorded"

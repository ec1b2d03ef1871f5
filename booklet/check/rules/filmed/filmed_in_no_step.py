"""The film shows work that is in no step.

What it finds: a stretch of the film in which something is sewn, pressed or cut that no step has, and a marker that
names no step.

Why it matters at the machine: who sews along looks for it in the booklet, and does not find it.

Source: our choice: the film and the booklet are one source and say one thing.
"""

LEVEL = "warning"
FOUND_BY = "recorded"

"""The film says another measure than the booklet.

What it finds: a measure, said while a step is sewn, that is none of the step's or its neighbours', in either system.
One that is said loosely (about two inches) is left alone.

Why it matters at the machine: the sewer does what she hears, and the piece was drawn for something else.

Source: our choice: the film and the booklet are one source and say one thing.
"""

LEVEL = "warning"
FOUND_BY = "recorded"

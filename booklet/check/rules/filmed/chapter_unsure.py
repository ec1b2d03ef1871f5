"""The words leave open where a step begins in the film.

What it finds: a step, or a take of its own, that the captions speak of, but not so that its beginning is certain:
idle talk stands before it, several stretches of the film speak of it, or little is said.

Why it matters at the machine: a chapter that begins at the wrong place costs the sewer more than none.

Source: our choice: better to ask for a look than to guess.
"""

LEVEL = "warning"
FOUND_BY = "recorded"

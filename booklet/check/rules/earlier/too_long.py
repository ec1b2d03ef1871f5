"""A pattern's files hold more text than any booklet has.

What it finds: files that come to more than 8 MB together. Ten thousand steps take about 5 MB.

Why it matters at the machine: a drawing or a film that has slipped into a text file would be set as words.

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "read"

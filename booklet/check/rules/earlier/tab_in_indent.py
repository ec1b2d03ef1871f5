"""A line begins with a tab.

What it finds: a tab before the first word of a line. Blanks show where a line belongs, and a tab is as wide as every
editor likes.

Why it matters at the machine: nothing of the file can be read, so no step of it is sewn or checked.

Source: standard: YAML 1.2.2, section 6.1: tabs are not used in indentation.
"""

LEVEL = "error"
FOUND_BY = "read"

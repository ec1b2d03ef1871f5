"""A line of what was filmed can't be read.

What it finds: a caption or marker whose time is none, or that ends before it begins, in a file that can be read
otherwise.

Why it matters at the machine: what is said there is not compared with the booklet.

Source: our choice: the rest of the file is good, and is used.
"""

LEVEL = "warning"
FOUND_BY = "recorded"

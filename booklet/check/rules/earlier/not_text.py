"""A file is not text in UTF-8.

What it finds: a byte that UTF-8 does not have, in the line that is named.

Why it matters at the machine: fractions and accents would come out as other signs, and a measure is misread.

Source: standard: RFC 3629, UTF-8.
"""

LEVEL = "error"
FOUND_BY = "read"

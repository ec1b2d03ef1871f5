"""Values stand inside one another too deeply.

What it finds: more than 32 lists or mappings in one another, where a pattern needs eight.

Why it matters at the machine: a bracket that never closes swallows the steps after it.

Wrong:
    tools: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[shears]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]

Right:
    tools: [shears]

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "read"

"""One rule, one module. The name of the file is the name of the rule; its docstring is what `explain` prints.

A module has LEVEL ("error" or "warning") and one of:

- `find(bench)`: looks at one view as it was sewn;
- `find_pattern(pattern)`: looks at the whole source, once;
- `find_last(pattern, findings)`: looks at what all the others found; with NEEDS_ALL_VIEWS it is left out where only
  some views are sewn;
- `FOUND_BY = "read"` or `"model"`: an earlier stage says it, and the module, in earlier/, is its manual page.
"""

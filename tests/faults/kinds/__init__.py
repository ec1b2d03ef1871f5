"""The kinds of fault, by what they change: one module each, found by looking into this folder."""

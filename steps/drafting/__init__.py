"""Drafts the outlines of the demo patterns from tables of measures: python -m steps.drafting.

Lengths are in millimetres, x to the right and y down, as on paper; a piece is seen from the right side of its cloth.
"""

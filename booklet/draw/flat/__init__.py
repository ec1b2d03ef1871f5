"""Figures of a step: the pieces themselves, to scale, in the state in which the step finds them."""

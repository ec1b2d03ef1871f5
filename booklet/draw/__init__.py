"""Figures: a request from the plan becomes an SVG drawing."""

"""Outlines: what is read, named and measured, against libraries and closed forms outside the project."""

"""Notchbook: construction steps written once, sewn in the computer, printed everywhere."""

__version__ = "0.1.0"

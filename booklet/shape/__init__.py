"""Outlines of pieces: reading them, naming their edges, measuring them and laying one on another."""

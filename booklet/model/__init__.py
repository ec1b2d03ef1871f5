"""The located tree to a Pattern: views, pieces, edges, steps and work."""

"""The fault bench: sound patterns, single faults put into them, and how many the checker tells."""

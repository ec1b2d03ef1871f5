"""Text to a located tree. Knows YAML, not garments."""

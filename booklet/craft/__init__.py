"""What the trade knows, as data with its source named."""

"""The film of one view: takes, times, filming order, samples, narration."""

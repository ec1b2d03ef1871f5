"""Pattern and view to what happened on the bench. Everything is recorded; nothing is judged."""

"""Looks at the Pattern and at what happened on the bench, and says what is wrong. Never changes either."""

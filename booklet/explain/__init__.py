"""The manual: a page for a rule, and for each row of the craft's tables, with its figure in words and its source."""

from booklet.explain.lookup import all_rules, explain

__all__ = ["all_rules", "explain"]

"""The chapters of a film in the forms that others read: one module a form, each by its own public rules."""

"""The plan of the film in every form: tables, data for programs, a page to tick off on the day, a page to read from."""

"""A time set by hand does not fit.

What it finds: a time under `times:` in film.yaml that names no step of the filmed view, is no time, lies behind the
end of the recording, or lies more than a minute from where the captions now have the step.

Why it matters at the machine: the chapter leads to the wrong place.

Source: our choice: a correction by hand holds until a person takes it out.
"""

LEVEL = "warning"
FOUND_BY = "recorded"

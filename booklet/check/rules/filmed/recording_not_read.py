"""What was filmed can't be read.

What it finds: a file under `recorded:` in film.yaml that is not in the pattern's folder, is too large, is no text in
UTF-8, or is none of the kinds that are read: captions (WebVTT, SRT), markers (CSV), an edit list (CMX 3600) or a
timeline (OpenTimelineIO).

Why it matters at the machine: the chapters keep their planned times, which lead the sewer to the wrong place in the
film.

Source: our choice: only files of the pattern's own folder are read, and nothing is fetched.
"""

LEVEL = "error"
FOUND_BY = "recorded"

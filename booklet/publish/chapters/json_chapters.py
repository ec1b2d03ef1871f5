"""JSON chapters 1.2.0. Source: the podcast namespace's specification of jsonChapters (application/json+chapters)."""

from __future__ import annotations

import json
from collections.abc import Iterable

from booklet.publish.chapters.span import Span


def json_chapters(chapters: Iterable[Span], title: str, author: str) -> str:
    """Times in seconds, ascending."""
    rows = [
        {"startTime": chapter.start / 1000, "endTime": chapter.end / 1000, "title": chapter.title}
        for chapter in chapters
    ]
    whole = {"version": "1.2.0", "title": title, "author": author, "chapters": rows}
    return json.dumps(whole, ensure_ascii=False, indent=2) + "\n"

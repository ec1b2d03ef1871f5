"""HTML and the files that it names, all in memory -> a tagged PDF. Nothing else is read, and nothing is fetched."""

from __future__ import annotations

import gc
import logging
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import unquote

from weasyprint import HTML
from weasyprint.urls import URLFetcher, URLFetcherResponse

from booklet.publish.tags import mend_tags

FAMILY = "Source Sans 3"

# Where the document says it lives. Nothing does: RFC 2606 keeps `.invalid` free for good.
_BASE = "https://booklet.invalid/"


class _Assets(URLFetcher):  # type: ignore[misc]
    """Answers from memory; whatever is not there is refused, and WeasyPrint then says so in its log."""

    def __init__(self, assets: Mapping[str, bytes]) -> None:
        super().__init__()
        self._assets = assets

    def fetch(self, url: str, headers: object = None) -> URLFetcherResponse:
        name = unquote(url.removeprefix(_BASE))
        if not url.startswith(_BASE) or name not in self._assets:
            raise ValueError("it is not part of this booklet, and nothing else is read")
        kind = "font/ttf" if name.endswith(".ttf") else "image/svg+xml"
        return URLFetcherResponse(url, self._assets[name], {"Content-Type": kind})


class _Sentences(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.sentences: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        says = record.getMessage()
        if not says.startswith(".notdef glyph"):  # `_strange_letters` says it of the whole booklet at once
            self.sentences.append(says.replace(_BASE, ""))


def write_pdf(html: str, assets: Mapping[str, bytes], target: Path) -> list[str]:
    """Write the booklet, tagged as PDF/UA-1 asks, and give back what WeasyPrint complained of: nothing, as a rule.

    assets: figures and fonts by the names that the HTML uses. Raises OSError when `target` can't be written.
    """
    with _log() as sentences, _no_garbage_collection():
        document = HTML(string=html, base_url=_BASE, url_fetcher=_Assets(assets)).render(pdf_variant="pdf/ua-1")
        document.write_pdf(target, pdf_variant="pdf/ua-1", finisher=mend_tags)
    return [*sentences, *_strange_letters(document)]


def _strange_letters(document: Any) -> list[str]:
    """A sentence for the signs that the bundled type has not: another computer may set them otherwise or not at all."""
    signs: set[str] = set()
    for font in document.fonts.values():
        signs.update(chr(point) for point in font.missing)
        if not font.family.startswith(FAMILY):
            signs.update("".join(font.to_unicode.values()))
    listed = ", ".join(f"“{sign}”" for sign in sorted(signs) if not sign.isspace())
    return [f"The booklet’s type has no sign for {listed}; use another"] if listed else []


@contextmanager
def _log() -> Iterator[list[str]]:
    """What WeasyPrint and the font library under it log, instead of to the terminal."""
    handler = _Sentences()
    loggers = [logging.getLogger("weasyprint"), logging.getLogger("fontTools")]
    before = [logger.propagate for logger in loggers]
    for logger in loggers:
        logger.addHandler(handler)
        logger.propagate = False
    try:
        yield handler.sentences
    finally:
        for logger, propagate in zip(loggers, before, strict=True):
            logger.removeHandler(handler)
            logger.propagate = propagate


@contextmanager
def _no_garbage_collection() -> Iterator[None]:
    """Layout makes millions of small objects that live to the end; looking through them costs about 15 %."""
    enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if enabled:
            gc.enable()

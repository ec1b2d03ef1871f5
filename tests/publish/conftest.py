"""Booklets of the sample, set once for all the tests that read them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import pdfplumber
import pypdf
import pytest

from booklet.plan.plan import Plan
from booklet.publish.booklet import booklet_assets, booklet_html
from booklet.publish.pdf import write_pdf
from tests.publish import sample, sample_drawings


@dataclass(eq=False)
class Printed:
    """A booklet, as two independent readers open it, and what its maker was told."""

    plan: Plan
    path: Path
    log: list[str]
    reader: pypdf.PdfReader
    pages: list[Any]

    @cached_property
    def words(self) -> str:
        """All words in the order of the file, blanks made one."""
        return " ".join(" ".join(page.extract_text().split()) for page in self.reader.pages)


@pytest.fixture(scope="session")
def set_booklet(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[..., Printed]]:
    """Sets a plan, by default of the sample."""
    folder = tmp_path_factory.mktemp("booklets")
    opened: list[Any] = []

    def make(plan: Plan, paper: str = "letter") -> Printed:
        path = folder / f"{len(opened)}.pdf"
        drawings, key = sample_drawings.drawings(), sample_drawings.key()
        log = write_pdf(booklet_html(plan, drawings, key, paper), booklet_assets(drawings, key), path)
        opened.append(pdfplumber.open(path))
        return Printed(plan, path, log, pypdf.PdfReader(path), opened[-1].pages)

    yield make
    for pdf in opened:
        pdf.close()


@pytest.fixture(scope="session")
def letter(set_booklet: Callable[..., Printed]) -> Printed:
    """All views, on Letter."""
    return set_booklet(sample.plan())


@pytest.fixture(scope="session")
def view_b(set_booklet: Callable[..., Printed]) -> Printed:
    """View B alone, on A4."""
    return set_booklet(sample.plan("B"), "a4")


@pytest.fixture(scope="session")
def draft(set_booklet: Callable[..., Printed]) -> Printed:
    """All views, as a draft, on A4."""
    return set_booklet(sample.plan(draft=True), "a4")


@pytest.fixture(scope="session", params=["letter", "view_b", "draft"])
def printed(request: pytest.FixtureRequest) -> Printed:
    """Each of the three in turn."""
    booklet: Printed = request.getfixturevalue(request.param)
    return booklet

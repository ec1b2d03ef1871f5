"""The PDFs of a build: one a paper, and with `each_view` one a view and paper; side by side where there are cores."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from booklet.publish.booklet import booklet_assets, booklet_html

if TYPE_CHECKING:
    from booklet.plan.plan import Plan
    from booklet.publish.edition import Edition
    from booklet.publish.fronts import Fronts


class Job(NamedTuple):
    """One PDF to be set."""

    name: str
    html: str
    assets: dict[str, bytes]


def booklet_jobs(edition: Edition, papers: Sequence[str], each_view: bool) -> list[Job]:
    return list(_jobs(edition, papers, each_view))


def _jobs(edition: Edition, papers: Sequence[str], each_view: bool) -> Iterator[Job]:
    fronts = {letter: edition.view_fronts(letter) for letter in edition.pattern.views} if each_view else {}
    for paper in papers:
        yield _job(edition, edition.plan, paper, edition.fronts, "")
        if each_view:
            for letter in edition.pattern.views:
                yield _job(edition, edition.view_plan(letter), paper, fronts[letter], f"{letter}-")


def _job(edition: Edition, plan: Plan, paper: str, fronts: Fronts, view: str) -> Job:
    html = booklet_html(plan, edition.drawings, edition.key, paper, fronts)
    return Job(f"booklet-{view}{paper}.pdf", html, booklet_assets(edition.drawings, edition.key, fronts))


def set_booklets(jobs: Sequence[Job], folder: Path, progress: Callable[[str], None]) -> list[str]:
    """Writes every PDF into `folder`; gives what the typesetter complained of, nothing as a rule."""
    workers = min(len(jobs), os.cpu_count() or 1)
    if workers < 2:
        notes = []
        for job in jobs:
            progress(job.name)
            notes += _set((job, folder))
        return notes
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    # A forked child has the libraries loaded already; macOS and Windows can't fork safely with fonts open.
    context = get_context("fork" if sys.platform == "linux" else "spawn")
    import booklet.publish.pdf  # noqa: F401  - once, for all children

    notes = []
    with ProcessPoolExecutor(workers, mp_context=context, initializer=_end_with_parent) as pool:
        for job, found in zip(jobs, pool.map(_set, [(job, folder) for job in jobs]), strict=True):
            progress(job.name)
            notes += found
    return notes


def _end_with_parent() -> None:
    """When the build is killed, its children end too: they would wait for ever, or write into the next one's folder."""
    from multiprocessing import connection, parent_process
    from threading import Thread

    parent = parent_process()
    assert parent is not None

    def watch() -> None:
        connection.wait([parent.sentinel])
        os._exit(1)

    Thread(target=watch, daemon=True).start()


def _set(work: tuple[Job, Path]) -> list[str]:
    from booklet.publish.pdf import write_pdf

    job, folder = work
    return [f"{job.name}: {sentence}" for sentence in write_pdf(job.html, job.assets, folder / job.name)]

"""The whole story: read -> model -> shape -> sew -> check -> recorded -> plan -> draw -> publish."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

from booklet.read.faults import Faults
from booklet.read.folder import read_folder
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from pathlib import Path

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern
    from booklet.publish.edition import Edition
    from booklet.sew.bench import Bench


class Checked(NamedTuple):
    """A pattern, read and sewn. `pattern` is None where it could not be read; `unread` says that a file could not."""

    name: str
    pattern: Pattern | None
    benches: list[Bench]
    findings: list[Finding]
    unread: bool

    @property
    def open_findings(self) -> list[Finding]:
        """Those that the writer has not allowed."""
        return [finding for finding in self.findings if finding.allowed is None]

    @property
    def errors(self) -> list[Finding]:
        return [finding for finding in self.open_findings if finding.level == "error"]


def check_folder(
    folder: str | os.PathLike[str], views: Sequence[str] | None = None, progress: Callable[[str], None] = lambda _: None
) -> Checked:
    """read -> model -> shape -> sew -> check. `views`: letters, in either case; all views where none is given."""
    from booklet.check.engine import check, in_order
    from booklet.model.build import build_pattern

    faults = Faults()
    source = read_folder(folder, faults)
    pattern = None if faults.unread else build_pattern(source, faults)
    name = os.path.basename(os.path.realpath(folder))
    if pattern is None:
        return Checked(name, None, [], in_order(faults.findings), True)
    shaped, measures = Faults(), None
    if pattern.outlines:
        from booklet.shape.measure import measure

        measures = measure(pattern, shaped, lambda doing: progress(doing and f"{name}: {doing}"))
    wanted = None if views is None else [view_named(pattern, view) or view for view in views]
    findings, benches = check(pattern, wanted, shaped.findings, measures)
    return Checked(name, pattern, benches, in_order([*faults.findings, *findings]), faults.unread)


def view_named(pattern: Pattern, written: str) -> str | None:
    """The letter of the view that a person means, `b` for B where there is no b; None where there is no such view."""
    if written in pattern.views:
        return written
    return next((letter for letter in pattern.views if letter.casefold() == written.casefold()), None)


class Built(NamedTuple):
    """target: the finished folder, or None where nothing was built; why: a reason besides the findings."""

    checked: Checked
    target: Path | None
    why: str = ""
    notes: tuple[str, ...] = ()


def build_folder(
    folder: Path,
    into: Path,
    papers: Sequence[str] = ("letter", "a4"),
    each_view: bool = False,
    draft: bool = False,
    progress: Callable[[str], None] = lambda _: None,
) -> Built:
    """read -> model -> sew -> check -> plan -> draw -> publish; the old output stays whole until the new one is."""
    progress(f"{folder.name}: sewing")
    checked = check_folder(folder, progress=progress)
    refused = _refused(checked, folder, into, draft)
    if refused is not None:
        return refused
    from booklet.publish.booklets import booklet_jobs, set_booklets
    from booklet.publish.outputs import all_files

    assert checked.pattern is not None
    edition = edition_of(checked)
    edition.findings = with_film(checked).findings
    notes: list[str] = []

    def set_all(fresh: Path) -> None:
        jobs = booklet_jobs(edition, papers, each_view)
        notes.extend(set_booklets(jobs, fresh, lambda name: progress(f"{folder.name}: {name}")))

    try:
        progress(f"{folder.name}: lists, page and film files")
        # Cards that were made once are made anew, so that none is lost and none is old.
        also = ("cards",) if (into / checked.name / "film" / "cards").is_dir() else ()
        why = _put(into / checked.name, all_files(edition, also=also), set_all)
    finally:
        progress("")
    return Built(checked, None, why) if why else Built(checked, into / checked.name, notes=tuple(notes))


def edition_of(checked: Checked) -> Edition:
    """What the outputs of a checked pattern are made from; its outlines are read when the first figure asks for one."""
    from booklet.publish.edition import Edition

    assert checked.pattern is not None
    return Edition(checked.name, checked.pattern, checked.benches, checked.findings, bool(checked.errors))


def with_film(checked: Checked) -> Checked:
    """recorded: the same, with what is found in the film. Nothing is added where nothing was recorded."""
    from booklet.check.engine import in_order
    from booklet.recorded.against import film_findings

    found = film_findings(checked.pattern) if checked.pattern is not None else []
    return checked._replace(findings=in_order([*checked.findings, *found])) if found else checked


def film_object(checked: Checked) -> dict[str, Any]:
    """When each step is filmed, and what is found, for a program."""
    from booklet.recorded.filmed import times_object, what_was_filmed

    filmed = what_was_filmed(checked.pattern) if checked.pattern is not None else None
    times = times_object(filmed) if filmed is not None else {"view": None, "recorded": None, "times": []}
    findings = [finding.as_json() for finding in checked.open_findings]
    return {"pattern": checked.name, **times, "findings": findings}


def _put(target: Path, files: Mapping[str, bytes], and_then: Callable[[Path], None] = lambda _: None) -> str:
    """Writes files beside `target`, lets `and_then` add to them, and puts all in its place; or says why it can't."""
    from concurrent.futures import BrokenExecutor

    from booklet.publish.place import clear_beside, mend_place, put_in_place, strangers, write_beside

    try:
        mend_place(target)
        if others := strangers(target, files):
            named = ", ".join(others[:3]) + (" …" if len(others) > 3 else "")
            return (
                f"{target} holds what no build makes ({named}), and a build would delete it. "
                "Move it away, or name another folder with --into."
            )
        fresh = write_beside(target, files)
        and_then(fresh)
        put_in_place(fresh, target)
    except OSError as error:
        return f"{target} can't be written: {error.strerror or error}. What was there before is untouched."
    except BrokenExecutor:
        return f"The system stopped the setting of a booklet, as it does when memory runs out. {target} is untouched."
    finally:
        clear_beside(target)
    return ""


def _refused(checked: Checked, folder: Path, into: Path, draft: bool) -> Built | None:
    if checked.pattern is None or (checked.errors and not draft):
        return Built(checked, None)
    if (into / checked.name).resolve() in (folder.resolve(), *folder.resolve().parents):
        return Built(
            checked, None, f"{into / checked.name} is where the pattern itself lies; name another folder with --into."
        )
    return None


# Which outputs are the film's?
_FILM = ("film", "shots", "script", "cards")


def film_folder(folder: Path, into: Path, draft: bool = False) -> Built:
    """Only the film files, and beside them the figures that the shot list names."""
    checked = check_folder(folder)
    refused = _refused(checked, folder, into, draft)
    if refused is not None:
        return refused
    from booklet.publish.outputs import all_files

    assert checked.pattern is not None
    edition = edition_of(checked)
    checked = with_film(checked)
    target = into / checked.name / "film"
    files = {name.removeprefix("film/"): data for name, data in all_files(edition, *_FILM).items()}
    figures = {name.removeprefix("figures/"): data for name, data in all_files(edition, "figures").items()}
    why = _put(target, files) or (_put(target.with_name("figures"), figures) if figures else "")
    return Built(checked, None, why) if why else Built(checked, target)


def views_text(checked: Checked) -> str:
    """Which steps the views share, and where they part."""
    from booklet.plan.build import make_plan
    from booklet.publish.branches import branches_text

    assert checked.pattern is not None
    return branches_text(make_plan(checked.pattern, checked.benches))


def views_object(checked: Checked) -> dict[str, Any]:
    """The same for a program."""
    from booklet.plan.build import make_plan
    from booklet.publish.branches import branches_json

    assert checked.pattern is not None
    return branches_json(make_plan(checked.pattern, checked.benches))


def list_view(checked: Checked, view: str, markdown: bool = False) -> str:
    """The step list of one view (a letter of the pattern), as the build writes it; the figures told in words."""
    from booklet.publish.outputs.steps import markdown_list, text_list

    assert checked.pattern is not None
    plan = edition_of(checked).view_plan(view)
    return markdown_list(plan) if markdown else text_list(plan)

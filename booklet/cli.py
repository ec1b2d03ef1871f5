"""The command line: `notchbook check | build | list | views | order | film | edges | explain | schema | start`."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from typing import TYPE_CHECKING, Any, NoReturn

from booklet.ready import get_ready, keep
from booklet.record import NamedTuple
from booklet.tell import printable, printable_json, say, tell

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from booklet.pipeline import Checked

# Exit codes: nothing wrong; errors found; cannot be read (or asked for something that is not there).
FINE, WRONG, UNREAD = 0, 1, 2
# So many new objects are a few sewings of a usual view, and some megabytes.
_MADE_BY_SOME_SEWINGS = 20_000


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command and gives its exit code. With no `arguments` it is the process's own: see _leave."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    # What is made lives to the end of the process: looking for garbage costs a check half of its time and finds none.
    gc.disable()
    if arguments is None:
        get_ready()
    options = _options(sys.argv[1:] if arguments is None else arguments)
    try:
        code: int = options.run(options)
        sys.stdout.flush()
    except BrokenPipeError:
        # The reader has gone (`| head`): nothing more to say, and nothing to complain of.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    except KeyboardInterrupt:
        say("Stopped. What was built before is untouched.", sys.stderr)
        return 130
    if arguments is None and options.run in (_check, _order):
        keep()
        _leave(code)
    return code


def _leave(code: int) -> NoReturn:
    """Ends the process at once. To take apart all that it made, one thing after the other, costs a tenth of a check."""
    sys.stderr.flush()
    os._exit(code)


class _Parser(argparse.ArgumentParser):
    """With a width of its own: to ask the terminal's, argparse would import shutil and its compressors each time."""

    def __init__(self, **options: Any) -> None:
        super().__init__(formatter_class=lambda prog: argparse.HelpFormatter(prog, width=100), **options)


def _options(arguments: Sequence[str]) -> argparse.Namespace:
    """What a command line asks for. Where it names its command, only that one's parser is made: each takes its time."""
    name = arguments[0] if arguments else ""
    if name in _COMMANDS:
        parser = _Parser(prog=f"notchbook {name}")
        _complete(parser, _COMMANDS[name])
        return parser.parse_args(arguments[1:])
    return _whole_parser().parse_args(arguments)


def _whole_parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="notchbook",
        description="Sews each view of a pattern in the computer, and makes its booklet, page, lists and film files.",
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND", prog="notchbook")
    for name, command in _COMMANDS.items():
        _complete(commands.add_parser(name, help=command.help), command)
    return parser


class _Command(NamedTuple):
    """What a command does, what it takes, and the function that runs it and gives the exit code."""

    help: str
    takes: Callable[[argparse.ArgumentParser], None]
    run: Callable[[argparse.Namespace], int]


def _complete(parser: argparse.ArgumentParser, command: _Command) -> None:
    command.takes(parser)
    parser.set_defaults(run=command.run)


def _path(written: str) -> Path:
    """Imported here: a check needs none, and starts the sooner."""
    from pathlib import Path

    return Path(written)


def _takes_check(check: argparse.ArgumentParser) -> None:
    check.add_argument("pattern", help="the pattern's folder")
    check.add_argument("--view", metavar="V", help="only this view")
    check.add_argument("--json", action="store_true", help="one object, for a program to read")


def _takes_build(build: argparse.ArgumentParser) -> None:
    build.add_argument("pattern", type=_path, nargs="+", help="a pattern's folder, or several")
    build.add_argument("--into", type=_path, default="build", metavar="FOLDER", help="where to (default: build)")
    build.add_argument(
        "--paper", choices=("letter", "a4", "both"), default="both", help="the booklet's paper (default: both)"
    )
    build.add_argument("--each-view", action="store_true", help="a booklet for each view besides the one for all")
    build.add_argument("--draft", action="store_true", help="build in spite of errors, with DRAFT on every page")


def _takes_list(listing: argparse.ArgumentParser) -> None:
    listing.add_argument("pattern", type=_path, help="the pattern's folder")
    listing.add_argument("--view", metavar="V", required=True, help="the view")
    listing.add_argument("--markdown", action="store_true", help="as Markdown")


def _takes_views(views: argparse.ArgumentParser) -> None:
    views.add_argument("pattern", type=_path, help="the pattern's folder")
    views.add_argument("--json", action="store_true", help="one object, for a program to read")


def _takes_order(order: argparse.ArgumentParser) -> None:
    order.add_argument("pattern", type=_path, help="the pattern's folder")
    order.add_argument("--view", metavar="V", required=True, help="the view")
    instead = order.add_mutually_exclusive_group()
    instead.add_argument(
        "--as", dest="listed", type=_path, metavar="FILE", help="sew it in another order: one id a line"
    )
    instead.add_argument("--suggest", action="store_true", help="print the order nearest to the written one that sews")
    order.add_argument("--json", action="store_true", help="one object, for a program to read")


def _takes_film(film: argparse.ArgumentParser) -> None:
    film.add_argument("pattern", type=_path, help="the pattern's folder")
    film.add_argument("--into", type=_path, default="build", metavar="FOLDER", help="where to (default: build)")
    film.add_argument("--draft", action="store_true", help="make them in spite of errors")
    film.add_argument("--json", action="store_true", help="print the times and what is found, for a program to read")


def _takes_explain(explain: argparse.ArgumentParser) -> None:
    explain.add_argument(
        "word", nargs="*", help="a rule, an operation, a seam, hem, stitch, closure, tool …; none lists the rules"
    )


def _takes_schema(schema: argparse.ArgumentParser) -> None:
    """Nothing."""


def _takes_start(start: argparse.ArgumentParser) -> None:
    start.add_argument("folder", type=_path, help="a new folder")


def _check(options: argparse.Namespace) -> int:
    from booklet.pipeline import check_folder

    checked = check_folder(options.pattern, [options.view] if options.view else None, _progress)
    if _no_such_view(checked, options.view):
        return UNREAD
    if options.json:
        import json

        found = [finding.as_json() for finding in checked.open_findings]
        whole = {"pattern": checked.name, "findings": found}
        print(printable_json(json.dumps(whole, ensure_ascii=False, indent=1)))
    else:
        tell(checked, sys.stdout)
    return _code(checked)


def _code(checked: Checked) -> int:
    return UNREAD if checked.unread else WRONG if checked.errors else FINE


def _no_such_view(checked: Checked, view: str | None) -> bool:
    from booklet.pipeline import view_named

    if view is None or checked.pattern is None or view_named(checked.pattern, view):
        return False
    say(f"{checked.name} has no view {view}. Its views are {', '.join(checked.pattern.views)}.", sys.stderr)
    return True


def _build(options: argparse.Namespace) -> int:
    from booklet.pipeline import build_folder

    worst = FINE
    papers = ("letter", "a4") if options.paper == "both" else (options.paper,)
    for folder in options.pattern:
        built = build_folder(folder, options.into, papers, options.each_view, options.draft, _progress)
        tell(built.checked, sys.stderr)
        if built.target is None:
            _refused(built.checked, built.why)
            worst = max(worst, _code(built.checked), WRONG)
        else:
            say(f"{built.checked.name}: {built.target}")
            for line in built.notes:
                say(f"  {line}", sys.stderr)
    return worst


def _progress(text: str) -> None:
    """One line that rewrites itself, only where a person is looking."""
    if sys.stderr.isatty():
        print(f"\r\x1b[2K{text}", end="" if text else "\r", file=sys.stderr, flush=True)


def _refused(checked: Checked, why: str) -> None:
    if why:
        say(why, sys.stderr)
    elif checked.unread:
        say(f"{checked.name} can't be read, so nothing was built.", sys.stderr)
    else:
        say(
            f"{checked.name} can't be sewn as written, so nothing was built. --draft builds it all the same.",
            sys.stderr,
        )


def _list(options: argparse.Namespace) -> int:
    from booklet.pipeline import check_folder, list_view, view_named

    checked = check_folder(options.pattern, [options.view])
    if _no_such_view(checked, options.view):
        return UNREAD
    if checked.pattern is None:
        tell(checked, sys.stderr)
        return UNREAD
    letter = view_named(checked.pattern, options.view) or options.view
    print(printable(list_view(checked, letter, options.markdown)), end="")
    if checked.errors:
        say(f"This view can't be sewn as written: {len(checked.errors)} to mend. See “notchbook check”.", sys.stderr)
    return _code(checked)


def _views(options: argparse.Namespace) -> int:
    from booklet.pipeline import check_folder, views_object, views_text

    checked = check_folder(options.pattern)
    if checked.pattern is None:
        tell(checked, sys.stderr)
        return UNREAD
    if options.json:
        import json

        print(printable_json(json.dumps(views_object(checked), ensure_ascii=False, indent=1)))
    else:
        print(printable(views_text(checked)), end="")
    if checked.errors:
        say(f"It can't be sewn as written: {len(checked.errors)} to mend. See “notchbook check”.", sys.stderr)
    return _code(checked)


def _order(options: argparse.Namespace) -> int:
    from booklet.pipeline import check_folder, view_named

    checked = check_folder(options.pattern, [options.view])
    if _no_such_view(checked, options.view):
        return UNREAD
    if checked.pattern is None:
        tell(checked, sys.stderr)
        return UNREAD
    # Many sewings, each let go of before the next; what has been read stays, and need not be looked at again.
    gc.freeze()
    gc.set_threshold(_MADE_BY_SOME_SEWINGS)
    gc.enable()
    from booklet.order import orders

    answer = orders(checked, view_named(checked.pattern, options.view) or "", options.listed, options.suggest)
    if options.json:
        import json

        print(printable_json(json.dumps(answer.data, ensure_ascii=False, indent=1)))
    else:
        print(printable("\n".join(answer.lines)))
    return answer.code


def _film(options: argparse.Namespace) -> int:
    from booklet.pipeline import film_folder, film_object

    built = film_folder(options.pattern, options.into, options.draft)
    if options.json:
        import json

        print(printable_json(json.dumps(film_object(built.checked), ensure_ascii=False, indent=1)))
    else:
        tell(built.checked, sys.stderr)
    if built.target is None:
        _refused(built.checked, built.why)
        return max(_code(built.checked), WRONG)
    if not options.json:
        say(f"{built.checked.name}: {built.target}")
    return FINE if options.draft else _code(built.checked)


def _explain(options: argparse.Namespace) -> int:
    from booklet.explain import all_rules, explain

    word = " ".join(options.word)
    page, found = explain(word) if word else (all_rules(), True)
    print(printable(page))
    return FINE if found else UNREAD


def _schema(options: argparse.Namespace) -> int:
    import json

    from booklet.model.schema import source_schema

    print(json.dumps(source_schema(), ensure_ascii=False, indent=1))
    return FINE


def _start(options: argparse.Namespace) -> int:
    from booklet.start import lay_down

    problem = lay_down(options.folder)
    if problem:
        say(problem, sys.stderr)
        return UNREAD
    say(
        f"A small pattern lies in {options.folder}. "
        f"Next: notchbook check {options.folder}, then notchbook build {options.folder}."
    )
    return FINE


def _takes_edges(edges: argparse.ArgumentParser) -> None:
    edges.add_argument("pattern", type=_path, help="the pattern's folder")
    edges.add_argument("--piece", metavar="NAME", help="only this piece")
    edges.add_argument("--into", type=_path, default="build", metavar="FOLDER", help="where to (default: build)")


def _edges(options: argparse.Namespace) -> int:
    from booklet.edges import write_edges
    from booklet.pipeline import Checked

    written = write_edges(options.pattern, options.into, options.piece)
    if written.findings:
        findings = list(written.findings)
        tell(Checked(options.pattern.resolve().name, None, [], findings, written.target is None), sys.stderr)
    if written.target is not None:
        say(str(written.target))
    for line in written.lines:
        say(line if written.target is None else f"  {line}", sys.stderr)
    return UNREAD if written.target is None else FINE


_COMMANDS = {
    "check": _Command("sew every view and say what is wrong", _takes_check, _check),
    "build": _Command("make the booklet, the page, the lists and the film files", _takes_build, _build),
    "list": _Command("print the steps of one view", _takes_list, _list),
    "views": _Command("which steps the views share, and where they part", _takes_views, _views),
    "order": _Command("what each step of a view waits for, and how far it can move", _takes_order, _order),
    "film": _Command("make the shot list and the chapters, and hold the film against the booklet", _takes_film, _film),
    "edges": _Command("draw every piece of the outlines with its corners numbered", _takes_edges, _edges),
    "explain": _Command("what a rule or a word of the trade means", _takes_explain, _explain),
    "schema": _Command("print a JSON Schema of the source, for your editor", _takes_schema, _schema),
    "start": _Command("lay down a small pattern to begin from", _takes_start, _start),
}


if __name__ == "__main__":
    sys.exit(main())
